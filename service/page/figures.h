// Numbers to text: rounded toward caution, in the reader's units, the unit beside the figure.
//
// Every figure is first snapped to a millionth of its unit, so that a charted 4 ft, held as 1.2192
// m, prints 4.0 and not 3.9; then rounded in the direction its use demands. Depths, drafts and
// clearances print to 0.1 ft or 0.1 m; distances in nautical miles to 0.01, short ones in feet or
// metres; wind to 1 kn, other speeds to 0.1 kn; bearings in three figures with T, M or "by
// compass"; times on the 24-hour clock of the waterway's zone.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "brief/copies.h"
#include "page/page_choice.h"
#include "rules/fact_value.h"
#include "rules/verdict.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// Times that leave room for it are rounded so far toward caution.
inline constexpr std::chrono::minutes kPrintedStep{5};

/// A plain number in whole steps of 10^-decimals (decimals from -2 to 4), after the snap; never
/// "-0".
[[nodiscard]] std::string rounded(double value, int decimals, Rounding way);

/// Terms and the total they add up to, as printed: whole numbers of the last digit.
struct PrintedSum {
  std::vector<long long> terms;  // signed, in the order given
  long long total;               // exactly their sum
};

/// The total is rounded by itself in the way given, so that it prints the same with and without its
/// terms. The terms then share what is left over (largest remainder first): each is within one last
/// digit of its value, and a term that has no remainder is printed as it is. `total` is the sum of
/// the terms but for the last bits of a double.
[[nodiscard]] PrintedSum printed_sum(const std::vector<double>& signed_terms, double total,
                                     int decimals, Rounding way);

/// "3.0 ft", "0.9 m": depths, clearances, drafts, wave heights.
[[nodiscard]] std::string depth_text(Length depth, Rounding way, Units units);
/// The same without its unit, for a column or a sum whose heading names it.
[[nodiscard]] std::string depth_number(Length depth, Rounding way, Units units);
/// A length in the unit depths are printed in.
[[nodiscard]] double in_depth_unit(Length depth, Units units);
/// "ft" or "m".
[[nodiscard]] std::string_view depth_unit(Units units);

/// Distances on the water: "40 ft", "310 ft" or "95 m" under a quarter mile, then "0.38 nm".
[[nodiscard]] std::string distance_text(Length distance, Rounding way, Units units);
/// "0.38 nm" at any distance.
[[nodiscard]] std::string miles_text(Length distance, Rounding way);

/// Wind that prints as 0 kn.
[[nodiscard]] bool is_calm(Speed wind);
/// "14 kn": wind, rounded up.
[[nodiscard]] std::string wind_text(Speed wind);
/// "0.8 kn", "7.5 kn".
[[nodiscard]] std::string speed_text(Speed speed, Rounding way);

/// "007 T", "359 M", "012 by compass": nearest degree, 000 to 359.
[[nodiscard]] std::string bearing_text(TrueBearing bearing);
[[nodiscard]] std::string bearing_text(MagneticBearing bearing);
[[nodiscard]] std::string bearing_text(CompassBearing bearing);
/// "6°".
[[nodiscard]] std::string angle_text(Angle angle, Rounding way);

/// "95 s" under three minutes (whole 5 s), "14 min" under two hours, then "2 h 10 min".
[[nodiscard]] std::string interval_text(Interval interval, Rounding way);

/// Times of one brief: the zone, and the day the departure stands on.
class Clock24 {
 public:
  Clock24(Zone zone, Instant departs);
  /// "09:45 EDT", to the minute; "Mon 09:45 EDT" where the local day is another than the
  /// departure's; "7 June 09:45 EDT" where it is more than six days from it, when a weekday alone
  /// would be read as one nearer by. The year too where it is another.
  [[nodiscard]] std::string with_zone(Instant at, Rounding way) const;
  /// "09:45": for a column or drawing whose heading gives letters(). Where the clocks have changed
  /// since the departure the letters stand beside it all the same.
  [[nodiscard]] std::string bare(Instant at, Rounding way) const;
  /// "EDT", on the day of departure.
  [[nodiscard]] std::string letters() const;
  /// "Sunday 14 June 2026", of departure.
  [[nodiscard]] std::string date() const;
  /// "14 June 2026 07:10 EDT".
  [[nodiscard]] std::string date_and_time(Instant at) const;
  [[nodiscard]] const Zone& zone() const { return zone_; }

 private:
  [[nodiscard]] std::string wall(Instant minute) const;
  Zone zone_;
  Instant departs_;
};

inline constexpr std::string_view kNotKnown = "not known";
/// A line to write on, where a learner's copy leaves a figure blank.
inline constexpr std::string_view kBlank = "________";

/// "not known", or the line to write on.
[[nodiscard]] inline std::string instead_of_figure(const NotKnown& why) {
  return std::string(is_left_blank(why) ? kBlank : kNotKnown);
}

/// Not known prints instead_of_figure(); a known value as `text` says.
template <class T, class ToText>
[[nodiscard]] std::string or_not_known(const Known<T>& value, const ToText& text) {
  return value.has_value() ? std::string(text(value.value())) : instead_of_figure(value.error());
}

/// Words from elsewhere with every UTC time they hold ("2026-06-15T01:00:00Z") as with_zone()
/// prints it, to the nearest minute.
[[nodiscard]] std::string with_local_times(std::string text, const Clock24& clock);

/// A sentence of the rules with its facts printed in the reader's units.
[[nodiscard]] std::string sentence_text(const Sentence& sentence, Units units,
                                        const Clock24& clock);

}  // namespace passage_brief
