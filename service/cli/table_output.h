// Tables of one figure against time, as `heights` and `currents` print them: text, CSV or JSON.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "units/known.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

struct TableRow {
  Instant at;
  Known<double> value;  // in the unit of the table
  std::string what;     // "high", "slack"; empty in a table of times
};

struct FigureTable {
  std::string title;       // first line of the text form
  std::string key;         // "height_m": the CSV heading and the JSON key
  std::string unit;        // "m", beside the figure in the text form
  std::string list;        // "heights": JSON key of the rows
  std::string about_json;  // further members of the JSON object, each followed by ", "
  bool events;             // rows have `what`
  std::vector<TableRow> rows;
};

/// Prints the table on standard output: "text" (times with the zone's offset), "csv" or "json"
/// (times in UTC). A figure that is not known is words, an empty cell or null; the reasons go to
/// standard error, each once.
void print_table(const FigureTable& table, const std::string& form, const Zone& zone);

}  // namespace passage_brief
