// The tide of the day: departure windows stand under the curve at their times, by pattern and
// words.

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "given/brief.h"
#include "page/drawing.h"

namespace passage_brief {
namespace {

constexpr DrawingSize kSize{480, 100};

TEST(TideDrawing, AWindowIsShadedFromItsFirstMinuteToItsLast) {
  const Drawing drawing =
      tide_drawing(given::brief_with_window(feet(1.2), feet(0.8)), Units::us, kSize);
  const auto window = std::ranges::find(drawing.shades, Part::window, &Shade::part);
  ASSERT_NE(window, drawing.shades.end());
  const auto [first, last] = std::ranges::minmax(window->outline, {}, &Point::x);
  // The day is 24 h over 476 pt from 2 pt on: 08:17 is 497 min, 10:43 is 643 min.
  EXPECT_NEAR(first.x, 2 + 476 * 497.0 / 1440, 0.01);
  EXPECT_NEAR(last.x, 2 + 476 * 643.0 / 1440, 0.01);
  EXPECT_TRUE(std::ranges::any_of(drawing.labels, [](const Label& label) {
    return label.text == "leave 08:20 to 10:40, then Mill Bridge";
  }));
}

/// High water 08:12 (given/brief.h), the window from 08:17 on: the words have room above both.
TEST(TideDrawing, TheFiguresOfATideStandClearOfAWindow) {
  const Drawing drawing =
      tide_drawing(given::brief_with_window(feet(1.2), feet(0.8)), Units::us, kSize);
  const auto label = std::ranges::find(drawing.labels, "08:12 3.0", &Label::text);
  ASSERT_NE(label, drawing.labels.end());
  const auto window = std::ranges::find(drawing.shades, Part::window, &Shade::part);
  ASSERT_NE(window, drawing.shades.end());
  EXPECT_LE(label->at.y + label->size_pt, std::ranges::min(window->outline, {}, &Point::y).y);
}

TEST(TideDrawing, WithoutWindowsThereIsNone) {
  const Drawing drawing = tide_drawing(given::brief(), Units::us, kSize);
  EXPECT_EQ(std::ranges::find(drawing.shades, Part::window, &Shade::part), drawing.shades.end());
}

// Found 2026-11-26: on a phone the words ran out of the drawing and were cut off. Letters are no
// wider than 0.6 of their size.
TEST(TideDrawing, OnAPhoneAWindowIsSaidInTwoRows) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  brief.windows.front().judged_on = JudgedOn::tide_and_light;
  constexpr DrawingSize kPhone{168, 90};
  const Drawing drawing = tide_drawing(brief, Units::us, kPhone);
  for (const char* const words : {"leave 08:20 to 10:40", "(tide and light only)"}) {
    const auto label = std::ranges::find(drawing.labels, words, &Label::text);
    ASSERT_NE(label, drawing.labels.end()) << words;
    EXPECT_LE(label->at.x + 0.6 * label->size_pt * static_cast<double>(label->text.size()),
              kPhone.width_pt + 1);
  }
}

TEST(TideDrawing, LabelsStayInsideTheDrawing) {
  Brief brief = given::brief_with_window(feet(1.2), feet(0.8));
  Window late = brief.windows.front();
  late.opens = given::estuary_time("2026-06-14T23:10");
  late.closes = given::estuary_time("2026-06-15T01:00");
  brief.windows.push_back(late);
  for (const Label& label : tide_drawing(brief, Units::us, kSize).labels) {
    if (label.align != LabelAt::left) continue;
    EXPECT_LE(label.at.x + 0.6 * label.size_pt * static_cast<double>(label.text.size()),
              kSize.width_pt + 1)
        << label.text;
  }
}

}  // namespace
}  // namespace passage_brief
