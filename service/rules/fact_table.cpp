#include "rules/fact_table.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "rules/fact_rows.h"

namespace passage_brief {
namespace {

constexpr std::array kSubjectKinds = {
    SubjectKind::passage, SubjectKind::berth,  SubjectKind::leg,   SubjectKind::reach,
    SubjectKind::bar,     SubjectKind::bridge, SubjectKind::cable, SubjectKind::danger,
    SubjectKind::mark,    SubjectKind::light};

std::vector<Fact> all_facts() {
  std::vector<Fact> table;
  for (const SubjectKind kind : kSubjectKinds) {
    switch (kind) {
      case SubjectKind::passage:
        add_passage_facts(table);
        break;
      case SubjectKind::berth:
      case SubjectKind::reach:
      case SubjectKind::bar:
        add_depth_facts(table, kind);
        break;
      case SubjectKind::leg:
        add_leg_facts(table);
        break;
      case SubjectKind::bridge:
        add_bridge_facts(table);
        break;
      case SubjectKind::cable:
        add_cable_facts(table);
        break;
      case SubjectKind::danger:
        add_danger_facts(table);
        break;
      case SubjectKind::mark:
        add_mark_facts(table);
        break;
      case SubjectKind::light:
        add_light_facts(table);
        break;
    }
  }
  return table;
}

template <class Item>
void add_subjects(std::vector<Subject>& all, SubjectKind kind, const std::vector<Item>& items) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    all.push_back({kind, i, items[i].name, items[i].passing.along});
  }
}

std::vector<Subject> legs(const Findings& findings) {
  std::vector<Subject> all;
  Length along = metres(0);
  for (std::size_t i = 0; i < findings.legs.size(); ++i) {
    const Leg& leg = findings.legs[i];
    all.push_back({SubjectKind::leg, i, leg.from + " to " + leg.to, along});
    along += leg.distance;
  }
  return all;
}

std::string_view in_words(Rounding rounding) {
  switch (rounding) {
    case Rounding::down:
      return "down";
    case Rounding::up:
      return "up";
    case Rounding::nearest:
      return "";
  }
  return {};
}

std::string values_in_markdown(const Fact& fact) {
  if (fact.words.empty()) return std::string(in_words(fact.type));
  std::string all;
  for (const std::string& word : fact.words) all += (all.empty() ? "" : ", ") + word;
  return all;
}

/// Berth, reach and bar have the same facts: one table serves the three.
std::string heading(SubjectKind kind) {
  if (kind == SubjectKind::reach) return "`reach` (and water outside every reach), `bar`, `berth`";
  return "`" + std::string(in_words(kind)) + "`";
}

}  // namespace

std::span<const SubjectKind> all_subject_kinds() { return kSubjectKinds; }

SubjectKind subject_kind_of(DepthPlace place) {
  switch (place) {
    case DepthPlace::reach:
    case DepthPlace::unnamed_water:
      return SubjectKind::reach;
    case DepthPlace::bar:
      return SubjectKind::bar;
    case DepthPlace::berth:
      return SubjectKind::berth;
  }
  return SubjectKind::reach;
}

std::span<const Fact> fact_table() {
  static const std::vector<Fact> table = all_facts();
  return table;
}

const Fact* find_fact(SubjectKind of, std::string_view name) {
  const auto table = fact_table();
  const auto found = std::ranges::find_if(
      table, [&](const Fact& fact) { return fact.of == of && fact.name == name; });
  return found == table.end() ? nullptr : &*found;
}

bool is_of_depth(SubjectKind kind) {
  return kind == SubjectKind::reach || kind == SubjectKind::bar || kind == SubjectKind::berth;
}

const Fact* figure_of(SubjectKind kind) {
  if (is_of_depth(kind)) return find_fact(kind, "under_keel");
  if (kind == SubjectKind::bridge) return find_fact(kind, "over_mast");
  return kind == SubjectKind::cable ? find_fact(kind, "to_spare") : nullptr;
}

std::vector<Subject> subjects(const Findings& findings, SubjectKind kind) {
  std::vector<Subject> all;
  switch (kind) {
    case SubjectKind::passage:
      return {{kind, 0, "the passage", std::nullopt}};
    case SubjectKind::light:
      return {{kind, 0, "daylight", std::nullopt}};
    case SubjectKind::leg:
      return legs(findings);
    case SubjectKind::bridge:
      add_subjects(all, kind, findings.bridges);
      break;
    case SubjectKind::cable:
      add_subjects(all, kind, findings.cables);
      break;
    case SubjectKind::danger:
      add_subjects(all, kind, findings.dangers);
      break;
    case SubjectKind::mark:
      add_subjects(all, kind, findings.marks);
      break;
    case SubjectKind::berth:
    case SubjectKind::reach:
    case SubjectKind::bar:
      add_subjects(all, kind, findings.depths);
      std::erase_if(all, [&](const Subject& subject) {
        return subject_kind_of(findings.depths[subject.index].place) != kind;
      });
      break;
  }
  return all;
}

bool is_part(const Subject& subject, const Findings& findings) {
  const bool of_depth = subject.kind == SubjectKind::reach || subject.kind == SubjectKind::bar;
  return of_depth && findings.depths[subject.index].part;
}

std::string_view in_words(SubjectKind kind) {
  switch (kind) {
    case SubjectKind::passage:
      return "passage";
    case SubjectKind::berth:
      return "berth";
    case SubjectKind::leg:
      return "leg";
    case SubjectKind::reach:
      return "reach";
    case SubjectKind::bar:
      return "bar";
    case SubjectKind::bridge:
      return "bridge";
    case SubjectKind::cable:
      return "cable";
    case SubjectKind::danger:
      return "danger";
    case SubjectKind::mark:
      return "mark";
    case SubjectKind::light:
      return "light";
  }
  return {};
}

std::string_view in_words(FactType type) {
  switch (type) {
    case FactType::length:
      return "length";
    case FactType::speed:
      return "speed";
    case FactType::interval:
      return "length of time";
    case FactType::time:
      return "time";
    case FactType::angle:
      return "degrees";
    case FactType::voltage:
      return "voltage";
    case FactType::number:
      return "number";
    case FactType::yes_no:
      return "true or false";
    case FactType::words:
      return "text";
  }
  return {};
}

std::string fact_table_in_markdown() {
  std::string page;
  for (const SubjectKind kind : kSubjectKinds) {
    if (kind == SubjectKind::berth || kind == SubjectKind::bar) continue;
    page += "\n**" + heading(kind) + "**\n\n| fact | is | printed | margin | stands for |\n" +
            "| --- | --- | --- | --- | --- |\n";
    for (const Fact& fact : fact_table()) {
      if (fact.of != kind) continue;
      page += "| `" + fact.name + "` | " + values_in_markdown(fact) + " | " +
              std::string(in_words(fact.rounding)) + " | " + (fact.margin ? "yes" : "") + " | " +
              fact.meaning + " |\n";
    }
  }
  return page;
}

}  // namespace passage_brief
