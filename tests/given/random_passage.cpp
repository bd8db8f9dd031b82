#include "given/random_passage.h"

#include <chrono>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "facts/tide/constituent.h"
#include "facts/tide/harmonic.h"
#include "given/open_water.h"
#include "units/zone.h"

namespace passage_brief::given {
namespace {

using std::chrono::minutes;

class Lot {
 public:
  explicit Lot(unsigned number) : bits_(number) {}
  /// In [low, high), the same on every machine.
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(bits_()) / 4294967296.0);
  }
  int whole(int low, int high) { return static_cast<int>(std::floor(between(low, high + 1.0))); }
  bool chance(double share) { return between(0, 1) < share; }

 private:
  std::mt19937 bits_;
};

HarmonicCurve tidal(Lot& lot, double mean, double greatest) {
  std::vector<HarmonicTerm> terms;
  for (const auto& [name, share] : std::vector<std::pair<const char*, double>>{
           {"M2", 1}, {"S2", 0.3}, {"N2", 0.2}, {"K1", 0.3}, {"O1", 0.2}, {"M4", 0.06}}) {
    terms.push_back({*Constituent::named(name), greatest * share * lot.between(0.5, 1),
                     degrees(lot.between(0, 360))});
  }
  return {mean, std::move(terms)};
}

TideStation tide_station(Lot& lot, const std::string& name) {
  const double range = lot.between(0.2, 1.2);
  return TideStation({name,
                      at(0, 0),
                      Zone::utc(),
                      Source{name, "drawn by lot", std::nullopt},
                      metres(0.05),
                      std::string("CD"),
                      {{"CD", Height<StationZero>::above(metres(0))},
                       {"MHW", Height<StationZero>::above(metres(2 * range))}},
                      "",
                      TideCurve(tidal(lot, range, range))});
}

CurrentStation current_station(Lot& lot, double along_deg) {
  const double greatest = lot.chance(0.15) ? lot.between(2.5, 4) : lot.between(0.1, 1.5);
  return CurrentStation({"Stream", at(0, 0), Zone::utc(),
                         Source{"Stream", "drawn by lot", std::nullopt}, knots(0.1),
                         SetToward{TrueBearing::from_degrees(along_deg)},
                         SetToward{TrueBearing::from_degrees(along_deg + 180)},
                         CurrentCurve(tidal(lot, 0, greatest * 0.514))});
}

OpeningRule rule_at(std::vector<int> past_the_hour) {
  OpeningRule rule;
  rule.opens = Opens::at_times;
  for (const int minute : past_the_hour) rule.minutes.emplace_back(minute);
  return rule;
}

Openings openings(Lot& lot) {
  Openings all;
  if (lot.chance(0.4)) {
    OpeningRule shut;
    shut.opens = lot.chance(0.5) ? Opens::closed : Opens::on_notice;
    shut.notice = std::chrono::hours(lot.whole(1, 4));
    const int from = lot.whole(0, 20) * 60 + lot.whole(0, 59);
    shut.hours = DayHours{{DayLimit::By::clock, minutes(from)},
                          {DayLimit::By::clock, minutes(from + lot.whole(20, 180))}};
    all.rules.push_back(shut);
  }
  if (lot.chance(0.7)) {
    all.rules.push_back(lot.chance(0.5) ? rule_at({0, 30}) : rule_at({lot.whole(0, 59)}));
  }
  return all;
}

Bridge drawbridge(Lot& lot, const std::string& name, const Waterway& water, LineShape line) {
  return {{name, water.stations},
          std::move(line),
          BridgeKind::bascule,
          metres(lot.between(3.5, 7)),
          ClearanceOf::low_steel,
          not_known("it opens clear"),
          true,
          metres(30),
          true,
          openings(lot),
          "VHF 13",
          std::nullopt};
}

/// A bridge that stays shut.
Bridge fixed_bridge(Lot& lot, const std::string& name, const Waterway& water, LineShape line) {
  Bridge bridge = drawbridge(lot, name, water, std::move(line));
  bridge.what = BridgeKind::fixed;
  bridge.clearance = metres(lot.between(4.5, 9));
  bridge.opens_clear = false;
  bridge.openings = std::nullopt;
  return bridge;
}

OverheadCable telephone_line(Lot& lot, const std::string& name, const Waterway& water,
                             LineShape line) {
  return {{name, water.stations},       std::move(line),    metres(lot.between(4.5, 9)),
          not_known("none is charted"), Carries::telephone, not_known("it carries none")};
}

WindSeries wind(Lot& lot, Span span) {
  std::vector<WindHour> hours;
  double from_deg = lot.between(0, 360);
  double speed_kn = lot.between(0, 22);
  const Instant first = std::chrono::floor<std::chrono::hours>(span.begin) - std::chrono::hours(2);
  const int count = lot.chance(0.3) ? lot.whole(3, 8) : 30;
  for (int h = 0; h < count; ++h) {
    hours.push_back({first + std::chrono::hours(h), WindFrom{TrueBearing::from_degrees(from_deg)},
                     knots(speed_kn), knots(speed_kn * 1.3),
                     hectopascals(1013.25 + 8 * std::sin(h / 4.0 + speed_kn)),
                     nautical_miles(lot.between(1, 10)), metres(speed_kn * 0.03), 0.1});
    from_deg += lot.between(-25, 25);
    speed_kn = std::max(0.0, speed_kn + lot.between(-3, 3));
  }
  return {{"wind forecast", "drawn by lot", span.begin - std::chrono::hours(lot.whole(0, 5))},
          std::nullopt,
          std::move(hours)};
}

