#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

const std::vector<std::string> kRelativeWords = {
    "ahead",  "starboard bow", "starboard beam", "starboard quarter",
    "astern", "port quarter",  "port beam",      "port bow"};

const Leg& leg_at(const Findings& findings, std::size_t index) { return findings.legs[index]; }

std::size_t index_of(const Leg& leg, const Findings& findings) {
  return static_cast<std::size_t>(&leg - findings.legs.data());
}

/// A bearing as the angle from its north, 0 to 360.
template <class North>
Angle as_angle(Bearing<North> bearing) {
  return degrees(bearing.in_degrees());
}

std::string in_words(Light light) {
  switch (light) {
    case Light::day:
      return "day";
    case Light::twilight:
      return "twilight";
    case Light::dark:
      return "dark";
  }
  return {};
}

Known<Interval> duration(const Leg& leg) {
  return join([](Instant starts, Instant ends) { return Interval(ends - starts); }, leg.starts,
              leg.ends);
}

Known<Speed> wind_on_beam(const Leg& leg) {
  return join(
      [&](const Wind& wind) {
        return wind.speed * std::abs(std::sin(in_radians(wind.from.bearing - leg.course)));
      },
      leg.wind);
}

/// Where wind and current meet, seas are short and steep.
Known<Speed> current_into_wind(const Leg& leg) {
  return join(
      [](const Wind& wind, const Current& current) {
        return current.speed * std::cos(in_radians(current.toward.bearing - wind.from.bearing));
      },
      leg.wind, leg.current);
}

/// The worst over the leg's pieces; not known when any of them is not.
template <class Worse>
Known<Speed> worst_over_ground(const Leg& leg, const Findings& findings,
                               Known<Speed> TrackPiece::* figure, const Worse& worse) {
  const std::size_t index = index_of(leg, findings);
  Known<Speed> worst = not_known("the leg has no length");
  bool first = true;
  for (const TrackPiece& piece : findings.track) {
    if (piece.leg != index) continue;
    const Known<Speed>& here = piece.*figure;
    if (!here.has_value()) return here;
    if (first || worse(*here, *worst)) worst = here;
    first = false;
  }
  return worst;
}

Known<Speed> least_over_ground(const Leg& leg, const Findings& findings) {
  return worst_over_ground(leg, findings, &TrackPiece::over_ground, std::less{});
}

Known<Speed> most_over_ground(const Leg& leg, const Findings& findings) {
  return worst_over_ground(leg, findings, &TrackPiece::over_ground_most, std::greater{});
}

/// Some of it lies in a reach that is a channel.
bool in_channel(const Leg& leg, const Findings& findings) {
  const std::size_t index = index_of(leg, findings);
  return leg.piled || std::ranges::any_of(findings.depths, [&](const Depth& depth) {
           return depth.passing.leg == index && depth.channel != Channel::not_stated;
         });
}

void add_way(FactRows<Leg>& rows) {
  rows.add("name", Rounding::nearest, "\"A to B\"",
           [](const Leg& l) { return l.from + " to " + l.to; });
  rows.add("from", Rounding::nearest, "point it starts at", [](const Leg& l) { return l.from; });
  rows.add("to", Rounding::nearest, "point it ends at", [](const Leg& l) { return l.to; });
  rows.add("course", Rounding::nearest, "degrees true, 0 to 360",
           [](const Leg& l) { return as_angle(l.course); })
      .printed_as = PrintedAs::true_bearing;
  rows.add("distance", Rounding::nearest, "from its start to its end",
           [](const Leg& l) { return l.distance; })
      .printed_as = PrintedAs::distance;
  rows.add("starts", Rounding::nearest, "when it is begun", [](const Leg& l) { return l.starts; });
  rows.add("ends", Rounding::nearest, "when it is done", [](const Leg& l) { return l.ends; });
  rows.add("duration", Rounding::up, "from its start to its end", duration);
  rows.add("piled", Rounding::nearest, "some of it lies between pilings",
           [](const Leg& l) { return l.piled; });
  rows.add("in_channel", Rounding::nearest,
           "some of it lies between pilings or in a main or secondary channel", in_channel);
  rows.add("open_water", Rounding::nearest, "waves count on some of it",
           [](const Leg& l) { return l.open_water; });
  rows.add_words("light", "darkest on the leg", {"day", "twilight", "dark"}, [](const Leg& l) {
    return join([](Light light) { return in_words(light); }, l.light);
  });
}

