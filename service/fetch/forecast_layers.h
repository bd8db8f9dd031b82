// A forecast as services give it, one layer for each figure, put together to hours and checked.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "reading/problem.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {

/// A value that holds from its begin up to, and not including, its end.
struct LayerPiece {
  Instant begin;
  Instant end;
  std::optional<double> value;  // in the unit of the layer; nothing: null in the reply
};
using Layer = std::vector<LayerPiece>;

/// SI, degrees true, and probabilities 0 to 1. An empty layer: not known.
struct ForecastLayers {
  Layer from_deg;
  Layer speed_m_s;
  Layer gust_m_s;
  Layer pressure_pa;
  Layer visibility_m;
  Layer wave_m;
  Layer thunder;
};

/// A piece that begins less than a minute before the one before it ends is one whose times were
/// rounded: it begins where that ends.
///
/// An hour for every full hour from the first begin and for every begin of a piece. Problems:
/// pieces that overlap or stand out of order, figures that cannot be (WindSeries' own ranges), no
/// wind at all. A gust that is given as less than the wind is taken as the wind. Waves of nothing
/// from begin to end come from a cell that is no sea, and are not known.
[[nodiscard]] std::optional<WindSeries> wind_series_of(Source source,
                                                       std::optional<Position> position,
                                                       ForecastLayers layers, Ledger& ledger);

}  // namespace passage_brief
