// The demo's passage: judged once, made into a brief, and printed as each page.
#include <benchmark/benchmark.h>

#include <chrono>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "bare_page.h"
#include "brief/judge_departure.h"
#include "brief/prepare_brief.h"
#include "brief/window_search.h"
#include "cli/input_files.h"
#include "page/calendar.h"
#include "page/html.h"
#include "page/json.h"
#include "page/pdf.h"
#include "page/sheet.h"
#include "page/text.h"
#include "passage/route_survey.h"
#include "ratio.h"
#include "units/clock.h"
#include "units/time.h"

namespace passage_brief::bench {
namespace {

constexpr PageChoice kPage{Units::us, Paper::letter};

Inputs demo() {
  const std::string examples = PROJECT_DIR "/examples/";
  auto inputs = read_inputs(
      {.vessel = examples + "sedge_wren.vessel.json",
       .route = examples + "upriver.gpx",
       .waterway = examples + "tansel.waterway.json",
       .tides = {examples + "tansel_point.tide.json", examples + "upper_tansel.tide.json"},
       .currents = {examples + "tansel_narrows.current.json",
                    examples + "heron_creek.current.json"},
       .winds = {examples + "tansel.wind.json"},
       .rules = PROJECT_DIR "/rules/renters.json",
       .depart = "2026-06-14T08:15"},
      FixedClock(*parse_instant("2026-06-14T12:15:00Z")));
  if (!inputs) throw std::runtime_error("the demo is not read");
  return *std::move(inputs);
}

/// What a page of this brief says, less what may be left out of it.
std::vector<std::string> words_of(const Brief& brief) {
  std::vector<std::string> words;
  for (const Block& block : make_sheet(brief, kPage).blocks) {
    if (block.fold == Fold::notice) continue;
    std::string paragraph;
    for (const std::string& piece : printed_pieces(block)) paragraph += piece + " ";
    words.push_back(paragraph);
  }
  return words;
}

/// The demo with all that is made of it, kept for as long as the program runs.
struct Made {
  Inputs inputs = demo();
  RouteSurvey survey{inputs.plan, inputs.facts.waterway, inputs.rules.margins};
  Brief brief = prepare_brief(inputs.plan, inputs.facts, inputs.rules, inputs.plan.departure.at);
  std::vector<std::string> words = words_of(brief);
};

/// The level at every minute of a day at every station of the demo: the least that a passage judged
/// at any hour of it would ask for.
void add_day_of_heights(Plan& plan, const std::shared_ptr<const Made>& made) {
  plan.floor("a day of heights, each minute", [made] {
    for (const TideStation& station : made->inputs.facts.tides) {
      benchmark::DoNotOptimize(
          station.heights(made->inputs.plan.departure.at, std::chrono::minutes(1), 1440));
    }
  });
}

/// What a search for windows is over, with its survey made.
struct Sought {
  Inputs inputs;
  RouteSurvey survey{inputs.plan, inputs.facts.waterway, inputs.rules.margins};

  explicit Sought(Inputs in) : inputs(std::move(in)) {}

  [[nodiscard]] WindowList over(std::chrono::days days) const {
    const Instant begin = inputs.plan.departure.at;
    return windows_in(survey, inputs.plan, inputs.facts, inputs.rules, {begin, begin + days});
  }
};

Inputs half_the_way(Inputs inputs) {
  auto& points = inputs.plan.route.points;
  points.erase(points.begin() + static_cast<std::ptrdiff_t>(points.size() / 2 + 1), points.end());
  return inputs;
}

Inputs without_hazards_and_marks(Inputs inputs) {
  inputs.facts.waterway.hazards.clear();
  inputs.facts.waterway.marks.clear();
  return inputs;
}

/// How the search grows with days, with the way and with what is drawn.
void add_windows(Plan& plan, const std::string& floor) {
  const auto add = [&](const std::string& what, Inputs inputs, std::chrono::days days) {
    const auto sought = std::make_shared<const Sought>(std::move(inputs));
    plan.measure({what, floor}, [sought, days] { benchmark::DoNotOptimize(sought->over(days)); });
  };
  using std::chrono::days;
  add("windows of a day", demo(), days(1));
  add("windows of two days", demo(), days(2));
  add("windows of seven days", demo(), days(7));
  add("windows of a day, half the way", half_the_way(demo()), days(1));
  add("windows of a day, no hazards or marks", without_hazards_and_marks(demo()), days(1));
}

}  // namespace

void add_briefs(Plan& plan) {
  const auto made = std::make_shared<const Made>();
  add_day_of_heights(plan, made);
  const std::string day = "a day of heights, each minute";
  plan.measure({"survey of a route", day}, [made] {
    const Inputs& in = made->inputs;
    benchmark::DoNotOptimize(RouteSurvey(in.plan, in.facts.waterway, in.rules.margins));
  });
  plan.measure({"one judged departure", day}, [made] {
    const Inputs& in = made->inputs;
    benchmark::DoNotOptimize(judge_departure(made->survey, in.plan, in.facts, in.rules));
  });
  plan.measure({"one brief", day}, [made] {
    const Inputs& in = made->inputs;
    benchmark::DoNotOptimize(prepare_brief(in.plan, in.facts, in.rules, in.plan.departure.at));
  });

  add_windows(plan, day);

  const std::string page = "bare Pango and Cairo page";
  plan.floor(page, [made] { benchmark::DoNotOptimize(bare_page(made->words)); });
  plan.measure({"PDF page", page, 1.5},
               [made] { benchmark::DoNotOptimize(brief_as_pdf(made->brief, kPage)); });
  plan.measure({"text page", page},
               [made] { benchmark::DoNotOptimize(brief_as_text(made->brief, kPage)); });
  plan.measure({"HTML page", page},
               [made] { benchmark::DoNotOptimize(brief_as_html(made->brief, kPage)); });
  plan.measure({"calendar", page},
               [made] { benchmark::DoNotOptimize(brief_as_calendar(made->brief, kPage)); });
  plan.measure({"JSON", page},
               [made] { benchmark::DoNotOptimize(brief_as_json(made->brief, kPage.units)); });
}

}  // namespace passage_brief::bench
