// Bridges and overhead cables. Clearances are above the feature's clearance datum.
#pragma once

#include <optional>
#include <string>
#include <variant>

#include "facts/waterway/feature.h"
#include "facts/waterway/openings.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {

enum class BridgeKind { fixed, bascule, swing, lift, pontoon };

[[nodiscard]] inline bool opens(BridgeKind kind) { return kind != BridgeKind::fixed; }
[[nodiscard]] std::string in_words(BridgeKind kind);

/// What the charted clearance is measured to.
enum class ClearanceOf { low_steel, centre_of_arch, not_stated };

struct Bridge : Feature {
  std::variant<PointShape, LineShape> shape;
  BridgeKind what;
  Known<Length> clearance;  // closed
  ClearanceOf clearance_of;
  Known<Length> clearance_open;  // infinite where the span swings clear: `opens_clear`
  bool opens_clear;
  Known<Length> width;  // between fenders
  Known<bool> clearance_gauge;
  std::optional<Openings> openings;         // empty: not known when it opens
  std::optional<std::string> radio;         // "VHF 13"
  std::optional<std::string> sound_signal;  // "one prolonged, one short"
};

enum class Carries { power, telephone, not_stated };

struct OverheadCable : Feature {
  std::variant<PointShape, LineShape> shape;
  Known<Length> clearance;       // of the lowest wire
  Known<Length> safe_clearance;  // with the gap for the voltage already taken off
  Carries carries;
  Known<Voltage> voltage;
};

}  // namespace passage_brief
