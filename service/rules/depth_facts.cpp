#include <chrono>
#include <string>
#include <vector>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

// McCowan (1894): a wave breaks where its height reaches 0.78 of the depth. The largest waves are
// about twice the significant height (US National Weather Service, marine definitions; from
// memory).
constexpr double kBreakingHeightOverDepth = 0.78;
constexpr double kLargestOverSignificant = 2;

/// `wave` of a Depth is half the significant height in open water, and on every bar.
Known<Length> significant_height(const Depth& depth) {
  if (!depth.open_water) return metres(0);
  if (!depth.wave.has_value()) return not_known_as(depth.wave);
  return depth.wave.value() * 2;
}

Known<bool> seas_could_break(const Depth& depth) {
  if (!depth.open_water) return false;
  return join(
      [](Length height, Length water) {
        return height > metres(0) &&
               height * kLargestOverSignificant >= water * kBreakingHeightOverDepth;
      },
      significant_height(depth), depth.water);
}

Known<double> survey_age_in_years(const Depth& depth, Instant departs) {
  if (!depth.surveyed.has_value()) return not_known_as(depth.surveyed);
  const std::chrono::sys_days day(depth.surveyed.value());
  return std::chrono::duration<double, std::chrono::years::period>(departs - day).count();
}

/// How much of the room beside the hull she takes up by pointing across the channel.
Known<double> crabbing_takes(const Depth& depth, const Findings& findings) {
  return join(
      [&](Length width, Length spare) {
        const Length beside = width - findings.passage.beam;
        return beside > metres(0) ? (beside - spare) / beside : 1.0;
      },
      depth.channel_width, depth.spare_width);
}

std::string in_words(DepthPlace place) {
  switch (place) {
    case DepthPlace::reach:
      return "reach";
    case DepthPlace::unnamed_water:
      return "outside every reach";
    case DepthPlace::bar:
      return "bar";
    case DepthPlace::berth:
      return "berth";
  }
  return {};
}

std::string in_words(Channel channel) {
  switch (channel) {
    case Channel::main:
      return "main";
    case Channel::secondary:
      return "secondary";
    case Channel::not_stated:
      return "not stated";
  }
  return {};
}

const Depth& depth_at(const Findings& findings, std::size_t index) {
  return findings.depths[index];
}

FactValue margin_of_depth(const Findings& findings, std::size_t index) {
  return findings.depths[index].margin;
}

void add_water(FactRows<Depth>& rows) {
  rows.add("charted", Rounding::down, "least charted depth in the corridor",
           [](const Depth& d) { return d.charted; });
  rows.add("height_of_tide", Rounding::down, "above chart datum, on arrival",
           [](const Depth& d) -> Known<Length> {
             if (!d.height_of_tide.has_value()) return not_known_as(d.height_of_tide);
             return d.height_of_tide->above_datum();
           });
  rows.add_words("tide", "what the tide does on arrival", {"rising", "falling", "standing"},
                 [](const Depth& d) { return known_in_words(d.tide_is); });
  rows.add("water", Rounding::down, "charted depth and height of tide",
           [](const Depth& d) { return d.water; });
  rows.add("draft", Rounding::up, "of the boat at rest, at her deepest",
           [](const Depth& d) { return d.draft; });
  rows.add("squat", Rounding::up, "how much she settles under way",
           [](const Depth& d) { return d.squat; });
  rows.add("squat_left_out", Rounding::nearest,
           "deep water where no squat formula holds, so that none is counted",
           [](const Depth& d) { return d.squat_left_out; });
  rows.add("speed", Rounding::nearest, "through the water at this place",
           [](const Depth& d) { return d.through_water; });
  rows.add("slowed", Rounding::nearest, "the depth or a speed limit lowers the chosen speed",
           [](const Depth& d) { return d.slowed_because.has_value(); });
  rows.add("wave", Rounding::up,
           "what waves take off: half their height in open water, else the wash",
           [](const Depth& d) { return d.wave; });
  rows.add("wave_height", Rounding::up, "significant height; zero where the water is not open",
           significant_height);
  rows.add(
      "seas_could_break", Rounding::nearest,
      "open water where the largest waves, twice the significant height, reach 0.78 of the depth",
      seas_could_break);
}

void add_under_keel(FactRows<Depth>& rows) {
  rows.add("needed", Rounding::up, "water the boat needs: draft, squat and waves",
           [](const Depth& d) {
             return join([](Length water, Length under_keel) { return water - under_keel; },
                         d.water, d.under_keel);
           });
  rows.add("margin", Rounding::up, "wanted under the keel here",
           [](const Depth& d) { return d.margin; });
  rows.add("under_keel", Rounding::down, "least water under the keel as she passes",
           [](const Depth& d) { return d.under_keel; })
      .margin = margin_of_depth;
  rows.add("under_keel_could_be", Rounding::down, "the same, as little as it could be (95 %)",
           [](const Depth& d) { return d.under_keel_could_be; })
      .margin = margin_of_depth;
  rows.add("short_by", Rounding::up, "what is missing to the margin; below zero where it is kept",
           [](const Depth& d) {
             return join([&](Length under_keel) { return d.margin - under_keel; }, d.under_keel);
           });
  rows.add(
      "keel_touches", Rounding::nearest,
      "yes where nothing is left under the keel, no where even the least it could be is enough; "
      "between the two not known",
      [](const Depth& d) {
        return is_below_zero(d.under_keel, d.under_keel_could_be,
                             "within the error of the figures the keel could touch");
      });
  rows.add("blocked", Rounding::nearest, "something that never covers lies in the corridor",
           [](const Depth& d) { return d.blocked; });
  rows.add("sounder_reads", Rounding::nearest, "what the depth sounder should show",
           [](const Depth& d) { return d.sounder_reads; });
}

