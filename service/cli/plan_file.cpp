#include "cli/plan_file.h"

#include <fmt/format.h>

#include <fstream>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "brief/ground_plan.h"
#include "cli/file_kinds.h"
#include "cli/rules_files.h"
#include "facts/waterway/read_waterway.h"
#include "facts/waterway/waterway.h"
#include "page/drawing.h"
#include "page/isolates.h"
#include "page/svg.h"
#include "passage/route_survey.h"
#include "plan/plan.h"
#include "plan/read_route.h"
#include "plan/read_vessel.h"
#include "reading/file_text.h"
#include "rules/read_rules.h"
#include "rules/rule_set.h"
#include "units/time.h"

namespace passage_brief {
namespace {

constexpr DrawingSize kLargest{1200, 1600};

struct OnThePlan {
  std::optional<Waterway> waterway;
  std::optional<Route> route;
  std::optional<Vessel> vessel;
  std::optional<RuleSet> rules;
};

class PlanTable {
 public:
  void take(const std::string& file) {
    const auto text = read_file_text(file);
    if (!text) return add(text.error());
    const auto kind = kind_of(file, *text);
    if (!kind) return add(kind.error());
    const std::string& word = (*kind)->word;
    if (word == "waterway") put(found_.waterway, word, file, read_waterway(file, *text));
    if (word == "route") put(found_.route, word, file, read_route(file, *text));
    if (word == "vessel") put(found_.vessel, word, file, read_vessel(file, *text));
    if (word == "rules") {
      put(found_.rules, word, file, read_edition(file, *text));
    }
  }

  [[nodiscard]] const OnThePlan& found() const { return found_; }
  [[nodiscard]] Problems take_problems() { return std::move(problems_); }
  void refuse(const std::string& place, std::string words) {
    problems_.push_back({place, "", std::move(words)});
  }

 private:
  void add(const Problems& more) { problems_.insert(problems_.end(), more.begin(), more.end()); }

  template <class T, class Read>
  void put(std::optional<T>& place, const std::string& word, const std::string& file, Read read) {
    if (!read) return add(read.error());
    if (place) {
      return refuse(file, fmt::format("is a second {}; a plan is drawn of one", word));
    }
    place = std::move(*read);
  }

  OnThePlan found_;
  Problems problems_;
};

std::string svg_of(const OnThePlan& found, Units units) {
  const Waterway& waterway = *found.waterway;
  std::optional<RouteSurvey> survey;
  if (found.route && found.vessel && found.rules) {
    const Plan plan{*found.vessel, *found.route, {Instant{}}};
    survey.emplace(plan, waterway, found.rules->margins);
  }
  const Drawing drawing = plan_drawing(
      ground_plan(waterway, found.route ? &*found.route : nullptr, survey ? &*survey : nullptr),
      units, kLargest);
  return drawing_as_svg(drawing,
                        {"plan", waterway.name + ", as drawn",
                         "The waterway from above, north up, to be held beside the chart it was "
                         "drawn from. Not for navigation."});
}

}  // namespace

Problems write_plan(const std::vector<std::string>& files, const std::string& svg_file,
                    Units units) {
  PlanTable table;
  for (const std::string& file : files) table.take(file);
  Problems problems = table.take_problems();
  if (problems.empty() && !table.found().waterway) {
    problems.push_back({"--plan", "", "needs a waterway among the files"});
  }
  if (!problems.empty()) return problems;
  std::ofstream svg(svg_file, std::ios::binary | std::ios::trunc);
  svg << with_isolates(svg_of(table.found(), units)) << '\n' << std::flush;
  if (!svg) throw std::runtime_error("cannot write " + svg_file);
  return {};
}

}  // namespace passage_brief
