#include "brief/minute_scan.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <optional>
#include <queue>
#include <tuple>
#include <utility>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/departure_windows.h"
#include "brief/sure_between.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// Departures judged at first are this far apart, in minutes.
constexpr std::size_t kFirstStep = 128;

class Scan {
 public:
  Scan(const DepartureJudge& judge, const Minutes& minutes)
      : judge_(judge), minutes_(minutes), found_(minutes.count) {}

  std::vector<MinuteFound> run() {
    if (minutes_.count == 0) return found_;
    for (std::size_t i = 0; i < minutes_.count; i += kFirstStep) {
      settle_by_days(i, std::min(i + kFirstStep, minutes_.count - 1));
    }
    find_best();
    return std::move(found_);
  }

 private:
  const JudgedMinute& judged(std::size_t i) {
    const auto known = judged_.find(i);
    if (known != judged_.end()) return known->second;
    const JudgedMinute& minute = judged_.emplace(i, judge_.limits_at(minutes_.at(i))).first->second;
    const std::optional<ToSpare> least = tightest(minute);
    found_[i] = {minute.good, minute.judged_on,
                 least ? std::optional<Length>(least->left) : std::nullopt};
    return minute;
  }

  /// What every departure between two is, both ways.
  std::optional<bool> sure_between(const JudgedMinute& a, const JudgedMinute& b) const {
    const std::vector<JudgedWay> first = judge_.ways_of(a);
    const std::vector<JudgedWay> second = judge_.ways_of(b);
    const bool one_lacks_its_way_back = first.size() != second.size() || a.lacks_way_back;
    bool all_good = !one_lacks_its_way_back;
    for (std::size_t i = 0; i < std::min(first.size(), second.size()); ++i) {
      const Facts* facts = facts_of(first[i], second[i]);
      if (facts == nullptr) return std::nullopt;
      const std::optional<bool> one = good_throughout(first[i], second[i], *facts, judge_.rules());
      if (one == false) return false;
      all_good = all_good && one.has_value();
    }
    if (all_good) return true;
    return std::nullopt;
  }

  /// The facts both were judged on, where they are the same.
  const Facts* facts_of(const JudgedWay& a, const JudgedWay& b) const {
    if (a.judged_on != b.judged_on) return nullptr;
    return a.judged_on == JudgedOn::everything ? &judge_.facts() : &judge_.calm_facts();
  }

  /// Daylight is that of the day she leaves (find.cpp): past midnight nothing is sure of it.
  void settle_by_days(std::size_t first, std::size_t last) {
    const auto day = [this](std::size_t i) {
      return judge_.facts().waterway.zone.day_of(minutes_.at(i));
    };
    if (day(first) == day(last)) return settle(first, last);
    std::size_t before = first;
    std::size_t after = last;
    while (after - before > 1) {
      const std::size_t middle = before + (after - before) / 2;
      (day(middle) == day(first) ? before : after) = middle;
    }
    settle(first, before);
    settle(after, last);
  }

  /// Between two of which one alone is good: where what is left at the tightest place of each would
  /// come to nothing, ran it evenly, but no nearer to either than an eighth; else midway.
  std::size_t likely_edge(std::size_t first, std::size_t last) const {
    const std::optional<Length>& a = found_[first].left;
    const std::optional<Length>& b = found_[last].left;
    const std::size_t midway = first + (last - first) / 2;
    if (found_[first].good == found_[last].good || !a || !b ||
        (*a < metres(0)) == (*b < metres(0))) {
      return midway;
    }
    constexpr double kNoNearer = 0.125;
    const double part = std::clamp(*a / (*a - *b), kNoNearer, 1 - kNoNearer);
    const auto on = static_cast<std::size_t>(part * static_cast<double>(last - first));
    return std::clamp(first + on, first + 1, last - 1);
  }

