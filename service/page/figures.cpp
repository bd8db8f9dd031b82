#include "page/figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <numeric>
#include <type_traits>
#include <utility>
#include <variant>

#include "units/check.h"

namespace passage_brief {
namespace {

constexpr long long kMillion = 1'000'000;

long long power_of_ten(int n) {
  long long p = 1;
  for (int i = 0; i < n; ++i) p *= 10;
  return p;
}

/// Millionths of the unit: the snap.
long long in_millionths(double value) {
  check(std::isfinite(value) && std::abs(value) < 1e11, "a figure to print is finite");
  return std::llround(value * static_cast<double>(kMillion));
}

long long floor_divided(long long a, long long b) {
  const long long q = a / b;
  return a % b < 0 ? q - 1 : q;
}

long long whole_steps(long long millionths, long long step, Rounding way) {
  switch (way) {
    case Rounding::down:
      return floor_divided(millionths, step);
    case Rounding::up:
      return -floor_divided(-millionths, step);
    case Rounding::nearest:
      return floor_divided(2 * millionths + step, 2 * step);
  }
  check(false, "a way of rounding");
  return 0;
}

/// Millionths in 10^-decimals.
long long step_of(int decimals) {
  check(decimals >= -2 && decimals <= 4, "decimals from -2 to 4");
  return decimals >= 0 ? kMillion / power_of_ten(decimals) : kMillion * power_of_ten(-decimals);
}

std::string digits(long long steps, int decimals) {
  if (decimals <= 0) return std::to_string(steps * power_of_ten(-decimals));
  const long long one = power_of_ten(decimals);
  const long long size = std::abs(steps);
  return fmt::format("{}{}.{:0{}}", steps < 0 ? "-" : "", size / one, size % one, decimals);
}

std::string three_figures(double degrees_in_circle) {
  return fmt::format("{:03}", std::llround(degrees_in_circle) % 360);
}

std::string weekday_name(std::chrono::year_month_day day) {
  constexpr std::array names = {"Sunday",   "Monday", "Tuesday", "Wednesday",
                                "Thursday", "Friday", "Saturday"};
  return names.at(std::chrono::weekday(std::chrono::sys_days(day)).c_encoding());
}

Instant to_the_minute(Instant at, Rounding way) {
  using std::chrono::minutes;
  switch (way) {
    case Rounding::down:
      return std::chrono::floor<minutes>(at);
    case Rounding::up:
      return std::chrono::ceil<minutes>(at);
    case Rounding::nearest:
      return std::chrono::floor<minutes>(at + std::chrono::seconds(30));
  }
  check(false, "a way of rounding");
  return at;
}

}  // namespace

std::string rounded(double value, int decimals, Rounding way) {
  return digits(whole_steps(in_millionths(value), step_of(decimals), way), decimals);
}

PrintedSum printed_sum(const std::vector<double>& signed_terms, double total, int decimals,
                       Rounding way) {
  const long long step = step_of(decimals);
  PrintedSum sum{{}, whole_steps(in_millionths(total), step, way)};
  std::vector<long long> remainders;
  for (const double term : signed_terms) {
    const long long exact = in_millionths(term);
    sum.terms.push_back(floor_divided(exact, step));
    remainders.push_back(exact - sum.terms.back() * step);
  }
  std::vector<std::size_t> order(signed_terms.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(
      order, [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
  // What is missing is at most one step for each term with a remainder. It can be less than nothing
  // only by the snap of several terms; the smallest remainder then gives way.
  long long missing = sum.total - std::reduce(sum.terms.begin(), sum.terms.end(), 0LL);
  if (missing < 0) std::ranges::reverse(order);
  const long long toward = missing < 0 ? -1 : 1;
  for (const std::size_t i : order) {
    if (missing == 0) break;
    sum.terms[i] += toward;
    missing -= toward;
  }
  check(missing == 0, "printed terms add up to the printed total");
  return sum;
}

double in_depth_unit(Length depth, Units units) {
  return units == Units::us ? in_feet(depth) : in_metres(depth);
}

std::string_view depth_unit(Units units) { return units == Units::us ? "ft" : "m"; }

std::string depth_number(Length depth, Rounding way, Units units) {
  return rounded(in_depth_unit(depth, units), 1, way);
}

std::string depth_text(Length depth, Rounding way, Units units) {
  return fmt::format("{} {}", depth_number(depth, way, units), depth_unit(units));
}

std::string miles_text(Length distance, Rounding way) {
  return rounded(in_nautical_miles(distance), 2, way) + " nm";
}

std::string distance_text(Length distance, Rounding way, Units units) {
  if (in_nautical_miles(distance) >= 0.25) return miles_text(distance, way);
  const double count = in_depth_unit(distance, units);
  const int decimals = std::abs(count) < 100 ? 0 : -1;
  return fmt::format("{} {}", rounded(count, decimals, way), depth_unit(units));
}

bool is_calm(Speed wind) { return rounded(in_knots(wind), 0, Rounding::up) == "0"; }

std::string wind_text(Speed wind) { return rounded(in_knots(wind), 0, Rounding::up) + " kn"; }

std::string speed_text(Speed speed, Rounding way) {
  return rounded(in_knots(speed), 1, way) + " kn";
}

std::string bearing_text(TrueBearing bearing) { return three_figures(bearing.in_degrees()) + " T"; }
std::string bearing_text(MagneticBearing bearing) {
  return three_figures(bearing.in_degrees()) + " M";
}
std::string bearing_text(CompassBearing bearing) {
  return three_figures(bearing.in_degrees()) + " by compass";
}

std::string angle_text(Angle angle, Rounding way) {
  return rounded(angle.in_degrees(), 0, way) + "\u00b0";
}

std::string interval_text(Interval interval, Rounding way) {
  if (interval < Interval(0)) {
    const Rounding other = way == Rounding::down ? Rounding::up
                           : way == Rounding::up ? Rounding::down
                                                 : Rounding::nearest;
    return "minus " + interval_text(-interval, other);
  }
  const double seconds = in_seconds(interval);
  const long long fives = whole_steps(in_millionths(seconds), 5 * kMillion, way);
  if (fives < 36) return fmt::format("{} s", fives * 5);
  const long long minutes = whole_steps(in_millionths(seconds), 60 * kMillion, way);
  if (minutes < 120) return fmt::format("{} min", minutes);
  return fmt::format("{} h {:02} min", minutes / 60, minutes % 60);
}

Clock24::Clock24(Zone zone, Instant departs) : zone_(std::move(zone)), departs_(departs) {}

std::string Clock24::wall(Instant minute) const {
  const std::string time = hours_and_minutes(zone_.at(minute));
  const auto day = zone_.day_of(minute);
  const auto own = zone_.day_of(departs_);
  if (day == own) return time;
  constexpr std::chrono::days kWeekdayTells{6};
  if (std::chrono::abs(std::chrono::sys_days(day) - std::chrono::sys_days(own)) <= kWeekdayTells) {
    return weekday_name(day).substr(0, 3) + " " + time;
  }
  std::string date = date_text(day);
  if (day.year() == own.year()) date.erase(date.find_last_of(' '));
  return date + " " + time;
}

std::string Clock24::bare(Instant at, Rounding way) const {
  const Instant minute = to_the_minute(at, way);
  const std::string abbreviation = zone_.at(minute).abbreviation;
  return abbreviation == letters() ? wall(minute) : wall(minute) + " " + abbreviation;
}

std::string Clock24::with_zone(Instant at, Rounding way) const {
  const Instant minute = to_the_minute(at, way);
  return wall(minute) + " " + zone_.at(minute).abbreviation;
}

std::string Clock24::letters() const { return zone_.at(departs_).abbreviation; }

std::string Clock24::date() const {
  const auto day = zone_.day_of(departs_);
  return weekday_name(day) + " " + date_text(day);
}

std::string Clock24::date_and_time(Instant at) const {
  return passage_brief::date_and_time(at, zone_);
}

namespace {

/// Without the zeros that say nothing: "2.00" is 2.
std::string shortest(std::string decimals) {
  if (decimals.find('.') == std::string::npos) return decimals;
  decimals.erase(decimals.find_last_not_of('0') + 1);
  if (decimals.ends_with('.')) decimals.pop_back();
  return decimals;
}

std::string speed_fact(Speed speed, const FactInText& fact) {
  if (fact.printed_as != PrintedAs::wind) return speed_text(speed, fact.rounding);
  return rounded(in_knots(speed), 0, fact.rounding) + " kn";
}

std::string number_fact(double number, const FactInText& fact) {
  if (fact.printed_as == PrintedAs::whole) return rounded(number, 0, fact.rounding);
  if (fact.printed_as == PrintedAs::percent) {
    return rounded(100 * number, 0, fact.rounding) + " %";
  }
  return shortest(rounded(number, 2, fact.rounding));
}

std::string angle_fact(Angle angle, const FactInText& fact) {
  const double deg = angle.in_degrees();
  switch (fact.printed_as) {
    case PrintedAs::true_bearing:
      return bearing_text(TrueBearing::from_degrees(deg));
    case PrintedAs::magnetic_bearing:
      return bearing_text(MagneticBearing::from_degrees(deg));
    case PrintedAs::compass_bearing:
      return bearing_text(CompassBearing::from_degrees(deg));
    case PrintedAs::usual:
    case PrintedAs::distance:
    case PrintedAs::wind:
    case PrintedAs::whole:
    case PrintedAs::percent:
      break;
  }
  return angle_text(angle, fact.rounding);
}

std::string fact_text(const FactValue& value, const FactInText& fact, Units units,
                      const Clock24& clock) {
  return std::visit(
      [&](const auto& v) -> std::string {
        using T = std::decay_t<decltype(v)>;
        if constexpr (std::is_same_v<T, Length>) {
          return fact.printed_as == PrintedAs::distance ? distance_text(v, fact.rounding, units)
                                                        : depth_text(v, fact.rounding, units);
        } else if constexpr (std::is_same_v<T, Speed>) {
          return speed_fact(v, fact);
        } else if constexpr (std::is_same_v<T, Interval>) {
          return interval_text(v, fact.rounding);
        } else if constexpr (std::is_same_v<T, Instant>) {
          return clock.with_zone(v, fact.rounding);
        } else if constexpr (std::is_same_v<T, Angle>) {
          return angle_fact(v, fact);
        } else if constexpr (std::is_same_v<T, Voltage>) {
          return rounded(in_kilovolts(v), 0, fact.rounding) + " kV";
        } else if constexpr (std::is_same_v<T, double>) {
          return number_fact(v, fact);
        } else if constexpr (std::is_same_v<T, bool>) {
          return v ? "yes" : "no";
        } else {
          return v;
        }
      },
      value);
}

}  // namespace

std::string with_local_times(std::string text, const Clock24& clock) {
  constexpr std::string_view kForm = "0000-00-00T00:00:00Z";
  const auto stands_at = [&](std::size_t at) {
    return std::ranges::equal(kForm, text.substr(at, kForm.size()), [](char form, char c) {
      return form == '0' ? c >= '0' && c <= '9' : c == form;
    });
  };
  for (std::size_t at = 0; at + kForm.size() <= text.size(); ++at) {
    if (!stands_at(at)) continue;
    const auto instant = parse_instant(text.substr(at, kForm.size()));
    if (!instant.has_value() || !Zone::covers(*instant)) continue;
    text.replace(at, kForm.size(), clock.with_zone(*instant, Rounding::nearest));
  }
  return text;
}

std::string sentence_text(const Sentence& sentence, Units units, const Clock24& clock) {
  std::string text;
  for (const auto& piece : sentence) {
    if (const auto* words = std::get_if<std::string>(&piece)) {
      text += *words;
      continue;
    }
    const FactInText& fact = std::get<FactInText>(piece);
    text += or_not_known(
        fact.value, [&](const FactValue& value) { return fact_text(value, fact, units, clock); });
  }
  return text;
}

}  // namespace passage_brief
