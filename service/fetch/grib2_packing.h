// Whether a GRIB2 message holds what it says it packs: its sections inside its length, and as many
// bits as its groups need. ecCodes takes that for granted, and reads past the end where it is not
// so.
//
// WMO Manual on Codes, volume I.2 (FM 92 GRIB), templates 5.0, 5.2, 5.3, 7.2 and 7.3 (from memory).
// Other packings (images, CCSDS) are left to the libraries that unpack them, which look themselves.
#pragma once

#include <string_view>

namespace passage_brief {

/// message: from "GRIB" to "7777".
[[nodiscard]] bool holds_what_it_packs(std::string_view message);

}  // namespace passage_brief
