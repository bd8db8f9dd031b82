#include "fetch/nws_alerts_provider.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <expected>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "facts/weather/alert.h"
#include "fetch/reply.h"
#include "reading/problem.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using nlohmann::json;

constexpr std::size_t kMostAlerts = 500;

Severity severity_of(const std::string& word) {
  if (word == "Extreme") return Severity::extreme;
  if (word == "Severe") return Severity::severe;
  if (word == "Moderate") return Severity::moderate;
  if (word == "Minor") return Severity::minor;
  return Severity::unknown;
}

std::vector<std::string> zones_of(const json* properties) {
  std::vector<std::string> zones;
  const json* list = member(member(properties, "geocode"), "UGC");
  for (std::size_t i = 0; element(list, i) != nullptr; ++i) {
    zones.push_back(text_in(element(list, i)));
  }
  return zones;
}

/// The identifiers of the messages that this one replaces or cancels.
void put_replaced(const json* properties, std::set<std::string>& replaced) {
  const json* list = member(properties, "references");
  for (std::size_t i = 0; element(list, i) != nullptr; ++i) {
    const std::string id = text_in(member(element(list, i), "identifier"));
    if (!id.empty()) replaced.insert(id);
  }
}

/// A time that may be null; refuses what is neither.
std::optional<Instant> maybe_time(const json* properties, const char* key, const std::string& place,
                                  Ledger& ledger) {
  const json* value = member(properties, key);
  if (value == nullptr || value->is_null()) return std::nullopt;
  const auto at = instant_in(value);
  if (at) return *at;
  ledger.add(place + "/" + key, at.error());
  return std::nullopt;
}

std::optional<Alert> alert_of(const json* properties, const std::string& place, Ledger& ledger) {
  const auto sent = maybe_time(properties, "sent", place, ledger);
  const auto effective = maybe_time(properties, "effective", place, ledger);
  const auto onset = maybe_time(properties, "onset", place, ledger);
  const auto ends = maybe_time(properties, "ends", place, ledger);
  const std::string event = line_in(member(properties, "event"), 80);
  if (event.empty()) ledger.add(place + "/event", "does not say what it warns of");
  if (!sent) {
    ledger.add(place + "/sent", "does not say when it was issued");
    return std::nullopt;
  }
  std::string headline = line_in(member(properties, "headline"));
  if (headline.empty()) headline = event;
  return Alert{.event = event,
               .headline = std::move(headline),
               .instruction = line_in(member(properties, "instruction"), 400),
               .issuer = line_in(member(properties, "senderName"), 80),
               .severity = severity_of(text_in(member(properties, "severity"))),
               .zones = zones_of(properties),
               .issued = *sent,
               .begins = onset.value_or(effective.value_or(*sent)),
               .ends = ends,
               .link = line_in(member(properties, "@id"), 200)};
}

}  // namespace

std::string nws_alerts_path(std::string_view zone) {
  return fmt::format("/alerts/active?zone={}", zone);
}

std::expected<std::vector<Alert>, Problems> nws_alerts(std::string_view name, std::string_view text,
                                                       std::string_view zone) {
  const auto tree = reply_tree(name, text);
  if (!tree) return std::unexpected(tree.error());
  const json* features = member(tree->get(), "features");
  if (features == nullptr || !features->is_array()) {
    return refused(name, "/features", "holds no list of alerts");
  }
  if (features->size() > kMostAlerts) return refused(name, "/features", "holds too many alerts");
  Ledger ledger(name, "the reply");
  std::set<std::string> replaced;
  std::vector<std::pair<std::string, Alert>> found;
  for (std::size_t i = 0; i < features->size(); ++i) {
    const json* properties = member(element(features, i), "properties");
    const std::string place = fmt::format("/features/{}/properties", i);
    if (text_in(member(properties, "status")) != "Actual") {
      if (member(properties, "status") == nullptr) ledger.add(place, "does not say its status");
      continue;
    }
    put_replaced(properties, replaced);
    if (text_in(member(properties, "messageType")) == "Cancel") continue;
    auto alert = alert_of(properties, place, ledger);
    if (alert) found.emplace_back(text_in(member(properties, "id")), *std::move(alert));
  }
  if (!ledger.clean()) return std::unexpected(ledger.problems());
  std::vector<Alert> alerts;
  for (auto& [id, alert] : found) {
    // One that names no zones was still sent for the zone that was asked for.
    const bool here = zone.empty() || alert.zones.empty() ||
                      std::ranges::find(alert.zones, zone) != alert.zones.end();
    if (here && !replaced.contains(id)) alerts.push_back(std::move(alert));
  }
  std::ranges::stable_sort(alerts, {}, &Alert::issued);
  return alerts;
}

}  // namespace passage_brief
