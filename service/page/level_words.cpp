#include "page/level_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <optional>
#include <string>
#include <vector>

#include "brief/brief.h"
#include "page/figures.h"
#include "page/sheet_parts.h"
#include "units/known.h"

namespace passage_brief {
namespace {

// Less is not seen on a piling, nor in a printed figure.
constexpr Length kNothing = centimetres(0.5);

std::string how_it_counts(const SeenLevel& seen, const Margins& margins, const Reader& reader) {
  const Length above = seen.above_predicted;
  if (seen.by == ObservedBy::sounder) {
    if (above >= metres(0)) return "nothing is added";
    return reader.up(-above) + " less, off every depth; it raises no clearance";
  }
  const std::string for_a_while =
      may_favour(seen)
          ? fmt::format(" only at {} until {}, less by the minute", seen.station,
                        reader.clock.bare(seen.at + margins.observed_gain, Rounding::down))
          : std::string(" nowhere: so far from the prediction, read it again");
  if (above > metres(0)) {
    return fmt::format("water {} above prediction, off every clearance; it adds depth{}",
                       reader.up(above), for_a_while);
  }
  if (above == metres(0)) return "as predicted";
  const std::string lasts = seen.wind_over
                                ? fmt::format(" (fading over {} from {}, when its wind is over)",
                                              interval_text(margins.observed_loss, Rounding::up),
                                              reader.clock.bare(*seen.wind_over, Rounding::up))
                                : "";
  return fmt::format("water {} below prediction, off every depth{}; it adds clearance{}",
                     reader.up(-above), lasts, for_a_while);
}

/// The reading less the difference, both as printed: the difference is never printed less than it
/// is.
std::string expected_text(Length reading, Length expected, Units units) {
  const auto tenths = [units](Length length, Rounding way) {
    const double value = in_depth_unit(length, units);
    return printed_sum({value}, value, 1, way).total;
  };
  const Length difference = reading - expected;
  const long long sum = tenths(reading, Rounding::nearest) -
                        tenths(difference, difference < metres(0) ? Rounding::down : Rounding::up);
  return fmt::format("{} {}", rounded(static_cast<double>(sum) / 10, 1, Rounding::nearest),
                     depth_unit(units));
}

std::string one_reading(const SeenLevel& seen, const Margins& margins, const Reader& reader) {
  const Known<std::string> expected =
      join([&](Length read, Length should) { return expected_text(read, should, reader.units); },
           seen.reading, seen.expected);
  return fmt::format("{} {}, {} {} where {} was expected: {}.", seen.place,
                     reader.clock.bare(seen.at, Rounding::nearest), in_words(seen.by),
                     or_not_known(seen.reading, [&](Length read) { return reader.nearest(read); }),
                     or_not_known(expected, [](const std::string& text) { return text; }),
                     how_it_counts(seen, margins, reader));
}

}  // namespace

std::optional<Block> level_block(const Brief& brief, const Reader& reader) {
  const Findings& found = brief.findings;
  std::vector<std::string> said;
  for (const SeenLevel& seen : brief.observed) {
    said.push_back(one_reading(seen, found.margins, reader));
  }
  const LevelShift& shift = found.level_shift;
  if (shift.off_depths >= kNothing) {
    said.push_back("Air pressure takes up to " + reader.up(shift.off_depths) + " off depths.");
  }
  if (shift.off_clearances >= kNothing) {
    said.push_back("Air pressure takes up to " + reader.up(shift.off_clearances) +
                   " off clearances.");
  }
  if (shift.wind_may_shift) {
    said.push_back(fmt::format(
        "Wind of {} or more can hold the water up or down: not in the figures, \"could be\" is "
        "taken wider.",
        wind_text(found.margins.set_down_wind)));
  }
  if (said.empty()) return std::nullopt;
  return Block{.kind = BlockKind::weather,
               .lead = brief.observed.empty() ? "Water level" : "Observed",
               .main = fmt::format("{}", fmt::join(said, " "))};
}

}  // namespace passage_brief
