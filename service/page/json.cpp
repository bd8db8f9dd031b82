#include "page/json.h"

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/findings_json.h"
#include "page/json_object.h"
#include "page/page_choice.h"
#include "page/window_json.h"
#include "passage/figure.h"
#include "passage/findings.h"
#include "rules/verdict.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Prints the parts of one brief; knows its zone.
class Printer {
 public:
  Printer(const Brief& brief, Units units)
      : brief_(brief),
        units_(units),
        clock_(brief.zone, brief.findings.passage.departs),
        way_(brief.findings, brief.zone) {}

  OrderedJson whole() const {
    const Findings& found = brief_.findings;
    JsonObject out;
    out.put("kind", "brief");
    out.put("made_at", time(brief_.made_at));
    out.put("copy", copy());
    out.put("left_blank", json_list(brief_.left_blank, [](LessonFigure f) { return in_words(f); }));
    out.put("verdict", in_words(brief_.judgement.verdict));
    out.put("sure_percent", brief_.sure_95 ? OrderedJson(95) : OrderedJson(nullptr));
    out.put("departs", time(found.passage.departs));
    known(out, "arrives", found.passage.arrives);
    known(out, "void_after", brief_.void_after);
    out.put("distance_nm", fixed_json(in_nautical_miles(found.passage.distance), 3));
    out.put("waterway", brief_.waterway);
    out.put("zone", brief_.zone.name());
    out.put("route", brief_.route);
    out.put("rules", brief_.rules);
    out.put("limits_changed", brief_.limits_changed);
    out.put("vessel", vessel());
    out.put("margins", margins());
    const WindowJson windows(units_, clock_);
    out.put("window", brief_.window ? windows.window(*brief_.window) : OrderedJson(nullptr));
    out.put("windows",
            json_list(brief_.windows, [&](const Window& w) { return windows.window(w); }));
    out.put("no_window", windows.none(brief_.no_window));
    out.put("otherwise",
            json_list(brief_.otherwise, [&](const Otherwise& o) { return windows.otherwise(o); }));
    out.put("passage", passage());
    out.put("light", light());
    put_way(out);
    out.put("high_low",
            json_list(brief_.high_low, [this](const HighLow& h) { return high_low(h); }));
    out.put("tide_curve",
            brief_.tide_curve ? tide_curve(*brief_.tide_curve) : OrderedJson(nullptr));
    out.put("refuges",
            json_list(brief_.refuges, [this](const PlaceOnTheWay& p) { return place(p); }));
    out.put("turning_places",
            json_list(brief_.turning_places, [this](const PlaceOnTheWay& p) { return place(p); }));
    out.put("observed",
            json_list(brief_.observed, [this](const SeenLevel& o) { return observed(o); }));
    out.put("level_shift", way_.level_shift());
    out.put("back_until", way_.back_until());
    out.put("back", brief_.back != nullptr ? way_back(*brief_.back) : OrderedJson(nullptr));
    out.put("notes", brief_.notes);
    out.known("notices_read", brief_.notices_read, date_json);
    out.put("sources",
            json_list(brief_.sources, [this](const SourceUsed& s) { return source(s); }));
    out.put("estimated", found.estimated);
    out.put("working", json_list(brief_.working, [this](const Working& w) { return working(w); }));
    return out.take();
  }

 private:
  OrderedJson way_back(const WayBack& back) const {
    JsonObject out;
    out.put("stay_s", seconds_json(back.stay));
    known(out, "leaves", back.leaves);
    out.put("verdict", in_words(back.verdict));
    out.put("has_least_depth", back.has_least_depth);
    out.put("has_lowest_bridge", back.has_lowest_bridge);
    out.put("passage", back.brief ? Printer(*back.brief, units_).one_way() : OrderedJson(nullptr));
    return out.take();
  }

  /// What of a brief is of its way alone.
  OrderedJson one_way() const {
    const Findings& found = brief_.findings;
    JsonObject out;
    out.put("route", brief_.route);
    out.put("departs", time(found.passage.departs));
    known(out, "arrives", found.passage.arrives);
    out.put("distance_nm", fixed_json(in_nautical_miles(found.passage.distance), 3));
    put_way(out);
    return out.take();
  }

  /// What is found on a way, and how it is judged.
  void put_way(JsonObject& out) const {
    out.put("least_depth", index(brief_.least_depth));
    out.put("nearest_margin", index(brief_.nearest_margin));
    out.put("lowest_bridge", index(brief_.lowest_bridge));
    out.put("nearest_danger", index(brief_.nearest_danger));
    out.put("legs", way_.legs());
    out.put("depths", way_.depths());
    out.put("bridges", way_.bridges());
    out.put("cables", way_.cables());
    out.put("to_leeward", way_.to_leeward());
    out.put("set_toward", way_.set_toward());
    out.put("marks", way_.marks());
    out.put("cautions",
            json_list(brief_.judgement.cautions, [this](const Caution& c) { return caution(c); }));
    out.put("not_checked", json_list(brief_.judgement.not_checked, not_checked));
    out.put("limits", json_list(brief_.judgement.limits, limit));
  }

