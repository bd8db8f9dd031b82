#include "facts/tide/read_tide_station.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <expected>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

#include "facts/source.h"
#include "facts/tide/curve.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/high_low_curve.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/station_blocks.h"
#include "facts/tide/subordinate_curve.h"
#include "facts/tide/tide_station.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/height.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

/// The ways to work a station out, of which a file uses one.
constexpr std::array<const char*, 4> kWays{"constituents", "reference", "heights", "high_low"};

using EventRow = std::tuple<Instant, double, bool>;

Form<std::vector<Turn>> high_low_block() {
  return object<std::vector<Turn>>(
      "high_low",
      {must_be_given("unit", height_unit(), "The unit of the heights.", "\"m\""),
       must_be_given(
           "rows",
           list_of(row_of(instant(), number(-1000, 1000),
                          choice<bool>({{"high", true}, {"low", false}})),
                   2, 10'000),
           "Time, height above chart datum, and which it is, by rising time; none left out.",
           R"([["2026-06-14T03:10:00Z", 0.92, "high"], ["2026-06-14T09:21:00Z", 0.2, "low"]])")},
      [](const Row& row) {
        const auto unit = row.get<double>("unit");
        std::vector<Turn> turns;
        for (const auto& [at, height, high] : row.get<std::vector<EventRow>>("rows")) {
          turns.push_back({at, height * unit, high});
        }
        const auto curve = HighLowCurve::through(turns, HighLowCurve::Complete::perhaps);
        if (!curve) row.refuse("rows", curve.error());
        return turns;
      });
}

Form<HeightOffset> height_offset(const char* which) {
  return object<HeightOffset>(
      which,
      {may_be_left_out("ratio", number(0, 5), "Times the reference station's height.", "1.09"),
       may_be_left_out("add", length("-10 m", "10 m"), "Added to the reference station's height.",
                       "\"0.3 ft\"")},
      [](const Row& row) {
        return HeightOffset{row.get_or<double>("ratio", 1),
                            in_metres(row.get_or<Length>("add", metres(0)))};
      },
      {[](const Row& row) {
        if (row.given("ratio") != row.given("add")) return;
        row.refuse("needs either a \"ratio\" or an \"add\", and not both");
      }});
}

Form<Known<TideOffsets>> offsets() {
  return object<Known<TideOffsets>>(
      "offsets",
      {may_be_unknown("high_time", interval("-14 h", "14 h"),
                      "How much later high water is than at the reference.", "\"55 min\""),
       may_be_unknown("low_time", interval("-14 h", "14 h"),
                      "How much later low water is than at the reference.", "\"40 min\""),
       may_be_unknown("high", height_offset("offset of high water"), "Of high water.",
                      R"({"ratio": 1.09})"),
       may_be_unknown("low", height_offset("offset of low water"), "Of low water.",
                      R"({"ratio": 1.06})")},
      [](const Row& row) {
        return join([](Interval high_time, Interval low_time, HeightOffset high,
                       HeightOffset low) { return TideOffsets{high_time, low_time, high, low}; },
                    row.known<Interval>("high_time", "its offsets"),
                    row.known<Interval>("low_time", "its offsets"),
                    row.known<HeightOffset>("high", "its offsets"),
                    row.known<HeightOffset>("low", "its offsets"));
      });
}

std::vector<Field> tide_station_fields() {
  return {
      always("kind", "tide station"),
      must_be_given("name", text(80), "What waterways and subordinate stations call it.",
                    "\"Town Landing\""),
      may_be_unknown("position", position(), "Where it is.",
                     R"({"latitude": 37.8063, "longitude": -122.4659})"),
      must_be_given("zone", time_zone(), "Its wall time.", "\"America/New_York\""),
      may_be_unknown(
          "datums", named_numbers(height_unit(), -1000, 1000),
          "Planes by name, as heights above one zero of the station's own; refused where "
          "they stand in a wrong order (LAT, MLLW, MLW, MSL, MHW, MHHW, HAT) or further "
          "from mean level than the constituents reach.",
          R"({"unit": "m", "MLLW": 1.822, "MSL": 2.773, "MHW": 3.416, "HAT": 4.028})"),
      may_be_unknown("chart_datum", text(40), "The plane that heights of tide are above.",
                     "\"MLLW\""),
      may_be_unknown("constituents", constituents_block(height_unit(), kMostHeight_m),
                     "Harmonic constants. The datums must then hold MSL and the chart datum.",
                     R"({"unit": "m", "phase": "GMT", "rows": [["M2", 0.576, 208.2]]})"),
      may_be_unknown("reference", text(80),
                     "The station whose high and low waters this one's are worked out from.",
                     "\"Harbor Entrance\""),
      may_be_unknown(
          "offsets", offsets(), "From the reference station.",
          R"({"high_time": "55 min", "low_time": "40 min", "high": {"ratio": 1.09}, "low": {"ratio": 1.06}})"),
      may_be_unknown(
          "heights", heights_block(kMostHeight_m),
          "A published series of heights above chart datum. Nothing is read across a gap "
          "of more than an hour; a height more than 1.5 m off the line between its neighbours is "
          "refused.",
          R"({"unit": "m", "rows": [["2026-06-14T00:00:00Z", 0.51],
                                               ["2026-06-14T00:06:00Z", 0.53]]})"),
      may_be_unknown("high_low", high_low_block(),
                     "Published high and low waters above chart datum.",
                     R"({"unit": "m", "rows": [["2026-06-14T03:10:00Z", 0.92, "high"],
                                    ["2026-06-14T09:21:00Z", 0.2, "low"]]})"),
      may_be_unknown("uncertainty", length("0 m", "3 m"),
                     "One standard deviation of observed less predicted height.", "\"0.15 m\""),
      may_be_unknown("source", text(300), "Who published it, and which edition.",
                     "\"NOAA CO-OPS, station 9414290\""),
      may_be_left_out("issued", instant(), "When it was published.", "\"2026-01-05T00:00:00Z\"")};
}

