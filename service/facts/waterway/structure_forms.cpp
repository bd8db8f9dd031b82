// Field tables of what stands in the water or over it, and of places and notes.
#include <chrono>
#include <cstddef>
#include <expected>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

#include "facts/waterway/bridge.h"
#include "facts/waterway/feature.h"
#include "facts/waterway/feature_forms.h"
#include "facts/waterway/feature_kind.h"
#include "facts/waterway/mark.h"
#include "facts/waterway/reach.h"
#include "facts/waterway/read_openings.h"
#include "facts/waterway/waterway.h"
#include "reading/form.h"
#include "reading/geojson.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/known.h"
#include "units/position.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

Form<Length> clearance_form() { return length("0 m", "300 m"); }

/// Nothing: the span opens clear.
using OpenClearance = std::optional<Length>;

/// A clearance, or the word "clear".
Form<OpenClearance> open_clearance_form() {
  const Form<Length> as_length = clearance_form();
  const Form<std::string> as_word = constant("clear");
  return form_of<OpenClearance>(
      as_length.must_be + ", or \"clear\"",
      "{\"anyOf\": [" + as_length.schema + ", " + as_word.schema + "]}",
      [=](const nlohmann::json& value, const Place& place) -> std::optional<OpenClearance> {
        if (form_detail::is_word(value, "clear")) return OpenClearance();
        const auto length = as_length.read(value, place);
        return length ? std::optional(OpenClearance(*length)) : std::nullopt;
      });
}

bool opens_clear_in(const Row& row) {
  const auto open = row.maybe<OpenClearance>("clearance_open");
  return open && !*open;
}

Known<Length> open_clearance_in(const Row& row, const std::string& whose) {
  const auto open = row.known<OpenClearance>("clearance_open", whose);
  if (!open) return not_known_as(open);
  if (!*open) return not_known(whose + " opens clear: no figure is needed");
  return **open;
}

void check_bridge(const Row& row) {
  if (row.maybe<BridgeKind>("what") == BridgeKind::fixed) {
    for (const char* key : {"clearance_open", "openings"}) {
      if (row.given(key)) row.refuse(key, "belongs to a bridge that opens; this one is fixed");
    }
  }
  const auto closed = row.maybe<Length>("clearance");
  const auto open = row.maybe<OpenClearance>("clearance_open");
  if (closed && open && *open && **open < *closed) {
    row.refuse("clearance_open", "is less than the clearance");
  }
}

void check_cable(const Row& row) {
  if (row.maybe<Carries>("carries") == Carries::telephone && row.given("voltage")) {
    row.refuse("voltage", "belongs to a power cable; this one carries telephone");
  }
  const auto clearance = row.maybe<Length>("clearance");
  const auto safe = row.maybe<Length>("safe_clearance");
  if (clearance && safe && *safe > *clearance) {
    row.refuse("safe_clearance", "is more than the clearance it is taken from");
  }
}
/// A bearing, or the name of a reach.
Form<DirectionOfBuoyage> direction_of_buoyage() {
  const Form<TrueBearing> as_bearing = bearing();
  const Form<std::string> as_name = text(60);
  const std::string must_be = "the name of a reach or a bearing in degrees true";
  return form_of<DirectionOfBuoyage>(
      must_be, "{\"anyOf\": [" + as_name.schema + ", " + as_bearing.schema + "]}",
      [=](const nlohmann::json& value, const Place& place) -> std::optional<DirectionOfBuoyage> {
        if (form_detail::is_text(value)) {
          const auto name = as_name.read(value, place);
          return name ? std::optional<DirectionOfBuoyage>(*name) : std::nullopt;
        }
        const auto toward = as_bearing.read(value, place);
        return toward ? std::optional<DirectionOfBuoyage>(*toward) : std::nullopt;
      });
}

}  // namespace

Kind bridge_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "bridge", "\"Mill Bridge\"",
      {current_field("Station of the current under it, or \"none\"; left out: that of the water it "
                     "stands in."),
       must_be_given("what",
                     words_for({BridgeKind::fixed, BridgeKind::bascule, BridgeKind::swing,
                                BridgeKind::lift, BridgeKind::pontoon}),
                     "How it is made.", "\"fixed\""),
       may_be_unknown("clearance", clearance_form(), "Closed, above the clearance datum.",
                      "\"20 ft\""),
       may_be_unknown("clearance_of",
                      choice<ClearanceOf>({{"low steel", ClearanceOf::low_steel},
                                           {"centre of the arch", ClearanceOf::centre_of_arch}}),
                      "What the clearance is measured to.", "\"low steel\""),
       may_be_unknown("clearance_open", open_clearance_form(),
                      "Open; \"clear\": nothing overhead then.", "\"60 ft\""),
       may_be_unknown("width", length("1 m", "2 km"), "Between fenders.", "\"38 ft\""),
       may_be_unknown("clearance_gauge", yes_or_no(), "Whether a gauge can be read.", "true"),
       may_be_unknown("openings", opening_rules(), "When it opens.",
                      R"({"law": "33 CFR 117.5", "rules": []})"),
       may_be_unknown("radio", text(40), "Channel of the tender.", "\"VHF 13\""),
       may_be_unknown("sound_signal", text(60), "To ask for an opening.",
                      "\"one prolonged, one short\"")},
      count,
      [](const Row& row, const Feature& common) -> AnyFeature {
        const std::string& whose = common.name;
        return Bridge{with_current(row, common),
                      LineShape{},
                      row.get<BridgeKind>("what"),
                      row.known<Length>("clearance", whose),
                      row.get_or("clearance_of", ClearanceOf::not_stated),
                      open_clearance_in(row, whose),
                      opens_clear_in(row),
                      row.known<Length>("width", whose),
                      row.known<bool>("clearance_gauge", whose),
                      row.maybe<Openings>("openings"),
                      row.maybe<std::string>("radio"),
                      row.maybe<std::string>("sound_signal")};
      },
      {check_bridge});
}

