// Not known is never safe: whatever single fact is taken out of the demo, the verdict never rises.
//
// Taken out, one at a time: every property of every feature of the waterway, every value of the
// stations and of the forecast, whole forecast hours, and the features that carry a depth (what
// they leave is a hole in the depths). Left alone: geometry, and features whose absence nobody
// could notice from the file - a hazard, a mark or a bridge that is not drawn is not there for any
// program. Left out (the key is gone) and null are both tried. A file the program then refuses has
// not raised anything.
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "brief/judge_departure.h"
#include "cli/input_files.h"
#include "given/csv_table.h"
#include "given/demo.h"
#include "given/rules.h"
#include "passage/route_survey.h"
#include "rules/verdict.h"
#include "units/clock.h"
#include "units/time.h"

namespace passage_brief {
namespace {

using given::permission;

namespace fs = std::filesystem;
using nlohmann::json;

/// 07:00 at the demo's place.
const FixedClock kClock(*parse_instant("2026-06-14T11:00:00Z"));

Verdict verdict_of(const Inputs& inputs) {
  const RouteSurvey survey(inputs.plan, inputs.facts.waterway, inputs.rules.margins);
  return judge_departure(survey, inputs.plan, inputs.facts, inputs.rules).judgement.verdict;
}

bool carries_depth(const json& feature) {
  const std::string kind = feature.at("properties").at("feature");
  return kind == "reach" || kind == "depth_area";
}

/// The places of a file a fact can be taken from.
void add_places(const json& value, const json::json_pointer& at,
                std::vector<json::json_pointer>& all) {
  if (value.is_object()) {
    for (const auto& [key, member] : value.items()) {
      if (key == "geometry" || key == "type" || key == "kind" || key == "feature") continue;
      all.push_back(at / key);
      add_places(member, at / key, all);
    }
  } else if (value.is_array()) {
    for (std::size_t i = 0; i < value.size(); ++i) {
      if (value[i].is_object()) {
        const bool feature = value[i].contains("properties");
        if (!feature || carries_depth(value[i])) all.push_back(at / i);
      } else if (value[i].is_number()) {
        all.push_back(at / i);
      }
      add_places(value[i], at / i, all);
    }
  }
}

/// The file without what stands at a place: the key gone (an entry of a list of things), or null.
std::vector<json> without(const json& whole, const json::json_pointer& place) {
  std::vector<json> changed;
  const json& parent = whole.at(place.parent_pointer());
  const bool number_in_a_row = parent.is_array() && whole.at(place).is_number();
  if (!number_in_a_row) {
    json gone = whole;
    json& of = gone.at(place.parent_pointer());
    if (of.is_object()) {
      of.erase(place.back());
    } else {
      of.erase(std::stoul(place.back()));
    }
    changed.push_back(std::move(gone));
  }
  if (number_in_a_row || parent.is_object()) {
    json null = whole;
    null.at(place) = nullptr;
    changed.push_back(std::move(null));
  }
  return changed;
}

class RemovedFacts : public ::testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    files_ = given::demo_files("renters", GetParam());
    const auto inputs = read_inputs(files_, kClock);
    ASSERT_TRUE(inputs.has_value());
    base_ = verdict_of(*inputs);
    ASSERT_NE(base_, Verdict::within_limits) << "nothing could rise above it";
    folder_ = fs::temp_directory_path() / ("passage-brief-removed-" + std::to_string(::getpid()));
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  /// Takes every fact out of one of the files in turn.
  void take_out_of(std::string& file) {
    const std::string original = file;
    const json whole = json::parse(given::contents_of(original));
    std::vector<json::json_pointer> places;
    add_places(whole, json::json_pointer(), places);
    ASSERT_GT(places.size(), 5u) << original;
    file = folder_ / "changed.json";
    for (const json::json_pointer& place : places) {
      for (const json& changed : without(whole, place)) {
        if (turn_++ % every_ != 0) continue;
        std::ofstream(file) << changed;
        const auto inputs = read_inputs(files_, kClock);
        if (!inputs.has_value()) {
          ++refused_;
          continue;
        }
        ++judged_;
        const Verdict verdict = verdict_of(*inputs);
        EXPECT_LE(permission(verdict), permission(base_))
            << fs::path(original).filename() << " without " << place << ": " << in_words(verdict);
      }
    }
    file = original;
  }

  InputFiles files_;
  fs::path folder_;
  Verdict base_ = Verdict::within_limits;
  // Every fact takes minutes with the sanitizers: one in twelve then, all where EVERY_FACT is set.
  int every_ = std::getenv("EVERY_FACT") != nullptr ? 1 : 12;
  int turn_ = 0;
  int judged_ = 0;
  int refused_ = 0;
};

TEST_P(RemovedFacts, NeverRaiseTheVerdict) {
  take_out_of(files_.waterway);
  for (std::string& tide : files_.tides) take_out_of(tide);
  for (std::string& current : files_.currents) take_out_of(current);
  for (std::string& wind : files_.winds) take_out_of(wind);
  EXPECT_GT(judged_, 500 / every_);
  std::cout << judged_ << " files judged, " << refused_ << " refused\n";
}

/// A whole file left at home is no better.
TEST_P(RemovedFacts, NorDoesAFileLeftOut) {
  for (auto list : {&InputFiles::tides, &InputFiles::currents, &InputFiles::winds}) {
    for (std::size_t i = 0; i < (files_.*list).size(); ++i) {
      InputFiles fewer = files_;
      (fewer.*list).erase((fewer.*list).begin() + static_cast<std::ptrdiff_t>(i));
      const auto inputs = read_inputs(fewer, kClock);
      if (!inputs.has_value()) continue;  // a subordinate station without its reference
      EXPECT_LE(permission(verdict_of(*inputs)), permission(base_));
    }
  }
}

// The demo's departure with cautions and the one outside limits.
INSTANTIATE_TEST_SUITE_P(Demo, RemovedFacts,
                         ::testing::Values("2026-06-14T08:20", "2026-06-14T16:30"));

}  // namespace
}  // namespace passage_brief
