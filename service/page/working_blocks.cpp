#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

/// A printed figure that later steps go on from, in hundredths of the reader's unit.
using Carried = std::optional<long long>;

/// One term of a sum as it is done by hand.
struct Term {
  std::string name;
  Length value;
  bool taken_away = false;
  Carried carried = {};  // from an earlier step: printed as it was there
};

/// The steps of one figure, with two decimals, as they are written down.
class Steps {
 public:
  Steps(std::string lead, const Reader& reader)
      : reader_(&reader), block_{.kind = BlockKind::working, .lead = std::move(lead)} {}

  /// "Water: charted 3.00 + tide 2.48 = 5.48 ft". The printed terms add up to the printed total,
  /// which is given back.
  Carried sum(const std::string& name, const std::vector<Term>& terms, const Known<Length>& total,
              Rounding way);
  void say(std::string step) { block_.more.push_back(std::move(step)); }
  /// Where the inputs come from; with their values where the steps do not show them.
  void inputs(const Working& working, bool with_lengths);
  [[nodiscard]] std::string hundredths(Length length, Rounding way) const {
    return fmt::format("{} {}", number(length, way), depth_unit(reader_->units));
  }
  [[nodiscard]] std::string number(Length length, Rounding way) const {
    return rounded(in_depth_unit(length, reader_->units), 2, way);
  }
  [[nodiscard]] Block take() { return std::move(block_); }

 private:
  static std::string plain(long long in_hundredths) {
    return rounded(static_cast<double>(in_hundredths) / 100, 2, Rounding::nearest);
  }
  [[nodiscard]] std::string value_text(const WorkedValue& value) const;

  const Reader* reader_;
  Block block_;
};

Carried Steps::sum(const std::string& name, const std::vector<Term>& terms,
                   const Known<Length>& total, Rounding way) {
  if (!total.has_value()) {
    say(name + ": " + not_known_text(total.error()) + ".");
    return std::nullopt;
  }
  std::vector<double> values;
  double added = 0;
  for (const Term& term : terms) {
    values.push_back(in_depth_unit(term.value, reader_->units) * (term.taken_away ? -1 : 1));
    added += values.back();
  }
  const double whole = in_depth_unit(total.value(), reader_->units);
  if (std::abs(added - whole) > 1e-6) {
    say(fmt::format("{} = {}, by the inputs below", name, hundredths(total.value(), way)));
    return std::nullopt;
  }
  for (std::size_t i = 0; i + 1 < terms.size(); ++i) {
    if (!terms[i].carried.has_value()) continue;
    const double kept = static_cast<double>(*terms[i].carried) / 100;
    values[i + 1] += values[i] - kept;  // less than its last digit: its neighbour takes it up
    values[i] = kept;
  }
  const PrintedSum printed = printed_sum(values, whole, 2, way);
  std::string text = name + ":";
  for (std::size_t i = 0; i < terms.size(); ++i) {
    const bool minus = printed.terms[i] < 0 || (printed.terms[i] == 0 && terms[i].taken_away);
    const std::string sign = minus ? "- " : i > 0 ? "+ " : "";
    text += fmt::format(" {}{} {}", sign, terms[i].name, plain(std::abs(printed.terms[i])));
  }
  say(fmt::format("{} = {} {}", text, plain(printed.total), depth_unit(reader_->units)));
  return printed.total;
}

std::string Steps::value_text(const WorkedValue& value) const {
  struct Printer {
    const Steps& steps;
    std::string operator()(Length v) const {
      return v > metres(150) ? miles_text(v, Rounding::nearest)
                             : steps.hundredths(v, Rounding::nearest);
    }
    std::string operator()(Speed v) const {
      return rounded(in_knots(v), 2, Rounding::nearest) + " kn";
    }
    std::string operator()(Angle v) const {
      return rounded(v.in_degrees(), 1, Rounding::nearest) + "\u00b0";
    }
    std::string operator()(Interval v) const { return interval_text(v, Rounding::nearest); }
    std::string operator()(Instant v) const {
      return steps.reader_->clock.with_zone(v, Rounding::nearest);
    }
    std::string operator()(double v) const { return rounded(v, 3, Rounding::nearest); }
    std::string operator()(const std::string& v) const { return v; }
  };
  return std::visit(Printer{*this}, value);
}