std::map<std::string, Height<StationZero>> datums_of(const Row& row) {
  std::map<std::string, Height<StationZero>> datums;
  const auto given = row.maybe<NamedNumbers>("datums");
  if (!given) return datums;
  for (const auto& [name, height] : given->values) {
    if (height) datums.emplace(name, Height<StationZero>::above(metres(*height * given->unit)));
  }
  return datums;
}

/// Mean level above chart datum: both from the datum table, never from the series itself.
Known<double> mean_level(const std::map<std::string, Height<StationZero>>& datums,
                         const Known<std::string>& chart_datum) {
  if (!chart_datum) return not_known_as(chart_datum);
  const auto mean = datums.find("MSL");
  const auto zero = datums.find(*chart_datum);
  if (mean == datums.end()) return not_known("its datums give no MSL");
  if (zero == datums.end()) return not_known("its datums give no " + *chart_datum);
  return in_metres(mean->second - zero->second);
}

Known<TideCurve> curve_of(const Row& row, const TideStationParts& parts) {
  const auto terms = row.maybe<Known<std::vector<HarmonicTerm>>>("constituents");
  const auto series = row.maybe<std::vector<SeriesRow>>("heights");
  const auto turns = row.maybe<std::vector<Turn>>("high_low");
  if (terms) {
    return join(
        [](double mean, const std::vector<HarmonicTerm>& list) {
          return TideCurve(HarmonicCurve(mean, list));
        },
        mean_level(parts.datums, parts.chart_datum), *terms);
  }
  if (!parts.chart_datum) return not_known_as(parts.chart_datum);
  if (series) return TideCurve(SeriesCurve(*series, kHeightsRounding_m));
  if (turns) return TideCurve(*HighLowCurve::through(*turns, HighLowCurve::Complete::perhaps));
  return not_known(
      fmt::format("the tide station file gives no constituents, reference, heights or "
                  "high and low waters for {}",
                  parts.name));
}

void check_one_way(const Row& row) {
  const char* first = nullptr;
  for (const char* way : kWays) {
    if (!row.given(way)) continue;
    if (first != nullptr) {
      row.refuse(way, fmt::format("the station is worked out from its {} already; give one of "
                                  "constituents, reference, heights and high_low",
                                  first));
    }
    first = way;
  }
  if (row.given("offsets") && !row.given("reference")) {
    row.refuse("offsets", "needs the key \"reference\": the station they are applied to");
  }
}

void check_chart_datum(const Row& row) {
  const auto datums = row.maybe<NamedNumbers>("datums");
  const auto chart_datum = row.maybe<std::string>("chart_datum");
  if (!datums || !chart_datum) return;
  std::vector<std::string> names;
  for (const auto& [name, height] : datums->values) names.push_back(name);
  if (std::ranges::find(names, *chart_datum) != names.end()) return;
  row.refuse("chart_datum", fmt::format("\"{}\" is not among the station's datums{}", *chart_datum,
                                        did_you_mean(*chart_datum, names)));
}

