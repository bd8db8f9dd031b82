#include "fetch/gather_facts.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <memory>
#include <string>

#include "brief/alert_cautions.h"
#include "brief/prepare_brief.h"
#include "fetch/compare_forecasts.h"
#include "given/files.h"
#include "given/open_water.h"
#include "given/replies.h"
#include "given/rules.h"
#include "given/stations.h"
#include "page/json.h"
#include "page/text.h"
#include "store/sqlite_store.h"

namespace passage_brief {
namespace {

using given::at;
using given::reply_text;
using std::chrono::hours;

class Gather : public testing::Test {
 protected:
  Gather() { network_.answer_well(); }
  GatheredFacts gather(const std::string& now) {
    return gather_facts(plan_, sources_, knots(8), {at(now), *Zone::named("America/New_York")},
                        network_, *store_);
  }
  void answer(const char* path, const std::string& body, int status = 200) {
    network_.answers.insert_or_assign(path, Answer{status, body, "", ""});
  }
  void fail(const char* path) {
    network_.answers.insert_or_assign(path, std::unexpected("the service did not answer in time"));
  }
  Facts facts(GatheredFacts gathered) {
    Facts all = given::facts_over(given::empty_waterway(), metres(1));
    add_gathered(std::move(gathered), all);
    return all;
  }
  Brief brief(const std::string& now) {
    return prepare_brief(plan_, facts(gather(now)), given::shipped_rules("small_craft"), at(now));
  }
  TideStation gather_of_constants() {
    Sources constants = given::all_sources("https://service.example");
    const GatheredFacts found = gather_facts(
        plan_, constants, knots(8), {at("2026-06-14T11:30:00Z"), Zone::utc()}, network_, *store_);
    return TideStation(found.tides.at(0).parts);
  }
  Plan plan_ = given::plan_along({given::at(0, 0), given::at(0, 2000)});
  Sources sources_ = given::all_sources("https://service.example");
  given::ScriptedTransport network_;
  std::unique_ptr<Store> store_ = open_sqlite_store(":memory:");
};

TEST_F(Gather, EverythingFromItsService) {
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.not_fetched.empty());
  ASSERT_EQ(found.tides.size(), 2U);
  EXPECT_EQ(found.tides[0].parts.name, "Invented Landing");
  EXPECT_EQ(found.tides[0].parts.uncertainty, metres(0.15));
  const auto linked = link_tide_stations(found.tides);
  ASSERT_TRUE(linked) << given::listed(linked.error());
  EXPECT_TRUE((*linked)[1].height(at("2026-06-14T12:00:00Z")));
  ASSERT_EQ(found.currents.size(), 1U);
  EXPECT_TRUE(found.currents[0].at(at("2026-06-14T12:00:00Z")));
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_EQ(found.winds[0].source().from, "US National Weather Service, grid INV 12,34");
  EXPECT_EQ(found.alerts.size(), 2U);
}

TEST_F(Gather, AsksOnceForWhatSeveralWant) {
  sources_.tides.push_back(
      {"The same by another name", "9999001", std::nullopt, std::nullopt, false});
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  const auto times = std::ranges::count_if(network_.asked, [](const Request& request) {
    return request.address.find("stations/9999001") != std::string::npos;
  });
  EXPECT_EQ(times, 1);  // two names, and the reference of the subordinate station
}

TEST_F(Gather, DoesNotAskWhileCopiesAreFreshAndServesFromThemOffline) {
  const GatheredFacts first = gather("2026-06-14T11:30:00Z");
  network_.asked.clear();
  network_.answers.clear();
  const GatheredFacts second = gather("2026-06-14T11:39:59Z");
  EXPECT_TRUE(network_.asked.empty());
  EXPECT_EQ(second.winds[0].source(), first.winds[0].source());
  EXPECT_EQ(second.alerts, first.alerts);
  EXPECT_TRUE(second.not_fetched.empty());
}

TEST_F(Gather, LabelsAKeptCopyWithItsIssueAndWhy) {
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  network_.answers.clear();
  const GatheredFacts found = gather("2026-06-14T13:00:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_EQ(found.winds[0].source().issued, at("2026-06-14T10:12:00Z"));
  EXPECT_NE(found.winds[0].source().note.find(
                "kept copy issued at 14 June 2026 06:12 EDT; a newer one could not be fetched at "
                "14 June 2026 09:00 EDT: no connection to the service came about"),
            std::string::npos)
      << found.winds[0].source().note;
  ASSERT_EQ(found.alerts.size(), 2U);
  EXPECT_NE(found.alerts[0].note, "");
  // Old warnings are said, and so is that newer ones may be missing.
  EXPECT_EQ(found.not_fetched.size(), 1U);
}

TEST_F(Gather, DoesNotUseWhatIsPastItsTime) {
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  network_.answers.clear();
  // Issued at 10:12 and usable for 12 h; Open-Meteo's was fetched at 11:30.
  sources_.winds[0].from = {WindService::nws};
  EXPECT_EQ(gather("2026-06-14T22:12:00Z").winds.size(), 1U);
  const GatheredFacts late = gather("2026-06-14T22:12:01Z");
  EXPECT_TRUE(late.winds.empty());
  const auto wind = std::ranges::find(late.not_fetched, NotFetched::What::wind, &NotFetched::what);
  ASSERT_NE(wind, late.not_fetched.end());
  EXPECT_NE(wind->reason.find("is too old"), std::string::npos) << wind->reason;
}

TEST_F(Gather, DoesNotBelieveTheFutureNorWhatIsIssuedTooLongAgo) {
  sources_.winds[0].from = {WindService::nws};
  EXPECT_TRUE(gather("2026-06-14T09:11:59Z").winds.empty());  // issued at 10:12
  EXPECT_EQ(gather("2026-06-14T09:12:00Z").winds.size(), 1U);
  store_ = open_sqlite_store(":memory:");
  EXPECT_TRUE(gather("2026-06-14T22:12:01Z").winds.empty());
}

TEST_F(Gather, ABadReplyDoesNotTakeTheGoodOnesPlace) {
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  answer("/gridpoints/INV/12,34", "<html>down for maintenance</html>");
  sources_.winds[0].from = {WindService::nws};
  const GatheredFacts found = gather("2026-06-14T13:00:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_NE(found.winds[0].source().note.find("web page"), std::string::npos);
  answer("/gridpoints/INV/12,34", reply_text("nws_grid.json"));
  EXPECT_EQ(gather("2026-06-14T13:01:00Z").winds[0].source().note, "");
}

TEST_F(Gather, AsksWhetherTheCopyStillHolds) {
  network_.answers.insert_or_assign("/gridpoints/INV/12,34",
                                    Answer{200, reply_text("nws_grid.json"), "\"e1\"", ""});
  sources_.winds[0].from = {WindService::nws};
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  network_.answers.insert_or_assign("/gridpoints/INV/12,34", Answer{304, "", "", ""});
  network_.asked.clear();
  const GatheredFacts found = gather("2026-06-14T13:00:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_EQ(found.winds[0].source().note, "");
  const auto grid = std::ranges::find_if(network_.asked, [](const Request& request) {
    return request.address.find("gridpoints") != std::string::npos;
  });
  ASSERT_NE(grid, network_.asked.end());
  EXPECT_EQ(grid->etag, "\"e1\"");
  network_.asked.clear();
  static_cast<void>(gather("2026-06-14T13:30:00Z"));  // confirmed half an hour ago: not asked
  EXPECT_TRUE(std::ranges::none_of(network_.asked, [](const Request& request) {
    return request.address.find("gridpoints") != std::string::npos;
  }));
}

TEST_F(Gather, TriesSourcesInTheirOrderAndSaysWhich) {
  fail("/gridpoints/INV/12,34");
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_EQ(found.winds[0].source().from, "Open-Meteo (CC BY 4.0)");
  EXPECT_NE(found.winds[0].source().note.find(
                "US National Weather Service: the service did not answer in time"),
            std::string::npos)
      << found.winds[0].source().note;
  EXPECT_EQ(found.winds[0].wave(at("2026-06-14T12:00:00Z")), metres(0.6));
  fail("/v1/forecast");
  store_ = open_sqlite_store(":memory:");
  const GatheredFacts none = gather("2026-06-14T14:30:00Z");
  ASSERT_FALSE(none.not_fetched.empty());
  EXPECT_EQ(none.not_fetched.front().name, "open water");
}

// The table's 0.540 m at 12:12 and 0.560 at 12:18, half way between.
TEST_F(Gather, HeightsFromAPublishedTableStandAboveThePlanesOfTheMetadata) {
  sources_.tides = {{"Invented Landing",
                     "9999001",
                     std::nullopt,
                     metres(0.15),
                     false,
                     {TideFigures::predictions}}};
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  ASSERT_EQ(found.tides.size(), 1U);
  const TideStation station(found.tides[0].parts);
  EXPECT_NEAR(in_metres(station.height(at("2026-06-14T12:15:00Z"))->above_datum()), 0.55, 1e-3);
  EXPECT_EQ(station.source().from, "NOAA CO-OPS predictions of station 9999001");
  const auto constants = gather_of_constants();
  ASSERT_TRUE(constants.datum("MHW"));
  EXPECT_EQ(station.datum("MHW"), constants.datum("MHW"));
  EXPECT_EQ(station.position(), constants.position());
  fail("/mdapi/prod/webapi/stations/9999001");
  store_ = open_sqlite_store(":memory:");
  const TideStation bare(gather("2026-06-14T11:30:00Z").tides[0].parts);
  EXPECT_TRUE(bare.height(at("2026-06-14T12:15:00Z")));
  EXPECT_FALSE(bare.datum("MHW"));
}

TEST_F(Gather, TideTablesAreTriedInTheirOrder) {
  sources_.tides = {{"Invented Landing",
                     "9999001",
                     std::nullopt,
                     std::nullopt,
                     false,
                     {TideFigures::predictions, TideFigures::highs_and_lows}}};
  const std::string begin = "/api/prod/datagetter?product=predictions&station=9999001&datum=MLLW&";
  answer((begin + "interval=6&").c_str(), R"({"error": {"message": "No data was found."}})");
  answer((begin + "interval=hilo&").c_str(), reply_text("co_ops_predictions_high_low.json"));
  GatheredFacts found = gather("2026-06-14T11:30:00Z");
  ASSERT_EQ(found.tides.size(), 1U);
  EXPECT_EQ(found.tides[0].parts.source.from, "NOAA CO-OPS highs and lows of station 9999001");
  EXPECT_NE(
      found.tides[0].parts.source.note.find("predictions each 6 minutes: the reply cannot be"),
      std::string::npos)
      << found.tides[0].parts.source.note;
  // Highs and lows where a height each 6 minutes was asked for are not what was asked.
  store_ = open_sqlite_store(":memory:");
  answer((begin + "interval=6&").c_str(), reply_text("co_ops_predictions_high_low.json"));
  answer((begin + "interval=hilo&").c_str(), reply_text("co_ops_predictions_6min.json"));
  found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.tides.empty());
  ASSERT_EQ(found.not_fetched.size(), 1U);
  EXPECT_NE(found.not_fetched[0].reason.find("are not the highs and lows"), std::string::npos)
      << found.not_fetched[0].reason;
}

// 2026-06-14 is in the week of the 11th, counted from 1970-01-01, a Thursday.
TEST_F(Gather, OneCopyOfPredictionsServesTheDeparturesOfAWeek) {
  sources_.tides[0].from = {TideFigures::predictions};
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  const auto asked_currents = std::ranges::find_if(network_.asked, [](const Request& request) {
    return request.address.find("currents_predictions") != std::string::npos;
  });
  ASSERT_NE(asked_currents, network_.asked.end());
  EXPECT_TRUE(asked_currents->address.ends_with("begin_date=20260610&end_date=20260628"))
      << asked_currents->address;
  network_.asked.clear();
  plan_.departure.at = at("2026-06-17T23:59:00Z");
  static_cast<void>(gather("2026-06-14T11:31:00Z"));
  EXPECT_TRUE(network_.asked.empty());
  plan_.departure.at = at("2026-06-18T00:00:00Z");
  static_cast<void>(gather("2026-06-14T11:31:00Z"));
  EXPECT_EQ(network_.asked.size(), 2U);  // the tide's and the current's
}

// Its first hour: 10 mph from NW.
TEST_F(Gather, TheHourlyForecastWhereItIsNamed) {
  sources_.winds[0].from = {WindService::nws_hourly};
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_EQ(found.winds[0].source().from, "US National Weather Service, hourly forecast in words");
  EXPECT_NEAR(in_knots(found.winds[0].wind(at("2026-06-14T12:00:00Z"))->speed), 8.68976, 1e-5);
  EXPECT_FALSE(found.winds[0].gust(at("2026-06-14T12:00:00Z")));
  EXPECT_TRUE(std::ranges::none_of(
      network_.asked, [](const Request& request) { return request.address.ends_with("/12,34"); }));
  // One that does not say which cell it is of.
  store_ = open_sqlite_store(":memory:");
  answer("/gridpoints/INV/12,34/forecast/hourly",
         given::replaced(reply_text("nws_hourly.json"), "Polygon", "Point"));
  EXPECT_TRUE(gather("2026-06-14T11:30:00Z").winds.empty());
}

// 15 kn of one against 30 of the other at 13:00 and later: 15 kn apart, more than the 8 allowed.
TEST_F(Gather, UsesTheWorseOfTwoThatDiffer) {
  std::string strong = reply_text("open_meteo_forecast.json");
  for (std::size_t i = strong.find("11.0"); i != std::string::npos; i = strong.find("11.0", i)) {
    strong.replace(i, 4, "30.0");
  }
  for (std::size_t i = strong.find("18.0"); i != std::string::npos; i = strong.find("18.0", i)) {
    strong.replace(i, 4, "41.0");
  }
  answer("/v1/forecast", strong);
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  ASSERT_EQ(found.winds.size(), 1U);
  EXPECT_NEAR(in_knots(found.winds[0].wind(at("2026-06-14T14:00:00Z"))->speed), 30, 1e-9);
  EXPECT_NEAR(in_knots(*found.winds[0].gust(at("2026-06-14T14:00:00Z"))), 41, 1e-9);
  EXPECT_NE(found.winds[0].source().from.find("the worse of US National Weather Service"),
            std::string::npos);
  EXPECT_NE(found.winds[0].source().note.find("differ by 21 kn"), std::string::npos)
      << found.winds[0].source().note;
}

TEST_F(Gather, ReferenceThatIsMissingLeavesItsSubordinateNotKnown) {
  sources_.tides = {{"Invented Creek", "9999002", std::nullopt, std::nullopt, false}};
  fail("/mdapi/prod/webapi/stations/9999001");
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.tides.empty());
  const Known<const TideStation*> station = facts(found).tide("Invented Creek");
  ASSERT_FALSE(station);
  EXPECT_NE(in_words(station.error()).find("reference station 9999001"), std::string::npos);
}

TEST_F(Gather, FactsOfOtherWatersAreNotKnown) {
  answer("/mdapi/prod/webapi/stations/9999001",
         given::replaced(reply_text("co_ops_station.json"), "\"lat\": 30.0", "\"lat\": -30.0"));
  sources_.winds.front().position = position_at(-30, -45);
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.winds.empty());
  const Facts all = facts(found);
  const auto said = [&](NotFetched::What what) {
    std::string words;
    for (const NotFetched& missing : all.not_fetched) {
      if (missing.what == what) words += missing.reason + "\n";
    }
    return words;
  };
  EXPECT_NE(said(NotFetched::What::tide).find("the station lies 35"), std::string::npos)
      << said(NotFetched::What::tide);  // 60 degrees: some 3590 nm
  EXPECT_NE(said(NotFetched::What::wind).find("its place lies 35"), std::string::npos)
      << said(NotFetched::What::wind);
}

TEST_F(Gather, ASpikeInAPublishedTableIsSaidToBeOne) {
  sources_.tides = {{"Invented Landing",
                     "9999001",
                     std::nullopt,
                     std::nullopt,
                     false,
                     {TideFigures::predictions}}};
  answer("/api/prod/datagetter?product=predictions",
         given::replaced(reply_text("co_ops_predictions_6min.json"), "\"0.500\"", "\"9.500\""));
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.tides.empty());
  ASSERT_FALSE(found.not_fetched.empty());
  EXPECT_NE(found.not_fetched.front().reason.find("off the line between the heights"),
            std::string::npos)
      << found.not_fetched.front().reason;
}

