#include "rules/read_rules.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>
#include <expected>
#include <iterator>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "reading/written.h"
#include "rules/fact_table.h"
#include "rules/read_say.h"
#include "rules/read_when.h"
#include "units/check.h"

namespace passage_brief {
namespace {

using KindList = std::vector<SubjectKind>;

Form<SubjectKind> subject_kind() {
  return choice<SubjectKind>({{"passage", SubjectKind::passage},
                              {"berth", SubjectKind::berth},
                              {"leg", SubjectKind::leg},
                              {"reach", SubjectKind::reach},
                              {"bar", SubjectKind::bar},
                              {"bridge", SubjectKind::bridge},
                              {"cable", SubjectKind::cable},
                              {"danger", SubjectKind::danger},
                              {"mark", SubjectKind::mark},
                              {"light", SubjectKind::light}});
}

/// Test and sentence need the kinds of subject, another field of the same caution. Where those are
/// wrong, everything but the facts is checked.
void check_against_facts(const Row& row) {
  const auto kinds = row.maybe<KindList>("for_each").value_or(KindList{});
  const Place at_when = row.place().inside("when");
  const Place at_say = row.place().inside("say");
  if (const auto when = row.maybe<Written>("when")) (void)read_test(*when, at_when, kinds);
  if (const auto say = row.maybe<std::string>("say")) (void)read_say(*say, at_say, kinds);
  const std::set<SubjectKind> distinct(kinds.begin(), kinds.end());
  if (distinct.size() != kinds.size()) row.refuse("for_each", "names a kind twice");
}

std::optional<std::vector<Rule>> build_caution(const Row& row) {
  const auto kinds = row.get<KindList>("for_each");
  const auto test = read_test(row.get<Written>("when"), row.place(), kinds);
  const auto say = read_say(row.get<std::string>("say"), row.place(), kinds);
  check(test && say, "a caution that reaches building was checked");
  std::vector<Rule> rules;
  for (const SubjectKind kind : kinds) {
    rules.push_back({.id = row.get<std::string>("id"),
                     .for_each = kind,
                     .when = test_for(*test, kind),
                     .grade = row.get<Grade>("grade"),
                     .limit = row.get_or("limit", false),
                     .say = say_for(*say, kind),
                     .source = row.get<std::string>("source")});
  }
  return rules;
}

Form<std::vector<Rule>> caution() {
  return object<std::vector<Rule>>(
      "caution",
      {must_be_given("id", text(80),
                     "Its name: in a file that builds on another it replaces the caution of that "
                     "name.",
                     "\"thin water\""),
       must_be_given("for_each", one_or_more(subject_kind(), all_subject_kinds().size()),
                     "What it is put to, each by itself.", "\"reach\""),
       must_be_given("when", test_as_written(), "The bad state, as a test of facts.",
                     "{\"under_keel\": {\"less_than\": \"3 ft\"}}"),
       must_be_given("grade",
                     choice<Grade>({{"danger", Grade::danger},
                                    {"warning", Grade::warning},
                                    {"caution", Grade::caution},
                                    {"notice", Grade::notice}}),
                     "By what can happen to people: danger will kill or maim, warning could, "
                     "caution may hurt slightly, notice hurts nobody.",
                     "\"caution\""),
       may_be_left_out("limit", yes_or_no(),
                       "Whether it closes the departure: broken where the test holds, cannot tell "
                       "where it is unknown. Left out: false.",
                       "true"),
       must_be_given("say", text(400),
                     "Hazard, what follows, what to do; names of facts in braces.",
                     "\"{reach}: {under_keel} under the keel at {time}. Dead slow.\""),
       must_be_given("source", text(200), "Publication, or \"common practice, no source\".",
                     "\"common practice, no source\"")},
      build_caution, {check_against_facts});
}

Form<RulesLayer::Margins> margins() {
  const auto a_length = [](const char* most) { return length("0 m", most); };
  return object<RulesLayer::Margins>(
      "margins",
      {may_be_left_out("under_keel", a_length("10 m"),
                       "Wanted under the keel over mud and sand in shelter.", "\"2 ft\""),
       may_be_left_out("under_keel_hard", a_length("10 m"),
                       "The same over anything harder, over a bottom that is not stated and in "
                       "open water.",
                       "\"3 ft\""),
       may_be_left_out("under_bridge", a_length("10 m"),
                       "Wanted over the mast, under bridges and cables.", "\"2 ft\""),
       may_be_left_out("track", a_length("1 km"),
                       "How far to each side of the hull she may be off the line.", "\"30 ft\""),
       may_be_left_out("position", a_length("1 km"), "How far off the position itself may be.",
                       "\"8 m\""),
       may_be_left_out("wash", a_length("2 m"),
                       "Half the height of wakes, where waves are not counted.", "\"0.3 ft\""),
       may_be_left_out("shoaling", a_length("5 m"),
                       "What a bottom that moves may have risen in each year since its survey.",
                       "\"0.3 ft\""),
       may_be_left_out("forecast_age", interval("1 min", "240 h"),
                       "From its issue: a forecast older than this at departure is old.",
                       "\"12 h\""),
       may_be_left_out("forecasts_differ", speed("0 kn", "60 kn"),
                       "Where two forecasts of one place differ by more in wind or gust, both are "
                       "shown and the worse is used.",
                       "\"8 kn\""),
       may_be_left_out("observed_gain", interval("1 min", "24 h"),
                       "How long water seen to stand in her favour counts, less by the minute and "
                       "only at that station; left out: 2 h.",
                       "\"2 h\""),
       may_be_left_out("observed_loss", interval("1 min", "240 h"),
                       "How long a lack of water that was seen takes to fade once the wind that "
                       "held it is over; left out: 24 h.",
                       "\"24 h\""),
       may_be_left_out("observed_wind", number(0, 1),
                       "That wind is over where less than this share of it blows from where it "
                       "did; left out: 0.5.",
                       "0.5"),
       may_be_left_out("observed_error", a_length("2 m"),
                       "One standard deviation of an observed level; left out: 0.3 ft.",
                       "\"0.3 ft\""),
       may_be_left_out("mean_pressure", pressure("950 hPa", "1050 hPa"),
                       "Air that presses more lowers the water 1 cm for each hPa, and less raises "
                       "it; left out: 1013.25 hPa.",
                       "\"1013.25 hPa\""),
       may_be_left_out("set_down_wind", speed("1 kn", "100 kn"),
                       "A wind like this or more may hold the water up or down: errors are taken "
                       "wider; left out: 20 kn.",
                       "\"20 kn\""),
       may_be_left_out("set_down_error", a_length("5 m"),
                       "One standard deviation of what it does; left out: 0.5 ft.", "\"0.5 ft\"")},
      [](const Row& row) -> std::optional<RulesLayer::Margins> {
        return RulesLayer::Margins{.under_keel = row.maybe<Length>("under_keel"),
                                   .under_keel_hard = row.maybe<Length>("under_keel_hard"),
                                   .under_bridge = row.maybe<Length>("under_bridge"),
                                   .track = row.maybe<Length>("track"),
                                   .position = row.maybe<Length>("position"),
                                   .wash = row.maybe<Length>("wash"),
                                   .shoaling = row.maybe<Length>("shoaling"),
                                   .forecast_age = row.maybe<Interval>("forecast_age"),
                                   .forecasts_differ = row.maybe<Speed>("forecasts_differ"),
                                   .observed_gain = row.maybe<Interval>("observed_gain"),
                                   .observed_loss = row.maybe<Interval>("observed_loss"),
                                   .observed_wind = row.maybe<double>("observed_wind"),
                                   .observed_error = row.maybe<Length>("observed_error"),
                                   .mean_pressure = row.maybe<Pressure>("mean_pressure"),
                                   .set_down_wind = row.maybe<Speed>("set_down_wind"),
                                   .set_down_error = row.maybe<Length>("set_down_error")};
      });
}

Form<LessonFigure> lesson_figure() {
  return words_for({LessonFigure::under_keel, LessonFigure::stop_at, LessonFigure::clearance,
                    LessonFigure::over_mast, LessonFigure::gauge_at_least, LessonFigure::steer,
                    LessonFigure::leeway, LessonFigure::reached_in});
}

void refuse_blanks_named_twice(const Row& row) {
  const auto figures = row.maybe<std::vector<LessonFigure>>("left_blank");
  if (!figures) return;
  const std::set<LessonFigure> distinct(figures->begin(), figures->end());
  if (distinct.size() != figures->size()) row.refuse("left_blank", "names a figure twice");
}

void refuse_same_ids(const Row& row) {
  const auto cautions = row.maybe<std::vector<std::vector<Rule>>>("cautions");
  if (!cautions) return;
  const Place list = row.place().inside("cautions");
  std::set<std::string> seen;
  for (std::size_t i = 0; i < cautions->size(); ++i) {
    const std::string& id = (*cautions)[i].front().id;
    if (!seen.insert(id).second) {
      const Place entry = list.inside(i);
      entry.inside("id").refuse(fmt::format("\"{}\" stands twice in this file", id));
    }
  }
}

/// The file asked for, then each that the one before builds on, down to one that builds on nothing.
struct Chain {
  std::vector<RulesLayer> layers;
  Problems problems;
};

/// What `above` builds on; nothing when that is nothing, or cannot be had, which is a problem.
std::optional<RulesText> below(const RulesText& above, const TextsAtTop& texts,
                               const std::vector<std::string>& names, const FindRules& find,
                               Problems& problems) {
  const std::optional<std::string> name = text_of(texts, "builds_on");
  if (!name) return std::nullopt;
  const auto refuse = [&](std::string words) {
    problems.push_back({above.file, "/builds_on", std::move(words)});
    return std::nullopt;
  };
  if (std::ranges::find(names, *name) != names.end()) {
    return refuse(fmt::format("\"{}\" would build on itself", *name));
  }
  if (names.size() == kMostLayers) {
    return refuse(fmt::format("no more than {} files may build on one another", kMostLayers));
  }
  std::expected<RulesText, std::string> found = find(*name);
  if (!found) return refuse(std::move(found.error()));
  return *std::move(found);
}

Chain read_chain(const RulesText& rules, const FindRules& find) {
  Chain chain;
  std::vector<std::string> names;
  std::optional<RulesText> next = rules;
  static const auto form = rules_form();  // made once
  while (next) {
    auto layer = read_json(next->file, next->text, "the rules file", form);
    if (layer) {
      chain.layers.push_back(std::move(*layer));
    } else {
      chain.problems.insert(chain.problems.end(), layer.error().begin(), layer.error().end());
    }
    const auto texts = texts_at_top(next->file, next->text).value_or(TextsAtTop{});
    names.push_back(text_of(texts, "name").value_or(""));
    next = below(*next, texts, names, find, chain.problems);
  }
  return chain;
}

/// The nearest layer's own.
template <class T>
std::optional<T> margin_in(const std::vector<RulesLayer>& layers,
                           std::optional<T> RulesLayer::Margins::* margin) {
  for (const RulesLayer& layer : layers) {
    if (layer.margins.*margin) return layer.margins.*margin;
  }
  return std::nullopt;
}

std::expected<Margins, Problems> lay_margins(const std::vector<RulesLayer>& layers,
                                             const std::string& file) {
  Problems problems;
  const auto lay = [&]<class T>(const char* name, std::optional<T> RulesLayer::Margins::* margin,
                                const char* example, T nothing) {
    const std::optional<T> laid = margin_in(layers, margin);
    if (!laid) {
      problems.push_back({file, fmt::format("/margins/{}", name),
                          fmt::format("is missing here and in all that this file builds on; a "
                                      "margin has no default, state it, for example {}",
                                      example)});
    }
    return laid.value_or(nothing);
  };
  using M = RulesLayer::Margins;
  const Length none = metres(0);
  Margins all = {
      .under_keel = lay("under_keel", &M::under_keel, "\"2 ft\"", none),
      .under_keel_hard = lay("under_keel_hard", &M::under_keel_hard, "\"3 ft\"", none),
      .under_bridge = lay("under_bridge", &M::under_bridge, "\"2 ft\"", none),
      .track = lay("track", &M::track, "\"30 ft\"", none),
      .position = lay("position", &M::position, "\"8 m\"", none),
      .wash = lay("wash", &M::wash, "\"0.3 ft\"", none),
      .shoaling = lay("shoaling", &M::shoaling, "\"0.3 ft\"", none),
      .forecast_age = lay("forecast_age", &M::forecast_age, "\"12 h\"", Interval(0)),
      .forecasts_differ = lay("forecasts_differ", &M::forecasts_differ, "\"8 kn\"", knots(0))};
  if (!problems.empty()) return std::unexpected(std::move(problems));
  const auto lay_over = [&]<class T>(T& margin, std::optional<T> M::* laid) {
    margin = margin_in(layers, laid).value_or(margin);
  };
  lay_over(all.observed_gain, &M::observed_gain);
  lay_over(all.observed_loss, &M::observed_loss);
  lay_over(all.observed_wind, &M::observed_wind);
  lay_over(all.observed_error, &M::observed_error);
  lay_over(all.mean_pressure, &M::mean_pressure);
  lay_over(all.set_down_wind, &M::set_down_wind);
  lay_over(all.set_down_error, &M::set_down_error);
  return all;
}

std::vector<LessonFigure> lay_blanks(const std::vector<RulesLayer>& layers) {
  for (const RulesLayer& layer : layers) {
    if (layer.left_blank) return *layer.left_blank;
  }
  return {};
}

/// The replacement of a caution by the layers above the one it stands in; null: none.
const std::vector<Rule>* replacement_of(const std::string& id,
                                        std::span<const RulesLayer> nearest_first) {
  for (const RulesLayer& layer : nearest_first) {
    const auto same = std::ranges::find_if(
        layer.cautions, [&](const std::vector<Rule>& own) { return own.front().id == id; });
    if (same != layer.cautions.end()) return &*same;
  }
  return nullptr;
}

/// "fog (lifted for passage)", "aground (stated anew)": every limit that a layer above replaces.
std::vector<std::string> changed_limits(const std::vector<RulesLayer>& layers) {
  std::vector<std::string> changed;
  for (std::size_t i = 1; i < layers.size(); ++i) {
    for (const std::vector<Rule>& caution : layers[i].cautions) {
      const std::string& id = caution.front().id;
      const auto* const above = replacement_of(id, std::span(layers).first(i));
      if (!caution.front().limit || above == nullptr) continue;
      std::vector<std::string_view> lifted;
      for (const Rule& rule : caution) {
        const bool kept = std::ranges::any_of(
            *above, [&](const Rule& r) { return r.limit && r.for_each == rule.for_each; });
        if (!kept) lifted.push_back(in_words(rule.for_each));
      }
      std::string told = lifted.empty()
                             ? id + " (stated anew)"
                             : fmt::format("{} (lifted for {})", id, fmt::join(lifted, ", "));
      if (std::ranges::find(changed, told) == changed.end()) changed.push_back(std::move(told));
    }
  }
  return changed;
}

/// "margin under the keel (relaxed)": every margin that asks for less than a layer below did.
std::vector<std::string> relaxed_margins(const std::vector<RulesLayer>& layers) {
  std::vector<std::string> relaxed;
  const auto look_at = [&]<class T>(const char* words, std::optional<T> RulesLayer::Margins::* of,
                                    bool more_asks_less) {
    const std::optional<T> now = margin_in(layers, of);
    const bool less = std::ranges::any_of(layers, [&](const RulesLayer& layer) {
      const std::optional<T>& laid = layer.margins.*of;
      return laid && (more_asks_less ? *laid < *now : *now < *laid);
    });
    if (less) relaxed.push_back(fmt::format("{} (relaxed)", words));
  };
  using M = RulesLayer::Margins;
  look_at("margin under the keel", &M::under_keel, false);
  look_at("margin over hard ground", &M::under_keel_hard, false);
  look_at("margin under a bridge", &M::under_bridge, false);
  look_at("distance off the track", &M::track, false);
  look_at("error of the position", &M::position, false);
  look_at("wash", &M::wash, false);
  look_at("shoaling", &M::shoaling, false);
  look_at("age of a forecast", &M::forecast_age, true);
  look_at("difference of two forecasts", &M::forecasts_differ, true);
  look_at("gain by an observed level", &M::observed_gain, true);
  look_at("loss by an observed level", &M::observed_loss, false);
  look_at("wind that holds a level", &M::observed_wind, true);
  look_at("error of an observed level", &M::observed_error, false);
  look_at("wind that moves the water", &M::set_down_wind, true);
  look_at("error of what wind does to the water", &M::set_down_error, false);
  // More takes water from one figure what less takes from another.
  const auto other_pressure = [&](const RulesLayer& layer) {
    return layer.margins.mean_pressure &&
           *layer.margins.mean_pressure != *margin_in(layers, &M::mean_pressure);
  };
  if (std::ranges::any_of(layers, other_pressure)) relaxed.push_back("mean pressure (changed)");
  return relaxed;
}

std::string editions(const std::vector<RulesLayer>& layers) {
  std::vector<std::string> named;
  for (const RulesLayer& layer : layers) named.push_back(layer.name + " " + layer.edition);
  return fmt::format("{}", fmt::join(named, " on "));
}

std::vector<Rule> lay_cautions(const std::vector<RulesLayer>& layers) {
  std::vector<std::vector<Rule>> laid;
  for (std::size_t i = layers.size(); i-- > 0;) {
    for (const std::vector<Rule>& caution : layers[i].cautions) {
      const auto same = std::ranges::find_if(laid, [&](const std::vector<Rule>& below) {
        return below.front().id == caution.front().id;
      });
      if (same == laid.end()) {
        laid.push_back(caution);
      } else {
        *same = caution;
      }
    }
  }
  std::vector<Rule> all;
  for (std::vector<Rule>& caution : laid) {
    all.insert(all.end(), std::make_move_iterator(caution.begin()),
               std::make_move_iterator(caution.end()));
  }
  return all;
}

}  // namespace

Form<RulesLayer> rules_form() {
  return object<RulesLayer>(
      "rules",
      {always("kind", "rules"),
       must_be_given("name", text(80), "How other files and the page call it.", "\"small craft\""),
       must_be_given("edition", text(40), "Changes whenever anything in the file does.",
                     "\"2026-05\""),
       may_be_left_out("builds_on", text(80), "Name of the rules that this file is laid over.",
                       "\"small craft\""),
       passed_over("notes", "For those who keep the file."),
       may_be_left_out("margins", margins(), "Those it sets; the rest come from what it builds on.",
                       "{\"under_keel\": \"2 ft\"}"),
       may_be_left_out("left_blank", list_of(lesson_figure(), 0, 8),
                       "Figures that a learner's copy leaves blank; each takes with it what would "
                       "give it away.",
                       "[\"under_keel\", \"clearance\"]"),
       may_be_left_out("cautions", list_of(caution(), 0, 500),
                       "In any order: the page puts them by grade, then by place.", "[]")},
      [](const Row& row) -> std::optional<RulesLayer> {
        return RulesLayer{.name = row.get<std::string>("name"),
                          .edition = row.get<std::string>("edition"),
                          .builds_on = row.maybe<std::string>("builds_on"),
                          .margins = row.get_or("margins", RulesLayer::Margins{}),
                          .left_blank = row.maybe<std::vector<LessonFigure>>("left_blank"),
                          .cautions = row.get_or("cautions", std::vector<std::vector<Rule>>{})};
      },
      {refuse_same_ids, refuse_blanks_named_twice});
}

std::expected<RuleSet, Problems> read_rules(const RulesText& rules, const FindRules& find) {
  Chain chain = read_chain(rules, find);
  if (!chain.problems.empty()) return std::unexpected(std::move(chain.problems));
  std::expected<Margins, Problems> margins = lay_margins(chain.layers, rules.file);
  if (!margins) return std::unexpected(std::move(margins.error()));
  std::vector<std::string> changed = changed_limits(chain.layers);
  std::ranges::move(relaxed_margins(chain.layers), std::back_inserter(changed));
  return RuleSet{.name = chain.layers.front().name,
                 .editions = editions(chain.layers),
                 .margins = *margins,
                 .rules = lay_cautions(chain.layers),
                 .left_blank = lay_blanks(chain.layers),
                 .limits_changed = std::move(changed)};
}

std::optional<std::string> name_of_rules(std::string_view text) {
  const auto texts = texts_at_top("", text);
  if (!texts || text_of(*texts, "kind") != "rules") return std::nullopt;
  return text_of(*texts, "name");
}

}  // namespace passage_brief
