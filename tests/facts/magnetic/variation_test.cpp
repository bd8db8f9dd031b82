#include "facts/magnetic/variation.h"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <numbers>
#include <sstream>
#include <string>

#include "facts/magnetic/wmm_coefficients.h"
#include "given/csv_table.h"
#include "given/stations.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using given::at;

TEST(MagneticField, AgreesWithTheTable) {
  for (const given::CsvRow& row : given::csv_table("magnetic_field.csv")) {
    const MagneticField field =
        magnetic_field(position_at(row.number("latitude"), row.number("longitude")),
                       kilometres(row.number("height_km")), row.number("decimal_year"));
    const double D_deg = std::atan2(field.east_nt, field.north_nt) * 180 / std::numbers::pi;
    EXPECT_NEAR(D_deg, row.number("D_deg"), row.number("tolerance_deg")) << row.place();
    const double nt = row.number("tolerance_nt");
    const double horizontal_nt = std::hypot(field.east_nt, field.north_nt);
    if (!row.is_empty("H_nt")) {
      EXPECT_NEAR(horizontal_nt, row.number("H_nt"), nt) << row.place();
      EXPECT_NEAR(std::atan2(field.down_nt, horizontal_nt) * 180 / std::numbers::pi,
                  row.number("I_deg"), row.number("tolerance_deg"))
          << row.place();
    }
    if (row.is_empty("north_nt")) continue;
    EXPECT_NEAR(field.north_nt, row.number("north_nt"), nt) << row.place();
    EXPECT_NEAR(field.east_nt, row.number("east_nt"), nt) << row.place();
    EXPECT_NEAR(field.down_nt, row.number("down_nt"), nt) << row.place();
  }
}

TEST(Variation, AgreesAtSeaLevel) {
  // magnetic_field.csv: Boston 2026.5 (noon of 2 July) -13.951 deg, H 20651.5 nT; one sigma
  // sqrt(0.26^2 + (5417 / 20651.5)^2) = 0.3696 deg.
  const auto boston = variation_at(position_at(42.36, -71.05), at("2026-07-02T12:00:00Z"));
  ASSERT_TRUE(boston);
  EXPECT_NEAR(boston->variation.east.in_degrees(), -13.951, 0.001);
  EXPECT_NEAR(boston->one_sigma.in_degrees(), 0.3696, 0.0005);
  EXPECT_FALSE(boston->caution_zone);
  const auto seattle = variation_at(position_at(47.6, -122.34), at("2026-07-02T12:00:00Z"));
  ASSERT_TRUE(seattle);
  EXPECT_NEAR(seattle->variation.east.in_degrees(), 14.905, 0.001);
}

TEST(Variation, IsNotKnownOutsideTheModelsYears) {
  const Position boston = position_at(42.36, -71.05);
  EXPECT_TRUE(variation_at(boston, at("2025-01-01T00:00:00Z")));
  EXPECT_TRUE(variation_at(boston, at("2030-01-01T00:00:00Z")));
  for (const char* outside : {"2024-12-31T23:59:59Z", "2030-01-01T00:00:01Z"}) {
    const auto known = variation_at(boston, at(outside));
    ASSERT_FALSE(known) << outside;
    EXPECT_NE(in_words(known.error()).find("WMM2025 is valid from 2025-01-01T00:00:00Z"),
              std::string::npos);
  }
}

TEST(Variation, IsNotKnownNearAMagneticPoleAndMarkedWhereTheFieldIsWeak) {
  // North dip pole of WMM2025 in 2025: 85.76 N 139.30 E (NOAA NCEI; from memory).
  const Instant when = at("2025-06-01T00:00:00Z");
  const auto pole = variation_at(position_at(85.76, 139.30), when);
  ASSERT_FALSE(pole);
  EXPECT_NE(in_words(pole.error()).find("2000 nT"), std::string::npos);
  bool weak_seen = false;
  for (double latitude = 60; latitude < 85; latitude += 0.5) {
    const MagneticField field = magnetic_field(position_at(latitude, 139.30), metres(0), 2025.4);
    const double horizontal = std::hypot(field.north_nt, field.east_nt);
    const auto known = variation_at(position_at(latitude, 139.30), when);
    EXPECT_EQ(known.has_value(), horizontal >= 2000) << latitude;
    if (!known) continue;
    weak_seen = weak_seen || known->caution_zone;
    if (std::abs(horizontal - 6000) > 50) {
      EXPECT_EQ(known->caution_zone, horizontal < 6000) << latitude;
    }
  }
  EXPECT_TRUE(weak_seen);
}

TEST(GaussCoefficients, AreAllOfThem) {
  // Degree by degree, as the published file has them; its first row is -29351.8.
  std::size_t i = 0;
  for (int n = 1; n <= kMagneticDegree; ++n) {
    for (int m = 0; m <= n; ++m, ++i) {
      EXPECT_EQ(kGaussCoefficients[i].n, n);
      EXPECT_EQ(kGaussCoefficients[i].m, m);
    }
  }
  EXPECT_EQ(i, kGaussCoefficients.size());
  EXPECT_EQ(kGaussCoefficients[0].g_nt, -29351.8);
  const auto file = given::reference_file("magnetic/WMM2025.COF");
  if (!file) return;
  std::istringstream lines(given::contents_of(*file));
  std::string heading;
  std::getline(lines, heading);
  for (const GaussCoefficient& ours : kGaussCoefficients) {
    int n = 0, m = 0;
    double g = 0, h = 0, g_rate = 0, h_rate = 0;
    lines >> n >> m >> g >> h >> g_rate >> h_rate;
    EXPECT_TRUE(n == ours.n && m == ours.m && g == ours.g_nt && h == ours.h_nt &&
                g_rate == ours.g_nt_per_year && h_rate == ours.h_nt_per_year)
        << n << " " << m;
  }
}

}  // namespace
}  // namespace passage_brief
