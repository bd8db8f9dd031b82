#include "page/html.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "brief/brief.h"
#include "page/drawing.h"
#include "page/filled_template.h"
#include "page/html_paper.h"
#include "page/isolates.h"
#include "page/sheet.h"
#include "page/svg.h"

namespace passage_brief {
namespace {

using nlohmann::ordered_json;

/// On a phone of 360 px the drawings are twice their size, and their letters of 8 pt stand 16 px
/// high.
constexpr DrawingSize kSection{168, 120};
constexpr DrawingSize kTide{168, 90};

/// Every name the template may use.
const std::set<std::string>& names() {
  static const std::set<std::string> all = {
      "title",       "paper",         "copy_heading", "subject",      "verdict",     "key_figures",
      "zone",        "passing",       "cautions",     "has_cautions", "way_back",    "has_way_back",
      "unchecked",   "has_unchecked", "way",          "section",      "tide",        "arithmetic",
      "desk",        "sources",       "foot",         "working",      "has_working", "class",
      "lead",        "main",          "more",         "text",         "has_more",    "readings",
      "what",        "value",         "is_leg",       "fold",         "on_paper",    "svg",
      "has_readings"};
  return all;
}

std::string_view class_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::within_limits:
      return "within";
    case Verdict::cautions:
      return "cautions";
    case Verdict::cannot_tell:
      return "cannot-tell";
    case Verdict::outside_limits:
      return "outside";
  }
  return "";
}

std::string_view class_of(const Block& block, Verdict verdict) {
  switch (block.kind) {
    case BlockKind::verdict:
      return class_of(verdict);
    case BlockKind::leg:
      return "leg";
    case BlockKind::marks:
      return "marks";
    case BlockKind::to_leeward:
      return "lee";
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
      return "met";
    case BlockKind::caution:
      switch (block.grade.value_or(Grade::caution)) {
        case Grade::danger:
          return "danger";
        case Grade::warning:
          return "warning";
        case Grade::caution:
          return "caution";
        case Grade::notice:
          return "notice";
      }
      return "caution";
    case BlockKind::look_out:
      return "look-out";
    case BlockKind::copy_heading:
    case BlockKind::title:
    case BlockKind::key_figure:
    case BlockKind::way_back:
    case BlockKind::not_checked:
    case BlockKind::reason:
    case BlockKind::weather:
    case BlockKind::place:
    case BlockKind::section_drawing:
    case BlockKind::tide_curve:
    case BlockKind::arithmetic:
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::note:
    case BlockKind::source:
    case BlockKind::estimate:
    case BlockKind::deferring:
    case BlockKind::folded:
    case BlockKind::working:
      return "plain";
  }
  return "plain";
}

/// What the style sheet leaves out on paper when there is too much: see html_paper.h.
std::string_view fold_of(const Block& block) {
  if (block.fold == Fold::drawing) return "drawing";
  if (block.fold == Fold::notice) return "small";
  return serves_only_under_way(block) ? "under-way" : "stays";
}

ordered_json as_values(const Block& block, Verdict verdict) {
  ordered_json readings = ordered_json::array();
  for (const Reading& reading : block.readings) {
    readings.push_back({{"what", reading.what}, {"value", reading.value}});
  }
  ordered_json more = ordered_json::array();
  for (const std::string& sentence : block.more) {
    const bool begins_a_line = block.kind == BlockKind::key_figure;
    more.push_back({{"text", begins_a_line ? capitalised(sentence) : sentence}});
  }
  return {{"class", class_of(block, verdict)},
          {"fold", fold_of(block)},
          {"is_leg", block.kind == BlockKind::leg},
          {"lead", block.lead},
          {"main", block.main},
          {"has_more", !more.empty()},
          {"more", std::move(more)},
          {"has_readings", !readings.empty()},
          {"readings", std::move(readings)},
          {"svg", ""}};
}

/// The list of the template a block stands in; every kind has one.
std::string_view list_of(BlockKind kind) {
  switch (kind) {
    case BlockKind::copy_heading:
      return "copy_heading";
    case BlockKind::title:
      return "subject";
    case BlockKind::verdict:
      return "verdict";
    case BlockKind::key_figure:
      return "key_figures";
    case BlockKind::leg:
    case BlockKind::marks:
    case BlockKind::depth:
    case BlockKind::bridge:
    case BlockKind::cable:
    case BlockKind::to_leeward:
      return "passing";
    case BlockKind::caution:
      return "cautions";
    case BlockKind::way_back:
      return "way_back";
    case BlockKind::not_checked:
    case BlockKind::reason:
      return "unchecked";
    case BlockKind::weather:
    case BlockKind::place:
      return "way";
    case BlockKind::section_drawing:
      return "section";
    case BlockKind::arithmetic:
      return "arithmetic";
    case BlockKind::tide_curve:
      return "tide";
    case BlockKind::base:
    case BlockKind::blanks:
    case BlockKind::estimate:
      return "desk";
    case BlockKind::note:
    case BlockKind::source:
      return "sources";
    case BlockKind::look_out:
    case BlockKind::deferring:
    case BlockKind::folded:
      return "foot";
    case BlockKind::working:
      return "working";
  }
  return "foot";
}

std::string svg_for(const Block& block, const Brief& brief, Units units) {
  if (block.kind == BlockKind::section_drawing) {
    return drawing_as_svg(section_drawing(brief, units, kSection),
                          {"section", block.lead, block.instead});
  }
  if (block.kind == BlockKind::tide_curve && brief.tide_curve.has_value()) {
    return drawing_as_svg(tide_drawing(brief, units, kTide), {"tide", block.lead, block.instead});
  }
  return "";
}

}  // namespace

std::string brief_as_html(const Brief& brief, PageChoice choice) {
  const Sheet sheet = make_sheet(brief, choice);
  const LeftOutOnPaper left_out = left_out_on_paper(sheet, brief.judgement.verdict, choice.paper);
  ordered_json page = {{"title", sheet.title},
                       {"zone", sheet.zone_letters},
                       {"paper", choice.paper == Paper::letter ? "letter" : "A4"},
                       {"on_paper", in_words(left_out, sheet)},
                       {"fold", std::string(left_out.drawings ? "no-drawings " : "") +
                                    (left_out.notices ? "no-small " : "") +
                                    (left_out.under_way ? "no-under-way" : "")}};
  for (const char* list : {"copy_heading", "subject", "verdict", "key_figures", "passing",
                           "cautions", "way_back", "unchecked", "way", "section", "arithmetic",
                           "tide", "desk", "sources", "foot", "working"}) {
    page[list] = ordered_json::array();
  }
  for (const Block& block : sheet.blocks) {
    ordered_json values = as_values(block, brief.judgement.verdict);
    values["svg"] = svg_for(block, brief, choice.units);
    page[std::string(list_of(block.kind))].push_back(std::move(values));
  }
  page["has_cautions"] = !page["cautions"].empty();
  page["has_way_back"] = !page["way_back"].empty();
  page["has_unchecked"] = !page["unchecked"].empty();
  page["has_working"] = !page["working"].empty();
  return with_isolates(filled_template(template_text("brief.html"), page, names()));
}

}  // namespace passage_brief
