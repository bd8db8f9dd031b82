// The kinds of file this program reads, each with its reader and what its field table makes.
#pragma once

#include <expected>
#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "reading/form.h"
#include "reading/problem.h"

namespace passage_brief {

struct FileKind {
  std::string word;         // as in `kind`: "vessel"
  std::string schema_file;  // where its JSON Schema stands in the project
  std::function<std::string()> schema;
  std::function<std::vector<TablePage>()> pages;
  /// The reader alone: the name of what the file holds (may be empty), or every problem.
  std::function<std::expected<std::string, Problems>(const std::string& file,
                                                     const std::string& text)>
      read;
};

/// vessel, route, waterway, tide station, current station, wind forecast, sources, rules.
[[nodiscard]] const std::vector<FileKind>& file_kinds();

/// The kind whose word this is, or nothing and words that name the nearest.
[[nodiscard]] std::expected<const FileKind*, std::string> kind_called(std::string_view word);

/// What a file holds, by its content: `kind` in JSON, a GeoJSON Feature or XML for a route.
[[nodiscard]] std::expected<const FileKind*, Problems> kind_of(const std::string& file,
                                                               const std::string& text);

}  // namespace passage_brief
