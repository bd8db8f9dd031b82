// What a sources file asks for, for one departure: addresses, and for each the look that believes
// its reply or refuses it.
//
// Predictions are asked for whole weeks, so that one kept copy serves every departure of the week:
// from the day before it (for the tide that runs at its beginning) to ten days after its last
// departure (for a week of waiting, and the way). Weeks are counted from 1 January 1970.
#pragma once

#include <expected>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/read_tide_station.h"
#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/cached_replies.h"
#include "fetch/nws_points_provider.h"
#include "fetch/sources.h"
#include "reading/problem.h"
#include "units/position.h"
#include "units/time.h"

namespace passage_brief {

/// The plane that predicted and observed levels are asked above.
inline constexpr const char* kPlaneAsked = "MLLW";

[[nodiscard]] Asked asked_of(const TideSource& source);
[[nodiscard]] Asked asked_above_plane(const TideSource& source);
[[nodiscard]] Asked asked_of(const CurrentSource& source);
[[nodiscard]] Asked asked_at(Position place);
[[nodiscard]] Asked asked_for_reference(const std::string& station);

[[nodiscard]] std::string_view in_words(TideFigures figures);
[[nodiscard]] std::string_view in_words(WindService service);

/// A table of the kind that was asked for, and no other.
[[nodiscard]] std::expected<TideStationFile, Problems> predictions_of(TideFigures figures,
                                                                      const Asked& asked,
                                                                      const std::string& body);
/// The forecast of a cell of the US National Weather Service, from its grid or its hours in words.
[[nodiscard]] std::expected<WindSeries, Problems> cell_series(WindService service,
                                                              const std::string& body,
                                                              Position place);

class WantedFacts {
 public:
  /// Keeps a reference to the sources.
  WantedFacts(const Sources& sources, Instant departs);

  /// The wanted replies hold on to this object: what follows from one is asked of it.
  [[nodiscard]] std::vector<WantedReply> all() const;

  // Where each is asked for.

  [[nodiscard]] std::string station(const std::string& number) const;
  [[nodiscard]] std::string predictions(const TideSource& tide, TideFigures figures) const;
  [[nodiscard]] std::string levels(const TideSource& tide) const;
  [[nodiscard]] std::string current(const CurrentSource& source) const;
  [[nodiscard]] std::string points(const WindSource& wind) const;
  [[nodiscard]] std::string cell(const NwsPoint& point, WindService service) const;
  [[nodiscard]] std::string open_meteo(const WindSource& wind) const;
  [[nodiscard]] std::string open_meteo_marine(const WindSource& wind) const;
  [[nodiscard]] std::string alerts(const std::string& zone) const;

 private:
  [[nodiscard]] WantedReply wanted_tide(const TideSource& tide) const;
  [[nodiscard]] WantedReply wanted_reference(const std::string& number) const;
  [[nodiscard]] WantedReply wanted_predictions(const TideSource& tide, TideFigures figures) const;
  [[nodiscard]] WantedReply wanted_levels(const TideSource& tide) const;
  [[nodiscard]] WantedReply wanted_current(const CurrentSource& current) const;
  void put_wind(const WindSource& wind, std::vector<WantedReply>& all) const;
  [[nodiscard]] std::vector<WantedReply> wanted_of_cell(const NwsPoint& point,
                                                        const WindSource& wind) const;
  const Sources& sources_;
  Span span_;
};

}  // namespace passage_brief
