// How rows of the fact table are written: a name, a rounding, a meaning, and a way to get the value
// from one thing found. Type and dimension follow from what that way returns.
#pragma once

#include <cstddef>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "passage/findings.h"
#include "rules/fact_table.h"
#include "rules/fact_value.h"
#include "rules/verdict.h"
#include "units/known.h"

namespace passage_brief {

template <class T>
struct PlainOf {
  using type = T;
};
template <class T>
struct PlainOf<Known<T>> {
  using type = T;
};

template <class T>
constexpr FactType fact_type_of() {
  if constexpr (std::is_same_v<T, Length>) return FactType::length;
  if constexpr (std::is_same_v<T, Speed>) return FactType::speed;
  if constexpr (std::is_same_v<T, Interval>) return FactType::interval;
  if constexpr (std::is_same_v<T, Instant>) return FactType::time;
  if constexpr (std::is_same_v<T, Angle>) return FactType::angle;
  if constexpr (std::is_same_v<T, Voltage>) return FactType::voltage;
  if constexpr (std::is_same_v<T, double>) return FactType::number;
  if constexpr (std::is_same_v<T, bool>) return FactType::yes_no;
  if constexpr (std::is_same_v<T, std::string>) return FactType::words;
}

inline Known<FactValue> as_fact(FactValue value) { return value; }
template <class T>
Known<FactValue> as_fact(const Known<T>& value) {
  if (!value.has_value()) return not_known_as(value);
  return FactValue(value.value());
}

/// Adds the rows of one kind of subject. Item is what the findings hold for it.
template <class Item>
class FactRows {
 public:
  using Find = const Item& (*)(const Findings&, std::size_t index);

  FactRows(std::vector<Fact>& table, SubjectKind of, Find find)
      : table_(table), of_(of), find_(find) {}

  /// get: (const Item&) or (const Item&, const Findings&), to a value or a Known of one. The row
  /// may then be given its words, a way of printing or a margin.
  template <class Get>
  Fact& add(std::string name, Rounding rounding, std::string meaning, Get get) {
    const auto value = [get, find = find_](const Findings& findings, std::size_t index) {
      if constexpr (std::is_invocable_v<Get, const Item&, const Findings&>) {
        return get(find(findings, index), findings);
      } else {
        return get(find(findings, index));
      }
    };
    using Plain = typename PlainOf<decltype(value(std::declval<const Findings&>(), 0))>::type;
    table_.push_back(
        {.of = of_,
         .name = std::move(name),
         .type = fact_type_of<Plain>(),
         .rounding = rounding,
         .printed_as = PrintedAs::usual,
         .words = {},
         .meaning = std::move(meaning),
         .of_part = false,
         .value = [value](const Findings& findings,
                          std::size_t index) { return as_fact(value(findings, index)); },
         .margin = {}});
    return table_.back();
  }

  /// A fact in words, out of a closed list.
  template <class Get>
  Fact& add_words(std::string name, std::string meaning, std::vector<std::string> words, Get get) {
    Fact& row = add(std::move(name), Rounding::nearest, std::move(meaning), get);
    row.words = std::move(words);
    return row;
  }

 private:
  std::vector<Fact>& table_;
  SubjectKind of_;
  Find find_;
};

/// The facts of whatever is passed at one place and time.
template <class Item>
void add_passing(FactRows<Item>& rows) {
  rows.add("name", Rounding::nearest, "as the waterway file calls it",
           [](const Item& item) { return item.name; });
  rows.add("time", Rounding::nearest, "when the boat is there",
           [](const Item& item) { return item.passing.at; });
  rows.add("after_departure", Rounding::down, "from departure until the boat is there",
           [](const Item& item, const Findings& findings) -> Known<Interval> {
             if (!item.passing.at.has_value()) return not_known_as(item.passing.at);
             return item.passing.at.value() - findings.passage.departs;
           });
  rows.add("along", Rounding::nearest, "along the track, from its start",
           [](const Item& item) { return item.passing.along; })
      .printed_as = PrintedAs::distance;
}

/// Whether a figure is below zero, told with its error: settled where the figure itself is below or
/// could not be below; in between not known, with that reason.
[[nodiscard]] Known<bool> is_below_zero(const Known<Length>& figure, const Known<Length>& could_be,
                                        const std::string& reason_between);

/// Yes where a figure of the boat was measured, else not known ("the draft was told, not
/// measured").
[[nodiscard]] Known<bool> was_measured(Basis basis, const std::string& figure);

/// "port", "starboard", or the word for neither.
[[nodiscard]] Known<std::string> in_words(const Known<std::optional<Side>>& side,
                                          const std::string& neither);

/// in_words() of a value that may be not known.
template <class T>
[[nodiscard]] Known<std::string> known_in_words(const Known<T>& value) {
  if (!value.has_value()) return not_known_as(value);
  return in_words(value.value());
}

/// The part of a wind that blows along a course; below zero where it comes from ahead.
[[nodiscard]] Known<Speed> astern(const Known<Wind>& wind, TrueBearing course);
/// The same of a current.
[[nodiscard]] Known<Speed> astern(const Known<Current>& current, TrueBearing course);

/// Whether a turning place wider than the boat is long is drawn at that place or further on. Where
/// one is drawn without a width it is not known.
[[nodiscard]] Known<bool> turning_place_ahead(const Findings& findings, Length along);

/// A text the drawing may lack.
[[nodiscard]] Known<std::string> stated(const std::optional<std::string>& text,
                                        const std::string& reason_if_not);

void add_passage_facts(std::vector<Fact>& table);
void add_light_facts(std::vector<Fact>& table);
void add_depth_facts(std::vector<Fact>& table, SubjectKind of);
void add_leg_facts(std::vector<Fact>& table);
void add_bridge_facts(std::vector<Fact>& table);
void add_cable_facts(std::vector<Fact>& table);
void add_danger_facts(std::vector<Fact>& table);
void add_mark_facts(std::vector<Fact>& table);

}  // namespace passage_brief
