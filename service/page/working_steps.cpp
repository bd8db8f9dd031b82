#include "page/working_steps.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "page/figures.h"
#include "units/known.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

double value_of(long long in_hundredths) { return static_cast<double>(in_hundredths) / 100; }

std::string plain(long long in_hundredths) {
  return rounded(value_of(in_hundredths), 2, Rounding::nearest);
}

long long hundredths_of(double value) { return std::llround(value * 100); }

long long in_hundredths(double value, Rounding way) {
  return printed_sum({value}, value, 2, way).total;
}

/// A term that a step rounds itself, and not one given in whole hundredths or printed before.
bool is_rounded(const Term& term, double value) {
  return !term.carried && std::abs(value - value_of(hundredths_of(value))) > 1e-6;
}

/// The sum of the terms as they are printed.
PrintedSum plainly(const std::vector<double>& values, const std::vector<Term>& terms) {
  PrintedSum sum{{}, 0};
  for (std::size_t i = 0; i < terms.size(); ++i) {
    sum.terms.push_back(terms[i].carried.value_or(hundredths_of(values[i])));
  }
  sum.total = std::reduce(sum.terms.begin(), sum.terms.end(), 0LL);
  return sum;
}

/// What a carried figure left out goes to a term that is rounded anyway. Where there is none the
/// total goes without, so long as to the first decimal it is the same; else that is a last term.
PrintedSum with_carried(std::vector<double> values, const std::vector<Term>& terms, double whole,
                        Rounding way) {
  std::optional<std::size_t> takes;
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (is_rounded(terms[i], values[i])) takes = i;
  }
  if (!takes) {
    PrintedSum sum = plainly(values, terms);
    if (rounded(value_of(sum.total), 1, way) != rounded(whole, 1, way)) {
      const long long total = in_hundredths(whole, way);
      sum.terms.push_back(total - sum.total);
      sum.total = total;
    }
    return sum;
  }
  for (std::size_t i = 0; i < terms.size(); ++i) {
    if (!terms[i].carried) continue;
    const double kept = value_of(*terms[i].carried);
    values[*takes] += values[i] - kept;
    values[i] = kept;
  }
  return printed_sum(values, whole, 2, way);
}

}  // namespace

SharedSources::SharedSources(const std::vector<Worked>& shown) {
  const auto count = [this](const std::string& name, const std::string& source) {
    const auto [entry, first] = source_of_.try_emplace(name, source);
    if (!first && entry->second != source) entry->second.clear();
    ++used_[name];
  };
  for (const Worked& worked : shown) {
    for (const WorkingInput& input : worked.working->inputs) count(input.name, input.source);
    count(worked.what, worked.working->source);
  }
}

bool SharedSources::tells(const std::string& name, const std::string& source) const {
  const auto found = source_of_.find(name);
  return found != source_of_.end() && !source.empty() && found->second == source &&
         used_.at(name) > 1;
}

std::optional<Block> SharedSources::block() const {
  std::map<std::string, std::vector<std::string>> names;
  for (const auto& [name, source] : source_of_) {
    if (source == "vessel" || source == "worked out") continue;  // the steps show it
    if (tells(name, source)) names[source].push_back(name);
  }
  if (names.empty()) return std::nullopt;
  Block block{.kind = BlockKind::working, .lead = "Where the rest of it comes from"};
  for (const auto& [source, of] : names) {
    block.more.push_back(fmt::format("{}: {}.", capitalised(source), fmt::join(of, "; ")));
  }
  return block;
}

std::string Steps::number(Length length, Rounding way) const {
  return rounded(in_depth_unit(length, reader_->units), 2, way);
}

std::string Steps::hundredths(Length length, Rounding way) const {
  return fmt::format("{} {}", number(length, way), depth_unit(reader_->units));
}

Carried Steps::sum(const std::string& name, const std::vector<Term>& terms,
                   const Known<Length>& total, Rounding way) {
  if (!total.has_value()) {
    say(name + ": " + not_known_text(total.error()) + ".");
    return std::nullopt;
  }
  std::vector<double> values;
  double added = 0;
  for (const Term& term : terms) {
    values.push_back(in_depth_unit(term.value, reader_->units) * (term.taken_away ? -1 : 1));
    added += values.back();
  }
  const double whole = in_depth_unit(total.value(), reader_->units);
  if (std::abs(added - whole) > 1e-6) {
    say(fmt::format("{} = {}, by the inputs below", name, hundredths(total.value(), way)));
    return std::nullopt;
  }
  const PrintedSum printed = with_carried(values, terms, whole, way);
  std::string text = name + ":";
  for (std::size_t i = 0; i < terms.size(); ++i) {
    const bool minus = printed.terms[i] < 0 || (printed.terms[i] == 0 && terms[i].taken_away);
    const std::string sign = minus ? "- " : i > 0 ? "+ " : "";
    text += fmt::format(" {}{} {}", sign, terms[i].name, plain(std::abs(printed.terms[i])));
  }
  if (printed.terms.size() > terms.size()) {
    const long long left = printed.terms.back();
    text += fmt::format(" {} rounded off before {}", left < 0 ? "-" : "+", plain(std::abs(left)));
  }
  say(fmt::format("{} = {} {}", text, plain(printed.total), depth_unit(reader_->units)));
  return printed.total;
}