void Steps::inputs(const Working& working, bool with_lengths) {
  std::string text;
  for (const WorkingInput& input : working.inputs) {
    const bool length = std::holds_alternative<Length>(input.value);
    if (length && !with_lengths && (input.source == "worked out" || input.source == "vessel")) {
      continue;
    }
    text += (text.empty() ? "" : "; ") + input.name;
    if (!length || with_lengths) text += " " + value_text(input.value);
    if (!input.source.empty()) text += " (" + input.source + ")";
  }
  if (!text.empty()) say("From: " + text + ".");
  if (with_lengths && !working.source.empty()) say("By: " + working.source + ".");
}

template <class... Ts>
bool all_known(const Known<Ts>&... figures) {
  return (figures.has_value() && ...);
}

/// Root of the summed squares times 1.645, and what is allowed for shoaling.
void say_could_be(Steps& steps, const std::string& name, const Term& figure,
                  const Known<Length>& could_be, const std::vector<ErrorTerm>& errors) {
  if (!could_be.has_value()) {
    steps.say(name + ": " + not_known_text(could_be.error()) + ".");
    return;
  }
  double squares = 0;
  std::string under_root;
  for (const ErrorTerm& error : errors) {
    squares += in_metres(error.one_sigma) * in_metres(error.one_sigma);
    under_root += fmt::format("{}{} {}\u00b2", under_root.empty() ? "" : " + ", error.name,
                              steps.number(error.one_sigma, Rounding::nearest));
  }
  const Length sigma = metres(std::sqrt(squares));
  const Length rest = figure.value - sigma * 1.645 - could_be.value();
  std::vector<Term> terms = {figure, {"1.645 x this", sigma * 1.645, true}};
  if (rest > metres(1e-6)) terms.push_back({"shoaling since the survey", rest, true});
  steps.say(fmt::format("One standard deviation: root of ({}) = {}", under_root,
                        steps.hundredths(sigma, Rounding::nearest)));
  steps.sum(name, terms, could_be, Rounding::down);
}

std::string when(const Passing& passing, const Reader& reader) {
  return passing.at.has_value()
             ? ", " + reader.clock.with_zone(passing.at.value(), Rounding::nearest)
             : ", time not known";
}

/// From the keel up to where the sounder measures from.
Known<Length> keel_to_sounder(const Vessel& vessel) {
  if (!vessel.sounder) return not_known("the vessel file does not say where it measures from");
  switch (vessel.sounder->measures_from) {
    case SounderZero::keel:
      return metres(0);
    case SounderZero::waterline:
      return vessel.draft;
    case SounderZero::transducer:
      break;
  }
  if (!vessel.sounder->below_waterline) return not_known("the depth of the transducer");
  return vessel.draft - *vessel.sounder->below_waterline;
}

void say_sounder(Steps& steps, const Depth& depth, const Vessel& vessel, Carried under_keel) {
  const Known<Length> more = keel_to_sounder(vessel);
  if (!all_known(more, depth.wave)) return;
  std::vector<Term> rest = {{"half the wave or the wash", depth.wave.value()}};
  if (more.value() != metres(0)) rest.push_back({"keel to where it measures from", more.value()});
  const auto with = [&](Term first) {
    std::vector<Term> terms = {std::move(first)};
    terms.insert(terms.end(), rest.begin(), rest.end());
    return terms;
  };
  if (all_known(depth.under_keel, depth.sounder_reads)) {
    steps.sum("Sounder reads",
              with({"under the keel", depth.under_keel.value(), false, under_keel}),
              depth.sounder_reads, Rounding::nearest);
  }
  if (!depth.stop_at.has_value()) return;
  const Length limit = depth.stop_at.value() - depth.wave.value() - more.value();
  steps.sum("Stop at", with({"least allowed by the rules here", limit}), depth.stop_at,
            Rounding::up);
}

Block depth_working(const Depth& depth, const Vessel& vessel, const Reader& reader) {
  Steps steps("Under the keel, " + depth.name + when(depth.passing, reader), reader);
  Carried water;
  Carried under_keel;
  if (all_known(depth.charted, depth.height_of_tide)) {
    water = steps.sum(
        "Water",
        {{"charted", depth.charted.value()}, {"tide", depth.height_of_tide.value().above_datum()}},
        depth.water, Rounding::down);
  }
  if (all_known(depth.water, depth.squat, depth.wave)) {
    under_keel = steps.sum("Under the keel",
                           {{"water", depth.water.value(), false, water},
                            {"draft", depth.draft, true},
                            {"squat", depth.squat.value(), true},
                            {"half the wave or the wash", depth.wave.value(), true}},
                           depth.under_keel, Rounding::down);
  } else if (!depth.under_keel.has_value()) {
    steps.say("Under the keel: " + not_known_text(depth.under_keel.error()) + ".");
  }
  if (depth.under_keel.has_value()) {
    say_could_be(steps, "Could be", {"figure", depth.under_keel.value(), false, under_keel},
                 depth.under_keel_could_be, depth.errors);
  }
  say_sounder(steps, depth, vessel, under_keel);
  steps.inputs(depth.working, false);
  return steps.take();
}

