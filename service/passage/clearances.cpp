#include "passage/clearances.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "passage/figure.h"
#include "passage/findings.h"
#include "passage/margins.h"
#include "passage/water_level.h"
#include "passage/weather_here.h"
#include "plan/vessel.h"
#include "units/height.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

/// The tide at a feature's own station as the boat passes: the highest while its figure must hold.
struct TideAtFeature {
  Known<TideHeight> height = not_known("no time");
  Known<Trend> trend = not_known("no time");
  Known<TideHeight> clearance_datum = not_known("no datum");
  std::vector<ErrorTerm> errors;
  Known<bool> error_known = true;
  std::vector<WorkingInput> beside;  // what of the height is not prediction
};

TideAtFeature tide_at(const Feature& feature, const Passing& passing, const Facts& facts,
                      const Margins& margins) {
  const std::string& name = feature.stations.tide;
  const Known<const TideStation*> station = facts.tide(name);
  TideAtFeature tide;
  const Known<Span> span = while_under(passing);
  tide.height = join([&](Span t) { return highest_below_bridges(facts, margins, name, t); }, span);
  tide.trend =
      join([](const TideStation* s, Instant at) { return s->trend(at); }, station, passing.at);
  const std::string& datum = feature.stations.clearance_datum;
  if (datum.empty()) {
    tide.clearance_datum = not_known("no clearance datum is stated for " + feature.name);
  } else {
    tide.clearance_datum =
        join([&datum](const TideStation* s) { return s->datum(datum); }, station);
  }
  const Known<std::vector<ErrorTerm>> errors =
      join([&](Span t) { return level_errors(facts, margins, name, t); }, span);
  if (errors.has_value()) {
    tide.errors = *errors;
  } else {
    tide.error_known = not_known_as(errors);
  }
  if (span.has_value()) {
    tide.beside = beside_inputs(LevelFor::clearances, facts, margins, name, *span);
  }
  return tide;
}

struct Clearance {
  Known<Length> now;
  Known<Length> could_be;
};

Clearance clearance_of(const Known<Length>& charted, const TideAtFeature& tide,
                       const Known<bool>& time_is_sure) {
  Clearance clearance{
      join([](Length c, TideHeight datum, TideHeight height) { return c + (datum - height); },
           charted, tide.clearance_datum, tide.height),
      not_known("not worked out")};
  clearance.could_be = join(
      [&](Length now, bool, bool) { return could_be_as_little_as({now, tide.errors, metres(0)}); },
      clearance.now, tide.error_known, time_is_sure);
  return clearance;
}

std::vector<OverMast> over_mast(const Vessel& vessel, const Clearance& clearance,
                                const Known<Length>& half_wave) {
  std::vector<OverMast> all;
  for (const AirDraft& air_draft : vessel.air_draft) {
    const auto over = [&air_draft](Length height, Length wave) {
      return height - air_draft.height - wave;
    };
    all.push_back({air_draft.antennas, air_draft.height, join(over, clearance.now, half_wave),
                   join(over, clearance.could_be, half_wave)});
  }
  return all;
}

/// What not even a calm leaves room for does not fit, whether or not the waves are known.
Known<std::optional<Antennas>> kept_under(const Vessel& vessel, const Clearance& clearance,
                                          const std::vector<OverMast>& masts, Length margin) {
  const auto in_a_calm = kept_in(over_mast(vessel, clearance, metres(0)), margin);
  const bool none = in_a_calm.has_value() && !in_a_calm->has_value();
  return none ? in_a_calm : kept_in(masts, margin);
}

/// The state with the least height, antennas down where the vessel has it.
const OverMast& lowest(const std::vector<OverMast>& all) {
  return *std::ranges::min_element(all, {}, [](const OverMast& o) { return o.air_draft; });
}

