#include "cli/arguments.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cstddef>
#include <cstdio>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "cli/facts_files.h"
#include "facts/tide/current_station.h"
#include "facts/tide/read_tide_station.h"
#include "facts/tide/tide_station.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "units/position.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

std::optional<double> number_as_written(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<Instant> read_time(std::string_view option, const std::string& text,
                                 std::string_view example, const Zone& zone,
                                 ArgumentReader& reader) {
  if (!reader.required(option, text, example)) return std::nullopt;
  const auto at = reader.take(option, parse_time_in(zone, text));
  if (!at || Zone::covers(*at)) return at;
  reader.refuse(option, text + " is not within the years 1900 to 2037");
  return std::nullopt;
}

}  // namespace

void ArgumentReader::refuse(std::string_view option, std::string words) {
  problems_.push_back({std::string(option), "", std::move(words)});
}

std::optional<std::size_t> ArgumentReader::word(std::string_view option, const std::string& text,
                                                const std::vector<std::string>& words) {
  std::string listed;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == text) return i;
    listed += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
  }
  refuse(option, fmt::format("found \"{}\"; expected {}{}", text.substr(0, 60), listed,
                             did_you_mean(text, words)));
  return std::nullopt;
}

bool ArgumentReader::required(std::string_view option, const std::string& text,
                              std::string_view example) {
  if (!text.empty()) return true;
  refuse(option, fmt::format("must be given, for example {} {}", option, example));
  return false;
}

int ArgumentReader::refuse_all() const {
  for (const Problem& problem : problems_) fmt::print(stderr, "{}\n", in_words(problem));
  return 2;
}

std::expected<Position, std::string> parse_position(std::string_view text) {
  const auto refused = [&] {
    return std::unexpected(
        fmt::format("\"{}\" is not a latitude and a longitude in degrees, north "
                    "and east positive, like 42.36,-71.05",
                    text.substr(0, 60)));
  };
  const std::size_t comma = text.find(',');
  if (comma == std::string_view::npos) return refused();
  const auto latitude_deg = number_as_written(text.substr(0, comma));
  const auto longitude_deg = number_as_written(text.substr(comma + 1));
  if (!latitude_deg || !longitude_deg) return refused();
  const auto latitude = Latitude::from_degrees(*latitude_deg);
  const auto longitude = Longitude::from_degrees(*longitude_deg);
  if (!latitude || !longitude) return refused();
  return Position{*latitude, *longitude};
}

std::optional<std::vector<TideStation>> read_tide_stations(const std::vector<std::string>& files,
                                                           ArgumentReader& reader) {
  std::vector<TideStationFile> read;
  for (const std::string& file : files) {
    if (auto station = reader.take(read_tide_file(file))) read.push_back(*std::move(station));
  }
  if (files.empty()) reader.refuse("--tide", "must be given: a tide station file or more");
  if (files.empty() || read.size() < files.size()) return std::nullopt;
  return reader.take(link_tide_stations(std::move(read)));
}

std::optional<std::vector<CurrentStation>> read_current_stations(
    const std::vector<std::string>& files, ArgumentReader& reader) {
  std::vector<CurrentStation> read;
  for (const std::string& file : files) {
    if (auto station = reader.take(read_current_file(file))) read.push_back(*std::move(station));
  }
  if (files.empty()) reader.refuse("--current", "must be given: a current station file or more");
  if (files.empty() || read.size() < files.size()) return std::nullopt;
  return read;
}

std::optional<TimeTable> read_time_table(const std::string& from, const std::string& to,
                                         const std::string& every, bool events, const Zone& zone,
                                         ArgumentReader& reader) {
  const std::optional<Instant> begin = read_time("--from", from, "2026-06-14T00:00", zone, reader);
  const std::optional<Instant> end = read_time("--to", to, "2026-06-15T00:00", zone, reader);
  std::optional<Interval> step;
  if (!every.empty()) {
    step = reader.take("--every", parse_interval(every));
    if (step && *step < std::chrono::seconds(1)) {
      reader.refuse("--every", "is less than 1 s");
      step.reset();
    }
    if (events) reader.refuse("--every", "means nothing where the rows are events");
  } else if (!events) {
    reader.required("--every", every, "6min");
  }
  if (!begin || !end) return std::nullopt;
  if (*end < *begin) {
    reader.refuse("--to", "is before --from");
    return std::nullopt;
  }
  if (*end - *begin > std::chrono::days(366 * 20)) {
    reader.refuse("--to", "is more than 20 years after --from");
    return std::nullopt;
  }
  if (events) return TimeTable{{*begin, *end}, Interval(0), 0};
  if (!step) return std::nullopt;
  const auto count = static_cast<std::size_t>((*end - *begin) / *step) + 1;
  if (count > kMostTableRows) {
    reader.refuse("--every",
                  fmt::format("makes {} rows; at most {} are printed", count, kMostTableRows));
    return std::nullopt;
  }
  return TimeTable{{*begin, *end}, *step, count};
}

std::string fixed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string nearest_second(Instant at) {
  return to_rfc3339(std::chrono::round<std::chrono::seconds>(at));
}
std::string nearest_second(Instant at, const Zone& zone) {
  return to_rfc3339(std::chrono::round<std::chrono::seconds>(at), zone);
}

}  // namespace passage_brief