Block bridge_working(const BridgeFinding& bridge, const Reader& reader) {
  Steps steps("Clearance, " + bridge.name + when(bridge.passing, reader), reader);
  Carried clearance;
  if (all_known(bridge.charted, bridge.clearance_datum, bridge.height_of_tide)) {
    clearance =
        steps.sum("Clearance",
                  {{"charted", bridge.charted.value(), false},
                   {"datum of the clearance", bridge.clearance_datum.value().above_datum(), false},
                   {"tide", bridge.height_of_tide.value().above_datum(), true}},
                  bridge.clearance, Rounding::down);
  } else if (!bridge.clearance.has_value()) {
    steps.say("Clearance: " + not_known_text(bridge.clearance.error()) + ".");
  }
  if (bridge.clearance.has_value()) {
    say_could_be(steps, "Clearance could be",
                 {"figure", bridge.clearance.value(), false, clearance}, bridge.clearance_could_be,
                 bridge.errors);
  }
  for (const OverMast& mast : bridge.over_mast) {
    if (!all_known(bridge.clearance, bridge.wave)) break;
    steps.sum("Over the mast, antennas " + in_words(mast.antennas),
              {{"clearance", bridge.clearance.value(), false, clearance},
               {"air draft", mast.air_draft, true},
               {"half the wave or the wash", bridge.wave.value(), true}},
              mast.over_mast, Rounding::down);
  }
  const OverMast* const mast = as_passed(bridge);
  if (mast != nullptr && all_known(bridge.wave, bridge.gauge_at_least)) {
    steps.sum("Gauge at least",
              {{"air draft", mast->air_draft, false},
               {"margin", bridge.margin, false},
               {"half the wave or the wash", bridge.wave.value(), false}},
              bridge.gauge_at_least, Rounding::up);
  }
  steps.inputs(bridge.working, false);
  return steps.take();
}

Block cable_working(const CableFinding& cable, const Reader& reader) {
  Steps steps("To spare, cable " + cable.name + when(cable.passing, reader), reader);
  Carried clearance;
  Carried to_spare;
  if (all_known(cable.charted, cable.clearance_datum, cable.height_of_tide)) {
    clearance =
        steps.sum("Clearance",
                  {{"charted", cable.charted.value(), false},
                   {"datum of the clearance", cable.clearance_datum.value().above_datum(), false},
                   {"tide", cable.height_of_tide.value().above_datum(), true}},
                  cable.clearance, Rounding::down);
  }
  const auto lowest = std::ranges::min_element(cable.over_mast, {}, &OverMast::air_draft);
  if (lowest != cable.over_mast.end() && all_known(cable.clearance, cable.wave, cable.gap)) {
    to_spare = steps.sum("To spare",
                         {{"clearance", cable.clearance.value(), false, clearance},
                          {"air draft", lowest->air_draft, true},
                          {"half the wave or the wash", cable.wave.value(), true},
                          {"gap", cable.gap.value(), true}},
                         cable.to_spare, Rounding::down);
  } else if (!cable.to_spare.has_value()) {
    steps.say("To spare: " + not_known_text(cable.to_spare.error()) + ".");
  }
  if (cable.to_spare.has_value()) {
    say_could_be(steps, "Could be", {"figure", cable.to_spare.value(), false, to_spare},
                 cable.to_spare_could_be, cable.errors);
  }
  steps.inputs(cable.working, false);
  return steps.take();
}

