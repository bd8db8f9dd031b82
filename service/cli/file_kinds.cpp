#include "cli/file_kinds.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "cli/rules_files.h"
#include "facts/holidays/read_holiday_calendar.h"
#include "facts/tide/read_current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/waterway/read_waterway.h"
#include "facts/weather/read_wind_forecast.h"
#include "fetch/read_sources.h"
#include "fetch/sources.h"
#include "plan/read_route.h"
#include "plan/read_vessel.h"
#include "reading/describe_table.h"
#include "reading/file_text.h"
#include "reading/form.h"
#include "reading/json_text.h"
#include "reading/problem.h"
#include "reading/written.h"
#include "rules/read_rules.h"
#include "rules/rule_set.h"

namespace passage_brief {
namespace {

/// form: makes the field table; read: file, text -> value; name: value -> what it is called.
template <class MakeForm, class Read, class Name>
FileKind kind(std::string word, std::string schema_file, MakeForm form, Read read, Name name) {
  FileKind made;
  made.word = word;
  made.schema_file = std::move(schema_file);
  made.schema = [word, form] { return schema_document(word, form().schema); };
  made.pages = [form] { return form().inside; };
  made.read = [read, name](const std::string& file,
                           const std::string& text) -> std::expected<std::string, Problems> {
    auto value = read(file, text);
    if (!value) return std::unexpected(std::move(value.error()));
    return name(*value);
  };
  return made;
}

std::vector<std::string> words_of_kinds() {
  std::vector<std::string> words;
  for (const FileKind& kind : file_kinds()) words.push_back(kind.word);
  return words;
}

/// With what of those it builds on it changes.
std::string editions_of(const RuleSet& rules) {
  if (rules.limits_changed.empty()) return rules.editions;
  return fmt::format("{}, changed: {}", rules.editions, fmt::join(rules.limits_changed, "; "));
}

bool is_xml(std::string_view text) {
  text = without_byte_order_mark(text);
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && text[first] == '<';
}

}  // namespace

const std::vector<FileKind>& file_kinds() {
  const auto own_name = [](const auto& value) { return value.name; };
  static const std::vector<FileKind> kinds{
      kind("vessel", "service/plan/vessel.schema.json", vessel_form, read_vessel, own_name),
      kind("route", "service/plan/route.schema.json", route_form, read_route, own_name),
      kind("waterway", "service/facts/waterway/waterway.schema.json", waterway_form, read_waterway,
           own_name),
      kind("tide station", "service/facts/tide/tide_station.schema.json", tide_station,
           read_tide_station, [](const TideStationFile& read) { return read.parts.name; }),
      kind("current station", "service/facts/tide/current_station.schema.json", current_station,
           read_current_station, [](const CurrentStation& station) { return station.name(); }),
      kind("wind forecast", "service/facts/weather/wind_forecast.schema.json", wind_forecast_form,
           read_wind_forecast, [](const WindSeries& winds) { return winds.source().from; }),
      kind("holiday calendar", "service/facts/holidays/holiday_calendar.schema.json",
           holiday_calendar_form, read_holiday_calendar, own_name),
      kind("sources", "service/fetch/sources.schema.json", sources_form, read_sources,
           [](const Sources&) { return std::string(); }),
      kind("rules", "service/rules/rules.schema.json", rules_form, read_edition, editions_of)};
  return kinds;
}

std::expected<const FileKind*, std::string> kind_called(std::string_view word) {
  for (const FileKind& kind : file_kinds()) {
    if (kind.word == word) return &kind;
  }
  const std::vector<std::string> words = words_of_kinds();
  return std::unexpected("found " + json_quoted(word.substr(0, 60)) + "; expected " +
                         form_detail::words_listed(words) + did_you_mean(word, words));
}

std::expected<const FileKind*, Problems> kind_of(const std::string& file, const std::string& text) {
  if (is_xml(text)) return kind_called("route").value();
  const auto texts = texts_at_top(file, text);
  if (!texts) return std::unexpected(texts.error());
  if (const auto word = text_of(*texts, "kind")) {
    auto kind = kind_called(*word);
    if (kind) return *kind;
    return std::unexpected(Problems{{file, "/kind", kind.error()}});
  }
  const auto type = text_of(*texts, "type");
  if (type == "Feature" || type == "LineString") return kind_called("route").value();
  return std::unexpected(Problems{
      {file, "",
       "does not say what it is; write \"kind\": " + form_detail::words_listed(words_of_kinds())}});
}

}  // namespace passage_brief
