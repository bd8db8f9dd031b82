// Blocks as the columns of the PDF set them, by the height they take.
#include "page/pdf_column.h"

#include <gtest/gtest.h>

#include <string>

#include "given/brief.h"

namespace passage_brief {
namespace {

double height_when_set(const Block& block) {
  PdfCanvas canvas({612, 792}, "Column", given::estuary_time("2026-06-14T07:00"));
  Column column(canvas, 340);
  column.add(block);
  return column.height_pt();
}

/// Found 2026-11-26: "not known", in two lines in its column, was printed over the note below.
TEST(PdfColumn, ANoteIsClearOfReadingsOfTwoLines) {
  const auto row = [](const std::string& could_be) {
    return Block{.kind = BlockKind::depth,
                 .lead = "10:15",
                 .main = "Sound Reach, rising",
                 .more = {"No faster than 7.3 kn: squat not predictable."},
                 .readings = {{"could be", could_be, ReadingColumn::could_be}}};
  };
  // The note takes one line more, of letters of 8 pt.
  EXPECT_GE(height_when_set(row("not known")) - height_when_set(row("3.1 ft")), 8);
}

/// What is read at the wheel is set in one size, whichever way it is met on.
TEST(PdfColumn, ACautionOfTheWayBackIsSetAsOneOfTheWayOut) {
  const auto block = [](BlockKind kind) {
    return Block{.kind = kind,
                 .lead = "Warning",
                 .main =
                     "Seas stand up steep on the bar, most of all on the ebb. Wait for a "
                     "rising tide, or go elsewhere.",
                 .grade = Grade::warning};
  };
  EXPECT_EQ(height_when_set(block(BlockKind::way_back)),
            height_when_set(block(BlockKind::caution)));
}

}  // namespace
}  // namespace passage_brief
