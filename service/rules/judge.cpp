#include "rules/judge.h"

#include <algorithm>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "rules/at_their_least.h"
#include "rules/fact_table.h"
#include "rules/kleene.h"
#include "rules/test_truth.h"

namespace passage_brief {
namespace {

Sentence sentence(const Rule& rule, const Findings& findings, std::size_t index) {
  Sentence say;
  for (const SayPiece& piece : rule.say) {
    switch (piece.what) {
      case SayPiece::What::text:
        say.emplace_back(piece.text);
        break;
      case SayPiece::What::fact:
        say.emplace_back(FactInText{.fact = piece.fact->name,
                                    .value = piece.fact->value(findings, index),
                                    .rounding = piece.fact->rounding,
                                    .printed_as = piece.fact->printed_as});
        break;
      case SayPiece::What::why_not_known: {
        const Known<FactValue> value = piece.fact->value(findings, index);
        if (!value.has_value()) say.emplace_back(in_words(value.error()));
        break;
      }
    }
  }
  return say;
}

LimitState state_of(Truth broken) {
  switch (broken) {
    case Truth::no:
      return LimitState::kept;
    case Truth::unknown:
      return LimitState::cannot_tell;
    case Truth::yes:
      return LimitState::broken;
  }
  return LimitState::cannot_tell;
}

void put_to(const Rule& rule, const Subject& subject, const Findings& findings,
            Judgement& judgement) {
  const Truth truth = truth_of(rule.when, findings, subject.index);
  if (rule.limit) judgement.limits.push_back({rule.id, subject, state_of(truth)});
  switch (truth) {
    case Truth::no:
      break;
    case Truth::unknown:
      judgement.not_checked.push_back(
          {rule.id, subject, why_unknown(rule.when, findings, subject.index), rule.limit});
      break;
    case Truth::yes:
      judgement.cautions.push_back({rule.id, rule.grade, sentence(rule, findings, subject.index),
                                    subject, rule.source, rule.limit});
      break;
  }
}

Verdict verdict_of(const Judgement& judgement) {
  const auto any_limit = [&](LimitState state) {
    return std::ranges::any_of(judgement.limits,
                               [&](const LimitResult& limit) { return limit.state == state; });
  };
  if (any_limit(LimitState::broken)) return Verdict::outside_limits;
  if (any_limit(LimitState::cannot_tell)) return Verdict::cannot_tell;
  const auto counts = [](const Caution& caution) { return caution.grade <= Grade::caution; };
  return std::ranges::any_of(judgement.cautions, counts) ? Verdict::cautions
                                                         : Verdict::within_limits;
}

}  // namespace

Judgement judge(const RuleSet& rules, const Findings& findings) {
  std::map<SubjectKind, std::vector<Subject>> found;
  for (const SubjectKind kind : all_subject_kinds()) found[kind] = subjects(findings, kind);

  Judgement judgement{Verdict::cannot_tell, {}, {}, {}};
  const std::optional<Findings> least =
      rules.sure_95 ? std::optional(at_their_least(findings)) : std::nullopt;
  for (const Rule& rule : rules.rules) {
    const Findings& figures = rule.limit && least ? *least : findings;
    const bool of_parts = asks_of_parts(rule.when);
    for (const Subject& subject : found[rule.for_each]) {
      if (!of_parts && is_part(subject, findings)) continue;
      put_to(rule, subject, figures, judgement);
    }
  }
  // The passage as a whole stands before any place on it (an empty `along` is the least).
  std::ranges::stable_sort(judgement.cautions, {}, [](const Caution& caution) {
    return std::tuple(caution.grade, caution.about.along);
  });
  std::ranges::stable_sort(judgement.not_checked, {}, [](const NotChecked& unchecked) {
    return std::tuple(!unchecked.limit, unchecked.about.along);
  });
  judgement.verdict = verdict_of(judgement);
  return judgement;
}

}  // namespace passage_brief