/// Planes by rising height, as they are defined (NOAA CO-OPS, Tidal Datums; International
/// Hydrographic Dictionary, S-32, for the neap and spring ones). DTL, half way between MHHW and
/// MLLW, may lie beyond MHW or MLW where one tide of the day is much the greater.
constexpr std::array<std::array<std::string_view, 7>, 4> kLadders{
    {{"LAT", "MLLW", "MLW", "MSL", "MHW", "MHHW", "HAT"},
     {"LAT", "MLLW", "MLW", "MTL", "MHW", "MHHW", "HAT"},
     {"LAT", "MLLW", "MLLW", "DTL", "MHHW", "MHHW", "HAT"},
     {"LAT", "MLWS", "MLWN", "MSL", "MHWN", "MHWS", "HAT"}}};

using NamedHeight = std::pair<std::string_view, double>;  // metres above the station's zero

std::optional<NamedHeight> datum_in(const NamedNumbers& datums, std::string_view name) {
  for (const auto& [given, height] : datums.values) {
    if (given == name && height) return NamedHeight(name, *height * datums.unit);
  }
  return std::nullopt;
}

void check_datum_order(const Row& row) {
  const auto* datums = row.look_at<NamedNumbers>("datums");
  if (datums == nullptr) return;
  std::set<std::string> said;  // two ladders may share a wrong step
  for (const auto& ladder : kLadders) {
    std::optional<NamedHeight> below;
    for (const std::string_view name : ladder) {
      const auto here = datum_in(*datums, name);
      if (!here) continue;
      if (below && here->second < below->second) {
        const std::string words =
            fmt::format("{} stands {:.3f} m above {}; it lies below it at every station",
                        below->first, below->second - here->second, name);
        if (said.insert(words).second) row.refuse("datums", words);
      }
      below = here;
    }
  }
}

/// Datums of feet in a block of metres: the tide itself does not reach so far.
void check_datum_reach(const Row& row) {
  const auto* datums = row.look_at<NamedNumbers>("datums");
  const auto* terms = row.look_at<Known<std::vector<HarmonicTerm>>>("constituents");
  if (datums == nullptr || terms == nullptr || !*terms) return;
  auto mean = datum_in(*datums, "MSL");
  if (!mean) mean = datum_in(*datums, "MTL");
  if (!mean) return;
  // All constituents at their greatest at once, in the years when they are greatest, and what mean
  // level differs from year to year (our rule, no source).
  double reach = 0.5;
  for (const HarmonicTerm& term : **terms) reach += 1.15 * term.amplitude;
  std::set<std::string_view> names;
  for (const auto& ladder : kLadders) names.insert(ladder.begin(), ladder.end());
  for (const std::string_view name : names) {
    const auto here = datum_in(*datums, name);
    if (!here || std::abs(here->second - mean->second) <= reach) continue;
    row.refuse("datums",
               fmt::format("{} lies {:.2f} m from {}, further than the constituents reach "
                           "({:.2f} m); are both in the unit they state?",
                           name, std::abs(here->second - mean->second), mean->first, reach));
  }
}

std::optional<TideStationFile> build_tide_station(const Row& row) {
  const auto name = row.get<std::string>("name");
  TideStationParts parts{.name = name,
                         .position = row.known<Position>("position", name),
                         .zone = row.get<Zone>("zone"),
                         .source = {.what = "tide at " + name,
                                    .from = row.get_or<std::string>("source", "source not stated"),
                                    .issued = row.maybe<Instant>("issued")},
                         .uncertainty = row.known<Length>("uncertainty", name),
                         .chart_datum = row.known<std::string>("chart_datum", name),
                         .datums = datums_of(row),
                         .why_no_datum = "",
                         .curve = not_known("")};
  parts.curve = curve_of(row, parts);
  std::optional<SubordinateTo> subordinate_to;
  const auto given_offsets = row.known<Known<TideOffsets>>("offsets", name);
  if (const auto reference = row.maybe<std::string>("reference")) {
    parts.why_no_datum = ", being subordinate to " + *reference;
    subordinate_to = {*reference,
                      join([](const Known<TideOffsets>& o) { return o; }, given_offsets)};
  }
  return TideStationFile{"", std::move(parts), std::move(subordinate_to)};
}

// Linking.

