#include "facts/facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/current_station.h"
#include "facts/tide/tide_station.h"
#include "units/known.h"

namespace passage_brief {
namespace {

template <class Station>
Known<const Station*> named(const std::vector<Station>& stations, std::string_view name,
                            std::string_view kind, const Facts& facts, NotFetched::What what) {
  if (name.empty())
    return not_known(fmt::format("the waterway file names no {} station here", kind));
  const auto found = std::find_if(stations.begin(), stations.end(),
                                  [&](const Station& station) { return station.name() == name; });
  if (found == stations.end()) {
    for (const NotFetched& missing : facts.not_fetched) {
      if (missing.what == what && missing.name == name) {
        return not_known(
            fmt::format("the {} at {} could not be fetched: {}", kind, name, missing.reason));
      }
    }
    return not_known(fmt::format("no file of the {} station \"{}\" was given", kind, name));
  }
  return &*found;
}

}  // namespace

Known<const TideStation*> Facts::tide(std::string_view name) const {
  return named(tides, name, "tide", *this, NotFetched::What::tide);
}

Known<const CurrentStation*> Facts::current(std::string_view name) const {
  return named(currents, name, "current", *this, NotFetched::What::current);
}

std::string Facts::why_no_wind() const {
  std::string why;
  for (const NotFetched& missing : not_fetched) {
    if (missing.what != NotFetched::What::wind) continue;
    why += fmt::format("{}the wind at {} could not be fetched: {}", why.empty() ? "" : "; ",
                       missing.name, missing.reason);
  }
  return why.empty() ? "no wind forecast was given" : why;
}

}  // namespace passage_brief
