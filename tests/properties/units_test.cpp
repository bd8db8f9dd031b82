// What holds of units for all values, tried on drawn ones.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <regex>
#include <string>

#include "reading/quantity_text.h"
#include "units/direction.h"
#include "units/geodesy.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// Two roundings of double precision at most.
void expect_same(double read, double made) {
  RC_ASSERT(std::abs(read - made) <= 4.5e-16 * std::abs(made));
}

/// Any number a boat's papers could hold, of either sign, to a millionth.
double drawn_number() {
  return *rc::gen::inRange(-2'000'000'000, 2'000'000'000) / 1e6 *
         std::pow(10, *rc::gen::inRange(-3, 4));
}

double drawn_degrees() { return *rc::gen::inRange(0, 360'000) / 1000.0; }

Position drawn_position(int most_latitude) {
  return position_at(*rc::gen::inRange(-most_latitude * 1000, most_latitude * 1000) / 1000.0,
                     *rc::gen::inRange(-180'000, 180'000) / 1000.0);
}

RC_GTEST_PROP(Property, UnitsReadAsTheyWereMade, ()) {
  const double v = drawn_number();
  expect_same(in_metres(metres(v)), v);
  expect_same(in_feet(feet(v)), v);
  expect_same(in_nautical_miles(nautical_miles(v)), v);
  expect_same(in_metres_per_second(metres_per_second(v)), v);
  expect_same(in_knots(knots(v)), v);
  expect_same(in_square_metres(square_metres(v)), v);
  expect_same(in_hectopascals(hectopascals(v)), v);
  expect_same(in_tonnes(tonnes(v)), v);
  expect_same(in_kilovolts(kilovolts(v)), v);
}

/// Written in the unit held inside it reads back to the bit; else within one rounding.
template <class Q, class Parse>
void expect_same_text(Q made, const Parse& parse, Dimension dimension) {
  const std::string text = to_text(made);
  const auto read = parse(text);
  RC_ASSERT(read.has_value());
  expect_same(read->si(), made.si());
  RC_ASSERT(std::regex_match(text, std::regex(pattern_of(dimension))));
}

RC_GTEST_PROP(Property, QuantitiesWrittenReadTheSame, ()) {
  const double si = drawn_number();
  RC_ASSERT(parse_length(to_text(Length::from_si(si))).value().si() == si);
  RC_ASSERT(parse_speed(to_text(Speed::from_si(si))).value().si() == si);
  RC_ASSERT(parse_area(to_text(Area::from_si(si))).value().si() == si);
  expect_same_text(Length::from_si(si), parse_length, Dimension::length);
  expect_same_text(Speed::from_si(si), parse_speed, Dimension::speed);
  expect_same_text(Area::from_si(si), parse_area, Dimension::area);
  expect_same_text(Pressure::from_si(si), parse_pressure, Dimension::pressure);
  expect_same_text(Mass::from_si(si), parse_mass, Dimension::mass);
  expect_same_text(Voltage::from_si(si), parse_voltage, Dimension::voltage);
}

RC_GTEST_PROP(Property, IntervalsWrittenReadTheSame, ()) {
  const Interval made(*rc::gen::inRange<long>(-3'000'000'000'000, 3'000'000'000'000));
  RC_ASSERT(parse_interval(to_text(made)).value() == made);
}

RC_GTEST_PROP(Property, FeetAndInchesAreTheirSum, ()) {
  const int whole_feet = *rc::gen::inRange(0, 500);
  const double more_inches = *rc::gen::inRange(0, 1200) / 100.0;
  const Length sum = feet(whole_feet) + inches(more_inches);
  for (const char* spelled : {"{} ft {} in", "{}'{}\"", " {}ft{}in "}) {
    const std::string text = fmt::format(fmt::runtime(spelled), whole_feet, more_inches);
    RC_ASSERT(parse_length(text).value() == sum);
    RC_ASSERT(parse_length("-" + text).value() == -sum);
  }
}

RC_GTEST_PROP(Property, ATurnThereAndBackIsNone, ()) {
  const TrueBearing bearing = TrueBearing::from_degrees(drawn_degrees());
  const Angle turn = degrees(drawn_number());
  RC_PRE(std::abs(turn.in_degrees()) < 1e5);
  RC_ASSERT(std::abs((bearing + turn - turn - bearing).in_degrees()) < 1e-9);
  RC_ASSERT(std::abs((bearing.reversed().reversed() - bearing).in_degrees()) < 1e-9);
  RC_ASSERT((bearing + turn).in_degrees() >= 0);
  RC_ASSERT((bearing + turn).in_degrees() < 360);
  const double shorter = (bearing + turn - bearing).in_degrees();
  RC_ASSERT(shorter >= -180);
  RC_ASSERT(shorter < 180);
}

RC_GTEST_PROP(Property, AVelocityKeepsItsBearingAndSpeed, ()) {
  const TrueBearing toward = TrueBearing::from_degrees(drawn_degrees());
  const Speed speed = knots(*rc::gen::inRange(1, 100'000) / 1000.0);
  const Velocity moving = velocity(toward, speed);
  RC_ASSERT(std::abs((bearing_of(moving) - toward).in_degrees()) < 1e-9);
  RC_ASSERT(std::abs(speed_of(moving) / speed - 1) < 1e-12);
  // The wind that blows that way comes from the other.
  const Velocity wind = velocity(WindFrom{toward.reversed()}, speed);
  RC_ASSERT(in_knots(speed_of(wind - moving)) < 1e-9);
  RC_ASSERT(std::abs(component_toward(toward, moving) / speed - 1) < 1e-12);
  RC_ASSERT(std::abs(in_knots(component_toward(toward + degrees(90), moving))) < 1e-9);
}

RC_GTEST_PROP(Property, ALegBackIsAsLongAndOpposite, ()) {
  const Position from = drawn_position(80);
  const TrueBearing course = TrueBearing::from_degrees(drawn_degrees());
  const Length distance = metres(*rc::gen::inRange(1, 200'000));
  const Position to = along_rhumb(from, course, distance);
  const RhumbLine there = rhumb_line(from, to);
  const RhumbLine back = rhumb_line(to, from);
  RC_ASSERT(std::abs(in_metres(there.distance - distance)) < 1e-3);
  RC_ASSERT(std::abs(in_metres(back.distance - distance)) < 1e-3);
  // A millimetre over the distance is how far the course can be off.
  const double most_deg = 1e-3 / in_metres(distance) * 60;
  RC_ASSERT(std::abs((there.course - course).in_degrees()) < most_deg);
  RC_ASSERT(std::abs((back.course - course.reversed()).in_degrees()) < most_deg);
  RC_ASSERT(geodesic_distance(from, to) <= distance + metres(1e-3));
}

RC_GTEST_PROP(Property, AChartPlaneGivesThePlaceBack, ()) {
  const ChartPlane plane(drawn_position(85));
  const ChartPlane::Point point{metres(*rc::gen::inRange(-30'000, 30'000)),
                                metres(*rc::gen::inRange(-30'000, 30'000))};
  const ChartPlane::Point back = plane.project(plane.position(point));
  RC_ASSERT(std::abs(in_metres(back.east - point.east)) < 1e-3);
  RC_ASSERT(std::abs(in_metres(back.north - point.north)) < 1e-3);
}

RC_GTEST_PROP(Property, AnInstantPrintedInAnyZoneReadsTheSame, ()) {
  const Zone zone = Zone::named(*rc::gen::element<std::string>(
                                    "UTC", "America/New_York", "America/St_Johns", "Europe/London",
                                    "Asia/Kolkata", "Australia/Lord_Howe", "Pacific/Apia",
                                    "Pacific/Chatham", "Africa/Cairo"))
                        .value();
  // 1950 to 2037: before, some offsets had seconds, which RFC 3339 cannot write.
  const Instant at{std::chrono::seconds(*rc::gen::inRange<long>(-631'152'000, 2'145'830'400))};
  RC_ASSERT(parse_instant(to_rfc3339(at, zone)).value() == at);
  const auto from_wall = zone.instant_of(zone.at(at).wall);
  // A wall time that was shown exists; it is refused only where it is shown twice.
  if (from_wall) {
    RC_ASSERT(*from_wall == at);
  } else {
    RC_ASSERT(from_wall.error().find("comes twice") != std::string::npos);
  }
  const Span day = zone.local_day(zone.day_of(at));
  RC_ASSERT(day.begin <= at);
  RC_ASSERT(at < day.end);
}

}  // namespace
}  // namespace passage_brief
