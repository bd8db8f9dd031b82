#include "fetch/grib2_packing.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace passage_brief {
namespace {

constexpr std::size_t kIndicator = 16;  // octets of section 0
constexpr std::size_t kEnd = 4;         // "7777"
constexpr std::size_t kHead = 5;        // length and number of a section
constexpr unsigned kMostBits = 32;
constexpr std::uint64_t kMostPackedValues = 20'000'000;

/// The octets `first` to `last` of a section, counted from 1 as in the manual.
std::uint64_t number_in_octets(std::string_view section, std::size_t first, std::size_t last) {
  std::uint64_t value = 0;
  for (std::size_t i = first; i <= last; ++i) {
    value = value << 8U | static_cast<unsigned char>(section[i - 1]);
  }
  return value;
}

/// Reads numbers of so many bits one behind the other.
class BitReader {
 public:
  explicit BitReader(std::string_view bytes) : bytes_(bytes) {}
  [[nodiscard]] std::uint64_t left() const { return bytes_.size() * 8 - at_; }
  /// At most 32 bits, which must be there.
  std::uint32_t take(unsigned bits) {
    std::uint32_t value = 0;
    for (unsigned i = 0; i < bits; ++i, ++at_) {
      const auto octet = static_cast<unsigned char>(bytes_[at_ / 8]);
      value = value << 1U | (octet >> (7U - at_ % 8) & 1U);
    }
    return value;
  }
  void to_next_octet() { at_ = (at_ + 7) / 8 * 8; }

 private:
  std::string_view bytes_;
  std::uint64_t at_ = 0;
};

/// So many numbers, which end with their octet; nothing where they are cut short.
std::optional<std::vector<std::uint32_t>> list(BitReader& from, std::uint64_t count,
                                               std::uint64_t bits) {
  if (bits > kMostBits || from.left() < count * bits) return std::nullopt;
  std::vector<std::uint32_t> all(count);
  for (std::uint32_t& one : all) one = from.take(static_cast<unsigned>(bits));
  from.to_next_octet();
  return all;
}

/// Section 5 of template 5.2 or 5.3, and the values of section 7.
bool groups_fit(std::string_view packing, std::string_view values, bool differences) {
  if (packing.size() < (differences ? 49U : 47U)) return false;
  const std::uint64_t count = number_in_octets(packing, 6, 9);
  const std::uint64_t groups = number_in_octets(packing, 32, 35);
  if (count > kMostPackedValues || groups == 0 || groups > count) return false;
  const std::uint64_t described =
      differences ? (number_in_octets(packing, 48, 48) + 1) * number_in_octets(packing, 49, 49) : 0;
  if (described > values.size()) return false;
  BitReader bits(values.substr(described));
  if (!list(bits, groups, number_in_octets(packing, 20, 20))) return false;
  const auto widths = list(bits, groups, number_in_octets(packing, 37, 37));
  if (!widths) return false;
  const auto lengths = list(bits, groups, number_in_octets(packing, 47, 47));
  if (!lengths) return false;
  std::uint64_t unpacked = 0;
  std::uint64_t needed = 0;
  for (std::size_t i = 0; i < groups; ++i) {
    const std::uint64_t width = number_in_octets(packing, 36, 36) + (*widths)[i];
    const std::uint64_t length =
        i + 1 == groups
            ? number_in_octets(packing, 43, 46)
            : number_in_octets(packing, 38, 41) + number_in_octets(packing, 42, 42) * (*lengths)[i];
    if (width > kMostBits || length > count - unpacked) return false;
    unpacked += length;
    needed += length * width;
  }
  return unpacked == count && needed <= bits.left();
}

bool fits(std::string_view packing, std::string_view values) {
  if (packing.size() < 21) return false;
  switch (number_in_octets(packing, 10, 11)) {
    case 0: {
      const std::uint64_t bits = number_in_octets(packing, 20, 20);
      return bits <= kMostBits && number_in_octets(packing, 6, 9) * bits <= values.size() * 8;
    }
    case 2:
      return groups_fit(packing, values, false);
    case 3:
      return groups_fit(packing, values, true);
    default:
      return true;
  }
}

}  // namespace

bool holds_what_it_packs(std::string_view message) {
  if (message.size() < kIndicator + kEnd) return false;
  const std::size_t end = message.size() - kEnd;
  std::string_view packing;
  for (std::size_t at = kIndicator; at < end;) {
    if (end - at < kHead) return false;
    const std::uint64_t length = number_in_octets(message.substr(at), 1, 4);
    if (length < kHead || length > end - at) return false;
    const std::string_view section = message.substr(at, length);
    if (section[4] == 5) packing = section;
    if (section[4] == 7 && !fits(packing, section.substr(kHead))) return false;
    at += length;
  }
  return true;
}

}  // namespace passage_brief