void add_room(FactRows<Depth>& rows) {
  rows.add(
      "draft_measured", Rounding::nearest, "yes where the draft was measured, else not known",
      [](const Depth&, const Findings& f) { return was_measured(f.passage.draft_is, "draft"); });
  rows.add("channel_width", Rounding::down, "of a reach drawn with a width",
           [](const Depth& d) { return d.channel_width; });
  rows.add("lengths_wide", Rounding::down, "width of the channel in lengths of the boat",
           [](const Depth& d, const Findings& f) {
             return join([&](Length width) { return width / f.passage.length; }, d.channel_width);
           });
  rows.add("crabbing_takes", Rounding::up,
           "part of the room beside the hull that pointing up to wind and current takes, 0 to 1",
           crabbing_takes)
      .printed_as = PrintedAs::percent;
  rows.add("spare_width", Rounding::down, "of the channel, beside the hull and her crabbing",
           [](const Depth& d) { return d.spare_width; });
}

void add_round_about(FactRows<Depth>& rows) {
  rows.add("speed_limit", Rounding::down, "of a reach", [](const Depth& d) -> Known<Speed> {
    if (!d.speed_limit) return not_known("no speed limit is on file here");
    return *d.speed_limit;
  });
  rows.add(
      "turning_place_ahead", Rounding::nearest,
      "a turning place wider than the boat is long is drawn here or further on",
      [](const Depth& d, const Findings& f) { return turning_place_ahead(f, d.passing.along); });
  rows.add("wind", Rounding::up, "mean wind on arrival; of a stay the worst of its hours",
           [](const Depth& d) { return join([](const Wind& w) { return w.speed; }, d.wind); })
      .printed_as = PrintedAs::wind;
  rows.add("wind_time", Rounding::nearest, "when that blows",
           [](const Depth& d) { return d.wind_at; });
  rows.add("wind_from", Rounding::nearest, "degrees true, 0 to 360",
           [](const Depth& d) {
             return join([](const Wind& w) { return degrees(w.from.bearing.in_degrees()); },
                         d.wind);
           })
      .printed_as = PrintedAs::true_bearing;
  rows.add("open_to_wind", Rounding::nearest,
           "that wind comes from where the berth, or the bar, is drawn open",
           [](const Depth& d) { return d.open_to_wind; });
}

void add_place(FactRows<Depth>& rows) {
  rows.add_words("place", "what the depth belongs to",
                 {"reach", "outside every reach", "bar", "berth"},
                 [](const Depth& d) { return in_words(d.place); });
  rows.add_words("channel", "of a reach", {"main", "secondary", "not stated"},
                 [](const Depth& d) { return in_words(d.channel); });
}

/// What the ground is, and who found it.
void add_ground(FactRows<Depth>& rows) {
  rows.add("open_water", Rounding::nearest, "waves count here",
           [](const Depth& d) { return d.open_water; });
  rows.add("controlled_by", Rounding::nearest, "what charts the least depth",
           [](const Depth& d) { return d.controlled_by; });
  rows.add_words("bottom", "what it is made of",
                 {"mud", "sand", "hard sand", "shell", "gravel", "rock", "coral", "not stated"},
                 [](const Depth& d) { return in_words(d.bottom); });
  rows.add("hard_bottom", Rounding::nearest,
           "anything but mud and sand; a bottom that is not stated counts as hard",
           [](const Depth& d) { return is_hard(d.bottom); });
  rows.add("survey_age_years", Rounding::up, "since the survey, at departure",
           [](const Depth& d, const Findings& f) {
             return survey_age_in_years(d, f.passage.departs);
           })
      .printed_as = PrintedAs::whole;
  rows.add_words("survey_quality", "CATZOC, or how the depth was found",
                 {"A1", "A2", "B", "C", "D", "channel survey", "captain's sounding", "not stated"},
                 [](const Depth& d) { return in_words(d.survey_quality); });
}

}  // namespace

void add_depth_facts(std::vector<Fact>& table, SubjectKind of) {
  FactRows<Depth> rows(table, of, depth_at);
  add_passing(rows);
  add_place(rows);
  const std::size_t parts_from = table.size();
  add_ground(rows);
  add_water(rows);
  add_under_keel(rows);
  for (std::size_t i = parts_from; i < table.size(); ++i) table[i].of_part = true;
  add_room(rows);
  add_round_about(rows);
}

}  // namespace passage_brief
