// Names in a script that runs from right to left, among figures that run from left to right.
//
// What follows such a name without a letter between takes its direction: "10:05" and "3.1 ft" would
// change places. Each such name is put in a directional isolate (Unicode Standard Annex 9, FSI to
// PDI), which shows nothing and leaves the rest of the line as it was written.
#pragma once

#include <string>
#include <string_view>

namespace passage_brief {

/// `text` is UTF-8 without isolates of its own (reading/file_text.h refuses them in files). Names
/// of several words are joined by no-break spaces, lest a line end within an isolate.
[[nodiscard]] std::string with_isolates(std::string_view text);

}  // namespace passage_brief
