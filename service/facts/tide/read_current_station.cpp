#include "facts/tide/read_current_station.h"

#include <fmt/format.h>

#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/harmonic.h"
#include "facts/tide/series_curve.h"
#include "facts/tide/station_blocks.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

std::vector<Field> current_station_fields() {
  return {
      always("kind", "current station"),
      must_be_given("name", text(80), "What waterways call it.", "\"The Narrows\""),
      may_be_unknown("position", position(), "Where it is.",
                     R"({"latitude": 40.7783, "longitude": -73.9383})"),
      must_be_given("zone", time_zone(), "Its wall time.", "\"America/New_York\""),
      may_be_unknown("flood_toward", bearing(), "Where the flood runs to.", "54.2"),
      may_be_unknown("ebb_toward", bearing(), "Where the ebb runs to.", "234.2"),
      may_be_unknown("mean", speed("-10 kn", "10 kn"),
                     "Mean flow, flood positive; needed with constituents.", "\"-0.417 kn\""),
      may_be_unknown("constituents", constituents_block(speed_unit(), kMostCurrent.si()),
                     "Harmonic constants along the flood.",
                     R"({"unit": "kn", "phase": "GMT", "rows": [["M2", 3.921, 344.1]]})"),
      may_be_unknown("speeds", speeds_block(kMostCurrent.si()),
                     "Instead of constituents: a published series, flood positive. Nothing is read "
                     "across a gap of more than an hour.",
                     R"({"unit": "kn", "rows": [["2026-06-14T00:00:00Z", 0.5],
                                                ["2026-06-14T00:06:00Z", 0.4]]})"),
      may_be_unknown("uncertainty", speed("0 kn", "5 kn"),
                     "One standard deviation of observed less predicted speed.", "\"0.3 kn\""),
      may_be_unknown("source", text(300), "Who published it, and which edition.",
                     "\"NOAA CO-OPS, station NYH1924\""),
      may_be_left_out("issued", instant(), "When it was published.", "\"2026-01-05T00:00:00Z\"")};
}

Known<CurrentCurve> curve_of(const Row& row, const std::string& name) {
  const auto terms = row.maybe<Known<std::vector<HarmonicTerm>>>("constituents");
  const auto series = row.maybe<std::vector<SeriesRow>>("speeds");
  const Known<Speed> mean = row.known<Speed>("mean", name);
  if (series) return CurrentCurve(SeriesCurve(*series, kSpeedsRounding_m_s));
  if (!terms) {
    return not_known(
        fmt::format("the current station file gives no constituents and no speeds "
                    "for {}",
                    name));
  }
  return join(
      [](Speed flow, const std::vector<HarmonicTerm>& list) {
        return CurrentCurve(HarmonicCurve(in_metres_per_second(flow), list));
      },
      mean, *terms);
}

Known<SetToward> set_toward(const Known<TrueBearing>& bearing) {
  return join([](TrueBearing toward) { return SetToward{toward}; }, bearing);
}

std::optional<CurrentStation> build_current_station(const Row& row) {
  const auto name = row.get<std::string>("name");
  return CurrentStation({.name = name,
                         .position = row.known<Position>("position", name),
                         .zone = row.get<Zone>("zone"),
                         .source = {.what = "current at " + name,
                                    .from = row.get_or<std::string>("source", "source not stated"),
                                    .issued = row.maybe<Instant>("issued")},
                         .uncertainty = row.known<Speed>("uncertainty", name),
                         .flood_toward = set_toward(row.known<TrueBearing>("flood_toward", name)),
                         .ebb_toward = set_toward(row.known<TrueBearing>("ebb_toward", name)),
                         .curve = curve_of(row, name)});
}

void check_speeds_alone(const Row& row) {
  if (!row.given("speeds")) return;
  for (const char* other : {"constituents", "mean"}) {
    if (row.given(other)) row.refuse(other, "is of no use beside speeds; give one of the two");
  }
}

}  // namespace

Form<CurrentStation> current_station() {
  return object<CurrentStation>("current station", current_station_fields(), build_current_station,
                                {check_speeds_alone});
}

std::expected<CurrentStation, Problems> read_current_station(std::string_view file,
                                                             std::string_view text) {
  static const auto form = current_station();  // made once
  return read_json(file, text, "the current station file", form);
}

}  // namespace passage_brief
