#include "passage/under_keel.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "facts/waterway/feature.h"
#include "passage/corridor_depths.h"
#include "passage/figure.h"
#include "passage/hull.h"
#include "passage/margins.h"
#include "passage/squat.h"
#include "passage/water_level.h"
#include "plan/vessel.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr double kSigmasIn95Percent = 1.96;
constexpr double kDaysInYear = 365.2425;

/// Silt and sand build up; rock, coral and what was charted as hard stay.
bool moves(Bottom bottom) {
  switch (bottom) {
    case Bottom::mud:
    case Bottom::sand:
    case Bottom::shell:
    case Bottom::gravel:
    case Bottom::not_stated:
      return true;
    case Bottom::hard_sand:
    case Bottom::rock:
    case Bottom::coral:
      return false;
  }
  return true;
}

Known<Length> shoaling_since(const DepthSource& source, Instant at, const Margins& margins) {
  if (!moves(source.bottom)) return metres(0);
  if (!source.surveyed.has_value()) return not_known_as(source.surveyed);
  const auto since = at - Instant(std::chrono::sys_days(*source.surveyed));
  const double years = in_hours(since) / 24 / kDaysInYear;
  if (years < -1 / kDaysInYear) return not_known("its survey is dated after the passage");
  return margins.shoaling * std::max(years, 0.0);
}

/// Squat at that speed over that water. In deep water beyond the formulas' range it is left out,
/// and the page says so; in shoal water the timeline has slowed the boat to a speed that has a
/// figure.
struct SquatTaken {
  Known<Length> sinkage = metres(0);
  Length one_sigma = metres(0);
  bool left_out = false;
};

SquatTaken squat_taken(const std::optional<Speed>& chosen, const ChannelSection& section,
                       const Known<Length>& water, const HullForm& hull) {
  SquatTaken taken;
  if (!chosen) return taken;
  if (!water.has_value()) {
    taken.sinkage = not_known_as(water);
    return taken;
  }
  // She was slowed for the water she came to; the tide may have fallen a little since.
  const Speed speed = *water < hull.draft * 3
                          ? std::min(*chosen, greatest_speed_with_a_squat_figure(hull, *water))
                          : *chosen;
  const Known<Squat> squat = squat_of(hull, speed, *water, section);
  if (squat.has_value()) {
    taken.sinkage = squat->sinkage;
    taken.one_sigma = squat->one_sigma;
  } else if (*water >= hull.draft * 3) {
    taken.left_out = true;
  } else {
    taken.sinkage = not_known_as(squat);
  }
  return taken;
}

/// The part of the answer that decides which place controls.
struct Levels {
  Known<TideHeight> height_of_tide;
  Known<Length> water;
  SquatTaken squat;
  Known<Length> under_keel;
};

Levels levels(const KeelQuestion& question, const Vessel& vessel, const HullForm& hull,
              const Facts& facts, const Margins& margins) {
  Known<TideHeight> tide =
      lowest_level(facts, margins, question.source.stations, question.while_over);
  Known<Length> water = join([](Length charted, TideHeight h) { return charted + h.above_datum(); },
                             question.source.charted, tide);
  SquatTaken squat = squat_taken(question.speed, question.section, water, hull);
  Known<Length> under_keel = join([&](Length deep, Length sinkage,
                                      Length wave) { return deep - vessel.draft - sinkage - wave; },
                                  water, squat.sinkage, question.half_wave);
  return {std::move(tide), std::move(water), std::move(squat), std::move(under_keel)};
}

}  // namespace

Known<Length> under_keel_figure(const KeelQuestion& question, const Vessel& vessel,
                                const HullForm& hull, const Facts& facts, const Margins& margins) {
  return levels(question, vessel, hull, facts, margins).under_keel;
}

Length keel_margin(const Margins& margins, Bottom bottom, bool open_water) {
  return is_hard(bottom) || open_water ? margins.under_keel_hard : margins.under_keel;
}

