#include "page/reasons.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "brief/brief.h"
#include "units/known.h"

namespace passage_brief {
namespace {

/// A short reason is quicker read than looked up.
constexpr std::size_t kShort = 30;

class Collection {
 public:
  template <class... Figures>
  void add(const Figures&... figures) {
    (known_detail::add_reasons(why_, figures), ...);
  }
  void add(const NotKnown& why) {
    for (const std::string& reason : why.reasons) {
      if (std::ranges::find(why_.reasons, reason) == why_.reasons.end()) {
        why_.reasons.push_back(reason);
      }
    }
  }
  [[nodiscard]] std::vector<std::string> all() && { return std::move(why_.reasons); }

 private:
  NotKnown why_;
};

void add_overhead(Collection& reasons, const std::vector<OverMast>& states) {
  for (const OverMast& state : states) reasons.add(state.over_mast, state.over_mast_could_be);
}

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) {
    ++count;
  }
  return count;
}

/// `after_first`: where not empty the first stays, with this behind it.
void replace_all(std::string& text, const std::string& part, const std::string& with,
                 const std::string& after_first) {
  std::size_t begin = 0;
  if (!after_first.empty()) {
    const std::size_t end = text.find(part) + part.size();
    text.insert(end, after_first);
    begin = end + after_first.size();
  }
  for (std::size_t at = text.find(part, begin); at != std::string::npos;
       at = text.find(part, at + with.size())) {
    text.replace(at, part.size(), with);
  }
}

/// "A" to "Z", then "AA".
std::string letters(std::size_t number) {
  const char letter = static_cast<char>('A' + number % 26);
  return number < 26 ? std::string(1, letter) : letters(number / 26 - 1) + letter;
}

}  // namespace

std::vector<std::string> reasons_in(const Brief& brief) {
  const Findings& found = brief.findings;
  Collection reasons;
  reasons.add(brief.void_after, brief.notices_read);
  reasons.add(found.passage.arrives, found.passage.wind, found.passage.gust, found.passage.wave,
              found.passage.visibility);
  for (const Leg& leg : found.legs) {
    reasons.add(leg.starts, leg.ends, leg.wind, leg.gust, leg.falls_off_to, leg.leeway, leg.current,
                leg.steer_true, leg.steer_magnetic, leg.variation, leg.light);
  }
  for (const Depth& depth : found.depths) {
    reasons.add(depth.tide_is, depth.under_keel, depth.under_keel_could_be, depth.sounder_reads,
                depth.stop_at);
  }
  for (const BridgeFinding& bridge : found.bridges) {
    reasons.add(bridge.clearance, bridge.opening_needed, bridge.gauge_reads, bridge.gauge_at_least,
                bridge.clearance_gauge, bridge.width, bridge.fits_with);
    add_overhead(reasons, bridge.over_mast);
    if (bridge.open_span) add_overhead(reasons, bridge.open_span->over_mast);
  }
  for (const CableFinding& cable : found.cables) {
    reasons.add(cable.voltage, cable.gap, cable.to_spare, cable.to_spare_could_be);
  }
  for (const Danger& danger : found.dangers) {
    reasons.add(danger.reached_in, danger.anchor_would_hold);
  }
  for (const MarkFinding& mark : found.marks) reasons.add(mark.should_lie_to, mark.agrees);
  for (const NotChecked& rule : brief.judgement.not_checked) reasons.add(rule.because);
  return std::move(reasons).all();
}

void say_reasons_once(Sheet& sheet, const std::vector<std::string>& reasons) {
  std::vector<std::string> repeated;
  for (const std::string& reason : reasons) {
    if (reason.size() < kShort) continue;
    std::size_t count = 0;
    for (Block& block : sheet.blocks) {
      for (const std::string* text : texts_of(block)) count += count_of(*text, reason);
    }
    if (count > 1) repeated.push_back(reason);
  }
  // A reason may be part of a longer one.
  std::ranges::stable_sort(repeated, std::ranges::greater{}, &std::string::size);
  std::vector<Block> said;
  for (std::size_t i = 0; i < repeated.size(); ++i) {
    const std::string letter = letters(i);
    bool in_the_head = false;
    bool elsewhere = false;
    for (Block& block : sheet.blocks) {
      for (std::string* text : texts_of(block)) {
        if (text->find(repeated[i]) == std::string::npos) continue;
        const bool key_figure = block.kind == BlockKind::key_figure;
        const bool first = key_figure && !in_the_head;
        replace_all(*text, repeated[i], "reason " + letter,
                    first ? " (reason " + letter + ")" : "");
        in_the_head = in_the_head || first;
        elsewhere = elsewhere || !key_figure;
      }
    }
    if (!elsewhere) continue;
    said.push_back(
        {.kind = BlockKind::reason, .lead = "Reason " + letter, .main = repeated[i] + "."});
  }
  const auto place = std::ranges::find(sheet.blocks, BlockKind::weather, &Block::kind);
  sheet.blocks.insert(place, said.begin(), said.end());
}

}  // namespace passage_brief
