#include "page/json.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
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

using json = nlohmann::ordered_json;

std::string side_word(const std::optional<Side>& side) {
  return side ? in_words(*side) : std::string("either");
}

/// Prints the parts of one brief; knows its zone.
class Printer {
 public:
  Printer(const Brief& brief, Units units)
      : brief_(brief), units_(units), clock_(brief.zone, brief.findings.passage.departs) {}

  json whole() const {
    const Findings& found = brief_.findings;
    JsonObject out;
    out.put("kind", "brief");
    out.put("made_at", time(brief_.made_at));
    out.put("copy", copy());
    out.put("left_blank", all(brief_.left_blank, [](LessonFigure f) { return in_words(f); }));
    out.put("verdict", in_words(brief_.judgement.verdict));
    out.put("sure_percent", brief_.sure_95 ? json(95) : json(nullptr));
    out.put("departs", time(found.passage.departs));
    known(out, "arrives", found.passage.arrives);
    known(out, "void_after", brief_.void_after);
    out.put("distance_nm", fixed_json(in_nautical_miles(found.passage.distance), 3));
    out.put("waterway", brief_.waterway);
    out.put("zone", brief_.zone.name());
    out.put("route", brief_.route);
    out.put("rules", brief_.rules);
    out.put("vessel", vessel());
    out.put("margins", margins());
    const WindowJson windows(units_, clock_);
    out.put("window", brief_.window ? windows.window(*brief_.window) : json(nullptr));
    out.put("windows", all(brief_.windows, [&](const Window& w) { return windows.window(w); }));
    out.put("no_window", windows.none(brief_.no_window));
    out.put("otherwise",
            all(brief_.otherwise, [&](const Otherwise& o) { return windows.otherwise(o); }));
    out.put("passage", passage());
    out.put("light", light());
    out.put("least_depth", index(brief_.least_depth));
    out.put("lowest_bridge", index(brief_.lowest_bridge));
    out.put("nearest_danger", index(brief_.nearest_danger));
    out.put("legs", all(found.legs, [this](const Leg& l) { return leg(l); }));
    out.put("depths", all(found.depths, [this](const Depth& d) { return depth(d); }));
    out.put("bridges", all(found.bridges, [this](const BridgeFinding& b) { return bridge(b); }));
    out.put("cables", all(found.cables, [this](const CableFinding& c) { return cable(c); }));
    out.put("to_leeward", dangers([](const Danger& d) { return d.to_leeward; }));
    out.put("set_toward", dangers([](const Danger& d) { return d.set_toward; }));
    out.put("marks", all(found.marks, [this](const MarkFinding& m) { return mark(m); }));
    out.put("cautions",
            all(brief_.judgement.cautions, [this](const Caution& c) { return caution(c); }));
    out.put("not_checked", all(brief_.judgement.not_checked, not_checked));
    out.put("limits", all(brief_.judgement.limits, limit));
    out.put("high_low", all(brief_.high_low, [this](const HighLow& h) { return high_low(h); }));
    out.put("tide_curve", brief_.tide_curve ? tide_curve(*brief_.tide_curve) : json(nullptr));
    out.put("refuges", all(brief_.refuges, [this](const PlaceOnTheWay& p) { return place(p); }));
    out.put("turning_places",
            all(brief_.turning_places, [this](const PlaceOnTheWay& p) { return place(p); }));
    out.put("observed", all(brief_.observed, [this](const SeenLevel& o) { return observed(o); }));
    out.put("level_shift", level_shift(found.level_shift));
    out.put("back_until",
            all(found.back_until, [this](const BackUntil& b) { return back_until(b); }));
    out.put("back", brief_.back != nullptr ? way_back(*brief_.back) : json(nullptr));
    out.put("notes", brief_.notes);
    out.known("notices_read", brief_.notices_read, date_json);
    out.put("sources", all(brief_.sources, [this](const SourceUsed& s) { return source(s); }));
    out.put("estimated", found.estimated);
    out.put("working", all(brief_.working, [this](const Working& w) { return working(w); }));
    return out.take();
  }

 private:
  json way_back(const WayBack& back) const {
    JsonObject out;
    out.put("stay_s", seconds_json(back.stay));
    known(out, "leaves", back.leaves);
    out.put("verdict", in_words(back.verdict));
    out.put("passage", back.brief ? Printer(*back.brief, units_).one_way() : json(nullptr));
    return out.take();
  }

