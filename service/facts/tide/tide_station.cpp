#include "facts/tide/tide_station.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <expected>
#include <memory>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "facts/tide/curve.h"
#include "facts/tide/harmonic.h"
#include "units/height.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

TideHeight metres_above_datum(double height_m) { return TideHeight::above(metres(height_m)); }

}  // namespace

std::string in_words(Trend trend) {
  switch (trend) {
    case Trend::rising:
      return "rising";
    case Trend::falling:
      return "falling";
    case Trend::standing:
      return "standing";
  }
  return {};
}

TideStation::TideStation(TideStationParts parts)
    : parts_(std::make_shared<const TideStationParts>(std::move(parts))) {}

/// The reasons of a curve, which does not know whose it is.
NotKnown TideStation::named(NotKnown why) const {
  for (std::string& reason : why.reasons) {
    reason = fmt::format("tide station {}: {}", name(), reason);
  }
  return why;
}

/// What `read` says of the curve, its reasons under the station's name.
template <class Read>
auto TideStation::read(const Read& read) const {
  using Result = std::invoke_result_t<const Read&, const HarmonicCurve&>;
  if (!parts_->curve) return Result(std::unexpected(named(parts_->curve.error())));
  Result result = std::visit(read, *parts_->curve);
  if (result) return result;
  return Result(std::unexpected(named(std::move(result.error()))));
}

Known<TideHeight> TideStation::datum(std::string_view name) const {
  if (!parts_->chart_datum) return std::unexpected(named(parts_->chart_datum.error()));
  if (name == *parts_->chart_datum) return metres_above_datum(0);
  const auto plane = parts_->datums.find(std::string(name));
  const auto zero = parts_->datums.find(*parts_->chart_datum);
  for (const auto& [given, missing] : {std::pair(plane, name), {zero, *parts_->chart_datum}}) {
    if (given != parts_->datums.end()) continue;
    return std::unexpected(
        named(NotKnown{{fmt::format("it gives no {}{}", missing, parts_->why_no_datum)}}));
  }
  return TideHeight::above(plane->second - zero->second);
}

Known<TideHeight> TideStation::height(Instant at) const {
  return join([](const CurvePoint& point) { return metres_above_datum(point.value); },
              read([&](const auto& curve) { return curve.at(at); }));
}

Known<std::vector<TideHeight>> TideStation::heights(Instant begin, Interval step,
                                                    std::size_t count) const {
  return read([&](const auto& curve) -> Known<std::vector<TideHeight>> {
    std::vector<TideHeight> heights;
    heights.reserve(count);
    if constexpr (std::is_same_v<std::decay_t<decltype(curve)>, HarmonicCurve>) {
      const Known<std::vector<double>> values = curve.values(begin, step, count);
      if (!values) return not_known_as(values);
      for (const double value : *values) heights.push_back(metres_above_datum(value));
    } else {
      for (std::size_t i = 0; i < count; ++i) {
        const Known<CurvePoint> point = curve.at(begin + step * static_cast<Interval::rep>(i));
        if (!point) return not_known_as(point);
        heights.push_back(metres_above_datum(point->value));
      }
    }
    return heights;
  });
}

Known<Trend> TideStation::trend(Instant at) const {
  return join(
      [](const CurvePoint& point) {
        const Speed rate = metres_per_second(point.rate_per_s);
        if (rate > -kStanding && rate < kStanding) return Trend::standing;
        return rate > metres_per_second(0) ? Trend::rising : Trend::falling;
      },
      read([&](const auto& curve) { return curve.at(at); }));
}

Known<Trend> TideStation::trend(Span span) const {
  constexpr std::chrono::minutes kLookedAtEvery{10};
  Known<Trend> worst = trend(span.end);
  for (Instant at = span.begin; at < span.end; at += kLookedAtEvery) {
    worst = join(
        [](Trend a, Trend b) {
          if (a == Trend::falling || b == Trend::falling) return Trend::falling;
          return a == b ? a : Trend::standing;
        },
        worst, trend(at));
  }
  return worst;
}

Known<std::vector<TideEvent>> TideStation::high_low(Span span) const {
  return join(
      [](const std::vector<Turn>& turns) {
        std::vector<TideEvent> events;
        for (const Turn& turn : turns) {
          events.push_back({turn.at, metres_above_datum(turn.value), turn.high});
        }
        return events;
      },
      read([&](const auto& curve) { return curve.turns(span); }));
}

Known<TideHeight> TideStation::lowest(Span span) const {
  return join([](const Extremes& extremes) { return metres_above_datum(extremes.least); },
              read([&](const auto& curve) { return curve.extremes(span); }));
}

Known<TideHeight> TideStation::highest(Span span) const {
  return join([](const Extremes& extremes) { return metres_above_datum(extremes.greatest); },
              read([&](const auto& curve) { return curve.extremes(span); }));
}

}  // namespace passage_brief
