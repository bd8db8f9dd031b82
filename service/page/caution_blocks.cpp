#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "page/figures.h"
#include "page/sheet_parts.h"
#include "rules/verdict.h"
#include "units/known.h"

namespace passage_brief {
namespace {

std::string upper_case(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

/// Of the first `what` from `begin` on that no bracket opened since then holds; npos: none.
std::size_t find_outside_brackets(const std::string& text, std::string_view what,
                                  std::size_t begin = 0) {
  int open = 0;
  for (std::size_t i = begin; i < text.size(); ++i) {
    if (text[i] == '(') ++open;
    if (text[i] == ')') open = std::max(0, open - 1);
    if (open == 0 && text.compare(i, what.size(), what) == 0) return i;
  }
  return std::string::npos;
}

std::vector<std::string> sentences_of(const std::string& text) {
  std::vector<std::string> sentences;
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t stop = find_outside_brackets(text, ". ", begin);
    const std::size_t end = stop == std::string::npos ? text.size() : stop + 1;
    sentences.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return sentences;
}

/// Whether no bracket closes in it that was opened before.
bool opens_what_it_closes(std::string_view text) {
  int open = 0;
  for (const char c : text) {
    if (c == '(') ++open;
    if (c == ')' && --open < 0) return false;
  }
  return true;
}

/// The end that all texts have in common, from its first ": " outside brackets on; empty where
/// there is none.
std::string shared_end(const std::vector<std::string>& texts) {
  std::string end = texts.front();
  for (const std::string& text : texts) {
    const auto [mine, theirs] = std::mismatch(end.rbegin(), end.rend(), text.rbegin(), text.rend());
    end.erase(end.begin(), mine.base());
  }
  for (std::size_t colon = end.find(": "); colon != std::string::npos;
       colon = end.find(": ", colon + 1)) {
    if (opens_what_it_closes(std::string_view(end).substr(colon))) return end.substr(colon);
  }
  return "";
}

/// Each once, in the order of their first.
std::vector<std::string> each_once(const std::vector<std::string>& texts) {
  std::vector<std::string> once;
  for (const std::string& text : texts) {
    if (std::ranges::find(once, text) == once.end()) once.push_back(text);
  }
  return once;
}

/// "A: this. A: that. B: this." as "A: this; that." and "B: this.": a name that several sentences
/// in a row begin with is said once.
std::vector<std::string> with_names_said_once(const std::vector<std::string>& texts) {
  std::vector<std::string> all;
  std::string name;
  for (const std::string& text : texts) {
    const std::size_t colon = find_outside_brackets(text, ": ");
    const bool one_sentence = sentences_of(text).size() == 1 && text.ends_with('.');
    const std::string begins =
        colon == std::string::npos || !one_sentence ? "" : text.substr(0, colon + 2);
    if (!begins.empty() && begins == name) {
      all.back().back() = ';';
      all.back() += " " + text.substr(begins.size());
    } else {
      all.push_back(text);
    }
    name = begins;
  }
  return all;
}

/// "A; B: this. C: that.": what several in a row say of their names is said once.
std::vector<std::string> with_sayings_said_once(const std::vector<std::string>& texts) {
  std::vector<std::string> all;
  std::string before;
  for (const std::string& text : texts) {
    const std::size_t colon = find_outside_brackets(text, ": ");
    const bool named = colon != std::string::npos && colon < find_outside_brackets(text, ". ");
    const std::string says = named ? text.substr(colon) : "";
    if (!says.empty() && says == before) {
      all.back().insert(all.back().size() - says.size(), "; " + text.substr(0, colon));
    } else {
      all.push_back(text);
    }
    before = says;
  }
  return all;
}

/// "A; B; C: what is so of them all" where they end alike, else one after the other.
std::string together(std::vector<std::string> texts) {
  const std::string end = texts.size() > 1 ? shared_end(texts) : "";
  if (end.empty()) {
    return fmt::format("{}", fmt::join(with_names_said_once(with_sayings_said_once(texts)), " "));
  }
  for (std::string& text : texts) text.erase(text.size() - end.size());
  return fmt::format("{}{}", fmt::join(each_once(texts), "; "), end);
}

/// Sayings of one rule about several places: what differs for each, then the sentences all end on.
std::string in_one_breath(const std::vector<std::string>& sayings) {
  std::vector<std::vector<std::string>> all;
  for (const std::string& saying : sayings) all.push_back(sentences_of(saying));
  std::vector<std::string> shared;
  const auto last_is_shared = [&] {
    return std::ranges::all_of(
        all, [&](const auto& one) { return one.size() > 1 && one.back() == all.front().back(); });
  };
  while (all.size() > 1 && last_is_shared()) {
    shared.insert(shared.begin(), all.front().back());
    for (auto& one : all) one.pop_back();
  }
  std::vector<std::string> own;
  for (const auto& one : all) own.push_back(fmt::format("{}", fmt::join(one, " ")));
  std::string text = together(each_once(own));
  for (const std::string& sentence : shared) text += " " + sentence;
  return text;
}

}  // namespace

std::vector<Block> caution_blocks(const Judgement& judgement, const Reader& reader) {
  const auto alike = [](const Caution& a, const Caution& b) {
    return a.id == b.id && a.grade == b.grade && a.limit == b.limit;
  };
  std::vector<Block> blocks;
  std::vector<const Caution*> firsts;
  for (const Caution& first : judgement.cautions) {
    if (std::ranges::any_of(firsts, [&](const Caution* c) { return alike(*c, first); })) continue;
    firsts.push_back(&first);
    std::vector<std::string> sayings;
    for (const Caution& caution : judgement.cautions) {
      if (!alike(caution, first)) continue;
      sayings.push_back(sentence_text(caution.say, reader.units, reader.clock));
    }
    const bool foldable = first.grade == Grade::notice && !first.limit;
    blocks.push_back({.kind = BlockKind::caution,
                      .fold = foldable ? Fold::notice : Fold::never,
                      .lead = upper_case(in_words(first.grade)) + (first.limit ? ", a limit" : ""),
                      .main = in_one_breath(sayings),
                      .grade = first.grade});
  }
  return blocks;
}

std::string without_sentences_of(const std::string& text, const std::vector<Block>& said) {
  const std::vector<std::string> sentences = sentences_of(text);
  std::string left;
  for (const std::string& sentence : sentences) {
    const bool is_said = std::ranges::any_of(said, [&](const Block& block) {
      const std::vector<std::string> there = sentences_of(block.main);
      return std::ranges::find(there, sentence) != there.end();
    });
    if (left.empty()) {
      left = sentence;
    } else if (!is_said) {
      left += " " + sentence;
    }
  }
  return left;
}

std::string rules_with_places(const std::vector<const NotChecked*>& rules) {
  std::vector<std::string> ids;
  std::map<std::string, std::vector<std::string>> places;
  for (const NotChecked* rule : rules) {
    auto& named = places[rule->id];
    if (std::ranges::find(ids, rule->id) == ids.end()) ids.push_back(rule->id);
    if (rule->about.kind != SubjectKind::passage) named.push_back(rule->about.name);
  }
  std::vector<std::string> said;
  std::vector<std::string> before;
  for (const std::string& id : ids) {
    std::vector<std::string>& named = places[id];
    std::ranges::sort(named);
    named.erase(std::ranges::unique(named).begin(), named.end());
    std::string text = id;
    if (!named.empty()) {
      text += named == before ? " (there too)" : fmt::format(" ({})", fmt::join(named, ", "));
      before = named;
    }
    said.push_back(std::move(text));
  }
  return fmt::format("{}", fmt::join(said, "; "));
}

std::vector<Block> not_checked_blocks(const Judgement& judgement) {
  std::vector<std::pair<std::string, std::vector<const NotChecked*>>> by_reason;
  for (const NotChecked& rule : judgement.not_checked) {
    const std::string reason = in_words(rule.because);
    auto found =
        std::ranges::find(by_reason, reason, [](const auto& entry) { return entry.first; });
    if (found == by_reason.end()) found = by_reason.insert(by_reason.end(), {reason, {}});
    found->second.push_back(&rule);
  }
  std::vector<Block> blocks;
  for (const auto& [reason, rules] : by_reason) {
    std::vector<const NotChecked*> limits;
    std::vector<const NotChecked*> others;
    for (const NotChecked* rule : rules) (rule->limit ? limits : others).push_back(rule);
    std::vector<std::string> said;
    if (!limits.empty()) said.push_back("limits: " + rules_with_places(limits));
    if (!others.empty()) said.push_back("others: " + rules_with_places(others));
    blocks.push_back({.kind = BlockKind::not_checked,
                      .lead = "Not checked",
                      .main = fmt::format("{}; because {}.", fmt::join(said, "; "), reason)});
  }
  return blocks;
}

}  // namespace passage_brief
