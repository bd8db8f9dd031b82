// A tide station: the height of tide there at any time, and the planes it is measured from.
//
// Heights are above the station's own chart datum. All are predictions: wind, air pressure and
// river flow are in uncertainty(), not in the height. How far off the curves themselves are:
// harmonic.h, series_curve.h, high_low_curve.h, subordinate_curve.h.
#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "facts/source.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/high_low_curve.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/subordinate_curve.h"
#include "units/height.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// `standing`: the level changes by less than kStanding either way.
enum class Trend { rising, falling, standing };
/// 0.1 ft in an hour: our rule, no source; less is not seen on a piling.
inline constexpr Speed kStanding = metres_per_second(0.1 * kMetresInFoot / 3600);

[[nodiscard]] std::string in_words(Trend trend);  // "rising"

/// Metres: no tide on Earth rises higher above any datum (Bay of Fundy: about 17 m of range).
inline constexpr double kMostHeight_m = 25;

/// A high or a low water.
struct TideEvent {
  Instant at;
  TideHeight height;
  bool high;
  bool operator==(const TideEvent&) const = default;
};

/// Height of tide in metres above chart datum, against time.
using TideCurve = std::variant<HarmonicCurve, SeriesCurve, HighLowCurve, SubordinateCurve>;

/// What a station is made of; see read_tide_station.h for how it is read.
struct TideStationParts {
  std::string name;
  Known<Position> position;
  Zone zone;
  Source source;
  Known<Length> uncertainty;                          // one standard deviation
  Known<std::string> chart_datum;                     // its name
  std::map<std::string, Height<StationZero>> datums;  // by name; may be empty
  std::string why_no_datum;  // said after "gives no MHW": "; it is subordinate to ..."
  Known<TideCurve> curve;
};

/// Cheap to copy, never changes.
class TideStation {
 public:
  explicit TideStation(TideStationParts parts);

  [[nodiscard]] const std::string& name() const { return parts_->name; }
  [[nodiscard]] const Known<Position>& position() const { return parts_->position; }
  [[nodiscard]] const Zone& zone() const { return parts_->zone; }
  [[nodiscard]] const Source& source() const { return parts_->source; }
  /// One standard deviation of (observed - predicted) height.
  [[nodiscard]] const Known<Length>& uncertainty() const { return parts_->uncertainty; }
  /// The name of the plane that heights are above: "MLLW".
  [[nodiscard]] const Known<std::string>& chart_datum() const { return parts_->chart_datum; }

  /// A plane by its name, as a height above this station's chart datum. Not known, saying why, when
  /// the station does not give it.
  [[nodiscard]] Known<TideHeight> datum(std::string_view name) const;

  // All below are not known, saying why, outside what the station's file covers (a published
  // table's span; the years 1900 to 2037 for harmonic constants).

  [[nodiscard]] Known<TideHeight> height(Instant at) const;
  /// `count` heights from `begin`, `step` apart; much quicker than one by one at a harmonic
  /// station.
  [[nodiscard]] Known<std::vector<TideHeight>> heights(Instant begin, Interval step,
                                                       std::size_t count) const;
  [[nodiscard]] Known<Trend> trend(Instant at) const;
  /// Rising only where it rises all through the span, falling where it falls anywhere in it: by
  /// both ends and every 10 minutes between.
  [[nodiscard]] Known<Trend> trend(Span span) const;
  /// Every high and low water in the span, in order: exact turns of the curve.
  [[nodiscard]] Known<std::vector<TideEvent>> high_low(Span span) const;
  /// The lowest and highest level anywhere in the span, ends included; exact. Quick for a span of
  /// minutes.
  [[nodiscard]] Known<TideHeight> lowest(Span span) const;
  [[nodiscard]] Known<TideHeight> highest(Span span) const;

 private:
  [[nodiscard]] NotKnown named(NotKnown why) const;
  template <class Read>
  [[nodiscard]] auto read(const Read& read) const;
  std::shared_ptr<const TideStationParts> parts_;
};

}  // namespace passage_brief
