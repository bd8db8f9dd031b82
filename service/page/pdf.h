// A brief as PDF: one page of Letter or A4, text selectable, for a stranger at the wheel; an
// instructor's copy has the working behind it.
//
// What is read at the wheel (verdict, figures, the list, cautions) stands in 10 pt or more, the
// rest in 8 pt or more. Too much for one page: notices fold first, then the drawings shrink, then
// legs that control nothing merge where they stand, then a page that says not to leave and a copy
// for a lesson give up what serves only a boat under way, one kind of line after the other; then
// the drawings go, and before a page fails, the large letters of the way back's lesser cautions,
// the sum of the least depth, the boat's figures, the lee side, the large letters of all it says of
// the way back and the places to turn to. Each fold is counted on the page. Dangers and warnings
// are never left out. Same brief, same bytes, for one set of Pango, Cairo and fontconfig and the
// font they are given.
#pragma once

#include <stdexcept>
#include <string>

#include "page/page_choice.h"

namespace passage_brief {

struct Brief;

/// One page is not enough though everything that may fold is folded. The message says by how much.
class PageDoesNotFit : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Pango, Cairo or fontconfig failed, or the font is not where the build said it would be.
class PdfFailed : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

[[nodiscard]] std::string brief_as_pdf(const Brief& brief, PageChoice choice);

}  // namespace passage_brief