Working clearance_working(const std::string& name, const Known<Length>& charted,
                          const TideAtFeature& tide, const Clearance& clearance,
                          const std::vector<OverMast>& masts, const Known<Length>& half_wave,
                          const std::string& station) {
  Working working{"clearance, " + name,
                  "charted clearance + (clearance datum - height of tide); over the mast: less air "
                  "draft and half the wave or the wash",
                  {},
                  std::string("not known"),
                  "definition of a charted clearance; Coast Pilot chapter 1 (from memory)"};
  if (charted.has_value()) working.inputs.push_back({"charted clearance", *charted, "waterway"});
  if (tide.clearance_datum.has_value()) {
    working.inputs.push_back(
        {"clearance datum above chart datum", tide.clearance_datum->above_datum(), station});
  }
  if (tide.height.has_value()) {
    working.inputs.push_back({"height of tide", tide.height->above_datum(), station});
    working.inputs.insert(working.inputs.end(), tide.beside.begin(), tide.beside.end());
  }
  for (const OverMast& mast : masts) {
    working.inputs.push_back(
        {"air draft, antennas " + in_words(mast.antennas), mast.air_draft, "vessel"});
  }
  if (half_wave.has_value()) {
    working.inputs.push_back({"half the wave, or the wash", *half_wave, "forecast or rules"});
  }
  for (const ErrorTerm& error : tide.errors) {
    working.inputs.push_back(
        {"one standard deviation, " + error.name, error.one_sigma, error.source});
  }
  for (const OverMast& mast : masts) {
    if (!mast.over_mast.has_value()) continue;
    working.inputs.push_back(
        {"over the mast, antennas " + in_words(mast.antennas), *mast.over_mast, "worked out"});
  }
  if (clearance.now.has_value()) working.result = *clearance.now;
  return working;
}

}  // namespace

BridgeFinding bridge_finding(const Bridge& bridge, const Passing& passing, const Vessel& vessel,
                             const Facts& facts, const Margins& margins,
                             const Known<Length>& half_wave) {
  const TideAtFeature tide = tide_at(bridge, passing, facts, margins);
  const Clearance clearance = clearance_of(bridge.clearance, tide, passing.time_is_sure);
  std::vector<OverMast> masts = over_mast(vessel, clearance, half_wave);
  const auto kept = kept_under(vessel, clearance, masts, margins.under_bridge);
  const Known<bool> fits =
      join([](const std::optional<Antennas>& with) { return with.has_value(); }, kept);
  const Known<Antennas> fits_with =
      fitting(kept, "the mast does not fit under " + bridge.name + " closed");
  const Length counted_air_draft =
      fits_with == Known<Antennas>(Antennas::up)
          ? std::ranges::max(masts, {}, [](const OverMast& o) { return o.air_draft; }).air_draft
          : lowest(masts).air_draft;
  const Known<Length> gauge_at_least =
      join([&](Length wave) { return counted_air_draft + margins.under_bridge + wave; }, half_wave);
  Known<Length> gauge_reads = clearance.now;
  if (bridge.clearance_of != ClearanceOf::low_steel) {
    gauge_reads = not_known(bridge.clearance_of == ClearanceOf::centre_of_arch
                                ? "the chart gives the centre of the arch of " + bridge.name +
                                      "; a gauge reads to low steel"
                                : "the chart does not say what the clearance of " + bridge.name +
                                      " is measured to");
  }
  const Known<bool> opening_needed =
      opens(bridge.what) ? join([](bool closed) { return !closed; }, fits) : Known<bool>(false);
  Working working = clearance_working(bridge.name, bridge.clearance, tide, clearance, masts,
                                      half_wave, bridge.stations.tide);
  return {.name = bridge.name,
          .what = bridge.what,
          .passing = passing,
          .charted = bridge.clearance,
          .clearance_datum = tide.clearance_datum,
          .height_of_tide = tide.height,
          .tide_is = tide.trend,
          .clearance = clearance.now,
          .clearance_could_be = clearance.could_be,
          .wave = half_wave,
          .over_mast = std::move(masts),
          .fits_with = fits_with,
          .fits = fits,
          .opening_needed = opening_needed,
          .gauge_reads = gauge_reads,
          .gauge_at_least = gauge_at_least,
          .clearance_gauge = bridge.clearance_gauge,
          .width = bridge.width,
          .beam = vessel.beam,
          .margin = margins.under_bridge,
          .wind = join([&](Instant at) { return wind_here(facts, passing.where, at); }, passing.at),
          .current = not_known("no current station is named here"),
          .radio = bridge.radio,
          .sound_signal = bridge.sound_signal,
          .tide_station = bridge.stations.tide,
          .errors = tide.errors,
          .working = std::move(working)};
}

bool opens_only_so_high(const Bridge& bridge) { return opens(bridge.what) && !bridge.opens_clear; }

OpenSpan open_span(const Bridge& bridge, const Passing& passing, const Vessel& vessel,
                   const Facts& facts, const Margins& margins, const Known<Length>& half_wave) {
  const Clearance clearance = clearance_of(
      bridge.clearance_open, tide_at(bridge, passing, facts, margins), passing.time_is_sure);
  std::vector<OverMast> masts = over_mast(vessel, clearance, half_wave);
  const Known<Antennas> fits_with =
      fitting(kept_under(vessel, clearance, masts, margins.under_bridge),
              "the mast does not fit under " + bridge.name + " open");
  return {bridge.clearance_open, clearance.now, clearance.could_be, std::move(masts), fits_with};
}

