#include "facts/tide/current_station.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "facts/tide/curve.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {

std::string in_words(CurrentEventKind kind) {
  switch (kind) {
    case CurrentEventKind::flood:
      return "flood";
    case CurrentEventKind::ebb:
      return "ebb";
    case CurrentEventKind::slack:
      return "slack";
  }
  return {};
}

CurrentStation::CurrentStation(CurrentStationParts parts)
    : parts_(std::make_shared<const CurrentStationParts>(std::move(parts))) {}

/// The reasons of a curve, which does not know whose it is.
template <class T>
Known<T> CurrentStation::named(Known<T> known) const {
  if (known) return known;
  NotKnown why = std::move(known.error());
  for (std::string& reason : why.reasons) {
    reason = fmt::format("current station {}: {}", name(), reason);
  }
  return std::unexpected(std::move(why));
}

Known<Speed> CurrentStation::along_flood(Instant at) const {
  return named(join(
      [&](const CurrentCurve& curve) {
        return join([](const CurvePoint& point) { return metres_per_second(point.value); },
                    std::visit([&](const auto& c) { return c.at(at); }, curve));
      },
      parts_->curve));
}

Known<Current> CurrentStation::at(Instant at) const {
  return join(
      [](Speed along, SetToward flood, SetToward ebb) {
        return along < metres_per_second(0) ? Current{ebb, -along} : Current{flood, along};
      },
      along_flood(at), named(parts_->flood_toward), named(parts_->ebb_toward));
}

Known<std::vector<CurrentEvent>> CurrentStation::slack_max(Span span) const {
  const auto events_of = [](const std::vector<Turn>& turns,
                            const std::vector<ZeroCrossing>& zeros) {
    std::vector<CurrentEvent> events;
    for (const Turn& turn : turns) {
      if (turn.high != (turn.value > 0)) continue;
      events.push_back({turn.at, metres_per_second(turn.value),
                        turn.high ? CurrentEventKind::flood : CurrentEventKind::ebb});
    }
    for (const ZeroCrossing& zero : zeros) {
      events.push_back({zero.at, metres_per_second(0), CurrentEventKind::slack});
    }
    std::ranges::sort(events, {}, &CurrentEvent::at);
    return events;
  };
  return named(join(
      [&](const CurrentCurve& curve) {
        return std::visit(
            [&](const auto& c) { return join(events_of, c.turns(span), c.zeros(span)); }, curve);
      },
      parts_->curve));
}

}  // namespace passage_brief
