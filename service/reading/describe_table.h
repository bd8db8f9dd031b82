// What a field table looks like from outside: a JSON Schema, and a page of Markdown.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "reading/form.h"

namespace passage_brief {

/// A whole JSON Schema (draft 2020-12), indented, with a new line at its end. Quantities are
/// patterns: their ranges, and checks across fields, are the reader's alone.
[[nodiscard]] std::string schema_document(std::string_view title, const std::string& schema);

/// Markdown tables of the fields, one for each page, those alike once: key, what it must be,
/// needed, meaning, example.
[[nodiscard]] std::string field_tables(const std::vector<TablePage>& pages);

/// The problems of each field's own example, read by the field itself; empty when the tables tell
/// the truth. place: title/field.
[[nodiscard]] Problems problems_of_examples(const std::vector<TablePage>& pages);

}  // namespace passage_brief