void add_wind(FactRows<Leg>& rows) {
  rows.add("wind", Rounding::up, "mean wind at the middle of the leg",
           [](const Leg& l) { return join([](const Wind& w) { return w.speed; }, l.wind); })
      .printed_as = PrintedAs::wind;
  rows.add("wind_from", Rounding::nearest, "degrees true, 0 to 360",
           [](const Leg& l) {
             return join([](const Wind& w) { return as_angle(w.from.bearing); }, l.wind);
           })
      .printed_as = PrintedAs::true_bearing;
  rows.add("gust", Rounding::up, "greatest on the leg", [](const Leg& l) { return l.gust; })
      .printed_as = PrintedAs::wind;
  rows.add("wind_on_beam", Rounding::up, "the part of the wind that blows across the course",
           wind_on_beam)
      .printed_as = PrintedAs::wind;
  rows.add("wind_astern", Rounding::up,
           "the part of the wind that blows along the course; below zero from ahead",
           [](const Leg& l) { return astern(l.wind, l.course); })
      .printed_as = PrintedAs::wind;
  rows.add_words("wind_relative", "where the wind comes from, looking forward", kRelativeWords,
                 [](const Leg& l) { return known_in_words(l.wind_is); });
  rows.add_words("falls_off_to", "the side the wind pushes her to",
                 {"port", "starboard", "neither side"},
                 [](const Leg& l) { return in_words(l.falls_off_to, "neither side"); });
  rows.add("leeway", Rounding::up, "angle between heading and way made, from wind",
           [](const Leg& l) { return l.leeway; });
  rows.add(
      "crabbing", Rounding::up, "angle between the heading to steer and the course",
      [](const Leg& l) {
        return join(
            [&](TrueBearing steer) { return degrees(std::abs((steer - l.course).in_degrees())); },
            l.steer_true);
      });
  rows.add("steer_true", Rounding::nearest, "degrees true, 0 to 360",
           [](const Leg& l) {
             return join([](TrueBearing b) { return as_angle(b); }, l.steer_true);
           })
      .printed_as = PrintedAs::true_bearing;
  rows.add("steer_magnetic", Rounding::nearest, "degrees magnetic, 0 to 360",
           [](const Leg& l) {
             return join([](MagneticBearing b) { return as_angle(b); }, l.steer_magnetic);
           })
      .printed_as = PrintedAs::magnetic_bearing;
  rows.add("steer_compass", Rounding::nearest, "degrees by the boat's compass, 0 to 360",
           [](const Leg& l) {
             return join([](CompassBearing b) { return as_angle(b); }, l.steer_compass);
           })
      .printed_as = PrintedAs::compass_bearing;
  rows.add("wave", Rounding::up,
           "significant height where the leg lies in open water or crosses a bar",
           [](const Leg& l) { return l.wave; });
  rows.add("visibility", Rounding::down, "least on the leg",
           [](const Leg& l) { return l.visibility; })
      .printed_as = PrintedAs::distance;
}

void add_current(FactRows<Leg>& rows) {
  rows.add("current", Rounding::up, "speed at the middle of the leg",
           [](const Leg& l) { return join([](const Current& c) { return c.speed; }, l.current); });
  rows.add("current_toward", Rounding::nearest, "degrees true, 0 to 360",
           [](const Leg& l) {
             return join([](const Current& c) { return as_angle(c.toward.bearing); }, l.current);
           })
      .printed_as = PrintedAs::true_bearing;
  rows.add_words("current_relative", "where the current comes from, looking forward",
                 kRelativeWords, [](const Leg& l) { return known_in_words(l.current_from); });
  rows.add("current_astern", Rounding::up,
           "the part of the current that runs along the course; below zero from ahead",
           [](const Leg& l) { return astern(l.current, l.course); });
  rows.add("current_into_wind", Rounding::up,
           "the part of the current that runs against the wind; below zero with it",
           current_into_wind);
  rows.add_words("set_to", "the side the current pushes her to",
                 {"port", "starboard", "neither side"},
                 [](const Leg& l) { return in_words(l.set_to, "neither side"); });
  rows.add("over_ground", Rounding::down, "least speed over the ground on the leg",
           least_over_ground);
  rows.add("over_ground_most", Rounding::up, "greatest speed over the ground on the leg",
           most_over_ground);
  rows.add("makes_headway", Rounding::nearest, "everywhere on the leg",
           [](const Leg& l) { return l.makes_headway; });
  rows.add("holds_line", Rounding::nearest, "the cross current is nowhere faster than the boat",
           [](const Leg& l) { return l.holds_line; });
}

}  // namespace

void add_leg_facts(std::vector<Fact>& table) {
  FactRows<Leg> rows(table, SubjectKind::leg, leg_at);
  add_way(rows);
  add_wind(rows);
  add_current(rows);
}

}  // namespace passage_brief
