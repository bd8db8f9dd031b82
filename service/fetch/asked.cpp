#include "fetch/asked.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <expected>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <system_error>

#include "reading/file_text.h"
#include "reading/quantity_text.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// What requests carry and reading a reply does not need.
constexpr std::array<std::string_view, 9> kPassedOver{"product",     "begin_date", "end_date",
                                                      "date",        "range",      "interval",
                                                      "application", "format",     "bin"};

std::optional<double> degrees_in(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<Position> position_in(std::string_view text) {
  const auto comma = text.find(',');
  if (comma == std::string_view::npos) return std::nullopt;
  const auto latitude_deg = degrees_in(text.substr(0, comma));
  const auto longitude_deg = degrees_in(text.substr(comma + 1));
  if (!latitude_deg || !longitude_deg) return std::nullopt;
  const auto latitude = Latitude::from_degrees(*latitude_deg);
  const auto longitude = Longitude::from_degrees(*longitude_deg);
  if (!latitude || !longitude) return std::nullopt;
  return Position{*latitude, *longitude};
}

/// Words where the value cannot be used, else an empty text.
std::string take(std::string_view key, const std::string& value, Asked& asked) {
  const auto cannot = [&](std::string_view expected) {
    return fmt::format("{}={} cannot be used; expected {}", key, value.substr(0, 40), expected);
  };
  if (const std::string wrong = unseen_character(value); !wrong.empty()) {
    return fmt::format("{} holds {}", key, wrong);
  }
  if (key == "name") {
    asked.name = value;
  } else if (key == "station") {
    asked.station = value;
  } else if (key == "datum") {
    asked.datum = value;
  } else if (key == "units") {
    if (value != "metric" && value != "english") return cannot("metric or english");
    asked.height_unit = value == "metric" ? metres(1) : feet(1);
  } else if (key == "time_zone") {
    if (value != "gmt") return cannot("gmt: in local time one hour a year comes twice");
    asked.gmt = true;
  } else if (key == "zone") {
    asked.zone = Zone::named(value);
    if (!asked.zone) return cannot("a time zone like America/New_York");
  } else if (key == "uncertainty") {
    const auto length = parse_length(value);
    const auto speed = parse_speed(value);
    if (!length && !speed) return cannot("a height like 0.15 m or a speed like 0.3 kn");
    if (length) asked.height_uncertainty = *length;
    if (speed) asked.speed_uncertainty = *speed;
  } else if (key == "at") {
    asked.place = position_in(value);
    if (!asked.place) return cannot("a position like 42.36,-71.05");
  } else if (std::ranges::find(kPassedOver, key) == kPassedOver.end()) {
    return fmt::format(
        "\"{}\" is nothing that a reply is read by; expected name, station, datum, "
        "units, time_zone, zone, uncertainty or at",
        key.substr(0, 40));
  }
  return {};
}

}  // namespace

std::expected<Asked, std::string> asked_in(std::string_view query) {
  Asked asked;
  std::set<std::string_view> told;
  while (!query.empty()) {
    const auto end = query.find('&');
    const std::string_view part = query.substr(0, end);
    query.remove_prefix(end == std::string_view::npos ? query.size() : end + 1);
    if (part.empty()) continue;
    const auto equals = part.find('=');
    if (equals == std::string_view::npos || equals + 1 == part.size()) {
      return std::unexpected(fmt::format("\"{}\" is not like datum=MLLW", part.substr(0, 40)));
    }
    const std::string_view key = part.substr(0, equals);
    if (!told.insert(key).second) {
      return std::unexpected(fmt::format("{}= comes twice", key.substr(0, 40)));
    }
    if (auto words = take(key, std::string(part.substr(equals + 1)), asked); !words.empty()) {
      return std::unexpected(words);
    }
  }
  return asked;
}

std::string heights_not_told(const Asked& asked) {
  if (asked.datum && asked.height_unit && asked.gmt) return {};
  return "does not say its datum, its unit and the zone of its times; add what was asked after the "
         "file's name, like FILE?datum=MLLW&units=metric&time_zone=gmt";
}

}  // namespace passage_brief
