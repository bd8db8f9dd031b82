#include "fetch/grib2_provider.h"

#include <expected>
#include <string_view>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/reply.h"
#include "reading/problem.h"

#ifdef WITH_ECCODES
#include <eccodes.h>
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "facts/source.h"
#include "fetch/grib2_packing.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/velocity.h"
#include "units/zone.h"
#endif

namespace passage_brief {

bool is_grib(std::string_view bytes) { return bytes.starts_with("GRIB"); }

#ifndef WITH_ECCODES

std::expected<WindSeries, Problems> grib2_winds(std::string_view name, std::string_view,
                                                const Asked&) {
  return refused(name, "", "is a GRIB file, and this program was built without ecCodes");
}

#else

namespace {

constexpr int kMostMessages = 2000;
constexpr long kMostNodes = 20'000'000;
constexpr Speed kMostWind = knots(250);

/// ecCodes ends the program where a damaged message breaks what it takes for granted, unless it is
/// told what to do instead.
struct Damaged : std::runtime_error {
  using std::runtime_error::runtime_error;
};

void take_damage_as_an_exception() {
  static const bool done = [] {
    codes_set_codes_assertion_failed_proc([](const char* message) { throw Damaged(message); });
    return true;
  }();
  static_cast<void>(done);
}

struct HandleDeleter {
  void operator()(codes_handle* handle) const { codes_handle_delete(handle); }
};
using Handle = std::unique_ptr<codes_handle, HandleDeleter>;

std::optional<long> whole(codes_handle* handle, const char* key) {
  long value = 0;
  if (codes_get_long(handle, key, &value) != CODES_SUCCESS) return std::nullopt;
  return value;
}

std::optional<double> real(codes_handle* handle, const char* key) {
  double value = 0;
  if (codes_get_double(handle, key, &value) != CODES_SUCCESS || !std::isfinite(value)) {
    return std::nullopt;
  }
  return value;
}

std::string word(codes_handle* handle, const char* key) {
  std::string text(64, '\0');
  std::size_t length = text.size();
  if (codes_get_string(handle, key, text.data(), &length) != CODES_SUCCESS) return {};
  text.resize(std::min(length, text.size()));
  return text.substr(0, text.find('\0'));
}

/// 20260320 and 1800 -> an instant.
std::optional<Instant> instant_of(std::optional<long> date, std::optional<long> time) {
  if (!date || !time || *date < 19000101 || *date > 20371231 || *time < 0 || *time > 2359) {
    return std::nullopt;
  }
  const std::chrono::year_month_day day{
      std::chrono::year(static_cast<int>(*date / 10000)),
      std::chrono::month(static_cast<unsigned>(*date / 100 % 100)),
      std::chrono::day(static_cast<unsigned>(*date % 100))};
  if (!day.ok() || *time % 100 > 59) return std::nullopt;
  return std::chrono::sys_days(day) + std::chrono::hours(*time / 100) +
         std::chrono::minutes(*time % 100);
}

/// The four nodes around a place, with the weight of each; nothing outside the grid.
struct Corner {
  std::size_t index;
  double weight;
};

std::optional<std::vector<Corner> > corners_around(codes_handle* handle, Position place) {
  const auto ni = whole(handle, "Ni");
  const auto nj = whole(handle, "Nj");
  const auto first_lat = real(handle, "latitudeOfFirstGridPointInDegrees");
  const auto first_lon = real(handle, "longitudeOfFirstGridPointInDegrees");
  const auto step_i = real(handle, "iDirectionIncrementInDegrees");
  const auto step_j = real(handle, "jDirectionIncrementInDegrees");
  const bool upward = whole(handle, "jScansPositively") == 1;
  if (!ni || !nj || !first_lat || !first_lon || !step_i || !step_j) return std::nullopt;
  if (*ni < 2 || *nj < 2 || *ni > kMostNodes / *nj || *step_i <= 0 || *step_j <= 0) {
    return std::nullopt;
  }
  // Other orders of scanning are rare, and a wrong order would give another place's wind.
  if (whole(handle, "iScansNegatively") != 0 || whole(handle, "jPointsAreConsecutive") != 0 ||
      whole(handle, "alternativeRowScanning") != 0) {
    return std::nullopt;
  }
  const double column = folded_360(place.longitude.in_degrees() - *first_lon) / *step_i;
  const double latitude_deg = place.latitude.in_degrees();
  const double row = (upward ? latitude_deg - *first_lat : *first_lat - latitude_deg) / *step_j;
  const bool round_the_globe = std::abs(static_cast<double>(*ni) * *step_i - 360) < *step_i / 2;
  if (row < 0 || row > static_cast<double>(*nj - 1)) return std::nullopt;
  if (!round_the_globe && column > static_cast<double>(*ni - 1)) return std::nullopt;
  const long i = std::min(static_cast<long>(column), *ni - 1);
  const long j = std::min(static_cast<long>(row), *nj - 2);
  const double di = column - static_cast<double>(i);
  const double dj = row - static_cast<double>(j);
  const long east = i + 1 < *ni ? i + 1 : (round_the_globe ? 0 : i);
  const auto index = [&](long c, long r) { return static_cast<std::size_t>(r * *ni + c); };
  return std::vector<Corner>{{index(i, j), (1 - di) * (1 - dj)},
                             {index(east, j), di * (1 - dj)},
                             {index(i, j + 1), (1 - di) * dj},
                             {index(east, j + 1), di * dj}};
}

/// The figures at the corners that count; nothing where one of them is missing.
std::optional<std::vector<double> > values_at(codes_handle* handle,
                                              const std::vector<Corner>& corners) {
  std::size_t size = 0;
  if (codes_get_size(handle, "values", &size) != CODES_SUCCESS) return std::nullopt;
  if (size > static_cast<std::size_t>(kMostNodes)) return std::nullopt;
  const bool bitmap = whole(handle, "bitmapPresent").value_or(1) != 0;
  const auto missing = real(handle, "missingValue");
  std::vector<double> all(size);
  if (codes_get_double_array(handle, "values", all.data(), &size) != CODES_SUCCESS) {
    return std::nullopt;
  }
  std::vector<double> found;
  for (const Corner& corner : corners) {
    if (corner.index >= size) return std::nullopt;
    const double value = all[corner.index];
    // missingValue reads 9999 even where there is no bitmap: then 9999 would be a value, and
    // absurd.
    if (!std::isfinite(value) || (bitmap && missing && value == *missing)) return std::nullopt;
    found.push_back(value);
  }
  return found;
}

struct GribHour {
  std::optional<Speed> east;
  std::optional<Speed> north;
  std::optional<Speed> gust;
};

struct GribWinds {
  std::map<Instant, GribHour> hours;
  std::optional<Instant> issued;
};

double mean_of(const std::vector<double>& values, const std::vector<Corner>& corners) {
  double mean = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) mean += values[i] * corners[i].weight;
  return mean;
}

double greatest_of(const std::vector<double>& values, const std::vector<Corner>& corners) {
  double greatest = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    if (corners[i].weight > 0) greatest = std::max(greatest, values[i]);
  }
  return greatest;
}

