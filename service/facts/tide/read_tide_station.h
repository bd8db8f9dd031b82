// Tide station files: JSON of kind "tide station".
//
// A station is worked out from its own constituents, from another station's high and low waters and
// offsets, from a published series of heights, or from a published table of high and low waters.
// What is left out or null is not known; no datum and no uncertainty is ever assumed.
#pragma once

#include <expected>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "facts/tide/subordinate_curve.h"
#include "facts/tide/tide_station.h"
#include "reading/form.h"
#include "reading/problem.h"
#include "units/known.h"

namespace passage_brief {

/// A station that stands on another one, until the other is found.
struct SubordinateTo {
  std::string reference;  // the other station's name
  Known<TideOffsets> offsets;
};

/// One file as read; link_tide_stations makes stations of them.
struct TideStationFile {
  std::string file;
  TideStationParts parts;  // the curve of a subordinate station is not known yet
  std::optional<SubordinateTo> subordinate_to;
  std::string number = {};  // its publisher's number, which a subordinate station may name it by
};

/// The field table.
[[nodiscard]] Form<TideStationFile> tide_station();

[[nodiscard]] std::expected<TideStationFile, Problems> read_tide_station(std::string_view file,
                                                                         std::string_view text);

/// The stations of all the files, in their order, each subordinate one joined to its reference.
/// Problems: a name used twice; a reference that is not among the files, is subordinate itself, has
/// only a series of heights, or lacks the plane; offsets that change the order of high and low
/// water.
[[nodiscard]] std::expected<std::vector<TideStation>, Problems> link_tide_stations(
    std::vector<TideStationFile> files);

}  // namespace passage_brief
