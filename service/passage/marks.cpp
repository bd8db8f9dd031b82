#include "passage/marks.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "facts/waterway/mark.h"
#include "facts/waterway/waterway.h"
#include "passage/findings.h"
#include "passage/meetings.h"
#include "passage/route_survey.h"
#include "passage/timeline.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

// How far past a preferred-channel mark the branch taken is looked for.
constexpr Length kBranchAhead = metres(200);

/// The side going with the direction of buoyage; empty: either.
Known<std::optional<Side>> side_inbound(const Mark& mark, const Known<bool>& takes_main) {
  if (mark.waterway_symbol) {
    switch (*mark.waterway_symbol) {
      case WaterwaySymbol::yellow_triangle:
        return Side::starboard;
      case WaterwaySymbol::yellow_square:
        return Side::port;
      case WaterwaySymbol::yellow_band:
        return std::nullopt;
    }
  }
  const auto by_branch = [&takes_main](Side for_main) {
    return join(
        [for_main](bool main) -> std::optional<Side> { return main ? for_main : other(for_main); },
        takes_main);
  };
  switch (mark.hand) {
    case MarkHand::port:
      return Side::port;
    case MarkHand::starboard:
      return Side::starboard;
    // The main channel lies to starboard of the mark: for it the mark is left to port.
    case MarkHand::preferred_channel_to_starboard:
      return by_branch(Side::port);
    case MarkHand::preferred_channel_to_port:
      return by_branch(Side::starboard);
    case MarkHand::none:
      return std::nullopt;
    case MarkHand::not_stated:
      break;
  }
  return not_known("the hand of " + mark.name + " is not stated");
}

Known<bool> takes_main(const RouteSurvey& survey, Length along, bool inbound) {
  const Length beyond = inbound ? along + kBranchAhead : along - kBranchAhead;
  const Length within = std::clamp(beyond, metres(0), survey.track().length);
  const Run& run = survey.run_at(within);
  if (!run.reach) return not_known("the branch taken is outside every reach");
  switch (survey.waterway().reaches[*run.reach].channel) {
    case Channel::main:
      return true;
    case Channel::secondary:
      return false;
    case Channel::not_stated:
      break;
  }
  return not_known("it is not stated whether " + survey.waterway().reaches[*run.reach].name +
                   " is the main channel");
}

}  // namespace

Known<std::optional<Side>> should_lie_to(const Mark& mark, const Known<TrueBearing>& buoyage,
                                         TrueBearing course, const Known<bool>& main_taken) {
  if (mark.kept_by == KeptBy::unofficial) {
    return not_known(mark.name + " is unofficial and proves nothing");
  }
  const Known<std::optional<Side>> inbound = side_inbound(mark, main_taken);
  if (!inbound.has_value() || !*inbound) return inbound;  // either hand, whichever way one goes
  return join(
      [&](TrueBearing inward) -> std::optional<Side> {
        const double turn_deg = (course - inward).in_degrees();
        return std::abs(turn_deg) <= 90 ? **inbound : other(**inbound);
      },
      buoyage);
}

std::vector<MarkFinding> marks_on(const RouteSurvey& survey, const Timeline& timeline) {
  std::vector<MarkFinding> marks;
  for (std::size_t i = 0; i < survey.marks().size(); ++i) {
    const Meeting& meeting = survey.marks()[i];
    const Mark& mark = survey.waterway().marks[meeting.index];
    const Stretch& stretch = survey.track().stretch_at(meeting.along);
    const Known<TrueBearing>& buoyage = survey.buoyage()[i];
    const bool inbound =
        !buoyage.has_value() || std::abs((stretch.course() - *buoyage).in_degrees()) <= 90;
    const Known<std::optional<Side>> should =
        should_lie_to(mark, buoyage, stretch.course(), takes_main(survey, meeting.along, inbound));
    const Side lies = meeting.side < 0 ? Side::port : Side::starboard;
    marks.push_back(
        {.name = mark.name,
         .passing = {meeting.along, timeline.at(meeting.along), survey.position_at(meeting.along),
                     stretch.leg()},
         .colour = mark.colour,
         .shape = mark.mark_shape,
         .light = mark.light,
         .structure = mark.structure,
         .kept_by = mark.kept_by,
         .lies_to = lies,
         .off = meeting.off,
         .should_lie_to = should,
         .agrees =
             join([lies](const std::optional<Side>& s) { return !s || *s == lies; }, should)});
  }
  return marks;
}

}  // namespace passage_brief
