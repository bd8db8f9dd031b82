// A brief as plain text: the body of an e-mail, lines of at most 78 columns, made to be read aloud.
//
// Nothing is folded: every block of the sheet is there, in its order. UTF-8; a word longer than a
// line stands alone on its own.
#pragma once

#include <string>

#include "page/page_choice.h"

namespace passage_brief {

struct Brief;

[[nodiscard]] std::string brief_as_text(const Brief& brief, PageChoice choice);

}  // namespace passage_brief
