#include "plan/read_vessel.h"

#include <chrono>
#include <cstddef>
#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/vessel.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "reading/table.h"
#include "units/direction.h"
#include "units/quantity.h"

namespace passage_brief {
namespace {

using Date = std::chrono::year_month_day;

Form<AirDraft> air_draft() {
  return object<AirDraft>(
      "air draft",
      {must_be_given("antennas", words_for({Antennas::up, Antennas::down}),
                     "Whether everything that can be lowered is up or down.", "\"up\""),
       must_be_given("height", length("10 cm", "100 m"),
                     "Of the highest thing above the waterline at the lightest load.",
                     "\"27 ft\"")},
      [](const Row& row) {
        return AirDraft{row.get<Antennas>("antennas"), row.get<Length>("height")};
      });
}

Form<Sounder> sounder() {
  return object<Sounder>(
      "sounder",
      {must_be_given("measures_from",
                     choice<SounderZero>({{"keel", SounderZero::keel},
                                          {"transducer", SounderZero::transducer},
                                          {"waterline", SounderZero::waterline}}),
                     "Where the reading is counted from, as the sounder is set.", "\"keel\""),
       may_be_left_out("below_waterline", length("0 m", "20 m"),
                       "Of the transducer; given exactly where the sounder measures from it.",
                       "\"2 ft\"")},
      [](const Row& row) {
        return Sounder{row.get<SounderZero>("measures_from"), row.maybe<Length>("below_waterline")};
      },
      {[](const Row& row) {
        const auto from = row.maybe<SounderZero>("measures_from");
        if (!from) return;
        if (*from == SounderZero::transducer && !row.given("below_waterline")) {
          row.refuse(
              "a sounder that measures from the transducer needs \"below_waterline\", for example "
              "\"2 ft\"");
        }
        if (*from != SounderZero::transducer && row.given("below_waterline")) {
          row.refuse("below_waterline",
                     "belongs to a sounder that measures from the transducer; leave it out");
        }
      }});
}

Form<Anchor> anchor() {
  return object<Anchor>(
      "anchor",
      {must_be_given("rode", length("1 m", "1 km"), "All there is to pay out.", "\"150 ft\""),
       must_be_given("of", choice<RodeOf>({{"chain", RodeOf::chain}, {"rope", RodeOf::rope}}),
                     "What most of it is.", "\"chain\""),
       must_be_given("bow_roller", length("0 m", "20 m"), "Its height above the water.",
                     "\"5 ft\"")},
      [](const Row& row) {
        return Anchor{row.get<Length>("rode"), row.get<RodeOf>("of"),
                      row.get<Length>("bow_roller")};
      });
}

Form<DeviationRow> deviation_row() {
  return object<DeviationRow>(
      "deviation",
      {must_be_given("heading", angle(0, 360), "By this boat's compass.", "0"),
       must_be_given("deviation", angle(-45, 45), "In degrees, east positive.", "2")},
      [](const Row& row) {
        return DeviationRow{CompassBearing::from_degrees(row.get<Angle>("heading").in_degrees()),
                            Deviation{row.get<Angle>("deviation")}};
      });
}

struct Speeds {
  Speed slow;
  Speed cruise;
};

Form<Speeds> speeds() {
  return object<Speeds>(
      "speeds",
      {must_be_given("slow", speed("0.5 kn", "60 kn"),
                     "Through the water, with good steerage: for secondary channels.",
                     "\"4.5 kn\""),
       must_be_given("cruise", speed("0.5 kn", "60 kn"), "Through the water, for the rest.",
                     "\"7.5 kn\"")},
      [](const Row& row) { return Speeds{row.get<Speed>("slow"), row.get<Speed>("cruise")}; },
      {[](const Row& row) {
        const auto slow = row.maybe<Speed>("slow");
        const auto cruise = row.maybe<Speed>("cruise");
        if (slow && cruise && *slow > *cruise) row.refuse("slow", "is more than cruise");
      }});
}

Form<Base> base() {
  return object<Base>(
      "base",
      {must_be_given("name", text(), "Who answers.", "\"Mill Cove Charters\""),
       may_be_left_out("telephone", text(40), "As it is dialled.", "\"+1 555 0100\""),
       may_be_left_out("channel", text(40), "Radio channel.", "\"VHF 68\"")},
      [](const Row& row) {
        return Base{row.get<std::string>("name"), row.maybe<std::string>("telephone"),
                    row.maybe<std::string>("channel")};
      });
}

Form<Basis> basis() { return words_for({Basis::measured, Basis::told, Basis::estimated}); }

/// How "draft" or "air_draft" came to be known: the figure's own date, else the file's.
BasisOfFigure basis_of(const Row& row, const std::string& figure) {
  const Basis how = row.get_or(figure + "_is", Basis::not_stated);
  const auto own_date = row.maybe<Date>(figure + "_measured_on");
  const auto date_of_all = row.maybe<Date>("measured_on");
  if (how != Basis::measured) return {how, std::nullopt};
  return {how, own_date ? own_date : date_of_all};
}

void check_date_needs_measured(const Row& row, const std::string& figure) {
  const auto how = row.maybe<Basis>(figure + "_is");
  if (row.given(figure + "_measured_on") && how != Basis::measured) {
    row.refuse(figure + "_measured_on",
               "a date of measuring needs \"" + figure + "_is\": \"measured\"");
  }
}

void check_hull_sizes(const Row& row) {
  const auto over_all = row.maybe<Length>("length");
  const auto not_longer = [&](const char* name) {
    const auto part = row.maybe<Length>(name);
    if (over_all && part && *part > *over_all) row.refuse(name, "is more than the length");
  };
  not_longer("waterline");
  not_longer("beam");
  not_longer("draft");
}

void check_air_drafts(const Row& row) {
  const auto heights = row.maybe<std::vector<AirDraft>>("air_draft");
  if (!heights || heights->size() < 2) return;
  const AirDraft& first = heights->front();
  const AirDraft& second = heights->back();
  if (first.antennas == second.antennas) {
    row.refuse("air_draft", "gives antennas " + in_words(first.antennas) +
                                " twice; give one height with them up and one with them down");
    return;
  }
  const AirDraft& up = first.antennas == Antennas::up ? first : second;
  const AirDraft& down = first.antennas == Antennas::up ? second : first;
  if (down.height > up.height) row.refuse("air_draft", "is higher with antennas down than up");
}

void check_sounder_depth(const Row& row) {
  const auto sounder = row.maybe<Sounder>("sounder");
  const auto draft = row.maybe<Length>("draft");
  if (!sounder || !sounder->below_waterline || !draft) return;
  if (*sounder->below_waterline > *draft) {
    row.refuse("sounder", "its transducer is deeper than the draft");
  }
}

void check_deviation_order(const Row& row) {
  const auto rows = row.maybe<std::vector<DeviationRow>>("deviation");
  if (!rows) return;
  for (std::size_t i = 1; i < rows->size(); ++i) {
    if ((*rows)[i].heading > (*rows)[i - 1].heading) continue;
    row.refuse("deviation", "headings must rise from row to row (360 counts as 0)");
    return;
  }
}

std::vector<Field> vessel_fields() {
  return {
      always("kind", "vessel"),
      must_be_given("name", text(60), "As it is to stand on the page.", "\"Grey Heron\""),
      must_be_given("hull",
                    words_for({Hull::motor_displacement, Hull::motor_planing, Hull::sail_fin_keel,
                               Hull::sail_long_keel, Hull::catamaran, Hull::open_boat}),
                    "What is left out below is estimated from it.", "\"motor displacement\""),
      must_be_given("engines", whole_number(0, 8), "How many.", "2"),
      must_be_given("length", length("2 m", "150 m"), "Over all.", "\"40 ft\""),
      may_be_unknown("waterline", length("2 m", "150 m"),
                     "Length of the waterline; left out: estimated.", "\"36 ft 6 in\""),
      must_be_given("beam", length("0.5 m", "40 m"), "Greatest.", "\"13 ft 6 in\""),
      must_be_given("draft", length("5 cm", "15 m"), "Of the deepest part at the deepest load.",
                    "\"4 ft\""),
      may_be_left_out("draft_is", basis(),
                      "How the draft came to be known; told counts as not known for the limits of "
                      "the shipped rules.",
                      "\"measured\""),
      may_be_left_out("draft_measured_on", date(), "When, where it differs from measured_on.",
                      "\"2026-04-11\""),
      may_be_left_out("deepest_part", text(60), "What touches first.", "\"skegs\""),
      may_be_unknown("block_coefficient", number(0.1, 1),
                     "Volume under water / (waterline x beam x draft); left out: estimated.",
                     "0.5"),
      must_be_given("air_draft", list_of(air_draft(), 1, 2),
                    "One height with antennas up and, where they can be lowered, one with them "
                    "down.",
                    R"([{"antennas": "up", "height": "27 ft"}])"),
      may_be_left_out("air_draft_is", basis(),
                      "How the air draft came to be known; told counts as not known for the limits "
                      "of the shipped rules.",
                      "\"measured\""),
      may_be_left_out("air_draft_measured_on", date(), "When, where it differs from measured_on.",
                      "\"2026-04-11\""),
      may_be_left_out("measured_on", date(), "When what is measured was measured.",
                      "\"2026-04-11\""),
      may_be_unknown("windage_area", area("0.1 m2", "5000 m2"),
                     "Side view above the water; left out: estimated.", "\"34 m2\""),
      may_be_unknown("lateral_plane", area("0.1 m2", "2000 m2"),
                     "Side view below the water; left out: estimated.", "\"11.5 m2\""),
      must_be_given("speeds", speeds(), "Through the water.",
                    R"({"slow": "4.5 kn", "cruise": "7.5 kn"})"),
      may_be_unknown("sounder", sounder(),
                     "How the depth sounder is set; left out: expected readings are not known.",
                     R"({"measures_from": "keel"})"),
      may_be_unknown("anchor", anchor(), "Left out: whether it would hold is not known.",
                     R"({"rode": "150 ft", "of": "chain", "bow_roller": "5 ft"})"),
      may_be_unknown(
          "deviation", list_of(deviation_row(), 1, 72),
          "The compass's table, by rising heading; left out, or between rows more than 90 "
          "degrees apart: no compass headings.",
          R"([{"heading": 0, "deviation": 2}])"),
      may_be_unknown("design_category",
                     choice<DesignCategory>({{"A", DesignCategory::a},
                                             {"B", DesignCategory::b},
                                             {"C", DesignCategory::c},
                                             {"D", DesignCategory::d}}),
                     "From the builder's plate (2013/53/EU, ISO 12217).", "\"C\""),
      may_be_left_out("base", base(), "Whom to ring; printed, never used.",
                      R"({"name": "Mill Cove Charters", "telephone": "+1 555 0100"})"),
      may_be_left_out("use",
                      choice<VesselUse>({{"pleasure", VesselUse::pleasure},
                                         {"commercial", VesselUse::commercial},
                                         {"public", VesselUse::public_service}}),
                      "What drawbridges take her for; left out: pleasure. A boat with paying "
                      "learners may be either: ask.",
                      "\"pleasure\""),
  };
}

Vessel build_vessel(const Row& row) {
  const Speeds speeds = row.get<Speeds>("speeds");
  return {.name = row.get<std::string>("name"),
          .hull = row.get<Hull>("hull"),
          .engines = row.get<int>("engines"),
          .length = row.get<Length>("length"),
          .waterline = row.maybe<Length>("waterline"),
          .beam = row.get<Length>("beam"),
          .draft = row.get<Length>("draft"),
          .draft_is = basis_of(row, "draft"),
          .deepest_part = row.maybe<std::string>("deepest_part"),
          .block_coefficient = row.maybe<double>("block_coefficient"),
          .air_draft = row.get<std::vector<AirDraft>>("air_draft"),
          .air_draft_is = basis_of(row, "air_draft"),
          .windage_area = row.maybe<Area>("windage_area"),
          .lateral_plane = row.maybe<Area>("lateral_plane"),
          .slow = speeds.slow,
          .cruise = speeds.cruise,
          .sounder = row.maybe<Sounder>("sounder"),
          .anchor = row.maybe<Anchor>("anchor"),
          .deviation = row.get_or<std::vector<DeviationRow>>("deviation", {}),
          .design_category = row.maybe<DesignCategory>("design_category"),
          .base = row.maybe<Base>("base"),
          .use = row.get_or("use", VesselUse::pleasure)};
}

}  // namespace

Form<Vessel> vessel_form() {
  return object<Vessel>(
      "vessel", vessel_fields(), build_vessel,
      {check_hull_sizes, check_air_drafts, check_sounder_depth, check_deviation_order,
       [](const Row& row) { check_date_needs_measured(row, "draft"); },
       [](const Row& row) { check_date_needs_measured(row, "air_draft"); }});
}

std::expected<Vessel, Problems> read_vessel(std::string_view file, std::string_view text) {
  static const auto form = vessel_form();  // made once
  return read_json(file, text, "the vessel file", form);
}

}  // namespace passage_brief