Block leg_working(const Leg& leg, std::size_t index, const Reader& reader) {
  Steps steps(fmt::format("Steer on leg {}, {} to {}", index + 1, leg.from, leg.to), reader);
  const auto degrees_text = [](double deg) { return rounded(deg, 1, Rounding::nearest); };
  if (leg.steer_true.has_value()) {
    steps.say(
        fmt::format("Course {}, pointed up to {} by the triangle of velocities and {} of "
                    "leeway{}",
                    bearing_text(leg.course), bearing_text(leg.steer_true.value()),
                    or_not_known(leg.leeway, [](Angle a) { return angle_text(a, Rounding::up); }),
                    leg.falls_off_to.has_value() && leg.falls_off_to.value().has_value()
                        ? " to " + in_words(*leg.falls_off_to.value())
                        : std::string()));
  } else {
    steps.say("Heading " + not_known_text(leg.steer_true.error()) + ".");
  }
  if (all_known(leg.steer_true, leg.variation, leg.steer_magnetic)) {
    const double east = leg.variation.value().east.in_degrees();
    steps.say(fmt::format("Magnetic: {} {} variation {} {} = {}",
                          degrees_text(leg.steer_true.value().in_degrees()), east < 0 ? "+" : "-",
                          degrees_text(std::abs(east)), east < 0 ? "W" : "E",
                          bearing_text(leg.steer_magnetic.value())));
  }
  if (leg.steer_compass.has_value()) {
    steps.say("By the deviation table: " + bearing_text(leg.steer_compass.value()));
  }
  steps.inputs(leg.working, true);
  return steps.take();
}

Block danger_working(const Danger& danger, const Reader& reader) {
  Steps steps(fmt::format("Time to {}, {}, engines stopped", danger.name, in_words(danger.side)),
              reader);
  steps.say(
      fmt::format("{} off at {} = {}", distance_text(danger.distance, Rounding::down, reader.units),
                  "the fastest drift of the fan", or_not_known(danger.reached_in, [](Interval t) {
                    return interval_text(t, Rounding::down);
                  })));
  steps.inputs(danger.working, true);
  return steps.take();
}

/// What decides, by the lists of the findings.
struct Deciding {
  std::set<std::size_t> depths;
  std::set<std::size_t> bridges;
  std::set<std::size_t> cables;
  std::set<std::size_t> dangers;
  std::set<std::size_t> legs;
};

Deciding deciding(const Brief& brief) {
  Deciding all;
  if (brief.least_depth) all.depths.insert(*brief.least_depth);
  if (brief.nearest_margin) all.depths.insert(*brief.nearest_margin);
  if (brief.lowest_bridge) {
    all.bridges.insert(*brief.lowest_bridge);
  } else if (brief.nearest_danger) {
    all.dangers.insert(*brief.nearest_danger);
  }
  for (const LimitResult& limit : brief.judgement.limits) {
    if (limit.state == LimitState::kept) continue;
    switch (limit.about.kind) {
      case SubjectKind::berth:
      case SubjectKind::reach:
      case SubjectKind::bar:
        all.depths.insert(limit.about.index);
        break;
      case SubjectKind::bridge:
        all.bridges.insert(limit.about.index);
        break;
      case SubjectKind::cable:
        all.cables.insert(limit.about.index);
        break;
      case SubjectKind::danger:
        all.dangers.insert(limit.about.index);
        break;
      case SubjectKind::leg:
        all.legs.insert(limit.about.index);
        break;
      case SubjectKind::passage:
      case SubjectKind::light:
      case SubjectKind::mark:
        break;
    }
  }
  return all;
}

}  // namespace

std::vector<Block> working_blocks(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  const Deciding decides = deciding(brief);
  const auto blank = [&](LessonFigure figure) {
    return std::ranges::find(brief.left_blank, figure) != brief.left_blank.end();
  };
  std::vector<Block> blocks;
  const auto add = [&](const auto& list, const std::set<std::size_t>& chosen, bool all,
                       const auto& working) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (all || chosen.contains(i)) blocks.push_back(working(list[i], i));
    }
  };
  const bool overhead = blank(LessonFigure::clearance) || blank(LessonFigure::over_mast);
  add(found.depths, decides.depths, blank(LessonFigure::under_keel) || blank(LessonFigure::stop_at),
      [&](const Depth& depth, std::size_t) { return depth_working(depth, brief.vessel, reader); });
  add(found.bridges, decides.bridges, overhead || blank(LessonFigure::gauge_at_least),
      [&](const BridgeFinding& bridge, std::size_t) { return bridge_working(bridge, reader); });
  add(found.cables, decides.cables, overhead,
      [&](const CableFinding& cable, std::size_t) { return cable_working(cable, reader); });
  add(found.legs, decides.legs, blank(LessonFigure::steer) || blank(LessonFigure::leeway),
      [&](const Leg& leg, std::size_t i) { return leg_working(leg, i, reader); });
  add(found.dangers, decides.dangers, blank(LessonFigure::reached_in),
      [&](const Danger& danger, std::size_t) { return danger_working(danger, reader); });
  return blocks;
}

}  // namespace passage_brief
