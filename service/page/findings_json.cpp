#include "page/findings_json.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "page/json_object.h"
#include "passage/findings.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"
#include "units/zone.h"

namespace passage_brief {
namespace {

std::string side_word(const std::optional<Side>& side) {
  return side ? in_words(*side) : std::string("either");
}

OrderedJson optional_text(const std::optional<std::string>& text) {
  return text ? OrderedJson(*text) : OrderedJson(nullptr);
}

/// Prints one thing that was found; knows the zone.
class OnePrinter {
 public:
  explicit OnePrinter(const Zone& zone) : zone_(zone) {}

  OrderedJson leg(const Leg& l) const {
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
    out.known("wind_is", l.wind_is, [](RelativeDirection d) { return OrderedJson(in_words(d)); });
    out.known("falls_off_to", l.falls_off_to, [](const std::optional<Side>& side) {
      return side ? OrderedJson(in_words(*side)) : OrderedJson("neither");
    });
    out.known("leeway_deg", l.leeway, angle_json);
    out.known("current_toward_deg", l.current,
              [](const Current& c) { return degrees_json(c.toward.bearing); });
    out.known("current_kn", l.current, [](const Current& c) { return knots_json(c.speed); });
    out.known("makes_headway", l.makes_headway, [](bool yes) { return OrderedJson(yes); });
    out.known("wave_m", l.wave, metres_json);
    out.known("visibility_nm", l.visibility, miles_json);
    return out.take();
  }

  OrderedJson depth(const Depth& d) const {
    JsonObject out;
    out.put("name", d.name);
    out.put("part", d.part);
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
    out.known("tide_is", d.tide_is, [](Trend t) { return OrderedJson(in_words(t)); });
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

  OrderedJson bridge(const BridgeFinding& b) const {
    JsonObject out;
    out.put("name", b.name);
    out.put("what", in_words(b.what));
    known(out, "at", b.passing.at);
    out.put("along_nm", miles_json(b.passing.along));
    out.put("tide_station", b.tide_station);
    out.known("charted_m", b.charted, metres_json);
    out.known("clearance_datum_m", b.clearance_datum, height_json);
    out.known("height_of_tide_m", b.height_of_tide, height_json);
    out.known("tide_is", b.tide_is, [](Trend t) { return OrderedJson(in_words(t)); });
    out.known("clearance_m", b.clearance, metres_json);
    out.known("clearance_could_be_m", b.clearance_could_be, metres_json);
    out.known("gauge_reads_m", b.gauge_reads, metres_json);
    out.known("gauge_at_least_m", b.gauge_at_least, metres_json);
    out.known("clearance_gauge", b.clearance_gauge, [](bool yes) { return OrderedJson(yes); });
    out.known("wave_m", b.wave, metres_json);
    const OverMast* mast = as_passed(b);
    out.known("over_mast_m",
              mast != nullptr ? mast->over_mast : not_known("the vessel file gives no air draft"),
              metres_json);
    out.known("antennas", antennas_passed(b), [](Antennas a) { return OrderedJson(in_words(a)); });
    out.put("open_span", b.open_span ? open_span(*b.open_span) : OrderedJson(nullptr));
    out.known("fits", b.fits, [](bool yes) { return OrderedJson(yes); });
    out.known("opening_needed", b.opening_needed, [](bool yes) { return OrderedJson(yes); });
    out.put("margin_m", metres_json(b.margin));
    out.put("by_antennas", json_list(b.over_mast, [&b](const OverMast& one) {
              OrderedJson state = over_mast(one);
              const Known<bool> needs = needs_opening(b, one);
              state["opening_needed"] =
                  needs.has_value() ? OrderedJson(*needs) : OrderedJson(nullptr);
              return state;
            }));
    out.known("width_m", b.width, metres_json);
    out.put("radio", optional_text(b.radio));
    out.put("sound_signal", optional_text(b.sound_signal));
    out.put("opening", b.opening ? opening(*b.opening) : OrderedJson(nullptr));
    return out.take();
  }

  OrderedJson cable(const CableFinding& c) const {
    JsonObject out;
    out.put("name", c.name);
    known(out, "at", c.passing.at);
    out.put("along_nm", miles_json(c.passing.along));
    out.known("charted_m", c.charted, metres_json);
    out.known("height_of_tide_m", c.height_of_tide, height_json);
    out.known("clearance_m", c.clearance, metres_json);
    out.known("clearance_could_be_m", c.clearance_could_be, metres_json);
    out.known("gap_m", c.gap, metres_json);
    out.known("antennas", c.antennas, [](Antennas a) { return OrderedJson(in_words(a)); });
    out.known("to_spare_m", c.to_spare, metres_json);
    out.known("to_spare_could_be_m", c.to_spare_could_be, metres_json);
    out.put("margin_m", metres_json(c.margin));
    out.put("tide_station", c.tide_station);
    out.put("by_antennas", json_list(c.over_mast, over_mast));
    return out.take();
  }

  OrderedJson mark(const MarkFinding& m) const {
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
              [](const std::optional<Side>& side) { return OrderedJson(side_word(side)); });
    out.known("agrees", m.agrees, [](bool yes) { return OrderedJson(yes); });
    out.put("kept_by", in_words(m.kept_by));
    return out.take();
  }

  OrderedJson back_until(const BackUntil& b) const {
    JsonObject out;
    out.put("name", b.name);
    out.put("what", in_words(b.what));
    out.put("along_nm", miles_json(b.along));
    known(out, "at", b.at);
    known(out, "until", b.until);
    out.known("ends", b.ends, [](BackEnds e) { return OrderedJson(in_words(e)); });
    out.put("depth_only", b.what == BackPlace::bar);
    out.put("over", b.over);
    out.put("antennas", b.antennas ? OrderedJson(in_words(*b.antennas)) : OrderedJson(nullptr));
    out.put("longer", b.longer ? back_longer(*b.longer) : OrderedJson(nullptr));
    out.put("tide_station", b.tide_station);
    return out.take();
  }

