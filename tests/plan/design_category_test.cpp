#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "given/csv_table.h"
#include "plan/vessel.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

DesignCategory category_of(const std::string& letter) {
  if (letter == "B") return DesignCategory::b;
  if (letter == "C") return DesignCategory::c;
  EXPECT_EQ(letter, "D");
  return DesignCategory::d;
}

TEST(DesignCategory, CeilingIsTheTopOfItsBeaufortForce) {
  for (const given::CsvRow& row : given::csv_table("beaufort.csv")) {
    SCOPED_TRACE(row.place());
    const double force = row.number("force");
    EXPECT_NEAR(0.836 * std::pow(force, 1.5), row.number("middle_ms"), 0.01);
    EXPECT_NEAR(in_knots(metres_per_second(0.836 * std::pow(force + 0.5, 1.5))),
                row.number("top_kn") + 0.5, 1.0);
    if (row.is_empty("category")) continue;
    const DesignCategory category = category_of(row.text("category"));
    EXPECT_EQ(wind_ceiling(category), knots(row.number("top_kn")));
    EXPECT_EQ(wave_ceiling(category), metres(row.number("wave_m")));
  }
}

TEST(DesignCategory, OceanHasNoCeiling) {
  EXPECT_FALSE(wind_ceiling(DesignCategory::a).has_value());
  EXPECT_FALSE(wave_ceiling(DesignCategory::a).has_value());
}

}  // namespace
}  // namespace passage_brief
