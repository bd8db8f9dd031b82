#include "passage/parts_told.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// Figures this near are one figure, and the first of the list stands.
constexpr Length kSameUnderKeel = metres(1e-4);
constexpr Length kNear = centimetres(5);
// Waves break at about 0.78 (rules/depth_facts.cpp); below this share nobody need hear of them.
constexpr double kNearBreaking = 0.4;

/// Not known is least of all.
bool could_be_less(const Known<Length>& a, const Known<Length>& b) {
  if (!b.has_value()) return false;
  return !a.has_value() || *a < *b;
}

class Choice {
 public:
  explicit Choice(const std::vector<PartOfWater>& parts) : parts_(parts) {}

  std::vector<ToldPart> run() {
    tell_least(GroundToTouch::soft_and_rising, ToldAs::least);
    tell_least(GroundToTouch::soft, ToldAs::soft_ground);
    tell_least(GroundToTouch::hard, ToldAs::hard_ground);
    for (const GroundToTouch ground :
         {GroundToTouch::hard, GroundToTouch::soft, GroundToTouch::soft_and_rising}) {
      tell_least_sure(ground);
    }
    tell_roughest();
    return told_;
  }

 private:
  /// Of that ground and harder.
  void tell_least(GroundToTouch ground, ToldAs as) {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      if (parts_[i].ground < ground) continue;
      if (!least || parts_[i].under_keel < parts_[*least].under_keel - kSameUnderKeel) least = i;
    }
    if (!least || std::ranges::any_of(told_, [&](const ToldPart& t) { return t.part == *least; }))
      return;
    const bool hard = as != ToldAs::least && parts_[*least].ground == GroundToTouch::hard;
    told_.push_back({*least, hard ? ToldAs::hard_ground : as, parts_[*least].could_be});
  }

  /// What is told of harder ground stands for softer too, never the other way.
  void tell_least_sure(GroundToTouch ground) {
    std::optional<std::size_t> least;
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      if (parts_[i].ground != ground) continue;
      if (!least || could_be_less(parts_[i].could_be, parts_[*least].could_be)) least = i;
    }
    if (!least) return;
    const Known<Length>& could_be = parts_[*least].could_be;
    ToldPart* told = nullptr;
    for (ToldPart& one : told_) {
      if (parts_[one.part].ground < ground) continue;
      if (told == nullptr || could_be_less(one.could_be, told->could_be)) told = &one;
    }
    if (told != nullptr && !could_be_less(could_be, told->could_be)) return;
    if (told != nullptr && could_be.has_value() && *told->could_be - *could_be <= kNear) {
      told->could_be = could_be;
      return;
    }
    told_.push_back({*least, ToldAs::least_sure, could_be});
  }

  void tell_roughest() {
    if (parts_.empty()) return;
    const auto worst = std::ranges::max_element(parts_, {}, &PartOfWater::wave_share);
    const bool is_told = std::ranges::any_of(told_, [&](const ToldPart& told) {
      return parts_[told.part].wave_share >= worst->wave_share;
    });
    if (is_told || worst->wave_share < kNearBreaking) return;
    told_.push_back(
        {static_cast<std::size_t>(worst - parts_.begin()), ToldAs::roughest, worst->could_be});
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
    case ToldAs::soft_ground:
      return "Soft ground in " + whole;
    case ToldAs::hard_ground:
      return "Hard ground in " + whole;
    case ToldAs::least_sure:
      return "Least sure part of " + whole;
    case ToldAs::roughest:
      return "Roughest part of " + whole;
  }
  return whole;
}

}  // namespace passage_brief