  static OrderedJson danger(const Danger& d, const Leg& leg) {
    JsonObject out;
    out.put("leg", leg.from + " to " + leg.to);
    out.put("danger", d.name);
    out.put("what", d.what);
    out.put("side", in_words(d.side));
    out.put("distance_m", metres_json(d.distance));
    out.known("reached_in_s", d.reached_in, [](Interval i) {
      return OrderedJson(
          static_cast<long long>(std::floor(in_seconds(i))));  // sooner is the caution
    });
    out.put("bottom", in_words(d.bottom));
    out.known("anchor_holds_in_m", d.anchor_holds_in, metres_json);
    out.known("anchor_would_hold", d.anchor_would_hold, [](bool yes) { return OrderedJson(yes); });
    return out.take();
  }

 private:
  static OrderedJson over_mast(const OverMast& mast) {
    JsonObject out;
    out.put("antennas", in_words(mast.antennas));
    out.put("air_draft_m", metres_json(mast.air_draft));
    out.known("over_mast_m", mast.over_mast, metres_json);
    out.known("over_mast_could_be_m", mast.over_mast_could_be, metres_json);
    return out.take();
  }

  static OrderedJson open_span(const OpenSpan& span) {
    JsonObject out;
    out.known("charted_m", span.charted, metres_json);
    out.known("clearance_m", span.clearance, metres_json);
    out.known("clearance_could_be_m", span.clearance_could_be, metres_json);
    out.put("by_antennas", json_list(span.over_mast, over_mast));
    return out.take();
  }

  OrderedJson back_longer(const BackLonger& longer) const {
    JsonObject out;
    out.put("antennas", in_words(longer.antennas));
    out.put("until", time(longer.until));
    out.put("ends", in_words(longer.ends));
    return out.take();
  }

  OrderedJson due(const OpeningDue& d) const {
    JsonObject out;
    out.put("at", time(d.at));
    out.put("ask_by", d.ask_by ? time(*d.ask_by) : OrderedJson(nullptr));
    out.put("telephone", optional_text(d.telephone));
    out.put("only_if_waiting", d.if_waiting);
    return out.take();
  }

  OrderedJson opening(const OpeningFinding& o) const {
    const auto next = [this](const std::optional<OpeningDue>& d) {
      return d ? due(*d) : OrderedJson(nullptr);
    };
    const auto yes_no = [](bool yes) { return OrderedJson(yes); };
    JsonObject out;
    known(out, "reached", o.reached);
    out.known("fits_on_arrival", o.fits_on_arrival, yes_no);
    out.known("passes", o.passes, yes_no);
    out.known("wait_s", o.wait, seconds_json);
    out.known("through_opening", o.through_opening, yes_no);
    out.known("next", o.next, next);
    out.known("next_on_signal", o.next_on_signal, next);
    out.known("hold_off_m", short_of_bridge(o.hold_off), metres_json);
    out.known("drift_toward_m", o.hold_off.drift, metres_json);
    out.known("current_toward_kn", o.hold_off.current_toward, knots_json);
    out.known("wind_toward_kn", o.hold_off.wind_toward, knots_json);
    out.put("law", optional_text(o.law));
    out.put("as_of", o.as_of ? date_json(*o.as_of) : OrderedJson(nullptr));
    return out.take();
  }

  OrderedJson time(Instant at) const { return to_rfc3339(at, zone_); }
  void known(JsonObject& out, const char* key, const Known<Instant>& at) const {
    out.known(key, at, [this](Instant t) { return time(t); });
  }

  const Zone& zone_;
};

template <class Wanted>
OrderedJson dangers(const Findings& found, const Wanted& wanted) {
  OrderedJson list = OrderedJson::array();
  for (const Danger& danger : found.dangers) {
    if (wanted(danger)) list.push_back(OnePrinter::danger(danger, found.legs[danger.leg]));
  }
  return list;
}

}  // namespace

OrderedJson FindingsJson::legs() const {
  return json_list(found_.legs, [this](const Leg& l) { return OnePrinter(zone_).leg(l); });
}
OrderedJson FindingsJson::depths() const {
  return json_list(found_.depths, [this](const Depth& d) { return OnePrinter(zone_).depth(d); });
}
OrderedJson FindingsJson::bridges() const {
  return json_list(found_.bridges,
                   [this](const BridgeFinding& b) { return OnePrinter(zone_).bridge(b); });
}
OrderedJson FindingsJson::cables() const {
  return json_list(found_.cables,
                   [this](const CableFinding& c) { return OnePrinter(zone_).cable(c); });
}
OrderedJson FindingsJson::marks() const {
  return json_list(found_.marks,
                   [this](const MarkFinding& m) { return OnePrinter(zone_).mark(m); });
}
OrderedJson FindingsJson::to_leeward() const {
  return dangers(found_, [](const Danger& d) { return d.to_leeward; });
}
OrderedJson FindingsJson::set_toward() const {
  return dangers(found_, [](const Danger& d) { return d.set_toward; });
}
OrderedJson FindingsJson::back_until() const {
  return json_list(found_.back_until,
                   [this](const BackUntil& b) { return OnePrinter(zone_).back_until(b); });
}

OrderedJson FindingsJson::level_shift() const {
  const LevelShift& shift = found_.level_shift;
  JsonObject out;
  out.put("off_depths_m", metres_json(shift.off_depths));
  out.put("off_clearances_m", metres_json(shift.off_clearances));
  out.put("wind_may_shift", shift.wind_may_shift);
  return out.take();
}

}  // namespace passage_brief
