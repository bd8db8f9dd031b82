#include "facts/tide/station_blocks.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <expected>
#include <limits>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "facts/tide/constituent.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/series_curve.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Bare numbers are checked for sense once the unit is known; this only keeps out the absurd.
constexpr double kMostBare = 10000;
/// A year of readings every 6 minutes is 87,840 rows.
constexpr std::size_t kMostRows = 100'000;

using ConstituentRow = std::tuple<Constituent, std::optional<double>, std::optional<Angle>>;
using TimeRow = std::tuple<Instant, std::optional<double>>;

Form<Constituent> constituent_name() {
  std::string names;
  for (const Constituent c : Constituent::all()) {
    names += (names.empty() ? "" : ", ") + std::string(c.name());
  }
  return turned<Constituent, std::string>(
      text(10), [names](const std::string& name) -> std::expected<Constituent, std::string> {
        if (const auto constituent = Constituent::named(name)) return *constituent;
        return std::unexpected(fmt::format(
            "\"{}\" is none of the constituents that can be worked out: {}", name, names));
      });
}

Field phase() {
  Field field = must_be_given("phase", constant("GMT"),
                              "Phases are Greenwich epochs G, as NOAA lists them under GMT. Local "
                              "phases (kappa) are another thing and are not read.",
                              "\"GMT\"");
  field.built_from = false;
  return field;
}

void refuse_large(const Place& place, std::size_t row, double value_si, double most_si) {
  if (std::abs(value_si) <= most_si) return;
  place.inside("rows").inside(row).refuse("the number is too large to be right in this unit");
}

Known<std::vector<HarmonicTerm>> terms_of(const std::vector<ConstituentRow>& rows, double unit) {
  std::vector<HarmonicTerm> terms;
  for (const auto& [constituent, amplitude, phase] : rows) {
    if (!amplitude || (!phase && *amplitude > 0)) {
      return not_known(fmt::format("its constituent {} has no {}", constituent.name(),
                                   amplitude ? "phase" : "amplitude"));
    }
    terms.push_back({constituent, *amplitude * unit, phase.value_or(degrees(0))});
  }
  return terms;
}

void check_constituents(const Place& place, const std::vector<ConstituentRow>& rows, double unit,
                        double most_si) {
  std::array<bool, kConstituents> seen{};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const auto& [constituent, amplitude, phase] = rows[i];
    if (seen[constituent.index()]) {
      place.inside("rows").inside(i).refuse(
          fmt::format("the constituent {} stands in the list twice", constituent.name()));
    }
    seen[constituent.index()] = true;
    refuse_large(place, i, amplitude.value_or(0) * unit, most_si);
  }
}

Form<std::vector<SeriesRow>> series_block(Form<double> unit, double most_si,
                                          double most_off_line_si) {
  const std::string unit_example = unit.must_be.substr(0, unit.must_be.find_first_of(", "));
  return object<std::vector<SeriesRow>>(
      "series",
      {must_be_given("unit", std::move(unit), "The unit of the rows.", unit_example),
       must_be_given(
           "rows", list_of(row_of(instant(), or_null(number(-kMostBare, kMostBare))), 2, kMostRows),
           "Time and value, by rising time; null where none was published.",
           R"([["2026-06-14T00:00:00Z", 0.51], ["2026-06-14T00:06:00Z", 0.53]])")},
      [most_si, most_off_line_si](const Row& row) -> std::optional<std::vector<SeriesRow>> {
        const auto size = row.get<double>("unit");
        const auto rows = row.get<std::vector<TimeRow>>("rows");
        const std::size_t problems_before = row.place().problem_count();
        std::vector<SeriesRow> series;
        std::vector<std::size_t> row_in_file;
        for (std::size_t i = 0; i < rows.size(); ++i) {
          const auto& [at, value] = rows[i];
          if (i > 0 && at <= std::get<Instant>(rows[i - 1])) {
            row.place().inside("rows").inside(i).refuse(
                "its time is not after the one before; rows stand by rising time");
          }
          if (!value) continue;
          refuse_large(row.place(), i, *value * size, most_si);
          series.push_back({at, *value * size});
          row_in_file.push_back(i);
        }
        if (series.empty()) row.refuse("rows", "holds no value that is not null");
        if (row.place().problem_count() > problems_before) return series;
        for (const SeriesSpike& spike : spikes(series, most_off_line_si)) {
          row.place()
              .inside("rows")
              .inside(row_in_file[spike.row])
              .refuse(height_spike_in_words(series, spike));
        }
        return series;
      });
}

}  // namespace

Form<double> height_unit() {
  return choice<double>({{"m", 1.0}, {"ft", kMetresInFoot}, {"cm", 0.01}});
}

Form<double> speed_unit() { return choice<double>({{"kn", knots(1).si()}, {"m/s", 1.0}}); }

Form<Known<std::vector<HarmonicTerm>>> constituents_block(Form<double> unit, double most_si) {
  const std::string unit_example = unit.must_be.substr(0, unit.must_be.find_first_of(", "));
  return object<Known<std::vector<HarmonicTerm>>>(
      "constituents",
      {must_be_given("unit", std::move(unit), "The unit of the amplitudes.", unit_example), phase(),
       must_be_given("rows",
                     list_of(row_of(constituent_name(), or_null(number(0, kMostBare)),
                                    or_null(angle(-360, 360))),
                             1, kConstituents),
                     "Name, amplitude and phase in degrees of each constituent. An amplitude of 0 "
                     "is one that was not resolved.",
                     R"([["M2", 0.576, 208.2], ["S2", 0.137, 216.2]])")},
      [most_si](const Row& row) {
        const auto rows = row.get<std::vector<ConstituentRow>>("rows");
        const auto size = row.get<double>("unit");
        check_constituents(row.place(), rows, size, most_si);
        return terms_of(rows, size);
      });
}

Form<std::vector<SeriesRow>> heights_block(double most_m) {
  return series_block(height_unit(), most_m, kMostOffLine_m);
}

Form<std::vector<SeriesRow>> speeds_block(double most_si) {
  return series_block(speed_unit(), most_si, std::numeric_limits<double>::infinity());
}

}  // namespace passage_brief
