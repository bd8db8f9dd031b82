#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

const PassageFinding& passage_of(const Findings& findings, std::size_t) { return findings.passage; }
const LightFinding& light_of(const Findings& findings, std::size_t) { return findings.light; }

/// Nearer than this in metres, or metres a second, two figures are one: an interpolated 27 kn is
/// not over 27 kn.
constexpr double kSame = 1e-6;

const std::string kNoCategory = "the vessel file states no design category";
const std::string kNoCeiling = "design category A has no ceiling";

template <class Quantity>
Known<Quantity> ceiling(const PassageFinding& passage,
                        std::optional<Quantity> (*of)(DesignCategory)) {
  if (!passage.design_category) return not_known(kNoCategory);
  const std::optional<Quantity> top = of(*passage.design_category);
  if (!top) return not_known(kNoCeiling);
  return *top;
}

/// Whether wind or wave pass what the boat is designed for. Without a stated category what the
/// lowest (D) allows is allowed by all, and anything above it is not known.
template <class Quantity>
Known<bool> passes_ceiling(const Known<Quantity>& value, const PassageFinding& passage,
                           std::optional<Quantity> (*of)(DesignCategory)) {
  if (!value.has_value()) return not_known_as(value);
  if (!passage.design_category) {
    if ((value.value() - of(DesignCategory::d).value()).si() <= kSame) return false;
    return not_known(kNoCategory);
  }
  const std::optional<Quantity> top = of(*passage.design_category);
  return top && (value.value() - *top).si() > kSame;
}

template <class Quantity>
Known<Quantity> over_ceiling(const Known<Quantity>& value, const PassageFinding& passage,
                             std::optional<Quantity> (*of)(DesignCategory)) {
  return join([](Quantity v, Quantity top) { return v - top; }, value, ceiling(passage, of));
}

double count_marks(const Findings& findings, KeptBy kept_by) {
  return static_cast<double>(std::ranges::count(findings.marks, kept_by, &MarkFinding::kept_by));
}

double legs_without_current(const Findings& findings) {
  return static_cast<double>(std::ranges::count_if(findings.legs, [](const Leg& leg) {
    return !leg.current.has_value() || !leg.makes_headway.has_value() ||
           !leg.holds_line.has_value();
  }));
}

double marks_side_not_known(const Findings& findings) {
  return static_cast<double>(std::ranges::count_if(findings.marks, [](const MarkFinding& mark) {
    return mark.kept_by != KeptBy::unofficial &&
           !(mark.should_lie_to.has_value() && mark.agrees.has_value());
  }));
}

/// The least of several; with one not known the least is not known, for all the reasons together.
Known<Length> least_under_keel(const Findings& findings) {
  Known<Length> least = not_known("no depth is on file along the way");
  NotKnown why;
  for (const Depth& depth : findings.depths) {
    known_detail::add_reasons(why, depth.under_keel);
    if (depth.under_keel.has_value() && (!least.has_value() || *depth.under_keel < *least)) {
      least = depth.under_keel;
    }
  }
  if (!why.reasons.empty()) return std::unexpected(std::move(why));
  return least;
}

double number_of_depths_not_known(const Findings& findings) {
  return static_cast<double>(std::ranges::count_if(
      findings.depths, [](const Depth& depth) { return !depth.under_keel.has_value(); }));
}

/// Yes where one leg is dark, whatever is not known of another.
Known<bool> in_the_dark(const Findings& findings) {
  NotKnown why;
  for (const Leg& leg : findings.legs) {
    if (leg.light.has_value() && *leg.light == Light::dark) return true;
    known_detail::add_reasons(why, leg.light);
  }
  if (!why.reasons.empty()) return std::unexpected(std::move(why));
  return false;
}

/// Yes where one refuge has too little water at chart datum, whatever is not known of another.
Known<bool> refuge_lost_with_tide(const Findings& findings) {
  NotKnown why;
  for (const RefugeFinding& refuge : findings.refuges) {
    if (refuge.floats_at_chart_datum == Known<bool>(false)) return true;
    known_detail::add_reasons(why, refuge.floats_at_chart_datum);
  }
  if (!why.reasons.empty()) return std::unexpected(std::move(why));
  return false;
}

std::string refuges_lost(const Findings& findings) {
  std::string names;
  for (const RefugeFinding& refuge : findings.refuges) {
    if (refuge.floats_at_chart_datum == Known<bool>(true)) continue;
    names += (names.empty() ? "" : ", ") + refuge.name;
    if (!refuge.charted.has_value()) names += " (depth not known)";
  }
  return names.empty() ? "none" : names;
}

bool squat_left_out(const Findings& findings) {
  return std::ranges::any_of(findings.depths, &Depth::squat_left_out);
}

Known<Instant> happens(const std::optional<Instant>& instant, const std::string& what) {
  if (!instant) return not_known("no " + what + " that day");
  return *instant;
}

