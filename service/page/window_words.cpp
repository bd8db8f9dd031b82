#include "page/window_words.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "brief/window.h"
#include "page/figures.h"
#include "page/isolates.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

/// Full steps of the hour; zones differ from UTC by quarters of an hour.
Instant step_at_or_after(Instant at) {
  const auto since = at.time_since_epoch();
  const auto over = since % kPrintedStep;
  return over == Interval(0) ? at : at + (kPrintedStep - over);
}

Instant step_at_or_before(Instant at) { return at - at.time_since_epoch() % kPrintedStep; }

bool clocks_change_in(Span span, const Zone& zone) {
  return zone.at(span.begin).abbreviation != zone.at(span.end).abbreviation;
}

}  // namespace

Span printed_span(const Window& window) {
  const Span inward{step_at_or_after(window.opens), step_at_or_before(window.closes)};
  return inward.end < inward.begin ? Span{window.opens, window.closes} : inward;
}

std::string window_told(const Window& window, const Clock24& clock) {
  return window_times(window, clock) +
         (window.judged_on == JudgedOn::everything ? "" : " (tide and light only)");
}

std::string window_times(const Window& window, const Clock24& clock) {
  const Span span = printed_span(window);
  if (clocks_change_in(span, clock.zone())) {
    return clock.with_zone(span.begin, Rounding::up) + " to " +
           clock.with_zone(span.end, Rounding::down);
  }
  const std::string first = clock.bare(span.begin, Rounding::up);
  return span.begin == span.end ? "at " + first
                                : first + " to " + clock.bare(span.end, Rounding::down);
}

std::string best_time(const Window& window, const Clock24& clock) {
  const Span span = printed_span(window);
  if (window.best < span.begin) return "as it opens";
  if (window.best > span.end) return "as it shuts";
  return "at " + clock.bare(window.best, Rounding::nearest);
}

std::string edge_words(const std::optional<WindowEdge>& edge, const Reader& reader) {
  if (!edge) return "";
  if (edge->on_the_way_back) {
    WindowEdge there = *edge;
    there.on_the_way_back = false;
    return "On the way back: " + edge_words(there, reader);
  }
  if (edge->state == LimitState::broken) {
    return sentence_text(edge->say, reader.units, reader.clock);
  }
  return edge->about.name + ": cannot tell whether \"" + edge->limit + "\" is kept, because " +
         in_words(edge->because) + ".";
}

std::string to_spare_words(const ToSpare& to_spare, const Reader& reader) {
  if (to_spare.left < metres(0)) {
    return reader.up(-to_spare.left) + " short at " + to_spare.about.name;
  }
  return reader.down(to_spare.left) + " more than the margin at " + to_spare.about.name;
}

std::vector<std::string> no_window_words(const NoWindow& none, const Reader& reader) {
  std::vector<std::string> all;
  for (const WindowEdge& limit : none.never_let_go) {
    all.push_back("Never lets go: " + edge_words(limit, reader));
  }
  if (none.never_let_go.empty()) all.emplace_back("No one limit shuts it all the time.");
  std::string nearest = "Nearest at " + reader.clock.with_zone(none.nearest, Rounding::nearest);
  if (none.least_short) nearest += ": " + to_spare_words(*none.least_short, reader);
  all.push_back(nearest + ".");
  for (const AnotherWay& way : none.would_open) {
    all.push_back(capitalised(way.how) + " it opens: " + window_told(way.window, reader.clock) +
                  ".");
  }
  return all;
}

std::string otherwise_words(const Otherwise& other, const Reader& reader) {
  std::string text = capitalised(other.how);
  if (other.tightest && other.costs.has_value()) {
    const bool gains = *other.costs < metres(0);
    text += (gains ? " gains " : " costs ") +
            (gains ? reader.down(-*other.costs) : reader.up(*other.costs)) + " at " +
            other.tightest->name;
  } else if (other.tightest) {
    text += ": what it costs at " + other.tightest->name + " is " +
            instead_of_figure(other.costs.error());
  }
  if (other.closed_by) return text + ". Do not: " + edge_words(other.closed_by, reader);
  return text + ": " + in_words(other.verdict) + ".";
}

std::string warnings_text(const WindowList& list, const Reader& reader) {
  std::string text;
  for (const Caution& warning : list.warnings) {
    text += capitalised(in_words(warning.grade)) + ": " +
            sentence_text(warning.say, reader.units, reader.clock) + "\n";
  }
  if (!text.empty()) text += "No time to leave heeds them: ring the base.\n";
  return text;
}

std::string windows_as_text(const WindowList& list, const Zone& zone, Units units) {
  const Reader reader{units, Clock24(zone, list.span.begin)};
  std::string text = fmt::format("Leave between, {} to {}; times rounded inward to 5 minutes\n",
                                 reader.clock.date_and_time(list.span.begin),
                                 reader.clock.date_and_time(list.span.end));
  if (list.sure_95) text.append(kHeldSure).append("\n");
  if (!list.warnings.empty()) text += "\n" + warnings_text(list, reader);
  for (const Window& window : list.windows) {
    const Span printed = printed_span(window);
    const Clock24 of_day(zone, printed.begin);
    std::string times = window_times(window, of_day);
    if (!clocks_change_in(printed, zone)) times += " " + of_day.letters();
    text +=
        fmt::format("\n{}: {}, judged on {}\n", of_day.date(), times, in_words(window.judged_on));
    const std::string opened = edge_words(window.opened_by, reader);
    const std::string closed = edge_words(window.closed_by, reader);
    if (!opened.empty()) text += "  before: " + opened + "\n";
    if (!closed.empty()) text += "  after: " + closed + "\n";
    if (window.most_to_spare && window.most_to_spare->left >= metres(0)) {
      text += fmt::format("  most to spare {}: {}\n", best_time(window, of_day),
                          to_spare_words(*window.most_to_spare, reader));
    }
  }
  if (list.none) {
    text += "\nNo window.\n";
    for (const std::string& sentence : no_window_words(*list.none, reader)) {
      text += "  " + sentence + "\n";
    }
  }
  return with_isolates(with_local_times(std::move(text), reader.clock));
}

}  // namespace passage_brief
