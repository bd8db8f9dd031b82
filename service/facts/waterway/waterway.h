// A cruising ground as drawn: everything in one waterway file.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "facts/source.h"
#include "facts/waterway/bridge.h"
#include "facts/waterway/feature.h"
#include "facts/waterway/mark.h"
#include "facts/waterway/reach.h"
#include "units/known.h"
#include "units/zone.h"

namespace passage_brief {

/// A place to lie in safety, and what one can do there.
struct Refuge : Feature {
  PointShape shape;
  std::string what;
};

struct TurningPlace : Feature {
  std::variant<PointShape, PolygonShape> shape;
  Known<Length> width;
};

struct Note : Feature {
  Shape shape;
  std::string text;
};

struct Waterway {
  std::string name;
  Zone zone;
  Source source;
  Known<std::chrono::year_month_day> notices_read;
  FeatureStations stations;  // of the file: for features that name none, and for water outside them
  std::vector<Reach> reaches;
  std::vector<DepthArea> depth_areas;
  std::vector<Sounding> soundings;
  std::vector<Hazard> hazards;
  std::vector<Bar> bars;
  std::vector<Bridge> bridges;
  std::vector<OverheadCable> cables;
  std::vector<Mark> marks;
  std::vector<Berth> berths;
  std::vector<Refuge> refuges;
  std::vector<TurningPlace> turning_places;
  std::vector<Note> notes;
};

}  // namespace passage_brief