Known<bool> mast_fits(const Bridge& bridge, const Known<Length>& charted, Instant at,
                      const Vessel& vessel, const Facts& facts, const Margins& margins,
                      const Known<Length>& half_wave, Length higher) {
  if (vessel.air_draft.empty()) return not_known("no air draft");
  const std::string& plane = bridge.stations.clearance_datum;
  if (plane.empty()) return not_known("no clearance datum is stated for " + bridge.name);
  const Known<const TideStation*> station = facts.tide(bridge.stations.tide);
  const Length mast = std::ranges::min(vessel.air_draft, {}, &AirDraft::height).height;
  const Known<Length> room =
      join([&](Length c, TideHeight datum,
               TideHeight height) { return c + (datum - height) - higher - mast; },
           charted, join([&](const TideStation* s) { return s->datum(plane); }, station),
           level_below_bridges(facts, margins, bridge.stations.tide, at));
  if (room.has_value() && !keeps(*room, margins.under_bridge)) return false;
  return join([&](Length left, Length wave) { return keeps(left - wave, margins.under_bridge); },
              room, half_wave);
}

Known<Length> less_by(const Bridge& bridge, Instant at, const Facts& facts,
                      const Margins& margins) {
  const TideAtFeature tide = tide_at(bridge, {metres(0), at, position_at(0, 0), 0}, facts, margins);
  return join(
      [&](bool) { return metres(0) - could_be_as_little_as({metres(0), tide.errors, metres(0)}); },
      tide.error_known);
}

Known<Length> cable_gap(const OverheadCable& cable) {
  if (cable.carries == Carries::telephone) return metres(0);
  if (cable.carries == Carries::not_stated) {
    return not_known("it is not stated what " + cable.name + " carries");
  }
  if (!cable.voltage.has_value()) {
    return not_known("the voltage of " + cable.name + " is not known");
  }
  struct Row {
    double up_to_kv;
    double gap_ft;
  };
  // 33 CFR 322.5(i)(2), extra over the clearance of a bridge (from memory).
  constexpr std::array<Row, 8> kTable{
      {{115, 20}, {138, 22}, {161, 24}, {230, 26}, {350, 30}, {500, 35}, {700, 42}, {765, 45}}};
  for (const Row& row : kTable) {
    if (in_kilovolts(*cable.voltage) <= row.up_to_kv) return feet(row.gap_ft);
  }
  return not_known("no gap is published for the voltage of " + cable.name);
}

CableFinding cable_finding(const OverheadCable& cable, const Passing& passing, const Vessel& vessel,
                           const Facts& facts, const Margins& margins,
                           const Known<Length>& half_wave) {
  const TideAtFeature tide = tide_at(cable, passing, facts, margins);
  // A safe clearance has the gap taken off already: it counts with no further gap.
  const bool safe = cable.safe_clearance.has_value();
  const Known<Length>& charted = safe ? cable.safe_clearance : cable.clearance;
  const Known<Length> gap = safe ? Known<Length>(metres(0)) : cable_gap(cable);
  const Clearance clearance = clearance_of(charted, tide, passing.time_is_sure);
  std::vector<OverMast> masts = over_mast(vessel, clearance, half_wave);
  const auto less_gap = [](Length over, Length keep) { return over - keep; };
  const Known<Antennas> antennas = antennas_under_wire(masts, gap, margins.under_bridge);
  const OverMast& passed = antennas.has_value() ? *in_state(masts, *antennas) : lowest(masts);
  Known<Length> to_spare = join(less_gap, passed.over_mast, gap);
  Known<Length> to_spare_could_be = join(less_gap, passed.over_mast_could_be, gap);
  Working working = clearance_working(cable.name, charted, tide, clearance, masts, half_wave,
                                      cable.stations.tide);
  if (gap.has_value()) {
    working.inputs.push_back(
        {"gap to keep below the wire", *gap,
         safe ? "already taken off the charted figure" : "33 CFR 322.5(i)(2) (from memory)"});
  }
  return {.name = cable.name,
          .passing = passing,
          .carries = cable.carries,
          .voltage = cable.voltage,
          .gap = gap,
          .charted = charted,
          .clearance_datum = tide.clearance_datum,
          .height_of_tide = tide.height,
          .clearance = clearance.now,
          .clearance_could_be = clearance.could_be,
          .wave = half_wave,
          .over_mast = std::move(masts),
          .antennas = antennas,
          .to_spare = std::move(to_spare),
          .to_spare_could_be = std::move(to_spare_could_be),
          .margin = margins.under_bridge,
          .tide_station = cable.stations.tide,
          .errors = tide.errors,
          .working = std::move(working)};
}

}  // namespace passage_brief