Problem problem_at(const TideStationFile& file, const char* place, std::string words) {
  return {file.file, place, std::move(words)};
}

/// One lunar month, in which every spacing of high and low water comes up; any would do.
const Span kTrialMonth{std::chrono::sys_days(std::chrono::year(2020) / 1 / 1),
                       std::chrono::sys_days(std::chrono::year(2020) / 1 / 31)};

/// The curve of a subordinate station, or why its file is refused.
std::expected<Known<TideCurve>, Problem> linked_curve(const TideStationFile& file,
                                                      const TideStationFile& reference) {
  const SubordinateTo& link = *file.subordinate_to;
  const TideStation station(reference.parts);
  if (!file.parts.chart_datum) return Known<TideCurve>(not_known_as(file.parts.chart_datum));
  if (!link.offsets) return Known<TideCurve>(not_known_as(link.offsets));
  if (!reference.parts.curve)
    return Known<TideCurve>(not_known_as(station.height(kTrialMonth.begin)));
  const Known<TideHeight> plane = station.datum(*file.parts.chart_datum);
  if (!plane) {
    return std::unexpected(problem_at(
        file, "/chart_datum",
        fmt::format("heights are above {}, of which the reference station knows nothing: {}",
                    *file.parts.chart_datum, in_words(plane.error()))));
  }
  const double plane_m = in_metres(plane->above_datum());
  if (const auto* harmonic = std::get_if<HarmonicCurve>(&*reference.parts.curve)) {
    SubordinateCurve curve(*harmonic, plane_m, *link.offsets);
    if (const auto month = curve.turns(kTrialMonth); !month) {
      return std::unexpected(problem_at(file, "/offsets", in_words(month.error())));
    }
    return TideCurve(std::move(curve));
  }
  if (const auto* table = std::get_if<HighLowCurve>(&*reference.parts.curve)) {
    auto curve = moved(table->events(), plane_m, *link.offsets, HighLowCurve::Complete::perhaps);
    if (curve) return TideCurve(*std::move(curve));
    return std::unexpected(
        problem_at(file, "/offsets", "change the order of high and low water: " + curve.error()));
  }
  return std::unexpected(problem_at(
      file, "/reference",
      fmt::format("{} gives a series of heights; a reference station gives constituents or "
                  "high and low waters",
                  link.reference)));
}

}  // namespace

Form<TideStationFile> tide_station() {
  return object<TideStationFile>(
      "tide station", tide_station_fields(), build_tide_station,
      {check_one_way, check_chart_datum, check_datum_order, check_datum_reach});
}

std::expected<TideStationFile, Problems> read_tide_station(std::string_view file,
                                                           std::string_view text) {
  static const auto form = tide_station();  // made once
  auto read = read_json(file, text, "the tide station file", form);
  if (read) read->file = file;
  return read;
}

std::expected<std::vector<TideStation>, Problems> link_tide_stations(
    std::vector<TideStationFile> files) {
  Problems problems;
  const auto named = [&](const std::string& name) {
    return std::ranges::find(files, name, [](const TideStationFile& f) { return f.parts.name; });
  };
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto first = named(files[i].parts.name);
    if (first == files.begin() + static_cast<std::ptrdiff_t>(i)) continue;
    problems.push_back(problem_at(files[i], "/name",
                                  fmt::format("\"{}\" is the name of the station in {} too",
                                              first->parts.name, first->file)));
  }
  for (TideStationFile& file : files) {
    if (!file.subordinate_to) continue;
    auto reference = named(file.subordinate_to->reference);
    if (reference == files.end()) {
      reference =
          std::ranges::find(files, file.subordinate_to->reference, &TideStationFile::number);
    }
    if (reference == files.end()) {
      problems.push_back(
          problem_at(file, "/reference",
                     fmt::format("no tide station file called \"{}\" was given; give it too",
                                 file.subordinate_to->reference)));
    } else if (reference->subordinate_to) {
      problems.push_back(
          problem_at(file, "/reference",
                     fmt::format("{} is a subordinate station itself", reference->parts.name)));
    } else if (auto curve = linked_curve(file, *reference)) {
      file.parts.curve = *std::move(curve);
    } else {
      problems.push_back(std::move(curve.error()));
    }
  }
  if (!problems.empty()) return std::unexpected(std::move(problems));
  std::vector<TideStation> stations;
  for (TideStationFile& file : files) stations.emplace_back(std::move(file.parts));
  return stations;
}

}  // namespace passage_brief
