#include <fmt/format.h>
#include <fmt/ranges.h>

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"

namespace passage_brief {
namespace {

Block base_block(const Brief& brief) {
  Block block{.kind = BlockKind::base, .lead = "Base"};
  if (!brief.vessel.base.has_value()) {
    block.main = "not known: the vessel file names no base. Telephone ________ channel ____";
    return block;
  }
  const Base& base = *brief.vessel.base;
  block.main = fmt::format("{}, telephone {}, channel {}.", base.name,
                           base.telephone.value_or("________ (not known: not given)"),
                           base.channel.value_or("____ (not known: not given)"));
  return block;
}

std::string age_text(Interval age) {
  using std::chrono::days;
  if (age < days(2)) return interval_text(age, Rounding::up);
  return fmt::format("{} days", std::chrono::ceil<days>(age).count());
}

std::string state_text(SourceState state) {
  switch (state) {
    case SourceState::current:
      return "";
    case SourceState::old:
      return ", OLD by the rules";
    case SourceState::expired:
      return ", EXPIRED";
    case SourceState::undated:
      return "";
  }
  return "";
}

/// The first sentence, without its stop.
std::string first_sentence(const std::string& text) {
  std::string first = text.substr(0, text.find(". "));
  if (first.ends_with('.')) first.pop_back();
  return first;
}

/// One block for each dated source, one for all that say no date.
std::vector<Block> source_blocks(const Brief& brief, const Reader& reader) {
  std::vector<Block> blocks;
  std::vector<std::string> undated;
  for (const SourceUsed& used : brief.sources) {
    if (!used.source.issued.has_value()) {
      undated.push_back(used.source.note.empty()
                            ? used.source.what
                            : used.source.what + " (" + used.source.note + ")");
      continue;
    }
    Block block{.kind = BlockKind::source, .lead = capitalised(used.source.what)};
    block.main = first_sentence(used.source.from) + ", issued " +
                 reader.clock.date_and_time(*used.source.issued);
    if (used.age.has_value()) block.main += ", " + age_text(*used.age) + " old";
    block.main += state_text(used.state) + ".";
    if (!used.source.note.empty()) block.main += " " + capitalised(used.source.note) + ".";
    blocks.push_back(std::move(block));
  }
  if (!undated.empty()) {
    blocks.push_back({.kind = BlockKind::source,
                      .lead = "No date of issue in the files of",
                      .main = fmt::format("{}.", fmt::join(undated, "; "))});
  }
  return blocks;
}

std::string basis_text(const BasisOfFigure& basis) {
  std::string text = in_words(basis.basis);
  if (basis.measured_on.has_value()) text += " " + date_text(*basis.measured_on);
  return text;
}

/// What was estimated; by which rule and to what stands in the working.
std::string estimated_text(const std::vector<std::string>& estimated) {
  std::vector<std::string> names;
  for (const std::string& one : estimated) names.push_back(one.substr(0, one.find(": ")));
  return fmt::format("{}", fmt::join(names, ", "));
}

Block vessel_block(const Brief& brief, const Reader& reader) {
  const Vessel& vessel = brief.vessel;
  std::vector<std::string> heights;
  for (const AirDraft& air : vessel.air_draft) {
    heights.push_back(fmt::format("{} antennas {}", reader.up(air.height), in_words(air.antennas)));
  }
  Block block{
      .kind = BlockKind::estimate,
      .lead = vessel.name,
      .main = fmt::format("draft {} ({}); air draft {} ({}); beam {}.", reader.up(vessel.draft),
                          basis_text(vessel.draft_is), fmt::join(heights, ", "),
                          basis_text(vessel.air_draft_is), reader.up(vessel.beam))};
  if (const std::string names = estimated_text(brief.findings.estimated); !names.empty()) {
    block.more.push_back("Estimated by rule: " + names + ".");
  }
  if (const std::string why = said_once(brief.findings).sounder; !why.empty()) {
    block.more.push_back("Sounder readings not known: " + why + ".");
  }
  if (vessel.deviation.empty()) {
    block.more.emplace_back("Compass headings not known: no deviation table is given.");
  }
  return block;
}

}  // namespace

std::vector<Block> blocks_for_the_desk(const Brief& brief, const Reader& reader) {
  std::vector<Block> blocks = {
      base_block(brief),
      {.kind = BlockKind::blanks,
       .main = "Number aboard ______  Overdue at ________  Plan left with ____________________"},
      vessel_block(brief, reader)};
  for (const std::string& note : brief.notes) {
    blocks.push_back({.kind = BlockKind::note, .fold = Fold::notice, .lead = "Note", .main = note});
  }
  blocks.push_back({.kind = BlockKind::source,
                    .lead = "Notices read",
                    .main = brief.notices_read.has_value()
                                ? date_text(brief.notices_read.value()) + "."
                                : not_known_text(brief.notices_read.error()) + "."});
  for (Block& block : source_blocks(brief, reader)) blocks.push_back(std::move(block));
  return blocks;
}

}  // namespace passage_brief
