// Quantities as people write them: a number and its unit in one text.
//
//   "4 ft", "4 ft 6 in", "4'6\"", "1.2 m"      Length: m, cm, ft, in, fathoms, nm, km
//   "7.5 kn"                                   Speed: kn, m/s, km/h, mph
//   "34 m2"                                    Area: m2, ft2
//   "1012 hPa"   "6.5 t"   "115 kV"            Pressure, Mass, Voltage
//   "12 h", "1 h 30 min"                       Interval: s, min, h
//
// Numbers are plain decimals (no exponent, no comma). A smaller unit may follow a larger one (feet
// then inches, hours then minutes then seconds): then every part but the last is whole, and the
// later ones do not reach one of the part before. A sign stands in front and counts for the whole.
// A bare number is refused: the message gives an example.
#pragma once

#include <expected>
#include <string>
#include <string_view>

#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

[[nodiscard]] std::expected<Length, std::string> parse_length(std::string_view text);
[[nodiscard]] std::expected<Speed, std::string> parse_speed(std::string_view text);
[[nodiscard]] std::expected<Area, std::string> parse_area(std::string_view text);
[[nodiscard]] std::expected<Pressure, std::string> parse_pressure(std::string_view text);
[[nodiscard]] std::expected<Mass, std::string> parse_mass(std::string_view text);
[[nodiscard]] std::expected<Voltage, std::string> parse_voltage(std::string_view text);
/// Rounded to the nearest millisecond.
[[nodiscard]] std::expected<Interval, std::string> parse_interval(std::string_view text);

/// The shortest text that reads back as the same value: "1.2192 m", "3.858 m/s", "5400 s".
[[nodiscard]] std::string to_text(Length value);
[[nodiscard]] std::string to_text(Speed value);
[[nodiscard]] std::string to_text(Area value);
[[nodiscard]] std::string to_text(Pressure value);
[[nodiscard]] std::string to_text(Mass value);
[[nodiscard]] std::string to_text(Voltage value);
[[nodiscard]] std::string to_text(Interval value);

/// What is measured, for the words and patterns of a field table.
enum class Dimension { length, speed, area, pressure, mass, voltage, interval };

/// "a length", "a speed", ...
[[nodiscard]] std::string_view in_words(Dimension dimension);
/// The units that may be written: "m, cm, ft, in, fathoms, nm or km".
[[nodiscard]] std::string units_of(Dimension dimension);
/// A regular expression (ECMA 262) that every text read as this dimension matches.
[[nodiscard]] std::string pattern_of(Dimension dimension);

}  // namespace passage_brief
