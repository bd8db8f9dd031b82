#include "reading/quantity_text.h"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

struct Unit {
  Dimension dimension;
  std::string_view written;
  double (*in_si)(
      double);  // by the quantity's own maker, so that "7.5 kn" is knots(7.5) to the bit
  bool listed;  // named when a person asks which units there are
};

constexpr double of_feet(double v) { return feet(v).si(); }
constexpr double of_inches(double v) { return inches(v).si(); }
constexpr double of_fathoms(double v) { return fathoms(v).si(); }
constexpr double of_knots(double v) { return knots(v).si(); }
constexpr double of_square_feet(double v) { return square_feet(v).si(); }
constexpr double of_si(double v) { return v; }

constexpr std::array kUnits{
    Unit{Dimension::length, "m", of_si, true},
    Unit{Dimension::length, "cm", [](double v) { return centimetres(v).si(); }, true},
    Unit{Dimension::length, "ft", of_feet, true},
    Unit{Dimension::length, "in", of_inches, true},
    Unit{Dimension::length, "fathoms", of_fathoms, true},
    Unit{Dimension::length, "nm", [](double v) { return nautical_miles(v).si(); }, true},
    Unit{Dimension::length, "km", [](double v) { return kilometres(v).si(); }, true},
    Unit{Dimension::length, "'", of_feet, false},
    Unit{Dimension::length, "\"", of_inches, false},
    Unit{Dimension::length, "\u2032", of_feet, false},
    Unit{Dimension::length, "\u2033", of_inches, false},
    Unit{Dimension::length, "foot", of_feet, false},
    Unit{Dimension::length, "feet", of_feet, false},
    Unit{Dimension::length, "inch", of_inches, false},
    Unit{Dimension::length, "inches", of_inches, false},
    Unit{Dimension::length, "fathom", of_fathoms, false},
    Unit{Dimension::speed, "kn", of_knots, true},
    Unit{Dimension::speed, "m/s", of_si, true},
    Unit{Dimension::speed, "km/h", [](double v) { return kilometres_per_hour(v).si(); }, true},
    Unit{Dimension::speed, "mph", [](double v) { return miles_per_hour(v).si(); }, true},
    Unit{Dimension::speed, "knot", of_knots, false},
    Unit{Dimension::speed, "knots", of_knots, false},
    Unit{Dimension::area, "m2", of_si, true},
    Unit{Dimension::area, "ft2", of_square_feet, true},
    Unit{Dimension::area, "m\u00b2", of_si, false},
    Unit{Dimension::area, "ft\u00b2", of_square_feet, false},
    Unit{Dimension::pressure, "hPa", [](double v) { return hectopascals(v).si(); }, true},
    Unit{Dimension::mass, "t", [](double v) { return tonnes(v).si(); }, true},
    Unit{Dimension::voltage, "kV", [](double v) { return kilovolts(v).si(); }, true},
    Unit{Dimension::interval, "s", of_si, true},
    Unit{Dimension::interval, "min", [](double v) { return v * 60; }, true},
    Unit{Dimension::interval, "h", [](double v) { return v * 3600; }, true},
};

std::string_view example_of(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "\"4 ft 6 in\" or \"1.2 m\"";
    case Dimension::speed:
      return "\"7.5 kn\"";
    case Dimension::area:
      return "\"34 m2\"";
    case Dimension::pressure:
      return "\"1012 hPa\"";
    case Dimension::mass:
      return "\"6.5 t\"";
    case Dimension::voltage:
      return "\"115 kV\"";
    case Dimension::interval:
      return "\"12 h\" or \"30 min\"";
  }
  return {};
}