void take_message(codes_handle* handle, Position place, GribWinds& winds, Ledger& ledger) {
  const std::string what = word(handle, "shortName");
  if (what != "10u" && what != "10v" && what != "gust") return;
  const auto at = instant_of(whole(handle, "validityDate"), whole(handle, "validityTime"));
  const auto issued = instant_of(whole(handle, "dataDate"), whole(handle, "dataTime"));
  if (!at || !issued) return ledger.add(what, "has no time that can be read");
  if (word(handle, "gridType") != "regular_ll") {
    return ledger.add(what, "its grid is not of regular latitude and longitude");
  }
  if (word(handle, "units") != "m s**-1") return ledger.add(what, "is not in m/s");
  const auto corners = corners_around(handle, place);
  if (!corners) return ledger.add(what, "its grid does not hold the place");
  winds.issued = std::min(winds.issued.value_or(*issued), *issued);  // of the oldest run in it
  const auto values = values_at(handle, *corners);
  if (!values) return;
  const Speed value = metres_per_second(what == "gust" ? greatest_of(*values, *corners)
                                                       : mean_of(*values, *corners));
  if (value > kMostWind || value < -kMostWind) {
    return ledger.add(what, "holds a wind that cannot be");
  }
  GribHour& hour = winds.hours[*at];
  std::optional<Speed>& slot = what == "10u" ? hour.east : what == "10v" ? hour.north : hour.gust;
  if (slot) return ledger.add(what, "stands twice for " + to_rfc3339(*at));
  slot = value;
}

WindHour hour_of(Instant at, const GribHour& grib) {
  WindHour hour{.at = at,
                .from = std::nullopt,
                .speed = std::nullopt,
                .gust = grib.gust,
                .pressure = std::nullopt,
                .visibility = std::nullopt,
                .wave = std::nullopt,
                .thunder = std::nullopt};
  if (grib.east && grib.north) {
    const Velocity air{*grib.east, *grib.north};
    hour.speed = speed_of(air);
    hour.from = WindFrom{bearing_of(air).reversed()};
    if (hour.gust) hour.gust = std::max(*hour.gust, *hour.speed);
  }
  return hour;
}

}  // namespace

std::expected<WindSeries, Problems> grib2_winds(std::string_view name, std::string_view bytes,
                                                const Asked& asked) {
  if (!asked.place) {
    return refused(name, "",
                   "is a GRIB file, which holds many places; say which after the file's name, "
                   "like FILE?at=42.36,-71.05");
  }
  take_damage_as_an_exception();
  Ledger ledger(name, "the GRIB file");
  GribWinds winds;
  int messages = 0;
  for (std::size_t begin = bytes.find("GRIB"); begin != std::string_view::npos;) {
    const std::string_view rest = bytes.substr(begin);
    // Section 0: edition in octet 8, length of the message in octets 9 to 16.
    std::size_t length = 0;
    for (std::size_t i = 8; i < 16 && rest.size() >= 16; ++i) {
      length = length << 8U | static_cast<unsigned char>(rest[i]);
    }
    if (rest.size() < 16 || rest[7] != 2) return refused(name, "", "is not of GRIB edition 2");
    if (length < 16 || length > rest.size() || !rest.substr(0, length).ends_with("7777")) {
      return refused(name, "", "is cut short or damaged");
    }
    if (!holds_what_it_packs(rest.substr(0, length))) {
      return refused(name, "", "is damaged: it does not hold the values it says it does");
    }
    try {
      const Handle handle(codes_handle_new_from_message(nullptr, rest.data(), length));
      if (!handle) return refused(name, "", "holds a message that cannot be read");
      take_message(handle.get(), *asked.place, winds, ledger);
    } catch (const Damaged&) {
      return refused(name, "", "is cut short or damaged");
    }
    if (++messages > kMostMessages) return refused(name, "", "holds too many messages");
    begin = bytes.find("GRIB", begin + length);
  }
  if (winds.hours.empty() && ledger.clean()) ledger.add("", "holds no wind at 10 m");
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  std::vector<WindHour> hours;
  for (const auto& [at, hour] : winds.hours) hours.push_back(hour_of(at, hour));
  return WindSeries(Source{"wind forecast", "GRIB file " + std::string(name), winds.issued},
                    asked.place, std::move(hours));
}

#endif

}  // namespace passage_brief
