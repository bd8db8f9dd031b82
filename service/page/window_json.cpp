#include "page/window_json.h"

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>

#include "brief/window.h"
#include "page/figures.h"
#include "page/json_object.h"

namespace passage_brief {

std::string WindowJson::time(Instant at) const { return to_rfc3339(at, clock_.zone()); }

OrderedJson WindowJson::edge(const std::optional<WindowEdge>& edge) const {
  if (!edge) return nullptr;
  JsonObject out;
  out.put("limit", edge->limit);
  out.put("about", edge->about.name);
  out.put("state", edge->state == LimitState::broken ? "broken" : "cannot tell");
  out.put("text", edge->state == LimitState::broken ? sentence_text(edge->say, units_, clock_)
                                                    : in_words(edge->because));
  out.put("on_the_way_back", edge->on_the_way_back);
  return out.take();
}

OrderedJson WindowJson::to_spare(const std::optional<ToSpare>& to_spare) const {
  if (!to_spare) return nullptr;
  JsonObject out;
  out.put("about", to_spare->about.name);
  out.put("left_m", metres_json(to_spare->left));
  out.known("at", to_spare->at, [this](Instant at) { return OrderedJson(time(at)); });
  return out.take();
}

OrderedJson WindowJson::window(const Window& window) const {
  JsonObject out;
  out.put("opens", time(window.opens));
  out.put("closes", time(window.closes));
  out.put("opened_by", edge(window.opened_by));
  out.put("closed_by", edge(window.closed_by));
  out.put("best", time(window.best));
  out.put("most_to_spare", to_spare(window.most_to_spare));
  out.put("judged_on", in_words(window.judged_on));
  return out.take();
}

OrderedJson WindowJson::none(const std::optional<NoWindow>& none) const {
  if (!none) return nullptr;
  OrderedJson never = OrderedJson::array();
  for (const WindowEdge& limit : none->never_let_go) never.push_back(edge(limit));
  OrderedJson ways = OrderedJson::array();
  for (const AnotherWay& way : none->would_open) {
    JsonObject one;
    one.put("how", way.how);
    one.put("window", window(way.window));
    ways.push_back(one.take());
  }
  JsonObject out;
  out.put("never_let_go", std::move(never));
  out.put("nearest", time(none->nearest));
  out.put("least_short", to_spare(none->least_short));
  out.put("would_open", std::move(ways));
  return out.take();
}

OrderedJson WindowJson::otherwise(const Otherwise& other) const {
  JsonObject out;
  out.put("how", other.how);
  out.put("verdict", in_words(other.verdict));
  out.put("tightest", other.tightest ? OrderedJson(other.tightest->name) : OrderedJson(nullptr));
  out.known("costs_m", other.costs, metres_json);
  out.put("closed_by", edge(other.closed_by));
  return out.take();
}

std::string windows_as_json(const WindowList& list, const Zone& zone, Units units) {
  const Clock24 clock(zone, list.span.begin);
  const WindowJson as_json(units, clock);
  OrderedJson windows = OrderedJson::array();
  for (const Window& window : list.windows) windows.push_back(as_json.window(window));
  JsonObject out;
  out.put("kind", "windows");
  out.put("from", to_rfc3339(list.span.begin, zone));
  out.put("to", to_rfc3339(list.span.end, zone));
  out.put("zone", zone.name());
  out.put("sure_percent", list.sure_95 ? OrderedJson(95) : OrderedJson(nullptr));
  out.put("warnings", json_list(list.warnings, [&](const Caution& warning) {
            JsonObject one;
            one.put("grade", in_words(warning.grade));
            one.put("text", sentence_text(warning.say, units, clock));
            one.put("source", warning.source);
            return one.take();
          }));
  out.put("windows", std::move(windows));
  out.put("no_window", as_json.none(list.none));
  return out.take().dump(2) + "\n";
}

}  // namespace passage_brief