std::string_view without_spaces_around(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Takes "12", "12.5" or ".5" off the front.
std::optional<double> take_decimal(std::string_view& text) {
  std::size_t length = 0;
  std::size_t digits = 0;
  bool point = false;
  while (length < text.size() && (is_digit(text[length]) || (text[length] == '.' && !point))) {
    if (text[length] == '.') {
      point = true;
    } else {
      ++digits;
    }
    ++length;
  }
  if (digits == 0) return std::nullopt;
  double value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + length, value, std::chars_format::fixed);
  if (error != std::errc() || end != text.data() + length) return std::nullopt;
  text.remove_prefix(length);
  return value;
}

/// Takes what stands before the next digit, space or sign: a unit, right or wrong. "m2" and "ft2"
/// keep their digit where nothing follows it: "4ft2in" is four feet and two inches.
std::string_view take_unit_text(std::string_view& text) {
  std::size_t length = 0;
  while (length < text.size() && text[length] != ' ' && !is_digit(text[length]) &&
         text[length] != '.') {
    ++length;
    // 4'6" has no space: a mark for feet or inches ends itself.
    if (length == 1 && (text[0] == '\'' || text[0] == '"')) break;
  }
  const std::string_view letters = text.substr(0, length);
  const bool only_2_follows = without_spaces_around(text.substr(length)) == "2";
  if ((letters == "m" || letters == "ft") && only_2_follows && text[length] == '2') ++length;
  const std::string_view unit = text.substr(0, length);
  text.remove_prefix(length);
  return unit;
}

const Unit* unit_written(std::string_view written) {
  for (const Unit& unit : kUnits) {
    if (unit.written == written) return &unit;
  }
  return nullptr;
}

/// How many of the smaller unit make one of the larger, when both may stand in one text: feet then
/// inches, hours then minutes then seconds; 0 when they may not.
double in_one_of(const Unit& larger, const Unit& smaller) {
  const bool feet_and_inches =
      larger.in_si(1) == kMetresInFoot && smaller.in_si(1) == kMetresInInch;
  if (larger.dimension == Dimension::length) return feet_and_inches ? 12 : 0;
  if (larger.dimension != Dimension::interval) return 0;
  const double count = larger.in_si(1) / smaller.in_si(1);
  return count > 1 ? count : 0;
}

// "{}" would print an exponent when the value is very small or large; quantities are plain
// decimals.
std::string plain_decimal(double value) {
  std::array<char, 400> digits{};
  const auto [end, error] =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return error == std::errc() ? std::string(digits.data(), end) : std::string("too large");
}

class QuantityText {
 public:
  QuantityText(std::string_view whole, Dimension dimension) : whole_(whole), wanted_(dimension) {}

  std::expected<double, std::string> read() const {
    std::string_view rest = without_spaces_around(whole_);
    if (rest.size() > 60) return refuse("is too long");
    double sign = 1;
    if (!rest.empty() && (rest.front() == '-' || rest.front() == '+')) {
      sign = rest.front() == '-' ? -1 : 1;
      rest = without_spaces_around(rest.substr(1));
    }
    double sum = 0;
    const Unit* before = nullptr;
    double value_before = 0;
    while (!rest.empty()) {
      const std::optional<double> value = take_decimal(rest);
      if (!value) return refuse("has no plain number where one was expected");
      rest = without_spaces_around(rest);
      if (rest.empty()) return refuse("has no unit");
      const std::string_view written = take_unit_text(rest);
      const Unit* unit = unit_written(written);
      if (unit == nullptr) {
        return refuse(fmt::format("has the unit \"{}\", which is not read here", written));
      }
      if (unit->dimension != wanted_) {
        return refuse(
            fmt::format("is not {} but {}", in_words(wanted_), in_words(unit->dimension)));
      }
      if (before != nullptr) {
        const double most = in_one_of(*before, *unit);
        if (most == 0) return refuse("mixes units that do not go together");
        if (value_before != std::floor(value_before))
          return refuse("splits a unit that has a fraction");
        if (*value >= most) return refuse(fmt::format("has {} or more in its smaller unit", most));
      }
      sum += unit->in_si(*value);
      before = unit;
      value_before = *value;
      rest = without_spaces_around(rest);
    }
    if (before == nullptr) return refuse("is empty");
    return sign * sum;
  }

