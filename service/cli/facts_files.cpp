#include "cli/facts_files.h"

#include <fmt/format.h>

#include <cstddef>
#include <expected>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/read_current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/weather/alert.h"
#include "facts/weather/read_wind_forecast.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/nws_alerts_provider.h"
#include "fetch/read_reply.h"
#include "fetch/reply.h"
#include "reading/file_text.h"
#include "reading/problem.h"
#include "units/position.h"

namespace passage_brief {
namespace {

namespace fs = std::filesystem;

/// What an argument names: a file, and what is said of it behind a question mark.
struct ToldFile {
  std::string file;
  std::string query;
};

ToldFile told_file(const std::string& argument) {
  const std::size_t mark = argument.rfind('?');
  std::error_code unreadable;
  if (mark == std::string::npos || fs::exists(argument, unreadable)) return {argument, ""};
  return {argument.substr(0, mark), argument.substr(mark + 1)};
}

/// Also for what only looks like one: a web page that was saved in a reply's place.
std::optional<ReplyShape> reply_in(std::string_view bytes) {
  if (const auto shape = shape_of_reply(bytes)) return shape;
  const std::string_view bare = without_byte_order_mark(bytes);
  const auto first = bare.find_first_not_of(" \t\r\n");
  if (first != std::string_view::npos && bare[first] == '<') return ReplyShape::error;
  return std::nullopt;
}

std::expected<Asked, Problems> asked_of(const ToldFile& told, ReplyShape shape) {
  auto asked = asked_in(told.query);
  if (!asked) return refused(told.file, "", "after its name: " + asked.error());
  const bool nameless =
      shape == ReplyShape::co_ops_predictions || shape == ReplyShape::co_ops_currents;
  if (nameless && asked->name.empty() && asked->station.empty()) {
    asked->name = fs::path(told.file).stem().string();
  }
  return *std::move(asked);
}

template <class Own, class Reply>
auto read_told(const std::string& argument, std::optional<Position> place, const Own& own,
               const Reply& reply) -> decltype(own("", "")) {
  const ToldFile told = told_file(argument);
  const auto bytes = read_file_text(told.file);
  if (!bytes) return std::unexpected(bytes.error());
  if (const auto shape = reply_in(*bytes)) {
    auto asked = asked_of(told, *shape);
    if (!asked) return std::unexpected(asked.error());
    if (*shape == ReplyShape::grib2 && !asked->place) asked->place = place;
    return reply(told.file, *bytes, *asked);
  }
  if (!told.query.empty()) {
    return refused(told.file, "", "says all it needs itself; leave out what stands after the ?");
  }
  return own(told.file, *bytes);
}

template <class T, class Name>
std::expected<std::string, Problems> named(ReplyShape shape, const std::expected<T, Problems>& read,
                                           const Name& name) {
  if (!read) return std::unexpected(read.error());
  return fmt::format("{}: {}", in_words(shape), name(*read));
}

}  // namespace

std::expected<TideStationFile, Problems> read_tide_file(const std::string& argument) {
  return read_told(argument, std::nullopt, read_tide_station, read_tide_reply);
}

std::expected<CurrentStation, Problems> read_current_file(const std::string& argument) {
  return read_told(argument, std::nullopt, read_current_station, read_current_reply);
}

std::expected<WindSeries, Problems> read_wind_file(const std::string& argument,
                                                   std::optional<Position> place) {
  return read_told(argument, place, read_wind_forecast, read_wind_reply);
}

std::optional<std::expected<std::string, Problems>> look_through_reply(
    const std::string& argument) {
  const ToldFile told = told_file(argument);
  const auto bytes = read_file_text(told.file);
  if (!bytes) return std::nullopt;
  const auto shape = shape_of_reply(*bytes);
  if (!shape) return std::nullopt;
  const auto asked = asked_of(told, *shape);
  if (!asked) return std::unexpected(asked.error());
  switch (*shape) {
    case ReplyShape::co_ops_predictions:
    case ReplyShape::co_ops_levels:
    case ReplyShape::co_ops_station:
      return named(*shape, read_tide_reply(told.file, *bytes, *asked),
                   [](const TideStationFile& read) { return read.parts.name; });
    case ReplyShape::co_ops_currents:
      return named(*shape, read_current_reply(told.file, *bytes, *asked),
                   [](const CurrentStation& read) { return read.name(); });
    case ReplyShape::nws_alerts:
      return named(*shape, nws_alerts(told.file, *bytes, ""), [](const std::vector<Alert>& read) {
        return fmt::format("{} in force", read.size());
      });
    case ReplyShape::nws_points:
    case ReplyShape::nws_grid:
    case ReplyShape::nws_hourly:
    case ReplyShape::open_meteo:
    case ReplyShape::grib2:
    case ReplyShape::error:
      return named(*shape, read_wind_reply(told.file, *bytes, *asked),
                   [](const WindSeries& read) { return read.source().from; });
  }
  return std::nullopt;
}

}  // namespace passage_brief
