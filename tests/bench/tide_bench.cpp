// Heights of tide from harmonic constants: a month at 6 minutes, and one by one.
#include <benchmark/benchmark.h>

#include <chrono>
#include <cmath>
#include <fstream>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "facts/tide/read_tide_station.h"
#include "facts/tide/tide_station.h"
#include "ratio.h"

namespace passage_brief::bench {
namespace {

constexpr std::size_t kCount = 30 * 24 * 10;
constexpr std::chrono::minutes kStep{6};
const Instant kBegin = std::chrono::sys_days(std::chrono::year(2026) / 6 / 1);

std::string station_text() {
  std::ifstream file(PROJECT_DIR "/tests/given/stations/san_francisco.tide.json");
  return {std::istreambuf_iterator<char>(file), {}};
}

TideStation station() {
  const auto file = read_tide_station("san_francisco.tide.json", station_text());
  if (!file) throw std::runtime_error("the station is not read");
  return link_tide_stations({*file}).value().front();
}

/// The station's terms as plain numbers: amplitude, and cosine and sine of the turn in one step.
struct Terms {
  std::vector<double> re, im, c, s, turn;
};

Terms terms() {
  Terms all;
  const nlohmann::json rows = nlohmann::json::parse(station_text())["constituents"]["rows"];
  for (const nlohmann::json& row : rows) {
    const double amplitude = row[1];
    if (amplitude == 0) continue;  // the station leaves them out too
    const double turn = 0.05 + 0.01 * static_cast<double>(all.re.size());
    all.re.push_back(amplitude);
    all.im.push_back(0);
    all.c.push_back(std::cos(turn));
    all.s.push_back(std::sin(turn));
    all.turn.push_back(turn);
  }
  return all;
}

/// Nothing but the sum of the terms, each turned on by one complex product a step.
double bare_rotations(Terms z, std::size_t count) {
  const std::size_t n = z.re.size();
  double total = 0;
  for (std::size_t k = 0; k < count; ++k) {
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) {
      sum += z.re[i];
      const double re = z.re[i] * z.c[i] - z.im[i] * z.s[i];
      z.im[i] = z.re[i] * z.s[i] + z.im[i] * z.c[i];
      z.re[i] = re;
    }
    total += sum;
  }
  return total;
}

double bare_cosines(const Terms& z, double t) {
  double sum = 0;
  for (std::size_t i = 0; i < z.re.size(); ++i) sum += z.re[i] * std::cos(z.turn[i] * t);
  return sum;
}

}  // namespace

void add_tides(Plan& plan) {
  const auto bare = std::make_shared<const Terms>(terms());
  const auto tide = std::make_shared<const TideStation>(station());
  plan.floor("bare rotations of as many terms",
             [bare] { benchmark::DoNotOptimize(bare_rotations(*bare, kCount)); });
  plan.measure({"7200 heights on a timeline", "bare rotations of as many terms", 0.8},
               [tide] { benchmark::DoNotOptimize(tide->heights(kBegin, kStep, kCount)); });
  plan.floor("as many bare cosines", [bare, t = 0.0]() mutable {
    t += 0.1;
    benchmark::DoNotOptimize(bare_cosines(*bare, t));
  });
  plan.measure({"one height alone", "as many bare cosines"}, [tide, at = kBegin]() mutable {
    at += std::chrono::seconds(37);
    if (at > kBegin + std::chrono::days(90)) at = kBegin;
    benchmark::DoNotOptimize(tide->height(at));
  });
}

}  // namespace passage_brief::bench
