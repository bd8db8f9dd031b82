// The vessel as her skipper describes her.
//
// Draft is at the deepest load, air draft at the lightest; the passage is judged by them as they
// stand. Draft, air draft, beam, length and speeds have no default: a file without them is refused.
// What a file may leave out (windage, lateral plane, block coefficient, waterline) is estimated by
// passage/hull.h and shown as estimated.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {

enum class Hull {
  motor_displacement,
  motor_planing,
  sail_fin_keel,
  sail_long_keel,
  catamaran,
  open_boat
};

/// How a figure came to be known. Told or estimated counts as not known for a limit in the shipped
/// rules: masts have been lost to a yard's word.
enum class Basis { measured, told, estimated, not_stated };

struct BasisOfFigure {
  Basis basis;
  std::optional<std::chrono::year_month_day> measured_on;  // only where measured
};

enum class Antennas { up, down };

struct AirDraft {
  Antennas antennas;
  Length height;  // of the highest thing above the waterline, > 0
};

/// Where the depth sounder counts from.
enum class SounderZero { keel, transducer, waterline };

struct Sounder {
  SounderZero measures_from;
  std::optional<Length>
      below_waterline;  // of the transducer; present exactly where it counts from there
};

enum class RodeOf { chain, rope };

struct Anchor {
  Length rode;
  RodeOf of;
  Length bow_roller;  // height above the water
};

struct DeviationRow {
  CompassBearing heading;
  Deviation deviation;
};

/// Design category of 2013/53/EU (annex I, part A, 1) and ISO 12217, on the builder's plate.
enum class DesignCategory { a, b, c, d };

/// What a boat of the category is designed for, up to and including: D force 4 and 0.3 m, C force 6
/// and 2 m, B force 8 and 4 m; the wind is the top of the Beaufort force (16, 27, 40 kn), the wave
/// the significant height. Nothing for A, which exceeds B and has no ceiling.
[[nodiscard]] std::optional<Speed> wind_ceiling(DesignCategory category);
[[nodiscard]] std::optional<Length> wave_ceiling(DesignCategory category);

/// What a bridge takes her for: some of its rules bind pleasure craft only.
enum class VesselUse { pleasure, commercial, public_service };

/// Whom to ring: printed, never used.
struct Base {
  std::string name;
  std::optional<std::string> telephone;
  std::optional<std::string> channel;
};

struct Vessel {
  std::string name;
  Hull hull;
  int engines;  // 0 to 8
  Length length;
  std::optional<Length> waterline;
  Length beam;
  Length draft;
  BasisOfFigure draft_is;
  std::optional<std::string> deepest_part;  // "skegs"
  std::optional<double> block_coefficient;  // (0, 1]
  std::vector<AirDraft> air_draft;          // one or two: antennas up, antennas down
  BasisOfFigure air_draft_is;
  std::optional<Area> windage_area;   // side view above the water
  std::optional<Area> lateral_plane;  // side view below the water
  Speed slow;
  Speed cruise;  // slow <= cruise
  std::optional<Sounder> sounder;
  std::optional<Anchor> anchor;
  std::vector<DeviationRow> deviation;  // by rising heading; empty: no table
  std::optional<DesignCategory> design_category;
  std::optional<Base> base;
  VesselUse use = VesselUse::pleasure;
};

[[nodiscard]] std::string in_words(Hull hull);
[[nodiscard]] std::string in_words(Antennas antennas);
[[nodiscard]] std::string in_words(Basis basis);
[[nodiscard]] std::string in_words(DesignCategory category);  // "C"

}  // namespace passage_brief
