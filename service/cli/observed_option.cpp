#include "cli/observed_option.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <chrono>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/facts.h"
#include "passage/observed_reading.h"
#include "reading/problem.h"
#include "reading/quantity_text.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

constexpr std::string_view kExample =
    "; write it like \"Oyster Bar 10:05 sounder 3.1 ft\", \"Town Bridge 10:20 gauge 54 ft\" or "
    "\"station Town Landing 10:00 level 3.2 ft\"";
constexpr std::string_view kStation = "station ";

struct Instrument {
  std::string_view word;
  ObservedBy by;
};
constexpr std::array<Instrument, 3> kInstruments{{{" sounder ", ObservedBy::sounder},
                                                  {" gauge ", ObservedBy::clearance_gauge},
                                                  {" level ", ObservedBy::water_level}}};

std::unexpected<std::string> wrong(std::string_view what) {
  return std::unexpected(std::string(what) + std::string(kExample));
}

std::string in_small_letters(std::string text) {
  std::ranges::transform(text, text.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// "10:05" is on the day; anything else says its own.
std::expected<Instant, std::string> time_of(const std::string& text, const Zone& zone,
                                            std::chrono::year_month_day day) {
  const bool clock_alone = text.find_first_of("Tt") == std::string::npos;
  if (!clock_alone) return parse_time_in(zone, text);
  return parse_time_in(zone, fmt::format("{:%F}T{}{}", std::chrono::sys_days(day),
                                         text.size() == 4 ? "0" : "", text));
}

}  // namespace

std::expected<ObservedReading, std::string> parse_observed(std::string_view text, const Zone& zone,
                                                           std::chrono::year_month_day day) {
  // The last instrument named: a place may have such a word in its name.
  std::optional<Instrument> instrument;
  std::size_t where = 0;
  for (const Instrument& one : kInstruments) {
    const std::size_t found = text.rfind(one.word);
    if (found == std::string_view::npos || (instrument && found < where)) continue;
    instrument = one;
    where = found;
  }
  if (!instrument) return wrong("names no sounder, gauge or level");
  const auto reading = parse_length(text.substr(where + instrument->word.size()));
  if (!reading) return std::unexpected(reading.error());
  if (instrument->by != ObservedBy::water_level && *reading < metres(0)) {
    return wrong("reads below zero, which no sounder or gauge does");
  }
  const std::string_view before = text.substr(0, where);
  const std::size_t space = before.find_last_of(' ');
  if (space == std::string_view::npos || space == 0) return wrong("wants a place and a time");
  const auto at = time_of(std::string(before.substr(space + 1)), zone, day);
  if (!at) return std::unexpected(at.error());
  std::string place(before.substr(0, space));
  if (instrument->by == ObservedBy::water_level) {
    if (!place.starts_with(kStation)) return wrong("a level is read at a tide station");
    place.erase(0, kStation.size());
  }
  return ObservedReading{place, instrument->by, *at, *reading};
}

std::expected<ObservedReading, std::string> with_place_found(ObservedReading reading,
                                                             const Facts& facts) {
  const std::vector<std::string> names = places_read_by(reading.by, facts);
  const std::string wanted = in_small_letters(reading.place);
  const auto found = std::ranges::find(names, wanted, in_small_letters);
  if (found == names.end()) {
    return std::unexpected("names no place of the waterway that is read so" +
                           did_you_mean(reading.place, names));
  }
  if (std::ranges::count(names, *found) > 1) {
    return std::unexpected("is the name of more than one place that is read so: \"" + *found +
                           "\"; give each a name of its own");
  }
  reading.place = *found;
  return reading;
}

}  // namespace passage_brief
