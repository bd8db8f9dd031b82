#include "facts/weather/read_wind_forecast.h"

#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/source.h"
#include "facts/weather/wind_series.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/position.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using Hours = std::vector<WindHour>;

void check_hour(const Row& row) {
  const auto speed = row.maybe<Speed>("speed");
  const auto gust = row.maybe<Speed>("gust");
  if (speed && gust && *gust < *speed) row.refuse("gust", "is less than the speed");
}

Form<WindHour> hour() {
  return object<WindHour>(
      "forecast hour",
      {must_be_given("at", instant(), "The hour it is for.", "\"2026-06-14T13:00:00Z\""),
       may_be_unknown("from", bearing(), "Where the wind comes from.", "215"),
       may_be_unknown("speed", speed("0 kn", "200 kn"), "Mean wind at 10 m.", "\"14 kn\""),
       may_be_unknown("gust", speed("0 kn", "250 kn"), "At 10 m, not less than the speed.",
                      "\"22 kn\""),
       may_be_unknown("pressure", pressure("850 hPa", "1100 hPa"), "At sea level.", "\"1012 hPa\""),
       may_be_unknown("visibility", length("0 m", "100 nm"), "Least expected.", "\"5 nm\""),
       may_be_unknown("wave", length("0 m", "30 m"), "Significant height.", "\"2 ft\""),
       may_be_unknown("thunder", number(0, 1), "Probability.", "0.3")},
      [](const Row& row) {
        const auto from = row.maybe<TrueBearing>("from");
        return WindHour{.at = row.get<Instant>("at"),
                        .from = from ? std::optional(WindFrom{*from}) : std::nullopt,
                        .speed = row.maybe<Speed>("speed"),
                        .gust = row.maybe<Speed>("gust"),
                        .pressure = row.maybe<Pressure>("pressure"),
                        .visibility = row.maybe<Length>("visibility"),
                        .wave = row.maybe<Length>("wave"),
                        .thunder = row.maybe<double>("thunder")};
      },
      {check_hour});
}

void check_order(const Row& row) {
  const Hours* hours = row.look_at<Hours>("hours");
  if (hours == nullptr) return;
  const Place list = row.place().inside("hours");
  for (std::size_t i = 1; i < hours->size(); ++i) {
    const Instant before = (*hours)[i - 1].at;
    const Instant at = (*hours)[i].at;
    if (at > before) continue;
    const Place hour = list.inside(i);
    hour.inside("at").refuse(at == before ? "is the same hour as the one before"
                                          : "is earlier than the hour before; put them in order");
  }
}

}  // namespace

Form<WindSeries> wind_forecast_form() {
  return object<WindSeries>(
      "wind forecast",
      {always("kind", "wind forecast"),
       may_be_unknown("issued", instant(), "By its publisher, not fetched; not known: no age.",
                      "\"2026-06-14T10:00:00Z\""),
       may_be_unknown("source", text(), "Who issued it.", "\"invented for practice\""),
       may_be_unknown("position", position(), "Place it is for; not known: for the whole passage.",
                      R"({"latitude": 38.5, "longitude": -76.4})"),
       must_be_given("hours", list_of(hour(), 1, kMostForecastHours), "In order of time.",
                     R"([{"at": "2026-06-14T13:00:00Z", "from": 215, "speed": "14 kn"}])")},
      [](const Row& row) {
        return WindSeries(
            Source{"wind forecast", row.get_or<std::string>("source", "source not stated"),
                   row.maybe<Instant>("issued")},
            row.maybe<Position>("position"), row.get<Hours>("hours"));
      },
      {check_order});
}

std::expected<WindSeries, Problems> read_wind_forecast(std::string_view file,
                                                       std::string_view text) {
  static const auto form = wind_forecast_form();  // made once
  return read_json(file, text, "the wind forecast file", form);
}

}  // namespace passage_brief