  /// All minutes between two, these included.
  void settle(std::size_t first, std::size_t last) {
    const JudgedMinute& a = judged(first);
    const JudgedMinute& b = judged(last);
    if (last - first <= 1) return;
    const std::optional<bool> sure = sure_between(a, b);
    if (!sure) {
      const std::size_t middle = likely_edge(first, last);
      settle(first, middle);
      settle(middle, last);
      return;
    }
    for (std::size_t i = first + 1; i < last; ++i) {
      found_[i] = {*sure, a.judged_on, std::nullopt};
    }
  }

  /// Sees to it that of every run of good minutes (of all, where there is none) the one with most
  /// to spare has been judged.
  void find_best() {
    const bool any_good = std::ranges::any_of(found_, &MinuteFound::good);
    for (std::size_t first = 0; first < found_.size();) {
      if (any_good && !found_[first].good) {
        ++first;
        continue;
      }
      std::size_t last = first;
      while (last + 1 < found_.size() &&
             (!any_good ||
              (found_[last + 1].good && found_[last + 1].judged_on == found_[first].judged_on))) {
        ++last;
      }
      find_best_in(first, last);
      first = last + 1;
    }
  }

  struct Stretch {
    double most_m;  // no minute in it has more to spare
    std::size_t first;
    std::size_t last;
    bool operator<(const Stretch& other) const {
      return std::tuple(most_m, other.first) < std::tuple(other.most_m, first);
    }
  };

  void find_best_in(std::size_t first, std::size_t last) {
    judged(first);
    judged(last);
    std::priority_queue<Stretch> open;
    std::optional<std::size_t> best;
    const auto take = [&](std::size_t i) {
      if (!found_[i].left) return;
      const bool better = !best || *found_[i].left > *found_[*best].left ||
                          (*found_[i].left == *found_[*best].left && i < *best);
      if (better) best = i;
    };
    const auto add = [&](std::size_t from, std::size_t to) {
      if (to - from > 1) open.push({most_between(from, to), from, to});
    };
    std::size_t before = first;
    for (auto at = judged_.lower_bound(first); at != judged_.end() && at->first <= last; ++at) {
      take(at->first);
      if (at->first > before) add(before, at->first);
      before = at->first;
    }
    while (!open.empty()) {
      const Stretch stretch = open.top();
      open.pop();
      const double held_m = best ? in_metres(*found_[*best].left) : -INFINITY;
      if (!best && stretch.most_m == -INFINITY) return;
      if (stretch.most_m < held_m || (stretch.most_m == held_m && stretch.first > *best)) return;
      const std::size_t middle = stretch.first + (stretch.last - stretch.first) / 2;
      judged(middle);
      take(middle);
      add(stretch.first, middle);
      add(middle, stretch.last);
    }
  }

  /// Where nothing is measured against a margin at either end, nothing is taken to be between:
  /// predictions that begin and end there are not looked for.
  double most_between(std::size_t first, std::size_t last) {
    if (!found_[first].left && !found_[last].left) return -INFINITY;
    const JudgedMinute& a = judged(first);
    const JudgedMinute& b = judged(last);
    const std::vector<JudgedWay> ways_a = judge_.ways_of(a);
    const std::vector<JudgedWay> ways_b = judge_.ways_of(b);
    if (ways_a.size() != ways_b.size()) return INFINITY;
    double most_m = INFINITY;
    for (std::size_t i = 0; i < ways_a.size(); ++i) {
      const Facts* facts = facts_of(ways_a[i], ways_b[i]);
      if (facts == nullptr) continue;
      const std::optional<Length> most =
          most_to_spare_between(ways_a[i], ways_b[i], *facts, judge_.rules());
      if (most) most_m = std::min(most_m, in_metres(*most));
    }
    return most_m;
  }

  const DepartureJudge& judge_;
  const Minutes& minutes_;
  std::vector<MinuteFound> found_;
  std::map<std::size_t, JudgedMinute> judged_;
};

}  // namespace

std::vector<MinuteFound> scan_minutes(const DepartureJudge& judge, const Minutes& minutes) {
  return Scan(judge, minutes).run();
}

}  // namespace passage_brief
