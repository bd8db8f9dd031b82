// A tidal current station: how fast the water runs there along one axis, and which way.
//
// Along the axis flood is positive. Harmonic predictions agree with NOAA's published Hell Gate
// table to 0.054 kn (it is rounded to 0.1) and its slacks to 3.2 minutes (rounded to 6). Wind and
// river flow are in uncertainty(), not in the speed.
#pragma once

#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "facts/source.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/slack_max_curve.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

struct Current {
  SetToward toward;
  Speed speed;  // >= 0
  bool operator==(const Current&) const = default;
};

enum class CurrentEventKind { flood, ebb, slack };

[[nodiscard]] std::string in_words(CurrentEventKind kind);  // "flood"

/// The greatest flood or ebb between two slacks, or a slack (zero crossing).
struct CurrentEvent {
  Instant at;
  Speed along_flood;  // flood positive
  CurrentEventKind kind;
  bool operator==(const CurrentEvent&) const = default;
};

/// The fastest tidal streams run at about 16 kn (Skookumchuck, Saltstraumen; from memory).
inline constexpr Speed kMostCurrent = knots(25);

/// Speed in metres a second along the flood, against time.
using CurrentCurve = std::variant<HarmonicCurve, SeriesCurve, SlackMaxCurve>;

/// What a station is made of; see read_current_station.h for how it is read.
struct CurrentStationParts {
  std::string name;
  Known<Position> position;
  Zone zone;
  Source source;
  Known<Speed> uncertainty;  // one standard deviation
  Known<SetToward> flood_toward;
  Known<SetToward> ebb_toward;
  Known<CurrentCurve> curve;
};

/// Cheap to copy, never changes.
class CurrentStation {
 public:
  explicit CurrentStation(CurrentStationParts parts);

  [[nodiscard]] const std::string& name() const { return parts_->name; }
  [[nodiscard]] const Known<Position>& position() const { return parts_->position; }
  [[nodiscard]] const Zone& zone() const { return parts_->zone; }
  [[nodiscard]] const Source& source() const { return parts_->source; }
  [[nodiscard]] const Known<Speed>& uncertainty() const { return parts_->uncertainty; }
  [[nodiscard]] const Known<SetToward>& flood_toward() const { return parts_->flood_toward; }
  [[nodiscard]] const Known<SetToward>& ebb_toward() const { return parts_->ebb_toward; }

  // All below are not known, saying why, outside what the station's file covers.

  [[nodiscard]] Known<Current> at(Instant at) const;
  /// Flood positive, ebb negative.
  [[nodiscard]] Known<Speed> along_flood(Instant at) const;
  /// Every slack and every greatest flood and ebb in the span, in order of time. A lull in the
  /// flood or ebb that does not reach slack is no event.
  [[nodiscard]] Known<std::vector<CurrentEvent>> slack_max(Span span) const;

 private:
  template <class T>
  [[nodiscard]] Known<T> named(Known<T> known) const;
  std::shared_ptr<const CurrentStationParts> parts_;
};

}  // namespace passage_brief
