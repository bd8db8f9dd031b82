#include "reading/describe_table.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "reading/form.h"
#include "reading/json_text.h"
#include "reading/problem.h"

namespace passage_brief {
namespace {

std::string_view in_words(Need need) {
  switch (need) {
    case Need::must_be_given:
      return "must be given";
    case Need::may_be_left_out:
      return "may be left out";
    case Need::may_be_unknown:
      return "left out or null: not known";
  }
  return {};
}

/// A pipe would end the cell.
std::string cell(std::string_view words) {
  std::string text;
  for (const char c : words) {
    if (c == '|') text += '\\';
    text += c;
  }
  return text;
}

std::string table_of(const TablePage& page) {
  std::string text =
      fmt::format("**{}**\n\n| key | must be | needed | what it is | example |\n", page.title);
  text += "| --- | --- | --- | --- | --- |\n";
  for (const Field& field : *page.fields) {
    const std::string example = field.example.empty() ? "" : "`" + cell(field.example) + "`";
    text += fmt::format("| `{}` | {} | {} | {} | {} |\n", field.name, cell(field.must_be),
                        in_words(field.need), cell(field.words), example);
  }
  return text;
}

}  // namespace

std::string schema_document(std::string_view title, const std::string& schema) {
  nlohmann::ordered_json document;
  document["$schema"] = "https://json-schema.org/draft/2020-12/schema";
  document["title"] = title;
  // Named: a temporary inside a range-for's expression dies before the loop in g++ 12.
  const nlohmann::ordered_json inside = nlohmann::ordered_json::parse(schema);
  for (const auto& [key, value] : inside.items()) {
    if (key != "title") document[key] = value;
  }
  return document.dump(2) + "\n";
}

std::string field_tables(const std::vector<TablePage>& pages) {
  std::string text;
  std::set<std::string> shown;
  for (const TablePage& page : pages) {
    const std::string table = table_of(page);
    if (!shown.insert(table).second) continue;
    text += (text.empty() ? "" : "\n") + table;
  }
  return text;
}

Problems problems_of_examples(const std::vector<TablePage>& pages) {
  Problems all;
  for (const TablePage& page : pages) {
    for (const Field& field : *page.fields) {
      if (field.example.empty()) continue;
      const std::string name = page.title + "/" + field.name;
      const std::expected<JsonTree, Problems> tree = parse_json(name, field.example);
      if (!tree) {
        all.insert(all.end(), tree.error().begin(), tree.error().end());
        continue;
      }
      Ledger ledger(name, "the example");
      const Place place(ledger);
      field.read(**tree, place);
      all.insert(all.end(), ledger.problems().begin(), ledger.problems().end());
    }
  }
  return all;
}

}  // namespace passage_brief
