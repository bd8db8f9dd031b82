// Tables of published values in tests/tables: lines of '#' with source, edition, datum, zone and
// tolerance, a heading line, then rows. No quoting: a cell holds no comma.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace passage_brief::given {

class CsvRow {
 public:
  CsvRow(std::string place, const std::vector<std::string>& columns,
         std::vector<std::string> cells);
  /// The cell under a heading; throws std::runtime_error (with the place) when there is no such
  /// column.
  [[nodiscard]] const std::string& text(std::string_view column) const;
  /// The cell as a number; throws with the place when it is not one.
  [[nodiscard]] double number(std::string_view column) const;
  [[nodiscard]] bool is_empty(std::string_view column) const { return text(column).empty(); }
  /// "variation.csv line 12", to print beside a failure.
  [[nodiscard]] const std::string& place() const { return place_; }

 private:
  std::string place_;
  std::vector<std::string> columns_;
  std::vector<std::string> cells_;
};

/// The rows of tests/tables/NAME; throws when the file is absent, has no rows, or a row has not as
/// many cells as the heading.
[[nodiscard]] std::vector<CsvRow> csv_table(const std::string& name);

/// The same out of a text, such as a command's output; `name` is for places.
[[nodiscard]] std::vector<CsvRow> csv_rows(const std::string& name, const std::string& text);

/// A file below the folder named by the environment variable REFERENCE_DIR, or nothing (and one
/// line on standard output saying that the check is left out).
[[nodiscard]] std::optional<std::filesystem::path> reference_file(const std::string& name);

/// A whole file; throws when it cannot be read.
[[nodiscard]] std::string contents_of(const std::filesystem::path& file);

}  // namespace passage_brief::given
