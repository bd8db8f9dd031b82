// All that the world says about one plan, gathered.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "facts/holidays/holiday_calendar.h"
#include "facts/tide/current_station.h"
#include "facts/tide/seen_level.h"
#include "facts/tide/tide_station.h"
#include "facts/waterway/waterway.h"
#include "facts/weather/alert.h"
#include "facts/weather/wind_series.h"
#include "units/known.h"

namespace passage_brief {

/// What was asked of a service and not to be had.
struct NotFetched {
  enum class What { tide, current, wind, alerts };
  What what;
  std::string name;    // of the station or place
  std::string reason;  // "the service did not answer within 10 s"
};

struct Facts {
  Waterway waterway;
  std::vector<TideStation> tides;
  std::vector<CurrentStation> currents;
  std::vector<WindSeries> winds;  // one for each place; may be empty
  std::vector<HolidayCalendar> holidays = {};
  std::vector<Alert> alerts = {};
  std::vector<NotFetched> not_fetched = {};
  std::vector<SeenLevel> observed = {};

  /// The station of that name. Not known, with the reason, when the name is empty or no file of
  /// that name was given.
  [[nodiscard]] Known<const TideStation*> tide(std::string_view name) const;
  [[nodiscard]] Known<const CurrentStation*> current(std::string_view name) const;
  /// Why there is no wind forecast: none was given, or it could not be fetched.
  [[nodiscard]] std::string why_no_wind() const;
};

}  // namespace passage_brief
