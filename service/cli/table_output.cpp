#include "cli/table_output.h"

#include <fmt/format.h>

#include <cstdio>
#include <set>
#include <string>

#include "cli/arguments.h"
#include "reading/json_text.h"
#include "units/known.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// Tenths of a millimetre, and of a ten-thousandth of a knot: finer than any publication.
constexpr int kDecimals = 4;

void print_text(const FigureTable& table, const Zone& zone) {
  fmt::print("{}\n", table.title);
  for (const TableRow& row : table.rows) {
    const std::string figure =
        row.value ? fmt::format("{:>8} {}", fixed(*row.value, 3), table.unit) : "not known";
    fmt::print("{}  {}{}{}\n", nearest_second(row.at, zone), figure, table.events ? "  " : "",
               row.what);
  }
}

void print_csv(const FigureTable& table) {
  fmt::print("time,{}{}\n", table.key, table.events ? ",what" : "");
  for (const TableRow& row : table.rows) {
    fmt::print("{},{}{}{}\n", nearest_second(row.at), row.value ? fixed(*row.value, kDecimals) : "",
               table.events ? "," : "", row.what);
  }
}

void print_json(const FigureTable& table) {
  fmt::print("{{{}\"{}\": [", table.about_json, table.list);
  const char* before = "\n";
  for (const TableRow& row : table.rows) {
    fmt::print("{}{{\"time\": {}, \"{}\": {}", before, json_quoted(nearest_second(row.at)),
               table.key, row.value ? fixed(*row.value, kDecimals) : "null");
    if (table.events) fmt::print(", \"what\": {}", json_quoted(row.what));
    if (!row.value) {
      fmt::print(", \"not_known\": {{\"{}\": {}}}", table.key,
                 json_quoted(in_words(row.value.error())));
    }
    fmt::print("}}");
    before = ",\n";
  }
  fmt::print("\n]}}\n");
}

}  // namespace

void print_table(const FigureTable& table, const std::string& form, const Zone& zone) {
  if (form == "csv") {
    print_csv(table);
  } else if (form == "json") {
    print_json(table);
  } else {
    print_text(table, zone);
  }
  std::set<std::string> said;
  for (const TableRow& row : table.rows) {
    if (row.value) continue;
    const std::string why = in_words(row.value.error());
    if (said.insert(why).second) fmt::print(stderr, "not known: {}\n", why);
  }
}

}  // namespace passage_brief