void add_when(FactRows<PassageFinding>& rows) {
  rows.add("name", Rounding::nearest, "\"the passage\"",
           [](const PassageFinding&) { return std::string("the passage"); });
  rows.add("departs", Rounding::nearest, "the hour the page is made for",
           [](const PassageFinding& p) { return p.departs; });
  rows.add("arrives", Rounding::nearest, "end of the track",
           [](const PassageFinding& p) { return p.arrives; });
  rows.add("duration", Rounding::up, "from departure to arrival", [](const PassageFinding& p) {
    return join([&](Instant arrives) { return Interval(arrives - p.departs); }, p.arrives);
  });
  rows.add("distance", Rounding::nearest, "along the track",
           [](const PassageFinding& p) { return p.distance; })
      .printed_as = PrintedAs::distance;
}

void add_weather(FactRows<PassageFinding>& rows) {
  rows.add("wind", Rounding::up, "greatest mean wind on the way",
           [](const PassageFinding& p) { return p.wind; })
      .printed_as = PrintedAs::wind;
  rows.add("gust", Rounding::up, "greatest on the way",
           [](const PassageFinding& p) { return p.gust; })
      .printed_as = PrintedAs::wind;
  rows.add("gust_over_wind", Rounding::up, "greatest gust less the greatest mean wind",
           [](const PassageFinding& p) {
             return join([](Speed gust, Speed wind) { return gust - wind; }, p.gust, p.wind);
           })
      .printed_as = PrintedAs::wind;
  rows.add("wave", Rounding::up, "greatest significant height in open water and on bars",
           [](const PassageFinding& p) { return p.wave; });
  rows.add("visibility", Rounding::down, "least on the way",
           [](const PassageFinding& p) { return p.visibility; })
      .printed_as = PrintedAs::distance;
  rows.add("thunder", Rounding::up, "greatest probability on the way, 0 to 1",
           [](const PassageFinding& p) { return p.thunder; })
      .printed_as = PrintedAs::percent;
  rows.add("forecast_age", Rounding::up, "at departure, from its issue",
           [](const PassageFinding& p) { return p.forecast_age; })
      .margin = [](const Findings& f, std::size_t) { return FactValue(f.margins.forecast_age); };
  rows.add("forecast_covers", Rounding::nearest, "every minute of the way",
           [](const PassageFinding& p) { return p.forecast_covers; });
  rows.add("forecast_ends", Rounding::nearest, "last hour it gives",
           [](const PassageFinding& p) { return p.forecast_ends; });
}

void add_boat(FactRows<PassageFinding>& rows) {
  rows.add_words("hull", "of the boat",
                 {"motor displacement", "motor planing", "sail fin keel", "sail long keel",
                  "catamaran", "open boat"},
                 [](const PassageFinding& p) { return in_words(p.hull); });
  rows.add("engines", Rounding::nearest, "how many",
           [](const PassageFinding& p) { return static_cast<double>(p.engines); })
      .printed_as = PrintedAs::whole;
  rows.add("length", Rounding::up, "of the boat over all",
           [](const PassageFinding& p) { return p.length; });
  rows.add("beam", Rounding::up, "of the boat", [](const PassageFinding& p) { return p.beam; });
  rows.add_words("draft_is", "how the draft came to be known",
                 {"measured", "told", "estimated", "not stated"},
                 [](const PassageFinding& p) { return in_words(p.draft_is); });
  rows.add("draft_measured", Rounding::nearest, "yes where the draft was measured, else not known",
           [](const PassageFinding& p) { return was_measured(p.draft_is, "draft"); });
  rows.add_words("air_draft_is", "how the air draft came to be known",
                 {"measured", "told", "estimated", "not stated"},
                 [](const PassageFinding& p) { return in_words(p.air_draft_is); });
  rows.add("air_draft_measured", Rounding::nearest,
           "yes where the air draft was measured, else not known",
           [](const PassageFinding& p) { return was_measured(p.air_draft_is, "air draft"); });
  rows.add("hull_estimated", Rounding::nearest,
           "some figure of the hull that the vessel file leaves out was estimated",
           [](const PassageFinding&, const Findings& f) { return !f.estimated.empty(); });
  rows.add_words("category", "design category on the builder's plate", {"A", "B", "C", "D"},
                 [](const PassageFinding& p) -> Known<std::string> {
                   if (!p.design_category) return not_known(kNoCategory);
                   return in_words(*p.design_category);
                 });
  rows.add("category_wind", Rounding::down, "ceiling of the design category",
           [](const PassageFinding& p) { return ceiling(p, wind_ceiling); })
      .printed_as = PrintedAs::wind;
  rows.add("category_wave", Rounding::down, "ceiling of the design category",
           [](const PassageFinding& p) { return ceiling(p, wave_ceiling); });
  rows.add("wind_over_category", Rounding::up, "greatest mean wind less the ceiling",
           [](const PassageFinding& p) { return over_ceiling(p.wind, p, wind_ceiling); })
      .printed_as = PrintedAs::wind;
  rows.add("wave_over_category", Rounding::up, "greatest significant height less the ceiling",
           [](const PassageFinding& p) { return over_ceiling(p.wave, p, wave_ceiling); });
  rows.add("wind_passes_category", Rounding::nearest,
           "the wind is over the ceiling; without a category no up to 16 kn (D), else not known",
           [](const PassageFinding& p) { return passes_ceiling(p.wind, p, wind_ceiling); });
  rows.add("wave_passes_category", Rounding::nearest,
           "waves are over the ceiling; without a category no up to 0.3 m (D), else not known",
           [](const PassageFinding& p) { return passes_ceiling(p.wave, p, wave_ceiling); });
}