  const char* copy() const {
    switch (brief_.copy) {
      case Copy::skipper:
        return "skipper";
      case Copy::learner:
        return "learner";
      case Copy::instructor:
        return "instructor";
    }
    return "";
  }
  OrderedJson time(Instant at) const { return to_rfc3339(at, brief_.zone); }
  void known(JsonObject& out, const char* key, const Known<Instant>& at) const {
    out.known(key, at, [this](Instant t) { return time(t); });
  }
  static OrderedJson index(const std::optional<std::size_t>& i) {
    return i ? OrderedJson(*i) : OrderedJson(nullptr);
  }

  OrderedJson vessel() const {
    const Vessel& v = brief_.vessel;
    JsonObject out;
    out.put("name", v.name);
    out.put("hull", in_words(v.hull));
    out.put("length_m", metres_json(v.length));
    out.put("beam_m", metres_json(v.beam));
    out.put("draft_m", metres_json(v.draft));
    out.put("draft_is", in_words(v.draft_is.basis));
    out.put("air_draft_is", in_words(v.air_draft_is.basis));
    out.put("air_draft", json_list(v.air_draft, [](const AirDraft& a) {
              JsonObject row;
              row.put("antennas", in_words(a.antennas));
              row.put("height_m", metres_json(a.height));
              return row.take();
            }));
    return out.take();
  }

  OrderedJson margins() const {
    const Margins& m = brief_.findings.margins;
    JsonObject out;
    out.put("under_keel_m", metres_json(m.under_keel));
    out.put("under_keel_hard_m", metres_json(m.under_keel_hard));
    out.put("under_bridge_m", metres_json(m.under_bridge));
    out.put("track_m", metres_json(m.track));
    out.put("position_m", metres_json(m.position));
    out.put("wash_m", metres_json(m.wash));
    out.put("shoaling_m_per_year", metres_json(m.shoaling));
    out.put("forecast_age_s", seconds_json(m.forecast_age));
    out.put("forecasts_differ_kn", knots_json(m.forecasts_differ));
    out.put("observed_gain_s", seconds_json(m.observed_gain));
    out.put("observed_loss_s", seconds_json(m.observed_loss));
    out.put("observed_wind", fixed_json(m.observed_wind, 2));
    out.put("observed_error_m", metres_json(m.observed_error));
    out.put("mean_pressure_hpa", fixed_json(in_hectopascals(m.mean_pressure), 2));
    out.put("set_down_wind_kn", knots_json(m.set_down_wind));
    out.put("set_down_error_m", metres_json(m.set_down_error));
    return out.take();
  }

  OrderedJson passage() const {
    const PassageFinding& p = brief_.findings.passage;
    JsonObject out;
    out.known("wind_kn", p.wind, knots_json);
    out.known("gust_kn", p.gust, knots_json);
    out.known("wave_m", p.wave, metres_json);
    out.known("visibility_nm", p.visibility, miles_json);
    out.known("thunder", p.thunder, [](double share) { return fixed_json(share, 2); });
    out.known("forecast_age_s", p.forecast_age, seconds_json);
    out.known("forecast_covers", p.forecast_covers, [](bool yes) { return OrderedJson(yes); });
    known(out, "forecast_ends", p.forecast_ends);
    return out.take();
  }

  OrderedJson light() const {
    const LightFinding& l = brief_.findings.light;
    const auto maybe = [this](const std::optional<Instant>& at) {
      return at ? time(*at) : OrderedJson(nullptr);
    };
    JsonObject out;
    out.put("sunrise", maybe(l.sunrise));
    out.put("sunset", maybe(l.sunset));
    out.put("civil_dawn", maybe(l.civil_dawn));
    out.put("civil_dusk", maybe(l.civil_dusk));
    out.put("moon_illuminated", fixed_json(l.moon_illuminated, 2));
    out.put("moon_up", l.moon_up);
    out.known("before_sunset_s", l.before_sunset, seconds_json);
    return out.take();
  }

  OrderedJson caution(const Caution& c) const {
    JsonObject out;
    out.put("id", c.id);
    out.put("grade", in_words(c.grade));
    out.put("text", sentence_text(c.say, units_, clock_));
    out.put("about", c.about.name);
    out.put("source", c.source);
    out.put("limit", c.limit);
    return out.take();
  }

