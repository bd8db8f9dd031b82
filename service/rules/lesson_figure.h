// The figures a learner may be asked to work out, as a rules file names them.
#pragma once

#include <string>
#include <vector>

namespace passage_brief {

/// Each stands for what goes with it: blank one, and nothing that equals it or is it less an
/// allowance stays on the page.
enum class LessonFigure {
  under_keel,      // what it could be, the water the boat needs, and what the sounder should read
  stop_at,         // sounder reading at which a limit is reached
  clearance,       // of bridges and cables, what it could be, what the gauge should read, over_mast
  over_mast,       // at bridges, to spare at cables, and what they could be
  gauge_at_least,  // turn back below
  steer,           // true, magnetic and by compass
  leeway,
  reached_in  // time to a danger with engines stopped
};

/// As written in a rules file: "under_keel".
[[nodiscard]] std::string in_words(LessonFigure figure);

}  // namespace passage_brief
