#include "fetch/network_address.h"

#include <netinet/in.h>
#include <sys/socket.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>

namespace passage_brief {
namespace {

struct AddressBlock {
  std::uint32_t begin;
  int bits;
};

constexpr std::uint32_t four(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
  return a << 24U | b << 16U | c << 8U | d;
}

constexpr std::array<AddressBlock, 14> kNotPublic{{{four(0, 0, 0, 0), 8},
                                                   {four(10, 0, 0, 0), 8},
                                                   {four(100, 64, 0, 0), 10},
                                                   {four(127, 0, 0, 0), 8},
                                                   {four(169, 254, 0, 0), 16},
                                                   {four(172, 16, 0, 0), 12},
                                                   {four(192, 0, 0, 0), 24},
                                                   {four(192, 0, 2, 0), 24},
                                                   {four(192, 168, 0, 0), 16},
                                                   {four(198, 18, 0, 0), 15},
                                                   {four(198, 51, 100, 0), 24},
                                                   {four(203, 0, 113, 0), 24},
                                                   {four(224, 0, 0, 0), 4},
                                                   {four(240, 0, 0, 0), 4}}};

bool is_public_v4(std::uint32_t address) {
  return std::ranges::none_of(kNotPublic, [&](const AddressBlock& block) {
    return address >> static_cast<unsigned>(32 - block.bits) ==
           block.begin >> static_cast<unsigned>(32 - block.bits);
  });
}

bool is_public_v6(const std::array<std::uint8_t, 16>& bytes) {
  const auto v4_at = [&](std::size_t i) {
    return four(bytes[i], bytes[i + 1], bytes[i + 2], bytes[i + 3]);
  };
  const auto zeros = [&](std::size_t from, std::size_t to) {
    return std::all_of(bytes.begin() + static_cast<std::ptrdiff_t>(from),
                       bytes.begin() + static_cast<std::ptrdiff_t>(to),
                       [](std::uint8_t b) { return b == 0; });
  };
  if (zeros(0, 10) && bytes[10] == 0xFF && bytes[11] == 0xFF) return is_public_v4(v4_at(12));
  if (zeros(0, 12)) return false;  // unspecified, loopback, compatible
  if (bytes[0] == 0x00 && bytes[1] == 0x64 && bytes[2] == 0xFF && bytes[3] == 0x9B) {
    return is_public_v4(v4_at(12));  // NAT64
  }
  if (bytes[0] == 0x20 && bytes[1] == 0x02) return is_public_v4(v4_at(2));  // 6to4
  if (bytes[0] == 0x20 && bytes[1] == 0x01 && bytes[2] == 0x0D && bytes[3] == 0xB8) return false;
  // Of the whole space only 2000::/3 is given out for public use.
  return (bytes[0] & 0xE0U) == 0x20;
}

}  // namespace

bool is_public(const sockaddr* address) {
  if (address->sa_family == AF_INET) {
    sockaddr_in v4{};
    std::memcpy(&v4, address, sizeof(v4));
    return is_public_v4(ntohl(v4.sin_addr.s_addr));
  }
  if (address->sa_family == AF_INET6) {
    sockaddr_in6 v6{};
    std::memcpy(&v6, address, sizeof(v6));
    return is_public_v6(std::bit_cast<std::array<std::uint8_t, 16>>(v6.sin6_addr));
  }
  return false;
}

}  // namespace passage_brief