Kind overhead_cable_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "overhead_cable", "\"Ferry Point cable\"",
      {may_be_unknown("clearance", clearance_form(), "Of the lowest wire.", "\"60 ft\""),
       may_be_unknown("safe_clearance", clearance_form(),
                      "With the gap for the voltage already taken off, as some charts give it.",
                      "\"12 m\""),
       may_be_unknown(
           "carries",
           choice<Carries>({{"power", Carries::power}, {"telephone", Carries::telephone}}),
           "What it carries; not known counts as power.", "\"power\""),
       may_be_unknown("voltage", voltage("0.1 kV", "1500 kV"), "Of a power cable.", "\"115 kV\"")},
      count,
      [](const Row& row, const Feature& common) -> AnyFeature {
        const std::string& whose = common.name;
        return OverheadCable{common,
                             LineShape{},
                             row.known<Length>("clearance", whose),
                             row.known<Length>("safe_clearance", whose),
                             row.get_or("carries", Carries::not_stated),
                             row.known<Voltage>("voltage", whose)};
      },
      {check_cable});
}

Kind mark_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "mark", "\"red 12\"",
      {may_be_unknown("colour", text(40), "As charted.", "\"red\""),
       may_be_unknown("shape", text(40), "As charted.", "\"triangle\""),
       may_be_unknown(
           "hand",
           choice<MarkHand>(
               {{"port", MarkHand::port},
                {"starboard", MarkHand::starboard},
                {"preferred channel to port", MarkHand::preferred_channel_to_port},
                {"preferred channel to starboard", MarkHand::preferred_channel_to_starboard},
                {"none", MarkHand::none}}),
           "The side of the channel it marks, going with the buoyage.", "\"starboard\""),
       may_be_unknown("region",
                      choice<BuoyageRegion>({{"A", BuoyageRegion::a}, {"B", BuoyageRegion::b}}),
                      "Of IALA.", "\"B\""),
       may_be_unknown("direction_of_buoyage", direction_of_buoyage(),
                      "The reach it belongs to (drawn from seaward), or a bearing; not known: side "
                      "not known.",
                      "\"Town Reach\""),
       may_be_unknown("light", text(60), "As charted.", "\"Fl R 4s\""),
       may_be_unknown("waterway_symbol",
                      choice<WaterwaySymbol>({{"yellow triangle", WaterwaySymbol::yellow_triangle},
                                              {"yellow square", WaterwaySymbol::yellow_square},
                                              {"yellow band", WaterwaySymbol::yellow_band}}),
                      "Of the Intracoastal Waterway; overrides colour and number.",
                      "\"yellow square\""),
       kept_by_field(),
       may_be_unknown("structure",
                      choice<MarkStructure>({{"buoy", MarkStructure::buoy},
                                             {"piling", MarkStructure::piling},
                                             {"daybeacon", MarkStructure::daybeacon},
                                             {"light", MarkStructure::light}}),
                      "What carries it.", "\"piling\"")},
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return Mark{common,
                    not_yet_placed(),
                    row.maybe<std::string>("colour"),
                    row.maybe<std::string>("shape"),
                    row.get_or("hand", MarkHand::not_stated),
                    row.get_or("region", BuoyageRegion::not_stated),
                    row.maybe<DirectionOfBuoyage>("direction_of_buoyage"),
                    row.maybe<std::string>("light"),
                    row.maybe<WaterwaySymbol>("waterway_symbol"),
                    row.get_or("kept_by", KeptBy::not_stated),
                    row.get_or("structure", MarkStructure::not_stated)};
      });
}

Kind refuge_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "refuge", "\"Back Creek\"",
      {must_be_given("what", text(120), "What one can do there.", "\"anchor in 6 ft, mud\"")},
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return Refuge{common, not_yet_placed(), row.get<std::string>("what")};
      });
}

Kind turning_place_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "turning_place", "\"Mill basin\"",
      {may_be_unknown("width", length("1 m", "20 km"), "Clear room to turn in.", "\"120 ft\"")},
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return TurningPlace{common, not_yet_placed(), row.known<Length>("width", common.name)};
      });
}

Kind note_kind(const FeatureCounter& count) {
  return kind_of_feature(
      "note", "\"crab pots\"",
      {must_be_given("text", text(300), "Printed as it stands.", "\"Crab pots from April on.\"")},
      count, [](const Row& row, const Feature& common) -> AnyFeature {
        return Note{common, not_yet_placed(), row.get<std::string>("text")};
      });
}

}  // namespace passage_brief
