// Live facts: the parse of each reply against a bare parse of its bytes as JSON, and the demo's
// brief from kept copies against the same brief from files.
#include <benchmark/benchmark.h>

#include <chrono>
#include <expected>
#include <functional>
#include <memory>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "brief/prepare_brief.h"
#include "facts/facts.h"
#include "fetch/asked.h"
#include "fetch/co_ops_currents_provider.h"
#include "fetch/co_ops_levels_provider.h"
#include "fetch/co_ops_predictions_provider.h"
#include "fetch/co_ops_station_provider.h"
#include "fetch/gather_facts.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/nws_grid_provider.h"
#include "fetch/nws_hourly_provider.h"
#include "fetch/nws_points_provider.h"
#include "fetch/open_meteo_provider.h"
#include "given/open_water.h"
#include "given/replies.h"
#include "given/rules.h"
#include "ratio.h"
#include "store/sqlite_store.h"

namespace passage_brief::bench {
namespace {

Asked told() {
  Asked asked;
  asked.name = "Bench";
  asked.datum = "MLLW";
  asked.height_unit = metres(1);
  asked.gmt = true;
  return asked;
}

/// A reply that its provider does not believe would be quick, and no measure.
template <class Read>
void add_reply(Plan& plan, const std::string& file, const Read& read) {
  const std::string text = given::reply_text(file);
  if (!read(text)) throw std::runtime_error(file + " is refused");
  const std::string bare = file + " as bare JSON";
  plan.floor(bare, [text] { benchmark::DoNotOptimize(nlohmann::json::parse(text)); });
  plan.measure({file, bare}, [text, read] { benchmark::DoNotOptimize(read(text)); });
}

void add_replies(Plan& plan) {
  using Text = const std::string&;
  const Position place = position_at(30, -45);
  add_reply(plan, "co_ops_station.json", [](Text t) { return co_ops_station("r", t, told()); });
  add_reply(plan, "co_ops_predictions_6min.json",
            [](Text t) { return co_ops_predictions("r", t, told()); });
  add_reply(plan, "co_ops_predictions_high_low.json",
            [](Text t) { return co_ops_predictions("r", t, told()); });
  add_reply(plan, "co_ops_levels.json", [](Text t) { return co_ops_levels("r", t, told()); });
  add_reply(plan, "co_ops_currents.json", [](Text t) { return co_ops_currents("r", t, told()); });
  add_reply(plan, "nws_points.json", [place](Text t) { return nws_point("r", t, place); });
  add_reply(plan, "nws_grid.json", [](Text t) { return nws_grid("r", t, Asked{}); });
  add_reply(plan, "nws_hourly.json", [](Text t) { return nws_hourly("r", t, Asked{}); });
  add_reply(plan, "nws_alerts.json", [](Text t) { return nws_alerts("r", t, ""); });
  add_reply(plan, "open_meteo_forecast.json", [](Text t) { return open_meteo("r", t, Asked{}); });
  add_reply(plan, "open_meteo_marine.json", [](Text t) { return open_meteo("r", t, Asked{}); });
}

/// A short way over deep water, with live facts from copies that are fresh: no network.
struct Kept {
  passage_brief::Plan plan = given::plan_along({given::at(0, 0), given::at(0, 2000)});
  Sources sources = given::all_sources("https://service.example");
  RuleSet rules = given::shipped_rules("small_craft");
  Facts floor = given::facts_over(given::empty_waterway(), metres(1));
  Instant now = *parse_instant("2026-06-14T11:30:00Z");
  std::unique_ptr<Store> store = open_sqlite_store(":memory:");
  given::ScriptedTransport network;

  Kept() {
    network.answer_well();
    static_cast<void>(gathered());
    network.answers.clear();
    network.asked.clear();
  }
  GatheredFacts gathered() {
    return gather_facts(plan, sources, rules.margins.forecasts_differ, {now, Zone::utc()}, network,
                        *store);
  }
  [[nodiscard]] Brief brief_with(GatheredFacts live) const {
    Facts facts = floor;
    add_gathered(std::move(live), facts);
    return prepare_brief(plan, facts, rules, now);
  }
};

}  // namespace

void add_fetches(Plan& plan) {
  add_replies(plan);
  const auto kept = std::make_shared<Kept>();
  const GatheredFacts live = kept->gathered();
  const std::string ready = "one brief, its live facts at hand";
  plan.floor(ready, [kept, live] { benchmark::DoNotOptimize(kept->brief_with(live)); });
  plan.measure({"one brief, its live facts from kept copies", ready}, [kept] {
    benchmark::DoNotOptimize(kept->brief_with(kept->gathered()));
    if (!kept->network.asked.empty()) throw std::runtime_error("the network was asked");
  });
}

}  // namespace passage_brief::bench