Known<Length> survey_sigma(SurveyQuality quality, Length depth) {
  const Length below = std::max(depth, metres(0));
  const auto at_95 = [below](double fixed_m, double share) {
    return (metres(fixed_m) + below * share) / kSigmasIn95Percent;
  };
  switch (quality) {
    case SurveyQuality::a1:
      return at_95(0.5, 0.01);
    case SurveyQuality::a2:
    case SurveyQuality::b:
      return at_95(1.0, 0.02);
    case SurveyQuality::c:
      return at_95(2.0, 0.05);
    case SurveyQuality::channel_survey:
    case SurveyQuality::captains_sounding:
      return feet(1) / kSigmasIn95Percent;
    case SurveyQuality::d:
      return not_known("survey quality D has no stated accuracy");
    case SurveyQuality::not_stated:
      break;
  }
  return not_known("the quality of the survey is not stated");
}

Known<Length> sounder_offset(const Vessel& vessel) {
  if (!vessel.sounder) {
    return not_known("the vessel file does not say where the sounder measures from");
  }
  switch (vessel.sounder->measures_from) {
    case SounderZero::keel:
      return metres(0);
    case SounderZero::waterline:
      return vessel.draft;
    case SounderZero::transducer:
      break;
  }
  if (!vessel.sounder->below_waterline) {
    return not_known("the vessel file does not say how deep the transducer is");
  }
  return vessel.draft - *vessel.sounder->below_waterline;
}

Length water_needed(const std::optional<Speed>& speed, const ChannelSection& section,
                    const HullForm& hull, Length keep) {
  const auto enough = [&](Length water) {
    const SquatTaken squat = squat_taken(speed, section, water, hull);
    return squat.sinkage.has_value() && water - hull.draft - *squat.sinkage >= keep;
  };
  constexpr double kNear_m = 1e-5;
  Length too_little = hull.draft;
  Length plenty = hull.draft * 4 + keep + metres(10);  // no boat squats by more
  while (plenty - too_little > metres(kNear_m)) {
    const Length middle = (too_little + plenty) / 2;
    (enough(middle) ? plenty : too_little) = middle;
  }
  return plenty;
}

KeelAnswer under_keel(const KeelQuestion& question, const Vessel& vessel, const HullForm& hull,
                      const Facts& facts, const Margins& margins) {
  const DepthSource& source = question.source;
  const Known<const TideStation*> station = facts.tide(source.stations.tide);
  const Levels found = levels(question, vessel, hull, facts, margins);
  const SquatTaken& squat = found.squat;
  KeelAnswer answer{.height_of_tide = found.height_of_tide,
                    .tide_is = join([](const TideStation* s, Span span) { return s->trend(span); },
                                    station, question.while_over),
                    .water = found.water,
                    .squat = squat.sinkage,
                    .squat_left_out = squat.left_out,
                    .under_keel = found.under_keel,
                    .could_be = not_known("not worked out"),
                    .margin = keel_margin(margins, source.bottom, question.open_water),
                    .errors = {},
                    .one_way = metres(0),
                    .beside = {}};
  const Known<std::vector<ErrorTerm>> level =
      join([&](Span span) { return level_errors(facts, margins, source.stations.tide, span); },
           question.while_over);
  if (question.while_over.has_value()) {
    answer.beside =
        beside_inputs(LevelFor::depths, facts, margins, source.stations.tide, *question.while_over);
  }
  const Known<Length> depth_sigma = join(
      [&](Length charted) { return survey_sigma(source.survey_quality, charted); }, source.charted);
  answer.one_way = join([&](Span span) { return shoaling_since(source, span.begin, margins); },
                        question.while_over);
  if (level.has_value()) answer.errors = *level;
  if (depth_sigma.has_value()) {
    answer.errors.push_back({"survey", *depth_sigma, in_words(source.survey_quality)});
  }
  if (squat.one_sigma > metres(0)) {
    answer.errors.push_back({"squat", squat.one_sigma, "scatter among the formulas"});
  }
  answer.could_be =
      join([&](Length figure, const std::vector<ErrorTerm>&, Length, Length one_way,
               bool) { return could_be_as_little_as({figure, answer.errors, one_way}); },
           answer.under_keel, level, depth_sigma, answer.one_way, question.time_is_sure);
  return answer;
}

}  // namespace passage_brief
