// A brief as one HTML file of its own: for a phone in sunlight first, and for paper.
//
// Made from templates/brief.html; nothing is fetched, no script is needed. Every block of the sheet
// is there in its order; the drawings are SVG with their words. Same brief and template, same
// bytes.
#pragma once

#include <string>

#include "page/page_choice.h"

namespace passage_brief {

struct Brief;

/// Throws TemplateRefused (page/filled_template.h) when the template is wrong or not there.
[[nodiscard]] std::string brief_as_html(const Brief& brief, PageChoice choice);

}  // namespace passage_brief
