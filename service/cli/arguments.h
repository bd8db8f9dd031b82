// The texts of the command line, turned into values; every problem is kept, not only the first.
#pragma once

#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "reading/problem.h"
#include "units/known.h"
#include "units/position.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {

/// Problems of the arguments themselves name the option, as files are named.
class ArgumentReader {
 public:
  /// The value, or nothing and a problem.
  template <class T>
  std::optional<T> take(std::string_view option, const std::expected<T, std::string>& value) {
    if (value) return *value;
    refuse(option, value.error());
    return std::nullopt;
  }
  template <class T>
  std::optional<T> take(std::expected<T, Problems> value) {
    if (value) return *std::move(value);
    problems_.insert(problems_.end(), value.error().begin(), value.error().end());
    return std::nullopt;
  }
  /// For what the command cannot do without.
  template <class T>
  std::optional<T> take_known(std::string_view option, const Known<T>& value) {
    if (value) return *value;
    refuse(option, in_words(value.error()));
    return std::nullopt;
  }
  void refuse(std::string_view option, std::string words);
  /// One of some words.
  std::optional<std::size_t> word(std::string_view option, const std::string& text,
                                  const std::vector<std::string>& words);
  /// An option that must be there; an empty text counts as left out.
  bool required(std::string_view option, const std::string& text, std::string_view example);

  [[nodiscard]] bool clean() const { return problems_.empty(); }
  /// Prints every problem on standard error, a line each; the exit status for them.
  [[nodiscard]] int refuse_all() const;

 private:
  Problems problems_;
};

/// "42.36,-71.05"
[[nodiscard]] std::expected<Position, std::string> parse_position(std::string_view text);

/// The files of a repeated option, each read; nothing after a problem.
[[nodiscard]] std::optional<std::vector<TideStation>> read_tide_stations(
    const std::vector<std::string>& files, ArgumentReader& reader);
[[nodiscard]] std::optional<std::vector<CurrentStation>> read_current_stations(
    const std::vector<std::string>& files, ArgumentReader& reader);

/// The times of a table: from, to, and the step between rows.
struct TimeTable {
  Span span;
  Interval step;
  std::size_t count;  // rows; the last is at or before the span's end
};
inline constexpr std::size_t kMostTableRows = 100'000;

/// Wall times are taken in the zone. An empty `every` is allowed when the rows are events.
[[nodiscard]] std::optional<TimeTable> read_time_table(const std::string& from,
                                                       const std::string& to,
                                                       const std::string& every, bool events,
                                                       const Zone& zone, ArgumentReader& reader);

/// With a fixed number of decimals, and no minus sign before a zero.
[[nodiscard]] std::string fixed(double value, int decimals);

/// Rounded to the nearest second, in UTC.
[[nodiscard]] std::string nearest_second(Instant at);
[[nodiscard]] std::string nearest_second(Instant at, const Zone& zone);

}  // namespace passage_brief
