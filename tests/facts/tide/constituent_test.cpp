#include "facts/tide/constituent.h"

#include <gtest/gtest.h>

#include <set>

#include "given/csv_table.h"
#include "units/check.h"
#include "units/direction.h"

namespace passage_brief {
namespace {

TEST(Constituent, YearlyArgumentsAgreeWithTheTable) {
  std::set<std::string> seen;
  for (const given::CsvRow& row : given::csv_table("nodal_arguments.csv")) {
    const auto constituent = Constituent::named(row.text("constituent"));
    ASSERT_TRUE(constituent) << row.place();
    seen.insert(row.text("constituent"));
    const int year = static_cast<int>(row.number("year"));
    const YearlyArgument argument = work_out_yearly_arguments(year)[constituent->index()];
    const double V0 = argument.equilibrium.in_degrees();
    EXPECT_NEAR(folded_180(V0 - row.number("V0_deg")), 0, 0.0011) << row.place();
    EXPECT_NEAR(folded_180(argument.nodal_phase.in_degrees() - row.number("u_deg")), 0, 0.0011)
        << row.place();
    EXPECT_NEAR(argument.factor, row.number("f"), 0.000011) << row.place();
  }
  EXPECT_EQ(seen.size(), kConstituents);
}

TEST(Constituent, TheKeptTableIsTheFormulas) {
  for (const int year : {kFirstTidalYear, 2000, kLastTidalYear}) {
    const YearlyArguments fresh = work_out_yearly_arguments(year);
    const YearlyArguments& kept = yearly_arguments(year);
    for (const Constituent c : Constituent::all()) {
      EXPECT_EQ(kept[c.index()].factor, fresh[c.index()].factor) << c.name() << year;
    }
  }
  EXPECT_THROW((void)yearly_arguments(kFirstTidalYear - 1), BrokenPromise);
  EXPECT_THROW((void)yearly_arguments(kLastTidalYear + 1), BrokenPromise);
}

TEST(Constituent, NamesAreThoseOfTheLists) {
  EXPECT_EQ(Constituent::all().size(), kConstituents);
  for (const Constituent c : Constituent::all()) EXPECT_EQ(Constituent::named(c.name()), c);
  EXPECT_EQ(Constituent::named("RHO1"), Constituent::named("RHO"));
  EXPECT_EQ(Constituent::named("LDA2"), Constituent::named("LAM2"));
  EXPECT_FALSE(Constituent::named("M9"));
  EXPECT_FALSE(Constituent::named("m2"));
}

}  // namespace
}  // namespace passage_brief