 private:
  std::unexpected<std::string> refuse(std::string_view why) const {
    return std::unexpected(fmt::format("\"{}\" {}; write {} with its unit ({}), like {}",
                                       whole_.substr(0, 60), why, in_words(wanted_),
                                       units_of(wanted_), example_of(wanted_)));
  }

  std::string_view whole_;
  Dimension wanted_;
};

template <class Q>
std::expected<Q, std::string> parse_as(std::string_view text, Dimension dimension) {
  const std::expected<double, std::string> si = QuantityText(text, dimension).read();
  if (!si) return std::unexpected(si.error());
  return Q::from_si(*si);
}

}  // namespace

std::expected<Length, std::string> parse_length(std::string_view text) {
  return parse_as<Length>(text, Dimension::length);
}
std::expected<Speed, std::string> parse_speed(std::string_view text) {
  return parse_as<Speed>(text, Dimension::speed);
}
std::expected<Area, std::string> parse_area(std::string_view text) {
  return parse_as<Area>(text, Dimension::area);
}
std::expected<Pressure, std::string> parse_pressure(std::string_view text) {
  return parse_as<Pressure>(text, Dimension::pressure);
}
std::expected<Mass, std::string> parse_mass(std::string_view text) {
  return parse_as<Mass>(text, Dimension::mass);
}
std::expected<Voltage, std::string> parse_voltage(std::string_view text) {
  return parse_as<Voltage>(text, Dimension::voltage);
}
std::expected<Interval, std::string> parse_interval(std::string_view text) {
  const std::expected<double, std::string> s = QuantityText(text, Dimension::interval).read();
  if (!s) return std::unexpected(s.error());
  constexpr double hundred_years_s = 3.2e9;  // well inside what a count of milliseconds can hold
  if (std::abs(*s) > hundred_years_s) {
    return std::unexpected(fmt::format("\"{}\" is more than a hundred years", text));
  }
  return seconds_long(*s);
}

std::string to_text(Length value) { return plain_decimal(value.si()) + " m"; }
std::string to_text(Speed value) { return plain_decimal(value.si()) + " m/s"; }
std::string to_text(Area value) { return plain_decimal(value.si()) + " m2"; }
std::string to_text(Pressure value) { return plain_decimal(in_hectopascals(value)) + " hPa"; }
std::string to_text(Mass value) { return plain_decimal(in_tonnes(value)) + " t"; }
std::string to_text(Voltage value) { return plain_decimal(in_kilovolts(value)) + " kV"; }
std::string to_text(Interval value) { return plain_decimal(in_seconds(value)) + " s"; }

std::string_view in_words(Dimension dimension) {
  switch (dimension) {
    case Dimension::length:
      return "a length";
    case Dimension::speed:
      return "a speed";
    case Dimension::area:
      return "an area";
    case Dimension::pressure:
      return "a pressure";
    case Dimension::mass:
      return "a mass";
    case Dimension::voltage:
      return "a voltage";
    case Dimension::interval:
      return "a length of time";
  }
  return {};
}

std::string units_of(Dimension dimension) {
  std::vector<std::string_view> listed;
  for (const Unit& unit : kUnits) {
    if (unit.dimension == dimension && unit.listed) listed.push_back(unit.written);
  }
  std::string words;
  for (std::size_t i = 0; i < listed.size(); ++i) {
    if (i > 0) words += i + 1 == listed.size() ? " or " : ", ";
    words += listed[i];
  }
  return words;
}

std::string pattern_of(Dimension dimension) {
  std::string units;
  for (const Unit& unit : kUnits) {
    if (unit.dimension != dimension) continue;
    if (!units.empty()) units += "|";
    units += unit.written;
  }
  return fmt::format("^ *[-+]? *(([0-9]+\\.?[0-9]*|\\.[0-9]+) *({}) *)+$", units);
}

}  // namespace passage_brief