  static OrderedJson not_checked(const NotChecked& n) {
    JsonObject out;
    out.put("id", n.id);
    out.put("about", n.about.name);
    out.put("because", in_words(n.because));
    out.put("limit", n.limit);
    return out.take();
  }

  static OrderedJson limit(const LimitResult& l) {
    JsonObject out;
    out.put("id", l.id);
    out.put("about", l.about.name);
    switch (l.state) {
      case LimitState::kept:
        out.put("state", "kept");
        break;
      case LimitState::broken:
        out.put("state", "broken");
        break;
      case LimitState::cannot_tell:
        out.put("state", "cannot tell");
        break;
    }
    return out.take();
  }

  OrderedJson high_low(const HighLow& h) const {
    JsonObject out;
    out.put("station", h.station);
    out.put("at", time(h.event.at));
    out.put("height_m", height_json(h.event.height));
    out.put("what", h.event.high ? "high" : "low");
    return out.take();
  }

  OrderedJson tide_curve(const DayOfTide& day) const {
    JsonObject out;
    out.put("station", day.station);
    out.put("datum", day.datum);
    out.put("samples", json_list(day.samples, [this](const TideSample& sample) {
              JsonObject row;
              row.put("at", time(sample.at));
              row.known("height_m", sample.height, height_json);
              return row.take();
            }));
    return out.take();
  }

  OrderedJson place(const PlaceOnTheWay& p) const {
    JsonObject out;
    out.put("name", p.name);
    out.put("what", p.what);
    out.put("along_nm", miles_json(p.along));
    out.put("off_m", metres_json(p.off));
    known(out, "at", p.at);
    return out.take();
  }

  OrderedJson observed(const SeenLevel& o) const {
    JsonObject out;
    out.put("place", o.place);
    out.put("by", in_words(o.by));
    out.put("at", time(o.at));
    out.put("station", o.station);
    out.known("reading_m", o.reading, metres_json);
    out.known("expected_m", o.expected, metres_json);
    out.put("above_predicted_m", metres_json(o.above_predicted));
    out.put("wind_over", o.wind_over ? time(*o.wind_over) : OrderedJson(nullptr));
    return out.take();
  }

  OrderedJson source(const SourceUsed& s) const {
    JsonObject out;
    out.put("what", s.source.what);
    out.put("from", s.source.from);
    out.put("issued", s.source.issued ? time(*s.source.issued) : OrderedJson(nullptr));
    out.put("age_s", s.age ? seconds_json(*s.age) : OrderedJson(nullptr));
    if (!s.source.note.empty()) out.put("note", s.source.note);
    switch (s.state) {
      case SourceState::current:
        out.put("state", "current");
        break;
      case SourceState::old:
        out.put("state", "old");
        break;
      case SourceState::expired:
        out.put("state", "expired");
        break;
      case SourceState::undated:
        out.put("state", "undated");
        break;
    }
    return out.take();
  }

  /// A worked value under a key that names its unit: {"value_m": 1.2192}.
  void put_value(JsonObject& out, const std::string& key, const WorkedValue& value) const {
    struct Visitor {
      const Printer& printer;
      std::pair<std::string, OrderedJson> operator()(Length v) const {
        return {"_m", metres_json(v)};
      }
      std::pair<std::string, OrderedJson> operator()(Speed v) const {
        return {"_kn", knots_json(v)};
      }
      std::pair<std::string, OrderedJson> operator()(Angle v) const {
        return {"_deg", angle_json(v)};
      }
      std::pair<std::string, OrderedJson> operator()(Interval v) const {
        return {"_s", seconds_json(v)};
      }
      std::pair<std::string, OrderedJson> operator()(Instant v) const {
        return {"", printer.time(v)};
      }
      std::pair<std::string, OrderedJson> operator()(double v) const {
        return {"", fixed_json(v, 4)};
      }
      std::pair<std::string, OrderedJson> operator()(const std::string& v) const { return {"", v}; }
    };
    auto [unit, printed] = std::visit(Visitor{*this}, value);
    out.put(key + unit, std::move(printed));
  }

  OrderedJson working(const Working& w) const {
    JsonObject out;
    out.put("figure", w.figure);
    out.put("formula", w.formula);
    out.put("inputs", json_list(w.inputs, [this](const WorkingInput& input) {
              JsonObject row;
              row.put("name", input.name);
              put_value(row, "value", input.value);
              row.put("source", input.source);
              return row.take();
            }));
    put_value(out, "result", w.result);
    out.put("source", w.source);
    return out.take();
  }

  const Brief& brief_;
  Units units_;
  Clock24 clock_;
  FindingsJson way_;
};

}  // namespace

std::string brief_as_json(const Brief& brief, Units units) {
  return Printer(brief, units).whole().dump(2) + "\n";
}

}  // namespace passage_brief