/// Days on which clocks change, a New Year, and plain ones.
Instant begin_of(Lot& lot) {
  using std::chrono::year;
  const std::vector<std::chrono::sys_days> days{year(2026) / 3 / 8,   year(2026) / 11 / 1,
                                                year(2026) / 12 / 31, year(2026) / 6 / 14,
                                                year(2026) / 7 / 3,   year(2026) / 9 / 20};
  const auto day = days[static_cast<std::size_t>(lot.whole(0, 5))];
  return Instant(day) + minutes(lot.whole(0, 24 * 60));
}

}  // namespace

RandomPassage random_passage(unsigned number) {
  Lot lot(number);
  Lot above(number + 1000);  // of its own: all else stays as it was drawn before
  const Instant begin = begin_of(lot);
  const Span span{begin, begin + std::chrono::hours(6)};
  Waterway water = empty_waterway();
  water.zone = *Zone::named("America/New_York");
  water.stations.current = "Stream";
  std::vector<Position> points{at(0, 0)};
  double east_m = 0;
  double north_m = 0;
  double course_deg = lot.between(0, 360);
  const int legs = lot.whole(1, 2);
  for (int leg = 0; leg < legs; ++leg) {
    const double rad = course_deg * std::numbers::pi / 180;
    const double length_m = lot.between(600, 2500);
    const Position from = at(east_m - 50 * std::sin(rad), north_m - 50 * std::cos(rad));
    const double begin_east_m = east_m;
    const double begin_north_m = north_m;
    east_m += length_m * std::sin(rad);
    north_m += length_m * std::cos(rad);
    const Position to = at(east_m + 50 * std::sin(rad), north_m + 50 * std::cos(rad));
    Reach reach = plain_reach("Reach " + std::to_string(leg + 1), {from, to},
                              metres(lot.between(40, 300)), metres(lot.between(0.6, 3.5)));
    reach.stations.current = "Stream";
    reach.stations.tide = lot.chance(0.5) ? "Gauge" : "Upper";
    reach.bottom = lot.chance(0.6) ? Bottom::mud : Bottom::rock;
    reach.open_water = lot.chance(0.2);
    reach.channel = lot.chance(0.8) ? Channel::main : Channel::secondary;
    water.reaches.push_back(reach);
    const auto across = [&](double share) {
      const double x = begin_east_m + (east_m - begin_east_m) * share;
      const double y = begin_north_m + (north_m - begin_north_m) * share;
      return LineShape{at(x - 200 * std::cos(rad), y + 200 * std::sin(rad)),
                       at(x + 200 * std::cos(rad), y - 200 * std::sin(rad))};
    };
    const std::string of_leg = " " + std::to_string(leg + 1);
    if (lot.chance(0.4)) {
      const double share = lot.between(0.2, 0.8);
      water.bridges.push_back(drawbridge(lot, "Draw" + of_leg, water, across(share)));
      // What is overhead where she may lie until it opens.
      const double short_of = share - above.between(10, 900) / length_m;
      if (short_of > 0 && above.chance(0.4)) {
        water.bridges.push_back(fixed_bridge(above, "Span" + of_leg, water, across(short_of)));
      } else if (short_of > 0 && above.chance(0.6)) {
        water.cables.push_back(telephone_line(above, "Wire" + of_leg, water, across(short_of)));
      }
    }
    if (above.chance(0.4)) {
      const double ahead_m = length_m * above.between(0.1, 0.9);
      const double aside_m = above.between(25, 250) * (above.chance(0.5) ? 1 : -1);
      water.hazards.push_back(
          {{"Rock" + of_leg, water.stations},
           at(begin_east_m + ahead_m * std::sin(rad) + aside_m * std::cos(rad),
              begin_north_m + ahead_m * std::cos(rad) - aside_m * std::sin(rad)),
           "rock",
           not_known("it is always above water"),
           true,
           std::nullopt,
           Bottom::rock});
    }
    if (lot.chance(0.4)) {
      const double x = begin_east_m + (east_m - begin_east_m) * lot.between(0.2, 0.8);
      const double y = begin_north_m + (north_m - begin_north_m) * lot.between(0.2, 0.8);
      water.depth_areas.push_back(plain_area("Patch " + std::to_string(leg + 1),
                                             oblong(x - 40, y - 40, x + 40, y + 40),
                                             metres(lot.between(0.3, 3))));
    }
    points.push_back(at(east_m, north_m));
    course_deg += lot.between(-50, 50);
  }
  Plan plan = plan_along(points);
  plan.departure.at = span.begin;
  plan.departure.notice_from = span.begin - std::chrono::hours(lot.whole(0, 6));
  plan.vessel.air_draft = {{Antennas::up, metres(lot.between(4, 8))}};
  plan.vessel.cruise = knots(lot.between(4, 8));
  Facts facts{std::move(water),
              {tide_station(lot, "Gauge"), tide_station(lot, "Upper")},
              {current_station(lot, course_deg)},
              {}};
  if (lot.chance(0.9)) facts.winds.push_back(wind(lot, span));
  if (number % 3 == 1) {
    const Instant read = span.begin + minutes(lot.whole(-120, 300));
    const bool sounder = lot.chance(0.3);
    facts.observed.push_back({"here", sounder ? ObservedBy::sounder : ObservedBy::water_level,
                              metres(1), metres(1), lot.chance(0.5) ? "Gauge" : "Upper", read,
                              metres(lot.between(-0.6, 0.6)), std::nullopt});
    if (!sounder && lot.chance(0.5)) facts.observed.back().wind_over = read + minutes(90);
  }
  return {std::move(plan), std::move(facts), span};
}

}  // namespace passage_brief::given