std::string Steps::value_text(const WorkedValue& value) const {
  struct Printer {
    const Steps& steps;
    std::string operator()(Length v) const {
      return v > metres(150) ? miles_text(v, Rounding::nearest)
                             : steps.hundredths(v, Rounding::nearest);
    }
    std::string operator()(Speed v) const {
      return rounded(in_knots(v), 2, Rounding::nearest) + " kn";
    }
    std::string operator()(Angle v) const {
      return rounded(v.in_degrees(), 1, Rounding::nearest) + "\u00b0";
    }
    std::string operator()(Interval v) const { return interval_text(v, Rounding::nearest); }
    std::string operator()(Instant v) const {
      return steps.reader_->clock.with_zone(v, Rounding::nearest);
    }
    std::string operator()(double v) const { return rounded(v, 3, Rounding::nearest); }
    std::string operator()(const std::string& v) const { return v; }
  };
  return std::visit(Printer{*this}, value);
}

void Steps::inputs(const Working& working) { say_inputs(working, false); }

void Steps::all_inputs(const Worked& worked) {
  say_inputs(*worked.working, true);
  const std::string& by = worked.working->source;
  if (!by.empty() && !shared_->tells(worked.what, by)) say("By: " + by + ".");
}

void Steps::say_inputs(const Working& working, bool with_lengths) {
  std::string text;
  for (const WorkingInput& input : working.inputs) {
    const bool length = std::holds_alternative<Length>(input.value);
    if (length && !with_lengths && (input.source == "worked out" || input.source == "vessel")) {
      continue;
    }
    const bool with_value = !length || with_lengths;
    const bool with_source = !input.source.empty() && !shared_->tells(input.name, input.source);
    if (!with_value && !with_source) continue;
    text += (text.empty() ? "" : "; ") + input.name;
    if (with_value) text += " " + value_text(input.value);
    if (with_source) text += " (" + input.source + ")";
  }
  if (!text.empty()) say("From: " + text + ".");
}

void Steps::could_be(const std::string& name, const Term& figure, const Known<Length>& could_be,
                     const std::vector<ErrorTerm>& errors, Length for_parts) {
  if (!could_be.has_value()) {
    say(name + ": " + not_known_text(could_be.error()) + ".");
    return;
  }
  const auto in_unit = [this](Length length) { return in_depth_unit(length, reader_->units); };
  double squares_m2 = 0;
  long long squares = 0;  // of the terms as printed, in thousandths
  std::string under_root;
  for (const ErrorTerm& error : errors) {
    squares_m2 += in_metres(error.one_sigma) * in_metres(error.one_sigma);
    const double term = in_unit(error.one_sigma);
    const long long printed = std::llround(term * 1000);
    squares += printed * printed;
    under_root += fmt::format("{}{} {}\u00b2", under_root.empty() ? "" : " + ", error.name,
                              rounded(value_of(printed) / 10, 3, Rounding::nearest));
  }
  const long long root = std::llround(std::sqrt(static_cast<double>(squares)));
  say(fmt::format("One standard deviation: root of ({}) = {} {}", under_root,
                  rounded(value_of(root) / 10, 3, Rounding::nearest), depth_unit(reader_->units)));
  // Each term as it is done by hand from what is printed; what they leave out is a term of its own.
  const Length off = metres(std::sqrt(squares_m2) * 1.645);
  const Length shoaling = figure.value - off - for_parts - could_be.value();
  const auto taken = [&](const char* what, Length length) {
    return Term{what, length, true, -in_hundredths(in_unit(length), Rounding::nearest)};
  };
  std::vector<Term> terms = {figure, taken("1.645 x this", off)};
  if (!figure.carried) terms[0].carried = in_hundredths(in_unit(figure.value), Rounding::down);
  terms[1].carried = -std::llround(1.645 * value_of(root) * 10);
  if (shoaling > metres(1e-6)) terms.push_back(taken("shoaling since the survey", shoaling));
  if (for_parts > metres(1e-6)) terms.push_back(taken("a part near it less sure", for_parts));
  sum(name, terms, could_be, Rounding::down);
}

}  // namespace passage_brief
