// Bridges and cables against the published tables, and the traps of datums by hand.
#include "passage/clearances.h"

#include <gtest/gtest.h>

#include <map>
#include <string>

#include "given/csv_table.h"
#include "given/open_water.h"
#include "passage/under_keel.h"

namespace passage_brief {
namespace {

Length in_unit(double value, const std::string& unit) {
  return unit == "ft" ? feet(value) : metres(value);
}

Bridge plain_bridge(Length clearance) {
  return {{"Bridge", {"Gauge", "none", "CD", "MHW"}},
          given::at(0, 500),
          BridgeKind::fixed,
          clearance,
          ClearanceOf::low_steel,
          not_known("fixed"),
          false,
          metres(20),
          true,
          std::nullopt,
          std::nullopt,
          std::nullopt};
}

/// Facts with one station whose tide stands, and its MHW at a height above chart datum.
Facts station(Length height_of_tide, Length mhw) {
  Facts facts{given::empty_waterway(), {}, {}, {}};
  const std::map<std::string, Height<StationZero>> datums{
      {"CD", Height<StationZero>::above(metres(0))}, {"MHW", Height<StationZero>::above(mhw)}};
  facts.tides.emplace_back(
      TideStationParts{"Gauge",
                       given::at(0, 0),
                       Zone::utc(),
                       {"tide", "invented", std::nullopt},
                       metres(0.1),
                       std::string("CD"),
                       datums,
                       "",
                       TideCurve(HarmonicCurve(in_metres(height_of_tide), {}))});
  return facts;
}

const Passing kPassing{metres(500), given::plan_along({}).departure.at, given::at(0, 500), 0};

BridgeFinding finding_of(const Bridge& bridge, const Facts& facts, Length air_draft) {
  Vessel vessel = given::plain_vessel();
  vessel.air_draft = {{Antennas::up, air_draft}};
  return bridge_finding(bridge, kPassing, vessel, facts, given::plain_margins(), metres(0));
}

TEST(BridgeFinding, PublishedRows) {
  for (const auto& row : given::csv_table("bridge.csv")) {
    const std::string unit = row.text("unit");
    const auto value = [&](const char* column) { return in_unit(row.number(column), unit); };
    const BridgeFinding bridge =
        finding_of(plain_bridge(value("charted")),
                   station(value("height_of_tide"), value("clearance_datum")), value("air_draft"));
    const double tolerance_m = in_metres(in_unit(0.001, unit));
    ASSERT_TRUE(bridge.clearance.has_value()) << row.place();
    EXPECT_NEAR(in_metres(*bridge.clearance), in_metres(value("clearance")), tolerance_m)
        << row.place();
    EXPECT_NEAR(in_metres(*bridge.over_mast.front().over_mast), in_metres(value("over_mast")),
                tolerance_m)
        << row.place();
  }
}

TEST(BridgeFinding, BothSidesOfTheMargin) {
  // Margin 0.6 m, clearance 8 m (tide at MHW): 7.4 m fits, 7.401 m does not.
  const Facts facts = station(metres(1), metres(1));
  EXPECT_TRUE(finding_of(plain_bridge(metres(8)), facts, metres(7.4)).fits.value());
  EXPECT_FALSE(finding_of(plain_bridge(metres(8)), facts, metres(7.401)).fits.value());
}

/// A wave only takes room away: what a calm leaves none for does not fit; the reverse is not known.
TEST(BridgeFinding, WithoutWavesAMastTooHighIsKnownNotToFit) {
  const Facts facts = station(metres(1), metres(1));
  const auto without_waves = [&](Length air_draft) {
    Vessel vessel = given::plain_vessel();
    vessel.air_draft = {{Antennas::up, air_draft}};
    return bridge_finding(plain_bridge(metres(8)), kPassing, vessel, facts, given::plain_margins(),
                          not_known("no waves are forecast"));
  };
  EXPECT_EQ(without_waves(metres(7.401)).fits, Known<bool>(false));
  EXPECT_FALSE(without_waves(metres(7.401)).over_mast.front().over_mast.has_value());
  EXPECT_FALSE(without_waves(metres(7.4)).fits.has_value());
}

TEST(BridgeFinding, NoDatumIsNoClearance) {
  Bridge bridge = plain_bridge(metres(8));
  bridge.stations.clearance_datum = "";
  EXPECT_FALSE(finding_of(bridge, station(metres(1), metres(1)), metres(5)).fits.has_value());
  bridge.stations.clearance_datum = "HAT";  // the station does not give it
  EXPECT_FALSE(finding_of(bridge, station(metres(1), metres(1)), metres(5)).clearance.has_value());
}

TEST(BridgeFinding, GaugeReadsLowSteelOnly) {
  Bridge bridge = plain_bridge(metres(8));
  const Facts facts = station(metres(1), metres(1));
  EXPECT_TRUE(finding_of(bridge, facts, metres(5)).gauge_reads.has_value());
  bridge.clearance_of = ClearanceOf::centre_of_arch;
  EXPECT_FALSE(finding_of(bridge, facts, metres(5)).gauge_reads.has_value());
  EXPECT_TRUE(finding_of(bridge, facts, metres(5)).clearance.has_value());
}

TEST(CableGap, PublishedRows) {
  OverheadCable cable{{"Cable", {"Gauge", "none", "CD", "MHW"}},
                      given::at(0, 500),
                      metres(20),
                      not_known("none"),
                      Carries::power,
                      kilovolts(1)};
  for (const auto& row : given::csv_table("power_cable.csv")) {
    cable.voltage = kilovolts(row.number("kilovolts"));
    EXPECT_EQ(cable_gap(cable), Known<Length>(feet(row.number("extra_ft")))) << row.place();
  }
  cable.voltage = kilovolts(766);
  EXPECT_FALSE(cable_gap(cable).has_value());
  cable.voltage = not_known("not charted");
  EXPECT_FALSE(cable_gap(cable).has_value());
  cable.carries = Carries::not_stated;
  EXPECT_FALSE(cable_gap(cable).has_value());
  cable.carries = Carries::telephone;
  EXPECT_EQ(cable_gap(cable), Known<Length>(metres(0)));
}

TEST(SurveySigma, PublishedRows) {
  const std::map<std::string, SurveyQuality> zones{{"A1", SurveyQuality::a1},
                                                   {"A2", SurveyQuality::a2},
                                                   {"B", SurveyQuality::b},
                                                   {"C", SurveyQuality::c}};
  for (const auto& row : given::csv_table("catzoc.csv")) {
    const Known<Length> sigma =
        survey_sigma(zones.at(row.text("catzoc")), metres(row.number("depth_m")));
    // The table is the 95 % figure, 1.96 standard deviations.
    EXPECT_NEAR(in_metres(*sigma) * 1.96, row.number("depth_accuracy_m"), 0.001) << row.place();
  }
  EXPECT_FALSE(survey_sigma(SurveyQuality::d, metres(3)).has_value());
  EXPECT_FALSE(survey_sigma(SurveyQuality::not_stated, metres(3)).has_value());
}

}  // namespace
}  // namespace passage_brief
