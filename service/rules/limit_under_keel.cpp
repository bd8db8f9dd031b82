#include "rules/limit_under_keel.h"

#include <algorithm>
#include <variant>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/kleene.h"
#include "rules/test_truth.h"
#include "units/check.h"

namespace passage_brief {
namespace {

// Above every limit that water can mend, and a step below a limit (comparisons are to 1e-6 m).
constexpr Length kPlenty = metres(1000);
constexpr Length kJustBelow = metres(1e-5);

bool is_about(const Rule& rule, const Findings& findings, std::size_t depth) {
  return std::ranges::any_of(subjects(findings, rule.for_each),
                             [&](const Subject& subject) { return subject.index == depth; });
}

/// Every length a test compares with; the margin is the depth's own.
void add_lengths(std::vector<Length>& lengths, const Test& test) {
  if (const auto* joined = std::get_if<Joined>(&test.what)) {
    for (const Test& part : joined->parts) add_lengths(lengths, part);
    return;
  }
  for (const FactValue& value : std::get<Comparison>(test.what).values) {
    if (const auto* length = std::get_if<Length>(&value)) lengths.push_back(*length);
  }
}

class SounderReading {
 public:
  SounderReading(const Findings& findings, std::size_t depth)
      : findings_(findings), depth_(depth) {}

  bool keeps(const Rule& rule, Length under_keel) {
    Depth& depth = findings_.depths[depth_];
    depth.under_keel = under_keel;
    depth.under_keel_could_be = under_keel;
    return truth_of(rule.when, findings_, depth_) == Truth::no;
  }

 private:
  Findings findings_;
  std::size_t depth_;
};

}  // namespace

Length limit_under_keel(const RuleSet& rules, const Findings& findings, std::size_t depth) {
  check(depth < findings.depths.size(), "a limit is asked for a depth that was found");
  const Length margin = findings.depths[depth].margin;
  SounderReading reading(findings, depth);
  Length limit = metres(0);
  for (const Rule& rule : rules.rules) {
    const bool of_a_depth = rule.for_each == SubjectKind::reach ||
                            rule.for_each == SubjectKind::bar ||
                            rule.for_each == SubjectKind::berth;
    if (!rule.limit || !of_a_depth || !is_about(rule, findings, depth)) continue;
    if (!reading.keeps(rule, kPlenty)) continue;
    std::vector<Length> lengths{margin};
    add_lengths(lengths, rule.when);
    for (const Length length : lengths) {
      if (length > limit && !reading.keeps(rule, length - kJustBelow)) limit = length;
    }
  }
  return limit;
}

}  // namespace passage_brief
