// GRIB files against another decoder: grib_get_data of ecCodes' own tools prints every node of a
// field with its latitude and longitude, found by its own iterator over the grid; what our reader
// gives at those places, by its own arithmetic of rows and columns, must be the same wind. The
// unpacking of the numbers is the same library's in both.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <expected>
#include <filesystem>
#include <memory>
#include <numbers>
#include <string>
#include <vector>

#include "facts/weather/wind_series.h"
#include "fetch/asked.h"
#include "fetch/grib2_provider.h"
#include "given/csv_table.h"
#include "given/files.h"
#include "reading/problem.h"
#include "units/direction.h"
#include "units/position.h"

namespace passage_brief {
namespace {

struct Node {
  double latitude_deg;
  double longitude_deg;
  double value;
};

/// Every node of one field; empty where the tool is not installed.
std::vector<Node> nodes_of(const std::string& file, const std::string& field) {
  const std::string command =
      "grib_get_data -F %.9g -w shortName=" + field + " '" + file + "' 2> /dev/null";
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  std::vector<Node> nodes;
  if (!pipe) return nodes;
  std::array<char, 200> line{};
  while (std::fgets(line.data(), line.size(), pipe.get()) != nullptr) {
    Node node{};
    if (std::sscanf(line.data(), "%lf %lf %lf", &node.latitude_deg, &node.longitude_deg,
                    &node.value) == 3) {
      nodes.push_back(node);
    }
  }
  return nodes;
}

class GribDecoder : public testing::Test {
 protected:
  void SetUp() override {
    const char* reference = std::getenv("REFERENCE_DIR");
    if (reference == nullptr) GTEST_SKIP() << "the recorded references are not here";
    const auto file = std::filesystem::path(reference) / "formats" / "grib2" /
                      "gfs_2p5deg_f120_10u_10v_gust_prmsl.grib2";
    east_ = nodes_of(file, "10u");
    north_ = nodes_of(file, "10v");
    gust_ = nodes_of(file, "gust");
    if (east_.empty()) GTEST_SKIP() << "grib_get_data is not installed";
    bytes_ = given::contents_of(file);
    const auto read = wind_at(position_at(0, 0));
    if (!read && given::listed(read.error()).find("without ecCodes") != std::string::npos) {
      GTEST_SKIP() << "built without ecCodes";
    }
    ASSERT_EQ(east_.size(), 144U * 73U);  // 2.5 degrees all over the globe
    ASSERT_EQ(north_.size(), east_.size());
    ASSERT_EQ(gust_.size(), east_.size());
  }
  [[nodiscard]] std::expected<WindSeries, Problems> wind_at(Position place) const {
    Asked asked;
    asked.place = place;
    return grib2_winds("gfs", bytes_, asked);
  }
  /// Wind of east and north parts u and v; FROM = atan2(-u, -v).
  void expect_wind(Position place, double u, double v, double gust) const {
    const auto read = wind_at(place);
    ASSERT_TRUE(read) << given::listed(read.error());
    ASSERT_EQ(read->hours().size(), 1U);
    const WindHour& hour = read->hours().front();
    ASSERT_TRUE(hour.speed && hour.from && hour.gust);
    EXPECT_NEAR(hour.speed->si(), std::hypot(u, v), 1e-6);
    EXPECT_NEAR(hour.gust->si(), std::max(gust, std::hypot(u, v)), 1e-6);
    const double from_rad = hour.from->bearing.in_degrees() * std::numbers::pi / 180;
    EXPECT_NEAR(-std::hypot(u, v) * std::sin(from_rad), u, 1e-6);
    EXPECT_NEAR(-std::hypot(u, v) * std::cos(from_rad), v, 1e-6);
  }
  std::vector<Node> east_, north_, gust_;
  std::string bytes_;
};

TEST_F(GribDecoder, SameWindAtItsNodes) {
  // 101 and 144 columns have no divisor in common: all longitudes, and both poles, come up.
  for (std::size_t i = 0; i < east_.size(); i += 101) {
    SCOPED_TRACE(i);
    expect_wind(position_at(east_[i].latitude_deg, folded_180(east_[i].longitude_deg)),
                east_[i].value, north_[i].value, gust_[i].value);
  }
  expect_wind(position_at(-90, 0), east_[72 * 144].value, north_[72 * 144].value,
              gust_[72 * 144].value);
}

// Found by fuzzing, 2026-11: ecCodes ended the program, or read past the end, where the numbers of
// groups, widths and lengths (section 5, octets 20 to 49) did not fit the values. The section
// stands at octet 144 of the first message, which is 13583 octets long.
TEST_F(GribDecoder, DamagedPackingIsRefusedAndNoCrash) {
  const std::string whole = bytes_.substr(0, 13583);
  ASSERT_EQ(whole.substr(147, 1), std::string(1, 5));
  ASSERT_TRUE(whole.ends_with("7777"));
  const auto refused = [&](std::size_t octet, unsigned char value) {
    bytes_ = whole;
    bytes_[142 + octet] = static_cast<char>(value);
    return !wind_at(position_at(42.5, -70)).has_value();
  };
  for (const std::size_t octet : {20U, 32U, 33U, 34U, 35U, 36U, 37U, 38U, 43U, 47U, 48U, 49U}) {
    EXPECT_TRUE(refused(octet, 255)) << octet;
  }
  for (std::size_t octet = 6; octet <= 49; ++octet) {
    for (const unsigned char value : std::array<unsigned char, 4>{0, 1, 2, 127})
      static_cast<void>(refused(octet, value));
  }
}

// Between nodes: the mean of the four around by nearness for the wind, their greatest for the gust.
// One cell in the middle, one across 0 degrees (columns 143 and 0).
TEST_F(GribDecoder, TheMeanOfTheFourNodesAround) {
  for (const std::size_t west : {std::size_t{57}, std::size_t{143}}) {
    const std::size_t row = 20;  // 40 N
    const std::size_t east = (west + 1) % 144;
    ASSERT_EQ(east_[row * 144].latitude_deg, 40);
    const auto mean = [&](const std::vector<Node>& f) {
      const auto at = [&](std::size_t r, std::size_t c) { return f[r * 144 + c].value; };
      // 1.0 of 2.5 degrees to the east, 0.5 of 2.5 to the south.
      return 0.8 * (0.6 * at(row, west) + 0.4 * at(row, east)) +
             0.2 * (0.6 * at(row + 1, west) + 0.4 * at(row + 1, east));
    };
    double gust = 0;
    for (const std::size_t r : {row, row + 1}) {
      for (const std::size_t c : {west, east}) gust = std::max(gust, gust_[r * 144 + c].value);
    }
    expect_wind(position_at(39.5, folded_180(static_cast<double>(west) * 2.5 + 1)), mean(east_),
                mean(north_), gust);
  }
}

}  // namespace
}  // namespace passage_brief
