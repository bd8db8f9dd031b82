// What an HTML page leaves out when it is printed, so that it comes out on one sheet.
//
// Paper is the PDF's business, which measures; a browser lays out by its own fonts, so that here
// the height is only reckoned, on the large side, for narrow letters of 8 pt. In the order of the
// PDF's folding: the drawings, then notices and notes, then (on a page that says not to leave) what
// serves only a boat under way. What is graver is never left out: such a page prints on two sheets.
#pragma once

#include <string>

#include "page/page_choice.h"
#include "page/sheet.h"
#include "rules/verdict.h"

namespace passage_brief {

struct LeftOutOnPaper {
  bool drawings = false;
  bool notices = false;
  bool under_way = false;
};

[[nodiscard]] LeftOutOnPaper left_out_on_paper(const Sheet& sheet, Verdict verdict, Paper paper);

/// What that is, counted; empty where nothing is left out.
[[nodiscard]] std::string in_words(const LeftOutOnPaper& left_out, const Sheet& sheet);

}  // namespace passage_brief
