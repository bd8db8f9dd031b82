#include "brief/alert_cautions.h"

#include <algorithm>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "facts/facts.h"
#include "facts/weather/alert.h"
#include "passage/findings.h"
#include "rules/fact_value.h"
#include "rules/verdict.h"
#include "units/time.h"

namespace passage_brief {
namespace {

Grade grade_of(Severity severity) {
  switch (severity) {
    case Severity::extreme:
      return Grade::danger;
    case Severity::severe:
    case Severity::moderate:
      return Grade::warning;
    case Severity::minor:
    case Severity::unknown:
      return Grade::caution;
  }
  return Grade::caution;
}

FactInText time_in_text(const char* name, Instant at) {
  return {.fact = name,
          .value = FactValue(at),
          .rounding = Rounding::nearest,
          .printed_as = PrintedAs::usual};
}

Sentence words_of(const Alert& alert, bool on_the_way) {
  Sentence say;
  say.emplace_back(alert.headline + (alert.headline.ends_with('.') ? " In" : ". In") +
                   " force from ");
  say.emplace_back(time_in_text("begins", alert.begins));
  if (alert.ends) {
    say.emplace_back(std::in_place_type<std::string>, " to ");
    say.emplace_back(time_in_text("ends", *alert.ends));
    say.emplace_back(std::in_place_type<std::string>, ".");
  } else {
    say.emplace_back(std::in_place_type<std::string>, " until further notice.");
  }
  if (!on_the_way) say.emplace_back(std::in_place_type<std::string>, " That is after you arrive.");
  if (!alert.instruction.empty()) say.emplace_back(" " + alert.instruction);
  return say;
}

std::string source_of(const Alert& alert) {
  std::string source = alert.issuer + ", issued " + to_rfc3339(alert.issued);
  if (!alert.link.empty()) source += ", " + alert.link;
  if (!alert.note.empty()) source += "; " + alert.note;
  return source;
}

}  // namespace

std::vector<Caution> alert_cautions(const Facts& facts, Span span) {
  const Subject whole{SubjectKind::passage, 0, "the passage", std::nullopt};
  std::vector<Caution> all;
  for (const Alert& alert : facts.alerts) {
    if (alert.ends && *alert.ends < span.begin) continue;
    const bool in_force = alert.begins <= span.end;
    all.push_back({alert.event, in_force ? grade_of(alert.severity) : Grade::notice,
                   words_of(alert, in_force), whole, source_of(alert), false});
  }
  for (const NotFetched& missing : facts.not_fetched) {
    if (missing.what != NotFetched::What::alerts) continue;
    all.push_back({"alerts not known",
                   Grade::caution,
                   {"Warnings for " + missing.name + " could not be fetched: " + missing.reason +
                    ". Listen to the forecast on the radio before you leave."},
                   whole,
                   "our own rule: not known is never safe",
                   false});
  }
  return all;
}

void add_alert_cautions(const Facts& facts, const Findings& findings, Judgement& judgement) {
  const PassageFinding& passage = findings.passage;
  const Instant arrives = passage.arrives.value_or(passage.departs + kPassageOfUnknownLength);
  const std::vector<Caution> alerts = alert_cautions(facts, {passage.departs, arrives});
  if (alerts.empty()) return;
  judgement.cautions.insert(judgement.cautions.end(), alerts.begin(), alerts.end());
  std::ranges::stable_sort(judgement.cautions, {}, [](const Caution& caution) {
    return std::tuple(caution.grade, caution.about.along);
  });
  const bool counts = std::ranges::any_of(
      judgement.cautions, [](const Caution& caution) { return caution.grade <= Grade::caution; });
  if (counts && judgement.verdict == Verdict::within_limits) judgement.verdict = Verdict::cautions;
}

}  // namespace passage_brief
