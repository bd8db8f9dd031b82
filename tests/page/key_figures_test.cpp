#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "given/brief.h"
#include "page/sheet_parts.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

Reader reader_of(const Brief& brief) {
  return {Units::us, Clock24(brief.zone, brief.findings.passage.departs)};
}

/// With a way back that has 0.4 ft under the keel in Oyster Cut; the way out has 1.2 ft
/// (given/brief.h).
Brief out_and_back() {
  Brief brief = given::brief();
  WayBack back{std::chrono::hours(2), brief.findings.passage.departs, given::brief(),
               Verdict::cautions};
  back.brief->findings.depths.at(*back.brief->least_depth).under_keel = feet(0.4);
  back.has_least_depth = true;
  brief.back = std::make_shared<const WayBack>(std::move(back));
  return brief;
}

TEST(KeyFigures, AreTheLesserOfBothWays) {
  const Brief brief = out_and_back();
  const std::vector<Block> figures = key_figures(brief, reader_of(brief));
  ASSERT_EQ(figures.size(), 3u);
  EXPECT_EQ(figures[1].lead, "Least under the keel, way back");
  EXPECT_EQ(figures[1].main, "0.4 ft");
  EXPECT_NE(figures[2].lead.find(", way out"), std::string::npos) << figures[2].lead;
}

TEST(KeyFigures, OfOneWayNameNoWay) {
  const Brief brief = given::brief();
  const std::vector<Block> figures = key_figures(brief, reader_of(brief));
  EXPECT_EQ(figures[1].lead, "Least under the keel");
  EXPECT_EQ(figures[1].main, "1.2 ft");
}

// Where the page says not to leave, the largest figures are no times to leave at.
TEST(KeyFigures, NoWindowStandsOverAPageThatSaysNotToLeave) {
  Brief brief = given::brief_with_window(feet(3), feet(4));
  EXPECT_NE(key_figures(brief, reader_of(brief))[0].lead.find("Leave between"), std::string::npos);
  brief.judgement.verdict = Verdict::outside_limits;
  EXPECT_EQ(key_figures(brief, reader_of(brief))[0].lead.find("Leave between"), std::string::npos);
}

}  // namespace
}  // namespace passage_brief
