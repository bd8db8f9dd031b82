// `check --plan`: a waterway drawn from above, to be held beside the chart it was taken from.
#pragma once

#include <string>
#include <vector>

#include "page/page_choice.h"
#include "reading/problem.h"

namespace passage_brief {

/// Draws the one waterway among the files, with the route, vessel and rules where they are there
/// (at most one of each), and writes it as SVG. The problems, if it cannot.
[[nodiscard]] Problems write_plan(const std::vector<std::string>& files,
                                  const std::string& svg_file, Units units);

}  // namespace passage_brief
