#include "reading/problem.h"

#include <algorithm>
#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace passage_brief {
namespace {

/// Letters added, dropped, changed or swapped with their neighbour (optimal string alignment).
std::size_t slips_between(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> cost(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) cost[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) cost[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
      }
    }
  }
  return cost[a.size()][b.size()];
}

}  // namespace

std::string in_words(const Problem& problem) {
  std::string words = problem.file + ": ";
  if (!problem.place.empty()) words += problem.place + ": ";
  return words + problem.words;
}

std::string nearest_word(std::string_view word, std::span<const std::string> known) {
  constexpr std::size_t longest = 60;  // the comparison is quadratic
  if (word.size() > longest) return {};
  std::string nearest;
  std::size_t fewest = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest) continue;
    const std::size_t slips = slips_between(word, candidate);
    if (slips < fewest) {
      fewest = slips;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known) {
  const std::string nearest = nearest_word(word, known);
  return nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?";
}

void Ledger::add(std::string place, std::string words) {
  ++count_;
  if (count_ > kMostProblems + 1) return;
  if (count_ == kMostProblems + 1) {
    problems_.push_back({file_, "", "there are more problems; mend these and read the file again"});
    return;
  }
  problems_.push_back({file_, std::move(place), std::move(words)});
}

Place Place::inside(std::string_view key, std::string_view example) const {
  Place child(*ledger_);
  child.parent_ = this;
  child.key_ = key;
  child.example_ = example;
  return child;
}

Place Place::inside(std::size_t index) const {
  Place child(*ledger_);
  child.parent_ = this;
  child.index_ = index;
  child.in_list_ = true;
  return child;
}

std::string Place::pointer() const {
  if (parent_ == nullptr) return {};
  std::string text = parent_->pointer() + "/";
  if (in_list_) return text + std::to_string(index_);
  for (const char c : key_) {  // RFC 6901: ~ and / inside a key
    if (c == '~') {
      text += "~0";
    } else if (c == '/') {
      text += "~1";
    } else {
      text += c;
    }
  }
  return text;
}

}  // namespace passage_brief