TEST_F(Gather, AnotherStationIsNotThisOne) {
  answer("/mdapi/prod/webapi/stations/9999001",
         given::replaced(reply_text("co_ops_station.json"), "\"9999001\"", "\"9999003\""));
  const GatheredFacts found = gather("2026-06-14T11:30:00Z");
  EXPECT_TRUE(found.tides.empty());
  EXPECT_EQ(found.not_fetched.size(), 2U);
}

TEST_F(Gather, AlertsAreCautionsInTheIssuersWords) {
  const Brief made = brief("2026-06-14T11:30:00Z");
  const auto find = [&](const char* id) {
    return std::ranges::find(made.judgement.cautions, id, &Caution::id);
  };
  const auto gale = find("Gale Warning");
  ASSERT_NE(gale, made.judgement.cautions.end());
  EXPECT_EQ(gale->grade, Grade::warning);
  EXPECT_NE(gale->source.find("NWS Invented"), std::string::npos);
  EXPECT_NE(gale->source.find("https://api.weather.gov/alerts/urn:b"), std::string::npos);
  EXPECT_EQ(find("Small Craft Advisory")->grade, Grade::caution);
  const std::string text = brief_as_text(made, PageChoice{Units::us, Paper::letter});
  EXPECT_NE(text.find("Gale Warning issued June 14 at 6:00AM"), std::string::npos) << text;
  EXPECT_NE(made.judgement.verdict, Verdict::within_limits);
}

