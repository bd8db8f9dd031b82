// How the reader wants the page: one system of units and one size of paper.
#pragma once

namespace passage_brief {

/// us: feet; metric: metres. Miles are nautical and speeds are knots in both.
enum class Units { us, metric };

/// letter: 8.5 in by 11 in (ANSI A); a4: 210 mm by 297 mm (ISO 216).
enum class Paper { letter, a4 };

struct PageChoice {
  Units units;
  Paper paper;
};

}  // namespace passage_brief
