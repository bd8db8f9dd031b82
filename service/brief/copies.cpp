#include "brief/copies.h"

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "passage/findings.h"
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

void take_out_of(Findings& found, LessonFigure figure) {
  switch (figure) {
    case LessonFigure::under_keel:
      for (Depth& d : found.depths) {
        take_out(d.under_keel, d.under_keel_could_be, d.sounder_reads);
      }
      return;
    case LessonFigure::stop_at:
      for (Depth& d : found.depths) take_out(d.stop_at);
      return;
    case LessonFigure::clearance:
      for (BridgeFinding& b : found.bridges) {
        take_out(b.clearance, b.clearance_could_be, b.gauge_reads);
      }
      for (CableFinding& c : found.cables) take_out(c.clearance, c.clearance_could_be);
      return;
    case LessonFigure::over_mast:
      for (BridgeFinding& b : found.bridges) {
        for (OverMast& mast : b.over_mast) take_out(mast.over_mast, mast.over_mast_could_be);
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

/// The facts of the rules' sentences that are the figure, or give it away.
std::vector<std::string_view> facts_that_tell(LessonFigure figure, SubjectKind of) {
  const bool overhead = of == SubjectKind::bridge || of == SubjectKind::cable;
  switch (figure) {
    case LessonFigure::under_keel:
      if (overhead) return {};
      return {"under_keel", "under_keel_could_be", "sounder_reads", "needed", "short_by"};
    case LessonFigure::stop_at:
      return {"stop_at"};
    case LessonFigure::clearance:
      return {"clearance", "clearance_could_be", "gauge_reads"};
    case LessonFigure::over_mast:
      if (!overhead) return {};
      return {"over_mast", "over_mast_could_be", "over_mast_up",     "over_mast_down",
              "short_by",  "to_spare",           "to_spare_could_be"};
    case LessonFigure::gauge_at_least:
      return {"gauge_at_least"};
    case LessonFigure::steer:
      return {"steer_true", "steer_magnetic", "steer_compass"};
    case LessonFigure::leeway:
      return {"leeway"};
    case LessonFigure::reached_in:
      return {"reached_in"};
  }
  return {};
}

void take_out_of(Caution& caution, LessonFigure figure) {
  const std::vector<std::string_view> facts = facts_that_tell(figure, caution.about.kind);
  for (auto& piece : caution.say) {
    auto* const fact = std::get_if<FactInText>(&piece);
    if (fact != nullptr && std::ranges::find(facts, fact->fact) != facts.end()) {
      take_out(fact->value);
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
    for (Caution& caution : brief.judgement.cautions) take_out_of(caution, figure);
  }
  take_out_workings(brief);
  return brief;
}

}  // namespace passage_brief
