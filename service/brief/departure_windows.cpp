#include "brief/departure_windows.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <utility>
#include <vector>

#include "brief/departure_judge.h"
#include "brief/window.h"
#include "units/check.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using std::chrono::minutes;

// How often the limits of a span without a window are looked at.
constexpr std::size_t kLimitsLookedAtEvery = 10;

std::optional<WindowEdge> first_not_kept(const DepartureJudge& judge, Instant departs) {
  std::vector<WindowEdge> all = limits_not_kept(judge.at(departs));
  if (all.empty()) return std::nullopt;
  return std::move(all.front());
}

/// The minute of a run with most to spare, the earliest of equals.
std::size_t best_of(const std::vector<MinuteFound>& found, std::size_t first, std::size_t last) {
  std::size_t best = first;
  for (std::size_t i = first; i <= last; ++i) {
    if (found[i].left && (!found[best].left || *found[i].left > *found[best].left)) best = i;
  }
  return best;
}

Window window_of(const DepartureJudge& judge, const Minutes& all,
                 const std::vector<MinuteFound>& found, std::size_t first, std::size_t last) {
  const std::size_t best = best_of(found, first, last);
  Window window{.opens = all.at(first),
                .closes = all.at(last),
                .opened_by = std::nullopt,
                .closed_by = std::nullopt,
                .best = all.at(best),
                .most_to_spare = tightest(judge.limits_at(all.at(best))),
                .judged_on = found[first].judged_on};
  // Beyond an edge lies a departure that is not good, or a good one judged on something else.
  if (first > 0 && !found[first - 1].good) {
    window.opened_by = first_not_kept(judge, all.at(first - 1));
  }
  if (last + 1 < all.count && !found[last + 1].good) {
    window.closed_by = first_not_kept(judge, all.at(last + 1));
  }
  return window;
}

bool same_limit(const WindowEdge& a, const WindowEdge& b) {
  return a.limit == b.limit && a.about.kind == b.about.kind && a.about.name == b.about.name &&
         a.on_the_way_back == b.on_the_way_back;
}

}  // namespace

Minutes minutes_of(Span span) {
  check(span.end - span.begin <= kLongestSpan, "windows are looked for in seven days at most");
  const Instant first = std::chrono::ceil<minutes>(span.begin);
  if (first > span.end) return {first, 0};
  return {first, static_cast<std::size_t>((span.end - first) / minutes(1)) + 1};
}

std::vector<MinuteFound> judge_every_minute(const DepartureJudge& judge, const Minutes& all) {
  std::vector<MinuteFound> found;
  found.reserve(all.count);
  for (std::size_t i = 0; i < all.count; ++i) {
    const JudgedMinute judged = judge.at(all.at(i));
    const std::optional<ToSpare> least = tightest(judged);
    found.push_back(
        {judged.good, judged.judged_on, least ? std::optional<Length>(least->left) : std::nullopt});
  }
  return found;
}

std::vector<Window> windows_among(const DepartureJudge& judge, const Minutes& all,
                                  const std::vector<MinuteFound>& found) {
  check(found.size() == all.count, "every minute has been judged");
  std::vector<Window> windows;
  for (std::size_t first = 0; first < found.size();) {
    if (!found[first].good) {
      ++first;
      continue;
    }
    std::size_t last = first;
    while (last + 1 < found.size() && found[last + 1].good &&
           found[last + 1].judged_on == found[first].judged_on) {
      ++last;
    }
    windows.push_back(window_of(judge, all, found, first, last));
    first = last + 1;
  }
  return windows;
}

NoWindow no_window_among(const DepartureJudge& judge, const Minutes& all,
                         const std::vector<MinuteFound>& found) {
  check(!found.empty(), "a span with a minute in it");
  const std::size_t nearest = best_of(found, 0, found.size() - 1);
  const JudgedMinute judged = judge.at(all.at(nearest));
  NoWindow none{.never_let_go = limits_not_kept(judged),
                .nearest = all.at(nearest),
                .least_short = tightest(judged),
                .would_open = {}};
  for (std::size_t i = 0; i < found.size() && !none.never_let_go.empty();
       i += kLimitsLookedAtEvery) {
    const std::vector<WindowEdge> here = limits_not_kept(judge.at(all.at(i)));
    std::erase_if(none.never_let_go, [&here](const WindowEdge& held) {
      return std::ranges::none_of(
          here, [&held](const WindowEdge& edge) { return same_limit(held, edge); });
    });
  }
  return none;
}

std::optional<Window> window_at(const std::vector<Window>& windows, Instant departs) {
  for (const Window& window : windows) {
    if (window.opens <= departs && departs <= window.closes) return window;
  }
  return std::nullopt;
}

}  // namespace passage_brief
