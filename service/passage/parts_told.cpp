#include "passage/parts_told.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// Figures this near are one figure, and the first of the list stands.
constexpr Length kSame = metres(1e-4);
constexpr Length kNear = centimetres(5);

/// Not known is least of all.
bool could_be_less(const Known<Length>& a, const Known<Length>& b) {
  if (!b.has_value()) return false;
  return !a.has_value() || *a < *b;
}

class Choice {
 public:
  explicit Choice(const std::vector<PartOfWater>& parts) : parts_(parts) {}

  std::vector<ToldPart> run() {
    const auto least = least_of([](const PartOfWater&) { return true; });
    if (!least) return {};
    told_.push_back({*least, ToldAs::least, parts_[*least].could_be});
    if (!parts_[*least].hard) {
      if (const auto hard = least_of(&PartOfWater::hard)) {
        told_.push_back({*hard, ToldAs::hard_ground, parts_[*hard].could_be});
      }
    }
    tell_least_sure(true);
    tell_least_sure(false);
    return told_;
  }

 private:
  template <class Counts>
  [[nodiscard]] std::optional<std::size_t> least_of(const Counts& counts) const {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      if (!std::invoke(counts, parts_[i])) continue;
      if (!least || parts_[i].under_keel < parts_[*least].under_keel - kSame) least = i;
    }
    return least;
  }

  /// What is told of hard ground stands for soft ground too, never the other way.
  void tell_least_sure(bool hard) {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      if (parts_[i].hard != hard) continue;
      if (!least || could_be_less(parts_[i].could_be, parts_[*least].could_be)) least = i;
    }
    if (!least) return;
    const Known<Length>& could_be = parts_[*least].could_be;
    ToldPart* told = nullptr;
    for (ToldPart& one : told_) {
      const bool stands_for = parts_[one.part].hard || !hard;
      if (stands_for && (told == nullptr || could_be_less(one.could_be, told->could_be))) {
        told = &one;
      }
    }
    if (told != nullptr && !could_be_less(could_be, told->could_be)) return;
    if (told != nullptr && could_be.has_value() && *told->could_be - *could_be <= kNear) {
      told->could_be = could_be;
      return;
    }
    told_.push_back({*least, ToldAs::least_sure, could_be});
  }

  const std::vector<PartOfWater>& parts_;
  std::vector<ToldPart> told_;
};

}  // namespace

std::vector<ToldPart> parts_told(const std::vector<PartOfWater>& parts) {
  return Choice(parts).run();
}

std::string name_of_part(ToldAs as, const std::string& whole) {
  switch (as) {
    case ToldAs::least:
      return whole;
    case ToldAs::hard_ground:
      return "hard ground in " + whole;
    case ToldAs::least_sure:
      return "least sure part of " + whole;
  }
  return whole;
}

}  // namespace passage_brief
