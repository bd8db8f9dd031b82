// Whatever the figures, the printed page and the text page hold the same ones.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <functional>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "given/brief.h"
#include "given/findings.h"
#include "given/pdf_text.h"
#include "page/pdf.h"
#include "page/sheet.h"
#include "page/text.h"

namespace passage_brief {
namespace {

using given::with_single_blanks;
using Figures = std::vector<std::string>;

/// Numbers with a unit after them, bearings and angles, in order: "2.3 ft", "198 M", "6°".
Figures figures_in(const std::string& text) {
  static const std::regex kFigure(R"(-?\d+(?:\.\d+)?(?: (?:ft|m|nm|kn|kV|min|s|h)\b| [MT]\b|°))");
  return {std::sregex_token_iterator(text.begin(), text.end(), kFigure), {}};
}

/// Whether some place where `words` stand is followed by exactly these figures, in any order (the
/// page sets them in columns).
bool followed_by(const std::string& page, const std::string& words, Figures figures) {
  std::ranges::sort(figures);
  for (std::size_t at = page.find(words); at != std::string::npos; at = page.find(words, at + 1)) {
    Figures next = figures_in(page.substr(at, 2000));
    if (next.size() < figures.size()) continue;
    next.resize(figures.size());
    std::ranges::sort(next);
    if (next == figures) return true;
  }
  return false;
}

/// All that is found moved up or down together, so that sums still hold.
void move_levels(Findings& found, const std::function<Length()>& drawn) {
  const auto move = [](Known<Length>& figure, Length by) {
    if (figure.has_value()) figure = *figure + by;
  };
  for (Depth& depth : found.depths) {
    const Length by = drawn();
    move(depth.charted, by);
    move(depth.water, by);
    move(depth.under_keel, by);
    move(depth.under_keel_could_be, by);
    move(depth.sounder_reads, by);
  }
  for (BridgeFinding& bridge : found.bridges) {
    const Length by = drawn();
    move(bridge.charted, by);
    move(bridge.clearance, by);
    move(bridge.clearance_could_be, by);
    move(bridge.gauge_reads, by);
    for (OverMast& state : bridge.over_mast) {
      move(state.over_mast, by);
      move(state.over_mast_could_be, by);
    }
  }
}

Brief drawn_brief() {
  Brief brief = given::brief();
  move_levels(brief.findings,
              [] { return centimetres(*rc::gen::inRange(-30, 300).as("higher or deeper, cm")); });
  for (Leg& leg : brief.findings.legs) {
    leg.wind = Wind{leg.wind->from, knots(*rc::gen::inRange(0, 40).as("wind, kn"))};
  }
  std::vector<std::function<void()>> facts;
  given::for_each_known(brief.findings, [&](const std::string&, const std::function<void()>& away) {
    facts.push_back(away);
  });
  for (int n = *rc::gen::inRange(0, 3).as("facts not known"); n > 0; --n) {
    facts[*rc::gen::inRange<std::size_t>(0, facts.size())]();
  }
  return brief;
}

/// What a page prints in fixed words before its figures, and never leaves out.
bool has_figures_on_every_page(const Block& block) {
  return block.fold == Fold::never && !block.readings.empty() &&
         (block.kind == BlockKind::depth || block.kind == BlockKind::key_figure);
}

RC_GTEST_PROP(Property, TextAndPdfHoldTheSameFigures, ()) {
  const Brief brief = drawn_brief();
  const PageChoice choice{*rc::gen::element(Units::us, Units::metric).as("units"),
                          *rc::gen::element(Paper::letter, Paper::a4).as("paper")};
  const std::string text = with_single_blanks(brief_as_text(brief, choice));
  const std::string pdf = given::pages_of_pdf(brief_as_pdf(brief, choice)).at(0);

  // The PDF may leave something out, and counts it; it never says what the text does not.
  const Figures in_text = figures_in(text);
  const std::set<std::string> known(in_text.begin(), in_text.end());
  for (const std::string& figure : figures_in(pdf)) {
    if (!known.contains(figure)) RC_FAIL("only the PDF says " + figure);
  }
  // What may not be left out stands in both beside its own place.
  int compared = 0;
  for (const Block& block : make_sheet(brief, choice).blocks) {
    if (!has_figures_on_every_page(block)) continue;
    Figures figures;
    for (const std::string& piece : printed_pieces(block)) {
      std::ranges::copy(figures_in(piece), std::back_inserter(figures));
    }
    const std::string place =
        block.kind == BlockKind::depth ? block.lead + " " + block.main : block.lead;
    RC_LOG() << place << '\n';
    RC_ASSERT(followed_by(text, with_single_blanks(place), figures));
    RC_ASSERT(followed_by(pdf, with_single_blanks(place), figures));
    ++compared;
  }
  RC_ASSERT(compared >= 5);
}

}  // namespace
}  // namespace passage_brief
