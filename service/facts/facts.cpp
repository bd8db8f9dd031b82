#include "facts/facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "units/known.h"

namespace passage_brief {
namespace {

template <class Station>
Known<const Station*> named(const std::vector<Station>& stations, std::string_view name,
                            std::string_view kind) {
  if (name.empty())
    return not_known(fmt::format("the waterway file names no {} station here", kind));
  const auto found = std::find_if(stations.begin(), stations.end(),
                                  [&](const Station& station) { return station.name() == name; });
  if (found == stations.end()) {
    return not_known(fmt::format("no file of the {} station \"{}\" was given", kind, name));
  }
  return &*found;
}

}  // namespace

Known<const TideStation*> Facts::tide(std::string_view name) const {
  return named(tides, name, "tide");
}

Known<const CurrentStation*> Facts::current(std::string_view name) const {
  return named(currents, name, "current");
}

}  // namespace passage_brief