/// What is taken together from every place on the way.
void add_way(FactRows<PassageFinding>& rows) {
  rows.add("least_under_keel", Rounding::down, "least of all depths on the way",
           [](const PassageFinding&, const Findings& f) { return least_under_keel(f); });
  rows.add("depths_not_known", Rounding::nearest,
           "at how many places the water under the keel is not known",
           [](const PassageFinding&, const Findings& f) { return number_of_depths_not_known(f); })
      .printed_as = PrintedAs::whole;
  rows.add("squat_left_out", Rounding::nearest, "somewhere no squat is counted",
           [](const PassageFinding&, const Findings& f) { return squat_left_out(f); });
  rows.add("refuge_lost_with_tide", Rounding::nearest,
           "a refuge near the track keeps too little water under the keel at chart datum",
           [](const PassageFinding&, const Findings& f) { return refuge_lost_with_tide(f); });
  rows.add("refuges_lost", Rounding::nearest,
           "the names of those, and of those whose depth is not known",
           [](const PassageFinding&, const Findings& f) { return refuges_lost(f); });
  rows.add("in_the_dark", Rounding::nearest, "some leg is run in the dark",
           [](const PassageFinding&, const Findings& f) { return in_the_dark(f); });
  rows.add("legs_without_current", Rounding::nearest,
           "how many legs have a current that is not known",
           [](const PassageFinding&, const Findings& f) { return legs_without_current(f); })
      .printed_as = PrintedAs::whole;
  rows.add("marks_side_not_known", Rounding::nearest,
           "how many, of those not unofficial, should lie to a side that is not known",
           [](const PassageFinding&, const Findings& f) { return marks_side_not_known(f); })
      .printed_as = PrintedAs::whole;
  rows.add("private_marks", Rounding::nearest, "how many are private with permit",
           [](const PassageFinding&, const Findings& f) {
             return count_marks(f, KeptBy::private_with_permit);
           })
      .printed_as = PrintedAs::whole;
  rows.add("unofficial_marks", Rounding::nearest, "how many are unofficial and prove nothing",
           [](const PassageFinding&, const Findings& f) {
             return count_marks(f, KeptBy::unofficial);
           })
      .printed_as = PrintedAs::whole;
}

void add_light(FactRows<LightFinding>& rows) {
  rows.add("name", Rounding::nearest, "\"daylight\"",
           [](const LightFinding&) { return std::string("daylight"); });
  rows.add("sunrise", Rounding::up, "of the local day of departure, at the start",
           [](const LightFinding& l) { return happens(l.sunrise, "sunrise"); });
  rows.add("sunset", Rounding::down, "of the same day",
           [](const LightFinding& l) { return happens(l.sunset, "sunset"); });
  rows.add("civil_dawn", Rounding::nearest, "of the same day",
           [](const LightFinding& l) { return happens(l.civil_dawn, "civil dawn"); });
  rows.add("civil_dusk", Rounding::nearest, "of the same day",
           [](const LightFinding& l) { return happens(l.civil_dusk, "civil dusk"); });
  rows.add("before_sunset", Rounding::down, "from arrival to sunset; below zero after it",
           [](const LightFinding& l) { return l.before_sunset; });
  rows.add("after_sunrise", Rounding::nearest, "departure is at or after sunrise",
           [](const LightFinding& l) { return l.after_sunrise; });
  rows.add("moon_illuminated", Rounding::down, "part of the moon's face that is lit, 0 to 1",
           [](const LightFinding& l) { return l.moon_illuminated; })
      .printed_as = PrintedAs::percent;
  rows.add("moon_up", Rounding::nearest, "at departure",
           [](const LightFinding& l) { return l.moon_up; });
}

}  // namespace

void add_passage_facts(std::vector<Fact>& table) {
  FactRows<PassageFinding> rows(table, SubjectKind::passage, passage_of);
  add_when(rows);
  add_weather(rows);
  add_boat(rows);
  add_way(rows);
}

void add_light_facts(std::vector<Fact>& table) {
  FactRows<LightFinding> rows(table, SubjectKind::light, light_of);
  add_light(rows);
}

}  // namespace passage_brief
