#include "given/csv_table.h"

#include <charconv>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

namespace passage_brief::given {
namespace {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::size_t begin = 0;
  for (std::size_t comma = line.find(','); comma != std::string::npos;
       comma = line.find(',', begin)) {
    cells.push_back(line.substr(begin, comma - begin));
    begin = comma + 1;
  }
  cells.push_back(line.substr(begin));
  return cells;
}

}  // namespace

CsvRow::CsvRow(std::string place, const std::vector<std::string>& columns,
               std::vector<std::string> cells)
    : place_(std::move(place)), columns_(columns), cells_(std::move(cells)) {
  if (cells_.size() != columns_.size()) {
    throw std::runtime_error(place_ + ": not as many cells as the heading");
  }
}

const std::string& CsvRow::text(std::string_view column) const {
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    if (columns_[i] == column) return cells_[i];
  }
  throw std::runtime_error(place_ + ": no column " + std::string(column));
}

double CsvRow::number(std::string_view column) const {
  const std::string& cell = text(column);
  double value = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
  if (error != std::errc() || end != cell.data() + cell.size()) {
    throw std::runtime_error(place_ + ": \"" + cell + "\" is no number");
  }
  return value;
}

std::vector<CsvRow> csv_table(const std::string& name) {
  return csv_rows(name, contents_of(std::filesystem::path(TESTS_DIR) / "tables" / name));
}

std::vector<CsvRow> csv_rows(const std::string& name, const std::string& text) {
  std::istringstream lines(text);
  std::vector<std::string> columns;
  std::vector<CsvRow> rows;
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (line.empty() || line.front() == '#') continue;
    if (columns.empty()) {
      columns = cells_of(line);
    } else {
      rows.emplace_back(name + " line " + std::to_string(number), columns, cells_of(line));
    }
  }
  if (rows.empty()) throw std::runtime_error(name + " has no rows");
  return rows;
}

std::optional<std::filesystem::path> reference_file(const std::string& name) {
  const char* folder = std::getenv("REFERENCE_DIR");  // set by tests/run
  if (folder == nullptr) {
    std::cout << "reference folder absent: left out " << name << "\n";
    return std::nullopt;
  }
  // A folder that lacks the file is a fault, not a reason to skip.
  std::filesystem::path file = std::filesystem::path(folder) / name;
  if (!std::filesystem::exists(file)) throw std::runtime_error(file.string() + " is not there");
  return file;
}

std::string contents_of(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>(stream), {}};
}

}  // namespace passage_brief::given
