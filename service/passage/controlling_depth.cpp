#include "passage/controlling_depth.h"

#include <algorithm>
#include <chrono>
#include <string>
#include <vector>

#include "facts/tide/tide_station.h"
#include "facts/waterway/reach.h"
#include "passage/figure.h"
#include "passage/parts_told.h"
#include "passage/under_keel.h"
#include "plan/vessel.h"
#include "units/known.h"
#include "units/quantity.h"
#include "units/time.h"

namespace passage_brief {
namespace {

/// Under the keel in smooth water, from where the sounder measures.
Known<Length> shown_as_she_comes(Length under_keel, Length half_wave, Length offset, Span span) {
  // The tide rises or falls by less than a sounder's error meanwhile (our rule, no source).
  constexpr std::chrono::minutes kAsSheComes{30};
  if (span.end - span.begin > kAsSheComes) {
    return not_known("it is the lowest water of all the while she is there");
  }
  return under_keel + half_wave + offset;
}

GroundToTouch ground_to_touch(const ControllingDepth& c) {
  if (is_hard(c.source.bottom) || c.open_water) return GroundToTouch::hard;
  return c.answer.tide_is == Known<Trend>(Trend::rising) ? GroundToTouch::soft_and_rising
                                                         : GroundToTouch::soft;
}

}  // namespace

Working working_of(const std::string& name, const ControllingDepth& c, const Vessel& vessel) {
  Working working{"under the keel, " + name,
                  "charted depth + height of tide - draft - squat - half the wave or the wash",
                  {},
                  std::string("not known"),
                  "definition; squat and errors by the sources beside them"};
  const auto add = [&working](const std::string& what, const Known<Length>& value,
                              const std::string& source) {
    if (value.has_value()) working.inputs.push_back({what, *value, source});
  };
  add("charted depth", c.source.charted, c.source.name);
  if (c.answer.height_of_tide.has_value()) {
    working.inputs.push_back({"height of tide, lowest while over the place",
                              c.answer.height_of_tide->above_datum(), c.source.stations.tide});
    working.inputs.insert(working.inputs.end(), c.answer.beside.begin(), c.answer.beside.end());
  }
  add("water", c.answer.water, "worked out");
  add("draft", vessel.draft, "vessel");
  add("squat", c.answer.squat,
      c.answer.squat_left_out ? "left out: beyond the formulas, deep water"
                              : "Barrass; ICORELS (PIANC 121)");
  if (c.piece != nullptr) {
    working.inputs.push_back({"speed through the water", c.piece->piece.through_water,
                              c.piece->slowed_because.value_or("as chosen")});
  }
  add("half the wave, or the wash", c.half_wave, "forecast or rules");
  for (const ErrorTerm& error : c.answer.errors) {
    working.inputs.push_back(
        {"one standard deviation, " + error.name, error.one_sigma, error.source});
  }
  add("allowance for shoaling since the survey", c.answer.one_way, "rules");
  if (c.off_for_parts > metres(0)) {
    add("taken off for a part near it that is less sure", c.off_for_parts, "worked out");
  }
  add("could be as little as", c.answer.could_be,
      "figure - 1.645 x root of summed squares - what is allowed or taken off");
  if (c.answer.under_keel.has_value()) working.result = *c.answer.under_keel;
  return working;
}

Known<Length> sounder_shows(const ControllingDepth& c, const Known<Length>& offset) {
  return join(shown_as_she_comes, c.answer.under_keel, c.half_wave, offset, c.while_over);
}

std::vector<ToldPart> parts_told_of(const std::vector<ControllingDepth>& parts) {
  std::vector<PartOfWater> all;
  for (const ControllingDepth& part : parts) {
    const bool waves = part.open_water && part.half_wave.has_value();
    // The largest are about twice the significant height.
    all.push_back({ground_to_touch(part), *part.answer.under_keel, part.answer.could_be,
                   waves ? *part.half_wave * 4 / std::max(*part.answer.water, metres(0.01)) : 0});
  }
  return parts_told(all);
}

void take_could_be(const ToldPart& told, ControllingDepth& part) {
  if (part.answer.could_be.has_value() && told.could_be.has_value()) {
    part.off_for_parts = *part.answer.could_be - *told.could_be;
  }
  part.answer.could_be = told.could_be;
}

std::string ground_in_words(const ControllingDepth& c) {
  const Bottom bottom = c.source.bottom;
  if (bottom == Bottom::not_stated) return "ground not stated";
  switch (ground_to_touch(c)) {
    case GroundToTouch::hard:
      return is_hard(bottom) ? in_words(bottom) : "open water";
    case GroundToTouch::soft:
      return in_words(bottom) + ", tide not rising";
    case GroundToTouch::soft_and_rising:
      return in_words(bottom);
  }
  return in_words(bottom);
}

}  // namespace passage_brief