TEST_F(Gather, AlertsThatCouldNotBeFetchedAreSaid) {
  fail("/alerts/active?zone=ANZ999");
  const Brief made = brief("2026-06-14T11:30:00Z");
  const auto missing = std::ranges::find(made.judgement.cautions, "alerts not known", &Caution::id);
  ASSERT_NE(missing, made.judgement.cautions.end());
  EXPECT_EQ(missing->grade, Grade::caution);
}

TEST_F(Gather, ThePageSaysThatACopyIsOld) {
  static_cast<void>(gather("2026-06-14T11:30:00Z"));
  network_.answers.clear();
  const Brief made = brief("2026-06-14T13:00:00Z");
  const std::string text = brief_as_text(made, PageChoice{Units::us, Paper::letter});
  EXPECT_NE(text.find("ept copy issued at"), std::string::npos) << text;
  EXPECT_NE(brief_as_json(made, Units::us).find("a newer one could not be fetched"),
            std::string::npos);
}

// The prediction at 11:18 is put beside a gauge that reads a foot less, and one that agrees.
TEST_F(Gather, AGaugeThatReadsLessThanPredictedIsSaid) {
  sources_.tides[0].observed = true;
  const auto level_reply = [&](Length above_prediction) {
    const TideStation station(gather("2026-06-14T11:30:00Z").tides[0].parts);
    const auto predicted = station.height(at("2026-06-14T11:18:00Z"));
    return given::replaced(
        reply_text("co_ops_levels.json"), "\"0.441\"",
        "\"" + std::to_string(in_metres(predicted->above_datum() + above_prediction)) + "\"");
  };
  const std::string lower = level_reply(feet(-1));
  const std::string alike = level_reply(feet(0.4));
  store_ = open_sqlite_store(":memory:");
  answer("/api/prod/datagetter?product=water_level", lower);
  GatheredFacts found = gather("2026-06-14T11:31:00Z");
  ASSERT_EQ(found.alerts.size(), 3U);
  EXPECT_EQ(found.alerts[0].headline,
            "Invented Landing: at 14 June 2026 07:18 EDT the gauge read 1.0 ft (0.30 m) lower than "
            "predicted");
  EXPECT_EQ(found.tides[0].parts.source.note, found.alerts[0].headline);
  ASSERT_EQ(found.levels.size(), 1U);
  EXPECT_EQ(found.levels[0].station, found.tides[0].parts.name);
  EXPECT_EQ(found.levels[0].at, at("2026-06-14T11:18:00Z"));
  EXPECT_NEAR(in_feet(found.levels[0].above_predicted), -1, 0.001);
  store_ = open_sqlite_store(":memory:");
  answer("/api/prod/datagetter?product=water_level", alike);
  found = gather("2026-06-14T11:31:00Z");
  EXPECT_EQ(found.alerts.size(), 2U);
  EXPECT_EQ(found.tides[0].parts.source.note,
            "its gauge agrees with the prediction at 14 June 2026 07:18 EDT");
  store_ = open_sqlite_store(":memory:");
  fail("/api/prod/datagetter?product=water_level");
  EXPECT_NE(gather("2026-06-14T11:31:00Z").tides[0].parts.source.note.find("could not be read"),
            std::string::npos);
}