  /// What of a brief is of its way alone.
  json one_way() const {
    const Findings& found = brief_.findings;
    JsonObject out;
    out.put("route", brief_.route);
    out.put("departs", time(found.passage.departs));
    known(out, "arrives", found.passage.arrives);
    out.put("distance_nm", fixed_json(in_nautical_miles(found.passage.distance), 3));
    out.put("least_depth", index(brief_.least_depth));
    out.put("lowest_bridge", index(brief_.lowest_bridge));
    out.put("legs", all(found.legs, [this](const Leg& l) { return leg(l); }));
    out.put("depths", all(found.depths, [this](const Depth& d) { return depth(d); }));
    out.put("bridges", all(found.bridges, [this](const BridgeFinding& b) { return bridge(b); }));
    out.put("cables", all(found.cables, [this](const CableFinding& c) { return cable(c); }));
    out.put("marks", all(found.marks, [this](const MarkFinding& m) { return mark(m); }));
    out.put("cautions",
            all(brief_.judgement.cautions, [this](const Caution& c) { return caution(c); }));
    out.put("not_checked", all(brief_.judgement.not_checked, not_checked));
    out.put("limits", all(brief_.judgement.limits, limit));
    return out.take();
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
  json time(Instant at) const { return to_rfc3339(at, brief_.zone); }
  void known(JsonObject& out, const char* key, const Known<Instant>& at) const {
    out.known(key, at, [this](Instant t) { return time(t); });
  }
  static json index(const std::optional<std::size_t>& i) { return i ? json(*i) : json(nullptr); }

  template <class Item, class Print>
  static json all(const std::vector<Item>& items, const Print& print) {
    json list = json::array();
    for (const Item& item : items) list.push_back(print(item));
    return list;
  }

  static json optional_text(const std::optional<std::string>& text) {
    return text ? json(*text) : json(nullptr);
  }

  json vessel() const {
    const Vessel& v = brief_.vessel;
    JsonObject out;
    out.put("name", v.name);
    out.put("hull", in_words(v.hull));
    out.put("length_m", metres_json(v.length));
    out.put("beam_m", metres_json(v.beam));
    out.put("draft_m", metres_json(v.draft));
    out.put("draft_is", in_words(v.draft_is.basis));
    out.put("air_draft_is", in_words(v.air_draft_is.basis));
    out.put("air_draft", all(v.air_draft, [](const AirDraft& a) {
              JsonObject row;
              row.put("antennas", in_words(a.antennas));
              row.put("height_m", metres_json(a.height));
              return row.take();
            }));
    return out.take();
  }

  json margins() const {
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

  json passage() const {
    const PassageFinding& p = brief_.findings.passage;
    JsonObject out;
    out.known("wind_kn", p.wind, knots_json);
    out.known("gust_kn", p.gust, knots_json);
    out.known("wave_m", p.wave, metres_json);
    out.known("visibility_nm", p.visibility, miles_json);
    out.known("thunder", p.thunder, [](double share) { return fixed_json(share, 2); });
    out.known("forecast_age_s", p.forecast_age, seconds_json);
    out.known("forecast_covers", p.forecast_covers, [](bool yes) { return json(yes); });
    known(out, "forecast_ends", p.forecast_ends);
    return out.take();
  }

  json light() const {
    const LightFinding& l = brief_.findings.light;
    const auto maybe = [this](const std::optional<Instant>& at) {
      return at ? time(*at) : json(nullptr);
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

  json leg(const Leg& l) const {
    const auto bearing = [](auto b) { return degrees_json(b); };
    JsonObject out;
    out.put("from", l.from);
    out.put("to", l.to);
    out.put("course_true_deg", degrees_json(l.course));
    out.known("course_magnetic_deg",
              join([&](Variation v) { return magnetic(l.course, v); }, l.variation), bearing);
    out.known("steer_magnetic_deg", l.steer_magnetic, bearing);
    out.known("steer_compass_deg", l.steer_compass, bearing);
    out.put("distance_nm", miles_json(l.distance));
    known(out, "starts", l.starts);
    known(out, "ends", l.ends);
    out.put("reaches", l.reaches);
    out.put("piled", l.piled);
    out.known("wind_from_deg", l.wind, [](const Wind& w) { return degrees_json(w.from.bearing); });
    out.known("wind_kn", l.wind, [](const Wind& w) { return knots_json(w.speed); });
    out.known("gust_kn", l.gust, knots_json);
    out.known("wind_is", l.wind_is, [](RelativeDirection d) { return json(in_words(d)); });
    out.known("falls_off_to", l.falls_off_to, [](const std::optional<Side>& side) {
      return side ? json(in_words(*side)) : json("neither");
    });
    out.known("leeway_deg", l.leeway, angle_json);
    out.known("current_toward_deg", l.current,
              [](const Current& c) { return degrees_json(c.toward.bearing); });
    out.known("current_kn", l.current, [](const Current& c) { return knots_json(c.speed); });
    out.known("makes_headway", l.makes_headway, [](bool yes) { return json(yes); });
    out.known("wave_m", l.wave, metres_json);
    out.known("visibility_nm", l.visibility, miles_json);
    return out.take();
  }

  json depth(const Depth& d) const {
    JsonObject out;
    out.put("name", d.name);
    known(out, "at", d.passing.at);
    out.put("along_nm", miles_json(d.passing.along));
    out.put("latitude", fixed_json(d.passing.where.latitude.in_degrees(), 6));
    out.put("longitude", fixed_json(d.passing.where.longitude.in_degrees(), 6));
    out.put("controlled_by", d.controlled_by);
    out.put("bottom", in_words(d.bottom));
    out.known("surveyed", d.surveyed, date_json);
    out.put("survey_quality", in_words(d.survey_quality));
    out.put("tide_station", d.tide_station);
    out.known("charted_m", d.charted, metres_json);
    out.known("height_of_tide_m", d.height_of_tide, height_json);
    out.known("tide_is", d.tide_is, [](Trend t) { return json(in_words(t)); });
    out.known("water_m", d.water, metres_json);
    out.put("draft_m", metres_json(d.draft));
    out.known("squat_m", d.squat, metres_json);
    out.put("squat_left_out", d.squat_left_out);
    out.put("through_water_kn", knots_json(d.through_water));
    out.put("slowed_because", optional_text(d.slowed_because));
    out.known("wave_m", d.wave, metres_json);
    out.known("under_keel_m", d.under_keel, metres_json);
    out.known("under_keel_could_be_m", d.under_keel_could_be, metres_json);
    out.put("margin_m", metres_json(d.margin));
    out.known("sounder_reads_m", d.sounder_reads, metres_json);
    out.known("stop_at_m", d.stop_at, metres_json);
    out.known("spare_width_m", d.spare_width, metres_json);
    return out.take();
  }

  static json over_mast(const OverMast& mast) {
    JsonObject out;
    out.put("antennas", in_words(mast.antennas));
    out.put("air_draft_m", metres_json(mast.air_draft));
    out.known("over_mast_m", mast.over_mast, metres_json);
    out.known("over_mast_could_be_m", mast.over_mast_could_be, metres_json);
    return out.take();
  }

  json bridge(const BridgeFinding& b) const {
    JsonObject out;
    out.put("name", b.name);
    out.put("what", in_words(b.what));
    known(out, "at", b.passing.at);
    out.put("along_nm", miles_json(b.passing.along));
    out.put("tide_station", b.tide_station);
    out.known("charted_m", b.charted, metres_json);
    out.known("clearance_datum_m", b.clearance_datum, height_json);
    out.known("height_of_tide_m", b.height_of_tide, height_json);
    out.known("tide_is", b.tide_is, [](Trend t) { return json(in_words(t)); });
    out.known("clearance_m", b.clearance, metres_json);
    out.known("clearance_could_be_m", b.clearance_could_be, metres_json);
    out.known("gauge_reads_m", b.gauge_reads, metres_json);
    out.known("gauge_at_least_m", b.gauge_at_least, metres_json);
    out.known("clearance_gauge", b.clearance_gauge, [](bool yes) { return json(yes); });
    out.known("wave_m", b.wave, metres_json);
    const OverMast* mast = as_passed(b);
    out.known("over_mast_m",
              mast != nullptr ? mast->over_mast : not_known("the vessel file gives no air draft"),
              metres_json);
    out.known("antennas", b.fits_with, [](Antennas a) { return json(in_words(a)); });
    out.known("fits", b.fits, [](bool yes) { return json(yes); });
    out.known("opening_needed", b.opening_needed, [](bool yes) { return json(yes); });
    out.put("margin_m", metres_json(b.margin));
    out.put("by_antennas", all(b.over_mast, [&b](const OverMast& one) {
              json state = over_mast(one);
              const Known<bool> needs = needs_opening(b, one);
              state["opening_needed"] = needs.has_value() ? json(*needs) : json(nullptr);
              return state;
            }));
    out.known("width_m", b.width, metres_json);
    out.put("radio", optional_text(b.radio));
    out.put("sound_signal", optional_text(b.sound_signal));
    out.put("opening", b.opening ? opening(*b.opening) : json(nullptr));
    return out.take();
  }

  json due(const OpeningDue& d) const {
    JsonObject out;
    out.put("at", time(d.at));
    out.put("ask_by", d.ask_by ? time(*d.ask_by) : json(nullptr));
    out.put("telephone", optional_text(d.telephone));
    out.put("only_if_waiting", d.if_waiting);
    return out.take();
  }

  json opening(const OpeningFinding& o) const {
    const auto next = [this](const std::optional<OpeningDue>& d) {
      return d ? due(*d) : json(nullptr);
    };
    const auto yes_no = [](bool yes) { return json(yes); };
    JsonObject out;
    known(out, "reached", o.reached);
    out.known("fits_on_arrival", o.fits_on_arrival, yes_no);
    out.known("passes", o.passes, yes_no);
    out.known("wait_s", o.wait, seconds_json);
    out.known("through_opening", o.through_opening, yes_no);
    out.known("next", o.next, next);
    out.known("next_on_signal", o.next_on_signal, next);
    out.put("hold_off_m", metres_json(o.hold_off.short_of_bridge));
    out.known("drift_toward_m", o.hold_off.drift, metres_json);
    out.known("current_toward_kn", o.hold_off.current_toward, knots_json);
    out.known("wind_toward_kn", o.hold_off.wind_toward, knots_json);
    out.put("law", optional_text(o.law));
    out.put("as_of", o.as_of ? date_json(*o.as_of) : json(nullptr));
    return out.take();
  }

  json cable(const CableFinding& c) const {
    JsonObject out;
    out.put("name", c.name);
    known(out, "at", c.passing.at);
    out.put("along_nm", miles_json(c.passing.along));
    out.known("charted_m", c.charted, metres_json);
    out.known("height_of_tide_m", c.height_of_tide, height_json);
    out.known("clearance_m", c.clearance, metres_json);
    out.known("clearance_could_be_m", c.clearance_could_be, metres_json);
    out.known("gap_m", c.gap, metres_json);
    out.known("to_spare_m", c.to_spare, metres_json);
    out.known("to_spare_could_be_m", c.to_spare_could_be, metres_json);
    out.put("margin_m", metres_json(c.margin));
    out.put("by_antennas", all(c.over_mast, over_mast));
    return out.take();
  }

  template <class Wanted>
  json dangers(const Wanted& wanted) const {
    json list = json::array();
    for (const Danger& d : brief_.findings.dangers) {
      if (!wanted(d)) continue;
      const Leg& leg = brief_.findings.legs[d.leg];
      JsonObject out;
      out.put("leg", leg.from + " to " + leg.to);
      out.put("danger", d.name);
      out.put("what", d.what);
      out.put("side", in_words(d.side));
      out.put("distance_m", metres_json(d.distance));
      out.known("reached_in_s", d.reached_in, [](Interval i) {
        return json(static_cast<long long>(std::floor(in_seconds(i))));  // sooner is the caution
      });
      out.put("bottom", in_words(d.bottom));
      out.known("anchor_holds_in_m", d.anchor_holds_in, metres_json);
      out.known("anchor_would_hold", d.anchor_would_hold, [](bool yes) { return json(yes); });
      list.push_back(out.take());
    }
    return list;
  }

  json mark(const MarkFinding& m) const {
    JsonObject out;
    out.put("name", m.name);
    known(out, "at", m.passing.at);
    out.put("along_nm", miles_json(m.passing.along));
    out.put("colour", optional_text(m.colour));
    out.put("shape", optional_text(m.shape));
    out.put("light", optional_text(m.light));
    out.put("off_m", metres_json(m.off));
    out.put("lies_to", in_words(m.lies_to));
    out.known("should_lie_to", m.should_lie_to,
              [](const std::optional<Side>& side) { return json(side_word(side)); });
    out.known("agrees", m.agrees, [](bool yes) { return json(yes); });
    out.put("kept_by", in_words(m.kept_by));
    return out.take();
  }

  json caution(const Caution& c) const {
    JsonObject out;
    out.put("id", c.id);
    out.put("grade", in_words(c.grade));
    out.put("text", sentence_text(c.say, units_, clock_));
    out.put("about", c.about.name);
    out.put("source", c.source);
    out.put("limit", c.limit);
    return out.take();
  }

  static json not_checked(const NotChecked& n) {
    JsonObject out;
    out.put("id", n.id);
    out.put("about", n.about.name);
    out.put("because", in_words(n.because));
    out.put("limit", n.limit);
    return out.take();
  }

  static json limit(const LimitResult& l) {
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

  json high_low(const HighLow& h) const {
    JsonObject out;
    out.put("station", h.station);
    out.put("at", time(h.event.at));
    out.put("height_m", height_json(h.event.height));
    out.put("what", h.event.high ? "high" : "low");
    return out.take();
  }

  json tide_curve(const DayOfTide& day) const {
    JsonObject out;
    out.put("station", day.station);
    out.put("datum", day.datum);
    out.put("samples", all(day.samples, [this](const TideSample& sample) {
              JsonObject row;
              row.put("at", time(sample.at));
              row.known("height_m", sample.height, height_json);
              return row.take();
            }));
    return out.take();
  }

  json place(const PlaceOnTheWay& p) const {
    JsonObject out;
    out.put("name", p.name);
    out.put("what", p.what);
    out.put("along_nm", miles_json(p.along));
    out.put("off_m", metres_json(p.off));
    known(out, "at", p.at);
    return out.take();
  }

  json observed(const SeenLevel& o) const {
    JsonObject out;
    out.put("place", o.place);
    out.put("by", in_words(o.by));
    out.put("at", time(o.at));
    out.put("station", o.station);
    out.put("reading_m", metres_json(o.reading));
    out.put("expected_m", metres_json(o.expected));
    out.put("above_predicted_m", metres_json(o.above_predicted));
    out.put("wind_over", o.wind_over ? time(*o.wind_over) : json(nullptr));
    return out.take();
  }

  static json level_shift(const LevelShift& shift) {
    JsonObject out;
    out.put("off_depths_m", metres_json(shift.off_depths));
    out.put("off_clearances_m", metres_json(shift.off_clearances));
    out.put("wind_may_shift", shift.wind_may_shift);
    return out.take();
  }

  json back_until(const BackUntil& b) const {
    JsonObject out;
    out.put("name", b.name);
    out.put("what", in_words(b.what));
    out.put("along_nm", miles_json(b.along));
    known(out, "at", b.at);
    known(out, "until", b.until);
    out.known("ends", b.ends, [](BackEnds e) { return json(in_words(e)); });
    out.put("depth_only", b.what == BackPlace::bar);
    out.put("tide_station", b.tide_station);
    return out.take();
  }

  json source(const SourceUsed& s) const {
    JsonObject out;
    out.put("what", s.source.what);
    out.put("from", s.source.from);
    out.put("issued", s.source.issued ? time(*s.source.issued) : json(nullptr));
    out.put("age_s", s.age ? seconds_json(*s.age) : json(nullptr));
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
      std::pair<std::string, json> operator()(Length v) const { return {"_m", metres_json(v)}; }
      std::pair<std::string, json> operator()(Speed v) const { return {"_kn", knots_json(v)}; }
      std::pair<std::string, json> operator()(Angle v) const { return {"_deg", angle_json(v)}; }
      std::pair<std::string, json> operator()(Interval v) const { return {"_s", seconds_json(v)}; }
      std::pair<std::string, json> operator()(Instant v) const { return {"", printer.time(v)}; }
      std::pair<std::string, json> operator()(double v) const { return {"", fixed_json(v, 4)}; }
      std::pair<std::string, json> operator()(const std::string& v) const { return {"", v}; }
    };
    auto [unit, printed] = std::visit(Visitor{*this}, value);
    out.put(key + unit, std::move(printed));
  }

  json working(const Working& w) const {
    JsonObject out;
    out.put("figure", w.figure);
    out.put("formula", w.formula);
    out.put("inputs", all(w.inputs, [this](const WorkingInput& input) {
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
};

}  // namespace

std::string brief_as_json(const Brief& brief, Units units) {
  return Printer(brief, units).whole().dump(2) + "\n";
}

}  // namespace passage_brief
