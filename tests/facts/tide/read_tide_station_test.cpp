#include "facts/tide/read_tide_station.h"

#include <gtest/gtest.h>

#include <string>

#include "facts/tide/read_current_station.h"
#include "given/stations.h"
#include "reading/describe_table.h"

namespace passage_brief {
namespace {

std::string problems(const std::string& rest) {
  return given::problems_of_tides(
      {R"({"kind": "tide station", "name": "Harbor", "zone": "America/New_York", )" + rest + "}"});
}

std::string with_rows(const std::string& rows) {
  return problems(R"("constituents": {"unit": "m", "phase": "GMT", "rows": )" + rows + "}");
}

TEST(ReadTideStation, ExamplesInTheFieldTablesAreRight) {
  for (const Problem& problem : problems_of_examples(tide_station().inside)) {
    ADD_FAILURE() << in_words(problem);
  }
  for (const Problem& problem : problems_of_examples(current_station().inside)) {
    ADD_FAILURE() << in_words(problem);
  }
}

TEST(ReadTideStation, EveryProblemAtOnce) {
  const std::string all = problems(
      R"("datum": "MLLW", "uncertainty": 0.15, "constituents": {"unit": "yd", "phase": "local",
         "rows": [["M2", 0.5, 10], ["M2", 0.5, 10], ["M9", 1, 2], ["S2", "1 m", 2], ["N2", 1]]})");
  for (const char* place :
       {"station 1.json: /datum: ", "/uncertainty: ", "/constituents/unit: ",
        "/constituents/phase: ", "/constituents/rows/2/0: \"M9\" is none of the constituents",
        "/constituents/rows/3/1: ", "/constituents/rows/4: "}) {
    EXPECT_NE(all.find(place), std::string::npos) << place << "\nin\n" << all;
  }
}

TEST(ReadTideStation, AConstituentStandsOnceAndItsAmplitudeMakesSense) {
  EXPECT_EQ(with_rows(R"([["M2", 0.5, 10], ["S2", 0, 0]])"), "");
  EXPECT_NE(with_rows(R"([["M2", 0.5, 10], ["M2", 0.4, 10]])")
                .find("/constituents/rows/1: the "
                      "constituent M2 stands in the "
                      "list twice"),
            std::string::npos);
  EXPECT_NE(with_rows(R"([["LAM2", 0.5, 10], ["LDA2", 0.4, 10]])").find("twice"),
            std::string::npos);
  EXPECT_NE(with_rows(R"([["M2", -0.5, 10]])").find("/constituents/rows/0/1"), std::string::npos);
  EXPECT_EQ(with_rows(R"([["M2", 25, 10]])"), "");
  EXPECT_NE(with_rows(R"([["M2", 25.1, 10]])").find("too large to be right"), std::string::npos);
}

TEST(ReadTideStation, IsWorkedOutInOneWay) {
  const std::string both = problems(
      R"("heights": {"unit": "m", "rows": [["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", 1]]},
                  "constituents": {"unit": "m", "phase": "GMT", "rows": [["M2", 0.5, 10]]})");
  EXPECT_NE(both.find("/heights: the station is worked out from its constituents already"),
            std::string::npos)
      << both;
  const std::string lone = problems(
      R"("offsets": {"high_time": "1 min", "low_time": "1 min", "high": {"ratio": 1}, "low": {"ratio": 1}})");
  EXPECT_NE(lone.find("/offsets: needs the key \"reference\""), std::string::npos) << lone;
}

TEST(ReadTideStation, AnOffsetOfHeightIsARatioOrAnAddition) {
  for (const char* height : {"{}", R"({"ratio": 1, "add": "1 ft"})"}) {
    const std::string words = problems(
        R"("reference": "Sea", "offsets": {"high_time": "1 min", "low_time": "1 min", "low": {"ratio": 1}, "high": )" +
        std::string(height) + "}");
    EXPECT_NE(words.find("/offsets/high: needs either a \"ratio\" or an \"add\""),
              std::string::npos)
        << words;
  }
}

TEST(ReadTideStation, TheChartDatumIsOneOfItsOwn) {
  EXPECT_NE(problems(R"("chart_datum": "MLW", "datums": {"unit": "m", "MLLW": 0, "MSL": 1})")
                .find("/chart_datum: \"MLW\" is not among the station's datums; did you mean "
                      "\"MLLW\"?"),
            std::string::npos);
  EXPECT_EQ(problems(R"("chart_datum": "MLLW", "datums": {"unit": "m", "MLLW": null, "MSL": 1})"),
            "");
  EXPECT_EQ(problems(R"("chart_datum": "MLLW")"), "");
}

TEST(ReadTideStation, RowsStandByRisingTimeAndMayBeNull) {
  const auto series = [](const std::string& rows) {
    return problems(R"("chart_datum": "CD", "heights": {"unit": "m", "rows": )" + rows + "}");
  };
  EXPECT_EQ(series(R"([["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", null]])"), "");
  EXPECT_NE(series(R"([["2026-06-14T00:06Z", 1], ["2026-06-14T00:00Z", 2]])")
                .find("/heights/rows/1: its time is not after the one before"),
            std::string::npos);
  EXPECT_NE(series(R"([["2026-06-14T00:00Z", null], ["2026-06-14T00:06Z", null]])")
                .find("/heights/rows: holds no value that is not null"),
            std::string::npos);
  EXPECT_NE(
      series(R"([["2026-06-14T00:00", 1], ["2026-06-14T00:06Z", 1]])").find("/heights/rows/0/0"),
      std::string::npos);  // no offset
  EXPECT_NE(series(R"([["2026-06-14T00:00Z", 1], ["2026-06-14T00:06Z", 99]])")
                .find("/heights/rows/1: the number is too large"),
            std::string::npos);
}

TEST(ReadTideStation, HighAndLowWatersAlternate) {
  const std::string words = problems(R"("chart_datum": "CD", "high_low": {"unit": "m", "rows": [
                  ["2026-06-14T00:00Z", 3, "high"], ["2026-06-14T12:00Z", 3.1, "high"]]})");
  EXPECT_NE(
      words.find("/high_low/rows: 2026-06-14T00:00:00Z and 2026-06-14T12:00:00Z are both high "
                 "water"),
      std::string::npos)
      << words;
}

TEST(ReadTideStation, NameAndZoneMustBeGiven) {
  const std::string words = given::problems_of_tides({R"({"kind": "tide station"})"});
  EXPECT_NE(words.find("the key \"name\" is missing"), std::string::npos) << words;
  EXPECT_NE(words.find("the key \"zone\" is missing"), std::string::npos) << words;
}

}  // namespace
}  // namespace passage_brief