TEST(AlertCautions, OneThatIsOverIsLeftOutAndOneAfterArrivalIsANotice) {
  const Plan plan = given::plan_along({given::at(0, 0), given::at(0, 2000)});
  Facts facts = given::facts_over(given::empty_waterway(), metres(1));
  const RuleSet rules = given::shipped_rules("small_craft");
  Alert alert{.event = "Gale Warning",
              .headline = "Gale Warning",
              .instruction = "",
              .issuer = "somebody",
              .severity = Severity::extreme,
              .zones = {},
              .issued = at("2026-06-14T08:00:00Z"),
              .begins = at("2026-06-14T09:00:00Z"),
              .ends = at("2026-06-14T11:59:59Z"),  // departure at 12:00
              .link = ""};
  const auto grade = [&]() -> std::optional<Grade> {
    facts.alerts = {alert};
    const Brief brief = prepare_brief(plan, facts, rules, at("2026-06-14T11:30:00Z"));
    const auto found = std::ranges::find(brief.judgement.cautions, "Gale Warning", &Caution::id);
    if (found == brief.judgement.cautions.end()) return std::nullopt;
    return found->grade;
  };
  EXPECT_EQ(grade(), std::nullopt);
  alert.ends = at("2026-06-14T12:00:00Z");
  EXPECT_EQ(grade(), Grade::danger);
  alert.begins = at("2026-06-16T00:00:00Z");
  alert.ends = std::nullopt;
  EXPECT_EQ(grade(), Grade::notice);
}

}  // namespace
}  // namespace passage_brief
