#include "given/scan.h"

#include <gtest/gtest.h>

#include <vector>

#include "brief/departure_windows.h"
#include "brief/minute_scan.h"

namespace passage_brief::given {

std::size_t good_minutes_alike(const DepartureJudge& judge, Span span, std::size_t step) {
  std::size_t good = 0;
  const Minutes all = minutes_of(span);
  const std::vector<MinuteFound> quick = scan_minutes(judge, all);
  for (std::size_t i = 0; i < all.count; ++i) {
    const bool edge = (i > 0 && quick[i - 1].good != quick[i].good) ||
                      (i + 1 < all.count && quick[i + 1].good != quick[i].good);
    if (!edge && i % step != 0) continue;
    EXPECT_EQ(judge.at(all.at(i)).good, quick[i].good) << to_rfc3339(all.at(i));
    good += quick[i].good ? 1 : 0;
  }
  return good;
}

}  // namespace passage_brief::given
