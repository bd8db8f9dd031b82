#include "brief/copies.h"

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "brief/window.h"
#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/fact_value.h"
#include "rules/lesson_figure.h"
#include "rules/verdict.h"
#include "units/check.h"
#include "units/known.h"

namespace passage_brief {
namespace {

template <class... Figures>
void take_out(Figures&... figures) {
  const auto one = [](auto& figure) {
    if (figure.has_value()) figure = not_known(std::string(kLeftBlank));
  };
  (one(figures), ...);
}

/// The time at which a margin is lost gives the figure away by the tide curve.
void take_out_back_until(Findings& found, bool overhead) {
  for (BackUntil& back : found.back_until) {
    const bool above = back.what == BackPlace::bridge || back.what == BackPlace::cable;
    if (above != overhead) continue;
    take_out(back.until, back.ends);
    back.longer.reset();
  }
}

void take_out_of(Findings& found, LessonFigure figure) {
  switch (figure) {
    case LessonFigure::under_keel:
      take_out_back_until(found, false);
      for (Depth& d : found.depths) {
        take_out(d.under_keel, d.under_keel_could_be, d.sounder_reads);
      }
      return;
    case LessonFigure::stop_at:
      for (Depth& d : found.depths) take_out(d.stop_at);
      return;
    case LessonFigure::clearance:
      take_out_back_until(found, true);
      for (BridgeFinding& b : found.bridges) {
        take_out(b.clearance, b.clearance_could_be, b.gauge_reads);
        if (b.open_span) take_out(b.open_span->clearance, b.open_span->clearance_could_be);
      }
      for (CableFinding& c : found.cables) take_out(c.clearance, c.clearance_could_be);
      // The room over the mast, her air draft and the waves add up to it.
      take_out_of(found, LessonFigure::over_mast);
      return;
    case LessonFigure::over_mast:
      take_out_back_until(found, true);
      for (BridgeFinding& b : found.bridges) {
        for (OverMast& mast : b.over_mast) take_out(mast.over_mast, mast.over_mast_could_be);
        if (!b.open_span) continue;
        for (OverMast& mast : b.open_span->over_mast) {
          take_out(mast.over_mast, mast.over_mast_could_be);
        }
      }
      for (CableFinding& c : found.cables) {
        for (OverMast& mast : c.over_mast) take_out(mast.over_mast, mast.over_mast_could_be);
        take_out(c.to_spare, c.to_spare_could_be);
      }
      return;
    case LessonFigure::gauge_at_least:
      for (BridgeFinding& b : found.bridges) take_out(b.gauge_at_least);
      return;
    case LessonFigure::steer:
      for (Leg& leg : found.legs) take_out(leg.steer_true, leg.steer_magnetic, leg.steer_compass);
      return;
    case LessonFigure::leeway:
      for (Leg& leg : found.legs) take_out(leg.leeway);
      return;
    case LessonFigure::reached_in:
      for (Danger& danger : found.dangers) take_out(danger.reached_in);
      return;
  }
}

bool rests_on_a_blank(const Known<FactValue>& value) {
  return !value.has_value() &&
         std::ranges::find(value.error().reasons, kLeftBlank) != value.error().reasons.end();
}

/// Of a sentence go the facts that cannot be had from findings with the figures taken out, whatever
/// they are called; and those of no name in the table.
void take_out_of(Sentence& say, const Subject& about, const Findings& with_blanks) {
  const std::vector<Subject> here = subjects(with_blanks, about.kind);
  const bool met = std::ranges::find(here, about.index, &Subject::index) != here.end();
  for (auto& piece : say) {
    auto* const said = std::get_if<FactInText>(&piece);
    if (said == nullptr) continue;
    // No lesson figure is a time.
    if (said->value.has_value() && std::holds_alternative<Instant>(*said->value)) continue;
    const Fact* const fact = find_fact(about.kind, said->fact);
    if (fact == nullptr || !met || rests_on_a_blank(fact->value(with_blanks, about.index))) {
      take_out(said->value);
    }
  }
}

void take_out_of(std::optional<WindowEdge>& edge, const Findings& with_blanks) {
  if (edge) take_out_of(edge->say, edge->about, with_blanks);
}

/// What is to spare, and what lateness costs of it, is a blanked figure less its margin: it goes
/// whole. The edges' sentences are of other departures, but of the same facts.
void take_out_of_windows(Brief& brief) {
  const Findings& found = brief.findings;
  const auto of_window = [&found](Window& window) {
    window.most_to_spare = std::nullopt;
    take_out_of(window.opened_by, found);
    take_out_of(window.closed_by, found);
  };
  if (brief.window) of_window(*brief.window);
  for (Window& window : brief.windows) of_window(window);
  if (brief.no_window) {
    brief.no_window->least_short = std::nullopt;
    for (WindowEdge& edge : brief.no_window->never_let_go) {
      take_out_of(edge.say, edge.about, found);
    }
    for (AnotherWay& way : brief.no_window->would_open) of_window(way.window);
  }
  for (Otherwise& other : brief.otherwise) {
    take_out(other.costs);
    take_out_of(other.closed_by, found);
  }
}

/// How the water was seen to stand beside its prediction is given; what a reading was held against
/// is a figure of its place, and the reading gives that away.
void take_out_observed(Brief& brief) {
  const auto blank = [&brief](LessonFigure figure) {
    return std::ranges::find(brief.left_blank, figure) != brief.left_blank.end();
  };
  for (SeenLevel& seen : brief.observed) {
    if ((seen.by == ObservedBy::clearance_gauge && blank(LessonFigure::clearance)) ||
        (seen.by == ObservedBy::sounder && blank(LessonFigure::under_keel))) {
      take_out(seen.reading);
      take_out(seen.expected);
    }
  }
}

void take_out_workings(Brief& brief) {
  brief.working.clear();
  Findings& found = brief.findings;
  for (Leg& leg : found.legs) leg.working = {};
  for (Depth& depth : found.depths) depth.working = {};
  for (BridgeFinding& bridge : found.bridges) bridge.working = {};
  for (CableFinding& cable : found.cables) cable.working = {};
  for (Danger& danger : found.dangers) danger.working = {};
  for (BackUntil& back : found.back_until) back.working = {};
}

}  // namespace

bool is_left_blank(const NotKnown& why) {
  return why.reasons.size() == 1 && why.reasons.front() == kLeftBlank;
}

Brief copy_for(Copy copy, Brief brief) {
  check(brief.copy == Copy::skipper, "copies are made from the skipper's");
  brief.copy = copy;
  if (copy != Copy::learner) return brief;
  for (const LessonFigure figure : brief.left_blank) {
    take_out_of(brief.findings, figure);
  }
  for (Caution& caution : brief.judgement.cautions) {
    take_out_of(caution.say, caution.about, brief.findings);
  }
  take_out_of_windows(brief);
  take_out_observed(brief);
  take_out_workings(brief);
  if (brief.back != nullptr) {
    WayBack back = *brief.back;
    if (back.brief) back.brief = copy_for(copy, std::move(*back.brief));
    brief.back = std::make_shared<const WayBack>(std::move(back));
  }
  return brief;
}

}  // namespace passage_brief
