#include "units/quantity.h"

#include <gtest/gtest.h>

#include <string>
#include <type_traits>
#include <vector>

#include "given/units.h"

namespace passage_brief {
namespace {

using given::Addable;
using given::Subtractable;

template <class A, class B>
concept Ordered = requires(A a, B b) { a < b; };
template <class A, class B>
concept Multiplied = requires(A a, B b) { a* b; };

static_assert(Addable<Length, Length>);
static_assert(!Addable<Length, Speed>);
static_assert(!Addable<Length, Area>);
static_assert(!Addable<Length, double>);
static_assert(!Subtractable<Pressure, Length>);
static_assert(!Ordered<Length, Speed>);
static_assert(!Ordered<Length, double>);
static_assert(!Multiplied<Speed, Speed>);
static_assert(std::is_same_v<decltype(metres(1) * metres(1)), Area>);
static_assert(std::is_same_v<decltype(metres(1) / metres(1)), double>);
static_assert(!std::is_constructible_v<Length, double>);
static_assert(!std::is_default_constructible_v<Speed>);

struct UnitSize {
  std::string unit;
  double ours_si;
  double published_si;
};

// BIPM, The International System of Units, 9th ed. (2019), table 8: nautical mile 1852 m, tonne
// 1000 kg, hour 3600 s. NIST SP 811 (2008), appendix B.8: foot 0.3048 m, inch 0.0254 m, mile
// 1609.344 m, square foot 0.09290304 m2, mile an hour 0.44704 m/s: exact. Fathom: 6 international
// feet. hPa: SI prefix. From memory, all but the nautical mile.
TEST(Quantity, OneOfEachUnitIsItsPublishedSize) {
  const std::vector<UnitSize> sizes{{"m", metres(1).si(), 1},
                                    {"cm", centimetres(1).si(), 0.01},
                                    {"ft", feet(1).si(), 0.3048},
                                    {"in", inches(1).si(), 0.0254},
                                    {"fathom", fathoms(1).si(), 6 * 0.3048},
                                    {"km", kilometres(1).si(), 1000},
                                    {"nm", nautical_miles(1).si(), 1852},
                                    {"statute mile", kMetresInStatuteMile, 1609.344},
                                    {"m/s", metres_per_second(1).si(), 1},
                                    {"kn", knots(1).si(), 1852.0 / 3600},
                                    {"km/h", kilometres_per_hour(1).si(), 1000.0 / 3600},
                                    {"mph", miles_per_hour(1).si(), 0.44704},
                                    {"m2", square_metres(1).si(), 1},
                                    {"ft2", square_feet(1).si(), 0.09290304},
                                    {"hPa", hectopascals(1).si(), 100},
                                    {"t", tonnes(1).si(), 1000},
                                    {"kV", kilovolts(1).si(), 1000}};
  for (const UnitSize& size : sizes) {
    EXPECT_NEAR(size.ours_si, size.published_si, 1e-15 * size.published_si) << size.unit;
  }
}

// NIST SP 811 prints 1 kn = 0.5144444 m/s (from memory); half a unit of its last place.
TEST(Quantity, AKnotIsAsPrinted) { EXPECT_NEAR(knots(1).si(), 0.5144444, 5e-8); }

// 4 x 0.3048 = 1.2192 m. 12 in = 1 ft, 6 ft = 1 fathom, 5280 ft = 1 statute mile (definitions).
// Standard atmosphere 1013.25 hPa = 101325 Pa (ISO 2533).
TEST(Quantity, UnitsOfOneKindAgree) {
  EXPECT_DOUBLE_EQ(in_metres(feet(4)), 1.2192);
  EXPECT_DOUBLE_EQ(in_metres(inches(12)), in_metres(feet(1)));
  EXPECT_DOUBLE_EQ(in_metres(feet(6)), in_metres(fathoms(1)));
  EXPECT_DOUBLE_EQ(in_metres(feet(5280)), kMetresInStatuteMile);
  EXPECT_DOUBLE_EQ(hectopascals(1013.25).si(), 101325);
  EXPECT_DOUBLE_EQ(knots(10).si(), kilometres_per_hour(18.52).si());
}

TEST(Quantity, ReadInTheUnitItWasMadeIn) {
  for (const double v : {-273.15, -1.0, 0.0, 1e-9, 0.1, 1.0 / 3, 6.5, 1e6}) {
    EXPECT_DOUBLE_EQ(in_metres(metres(v)), v);
    EXPECT_DOUBLE_EQ(in_feet(feet(v)), v);
    EXPECT_DOUBLE_EQ(in_nautical_miles(nautical_miles(v)), v);
    EXPECT_DOUBLE_EQ(in_metres_per_second(metres_per_second(v)), v);
    EXPECT_DOUBLE_EQ(in_knots(knots(v)), v);
    EXPECT_DOUBLE_EQ(in_square_metres(square_metres(v)), v);
    EXPECT_DOUBLE_EQ(in_hectopascals(hectopascals(v)), v);
    EXPECT_DOUBLE_EQ(in_tonnes(tonnes(v)), v);
    EXPECT_DOUBLE_EQ(in_kilovolts(kilovolts(v)), v);
  }
}

TEST(Quantity, ReckonsLikeTheNumberInside) {
  Length sum = feet(3) + feet(2);
  sum += feet(1);
  sum -= feet(2);
  EXPECT_DOUBLE_EQ(in_feet(sum), 4);
  EXPECT_DOUBLE_EQ(in_feet(-feet(4)), -4);
  EXPECT_DOUBLE_EQ(in_feet(2 * feet(4) / 4), 2);
  EXPECT_DOUBLE_EQ(feet(6) / feet(4), 1.5);
  EXPECT_DOUBLE_EQ(in_square_metres(metres(3) * metres(4)), 12);
  EXPECT_LT(feet(3), metres(1));
  EXPECT_GT(metres(1), feet(3.28));
}

}  // namespace
}  // namespace passage_brief
