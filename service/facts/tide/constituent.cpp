#include "facts/tide/constituent.h"

#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <ratio>
#include <string_view>
#include <utility>
#include <vector>

#include "units/check.h"
#include "units/direction.h"

namespace passage_brief {
namespace {

/// Which nodal correction of SP 98 applies. A compound constituent is made of powers of M2 and K1.
enum class Node { none, compound, o1, j1, oo1, k2, mm, mf, l2, m1 };

/// V0 = 15 t hour + s s + h h + p p + p1 p1 + constant, t hours after GMT midnight. Schureman's T
/// is the hour angle of the mean sun, 15 t + 180 degrees; the 180 stands in the constant here.
struct TabledConstituent {
  std::string_view name;
  double speed_deg_per_h;
  int hour, s, h, p, p1;
  int constant_deg;
  Node node;
  double of_m2, of_k1;  // Node::compound: multiples of their u; f is the product of powers
};

// clang-format off
constexpr std::array<TabledConstituent, kConstituents> kRows = {{
    {"M2", 28.984104, 2, -2, 2, 0, 0, 0, Node::compound, 1, 0},
    {"S2", 30, 2, 0, 0, 0, 0, 0, Node::none, 0, 0},
    {"N2", 28.43973, 2, -3, 2, 1, 0, 0, Node::compound, 1, 0},
    {"K1", 15.041069, 1, 0, 1, 0, 0, 90, Node::compound, 0, 1},
    {"M4", 57.96821, 4, -4, 4, 0, 0, 0, Node::compound, 2, 0},
    {"O1", 13.943035, 1, -2, 1, 0, 0, 270, Node::o1, 0, 0},
    {"M6", 86.95232, 6, -6, 6, 0, 0, 0, Node::compound, 3, 0},
    {"MK3", 44.025173, 3, -2, 3, 0, 0, 90, Node::compound, 1, 1},
    {"S4", 60, 4, 0, 0, 0, 0, 0, Node::none, 0, 0},
    {"MN4", 57.423832, 4, -5, 4, 1, 0, 0, Node::compound, 2, 0},
    {"NU2", 28.512583, 2, -3, 4, -1, 0, 0, Node::compound, 1, 0},
    {"S6", 90, 6, 0, 0, 0, 0, 0, Node::none, 0, 0},
    {"MU2", 27.968208, 2, -4, 4, 0, 0, 0, Node::compound, 1, 0},
    {"2N2", 27.895355, 2, -4, 2, 2, 0, 0, Node::compound, 1, 0},
    {"OO1", 16.139101, 1, 2, 1, 0, 0, 90, Node::oo1, 0, 0},
    {"LAM2", 29.455626, 2, -1, 0, 1, 0, 180, Node::compound, 1, 0},
    {"S1", 15, 1, 0, 0, 0, 0, 180, Node::none, 0, 0},
    {"M1", 14.496694, 1, -1, 1, 0, 0, 90, Node::m1, 0, 0},
    {"J1", 15.5854435, 1, 1, 1, -1, 0, 90, Node::j1, 0, 0},
    {"MM", 0.5443747, 0, 1, 0, -1, 0, 0, Node::mm, 0, 0},
    {"SSA", 0.0821373, 0, 0, 2, 0, 0, 0, Node::none, 0, 0},
    {"SA", 0.0410686, 0, 0, 1, 0, 0, 0, Node::none, 0, 0},
    {"MSF", 1.0158958, 0, 2, -2, 0, 0, 0, Node::mm, 0, 0},
    {"MF", 1.0980331, 0, 2, 0, 0, 0, 0, Node::mf, 0, 0},
    {"RHO", 13.471515, 1, -3, 3, -1, 0, 270, Node::o1, 0, 0},
    {"Q1", 13.398661, 1, -3, 1, 1, 0, 270, Node::o1, 0, 0},
    {"T2", 29.958933, 2, 0, -1, 0, 1, 0, Node::none, 0, 0},
    {"R2", 30.041067, 2, 0, 1, 0, -1, 180, Node::none, 0, 0},
    {"2Q1", 12.854286, 1, -4, 1, 2, 0, 270, Node::o1, 0, 0},
    {"P1", 14.958931, 1, 0, -1, 0, 0, 270, Node::none, 0, 0},
    {"2SM2", 31.015896, 2, 2, -2, 0, 0, 0, Node::compound, -1, 0},
    {"M3", 43.47616, 3, -3, 3, 0, 0, 180, Node::compound, 1.5, 0},
    {"L2", 29.528479, 2, -1, 2, -1, 0, 180, Node::l2, 0, 0},
    {"2MK3", 42.92714, 3, -4, 3, 0, 0, 270, Node::compound, 2, -1},
    {"K2", 30.082138, 2, 0, 2, 0, 0, 0, Node::k2, 0, 0},
    {"M8", 115.93642, 8, -8, 8, 0, 0, 0, Node::compound, 4, 0},
    {"MS4", 58.984104, 4, -2, 2, 0, 0, 0, Node::compound, 1, 0},
}};
// clang-format on

double sin_of_deg(double deg) { return std::sin(deg * std::numbers::pi / 180); }
double cos_of_deg(double deg) { return std::cos(deg * std::numbers::pi / 180); }
double tan_of_deg(double deg) { return std::tan(deg * std::numbers::pi / 180); }
double atan_deg(double x) { return std::atan(x) * 180 / std::numbers::pi; }
double atan2_deg(double y, double x) { return std::atan2(y, x) * 180 / std::numbers::pi; }

/// Mean longitudes in degrees: Moon, Sun, lunar perigee, Moon's node, solar perigee.
struct Astronomy {
  double s, h, p, N, p1;
};

/// Mean longitudes referred to 1900 January 0.5 (Explanatory Supplement to the Ephemeris, 1961;
/// from memory). T: Julian centuries of 36525 days from 1899-12-31 12:00 GMT.
Astronomy astronomy_at(double T) {
  return {
      .s = 270.434358 + T * (481267.88314137 + T * (-0.001133 + T * 1.9e-6)),
      .h = 279.69668 + T * (36000.768930485 + T * 3.03e-4),
      .p = 334.329653 + T * (4069.0340329575 + T * (-0.010325 - T * 1.2e-5)),
      .N = 259.183275 + T * (-1934.1420083 + T * (0.002078 + T * 2e-6)),
      .p1 = 281.220844 + T * (1.719175 + T * (4.53e-4 + T * 3e-6)),
  };
}

struct Nodal {
  double f;
  double u;  // degrees
};

/// The Moon's orbit at one time: its inclination I to the equator and the arcs that SP 98 calls nu,
/// xi, nu', 2 nu'' and P (degrees).
struct Orbit {
  double I, nu, xi, nu_prime, two_nu_second, P;
};

Orbit orbit_at(const Astronomy& mean) {
  const double N = folded_180(mean.N);
  const double I = std::acos(0.91370 - 0.03569 * cos_of_deg(N)) * 180 / std::numbers::pi;
  const double a = atan_deg(1.01883 * tan_of_deg(N / 2));
  const double b = atan_deg(0.64412 * tan_of_deg(N / 2));
  const double nu = a - b;
  const double xi = N - (a + b);
  const double sin_2I = sin_of_deg(2 * I);
  const double sin2_I = sin_of_deg(I) * sin_of_deg(I);
  return {.I = I,
          .nu = nu,
          .xi = xi,
          .nu_prime = atan_deg(sin_2I * sin_of_deg(nu) / (sin_2I * cos_of_deg(nu) + 0.3347)),
          .two_nu_second =
              atan_deg(sin2_I * sin_of_deg(2 * nu) / (sin2_I * cos_of_deg(2 * nu) + 0.0727)),
          .P = mean.p - xi};
}

// Factors f and phases u as in SP 98, formulas 73 to 79, 207, 215, 227 and 235 (numbers from
// memory).

Nodal nodal_of_m2(const Orbit& o) {
  return {std::pow(cos_of_deg(o.I / 2), 4) / 0.9154, 2 * o.xi - 2 * o.nu};
}

Nodal nodal_of_k1(const Orbit& o) {
  const double sin_2I = sin_of_deg(2 * o.I);
  return {std::sqrt(0.8965 * sin_2I * sin_2I + 0.6001 * sin_2I * cos_of_deg(o.nu) + 0.1006),
          -o.nu_prime};
}

Nodal nodal_of_k2(const Orbit& o) {
  const double sin2_I = sin_of_deg(o.I) * sin_of_deg(o.I);
  return {std::sqrt(19.0444 * sin2_I * sin2_I + 2.7702 * sin2_I * cos_of_deg(2 * o.nu) + 0.0981),
          -o.two_nu_second};
}

Nodal nodal_of_o1(const Orbit& o) {
  const double cos_half = cos_of_deg(o.I / 2);
  return {sin_of_deg(o.I) * cos_half * cos_half / 0.3800, 2 * o.xi - o.nu};
}

Nodal nodal_of_l2(const Orbit& o) {
  const double tan2_half = std::pow(tan_of_deg(o.I / 2), 2);
  const Nodal m2 = nodal_of_m2(o);
  const double R = atan_deg(sin_of_deg(2 * o.P) / (1 / (6 * tan2_half) - cos_of_deg(2 * o.P)));
  return {m2.f * std::sqrt(1 - 12 * tan2_half * cos_of_deg(2 * o.P) + 36 * tan2_half * tan2_half),
          m2.u - R};
}

/// NOAA's own mixture: V0 without p, u with Q at mid-year, yet the speed of the term without p1.
Nodal nodal_of_m1(const Orbit& o) {
  const double Q = atan2_deg(0.483 * sin_of_deg(o.P), cos_of_deg(o.P));
  return {nodal_of_o1(o).f * std::sqrt(2.310 + 1.435 * cos_of_deg(2 * o.P)), o.xi - o.nu + Q};
}

Nodal nodal(const TabledConstituent& row, const Orbit& o) {
  const double sin2_I = sin_of_deg(o.I) * sin_of_deg(o.I);
  switch (row.node) {
    case Node::none:
      return {1, 0};
    case Node::compound: {
      const Nodal m2 = nodal_of_m2(o);
      const Nodal k1 = nodal_of_k1(o);
      return {std::pow(m2.f, std::abs(row.of_m2)) * std::pow(k1.f, std::abs(row.of_k1)),
              row.of_m2 * m2.u + row.of_k1 * k1.u};
    }
    case Node::o1:
      return nodal_of_o1(o);
    case Node::j1:
      return {sin_of_deg(2 * o.I) / 0.7214, -o.nu};
    case Node::oo1:
      return {sin_of_deg(o.I) * std::pow(sin_of_deg(o.I / 2), 2) / 0.0164, -2 * o.xi - o.nu};
    case Node::k2:
      return nodal_of_k2(o);
    case Node::mm:
      return {(2.0 / 3 - sin2_I) / 0.5021, 0};
    case Node::mf:
      return {sin2_I / 0.1578, -2 * o.xi};
    case Node::l2:
      return nodal_of_l2(o);
    case Node::m1:
      return nodal_of_m1(o);
  }
  return {1, 0};
}

double julian_centuries(std::chrono::duration<double, std::ratio<86400>> after_1970) {
  const std::chrono::sys_days begin = std::chrono::year(1899) / 12 / 31;
  return (after_1970.count() - static_cast<double>(begin.time_since_epoch().count()) - 0.5) / 36525;
}

}  // namespace

std::optional<Constituent> Constituent::named(std::string_view name) {
  if (name == "RHO1") name = "RHO";
  if (name == "LDA2") name = "LAM2";
  for (std::size_t i = 0; i < kRows.size(); ++i) {
    if (kRows[i].name == name) return Constituent(i);
  }
  return std::nullopt;
}

std::vector<Constituent> Constituent::all() {
  std::vector<Constituent> all;
  for (std::size_t i = 0; i < kConstituents; ++i) all.push_back(Constituent(i));
  return all;
}

std::string_view Constituent::name() const { return kRows[index_].name; }
double Constituent::speed_deg_per_h() const { return kRows[index_].speed_deg_per_h; }

YearlyArguments work_out_yearly_arguments(int year) {
  using Days = std::chrono::duration<double, std::ratio<86400>>;
  const std::chrono::sys_days begin = std::chrono::year(year) / 1 / 1;
  const std::chrono::sys_days next = std::chrono::year(year + 1) / 1 / 1;
  const Days first_day = begin.time_since_epoch();
  const Days middle = first_day + Days(next - begin) / 2;
  const Astronomy at_begin = astronomy_at(julian_centuries(first_day));
  const Orbit at_middle = orbit_at(astronomy_at(julian_centuries(middle)));
  const auto argument = [&](const TabledConstituent& row) {
    const double V0 = row.s * at_begin.s + row.h * at_begin.h + row.p * at_begin.p +
                      row.p1 * at_begin.p1 + row.constant_deg;
    const Nodal node = nodal(row, at_middle);
    return YearlyArgument{degrees(folded_360(V0)), degrees(node.u), node.f};
  };
  return [&]<std::size_t... i>(std::index_sequence<i...>) {
    return YearlyArguments{argument(kRows[i])...};
  }(std::make_index_sequence<kConstituents>());
}

const YearlyArguments& yearly_arguments(int year) {
  check(year >= kFirstTidalYear && year <= kLastTidalYear, "a year with nodal corrections");
  static const std::vector<YearlyArguments> years = [] {
    std::vector<YearlyArguments> all;
    for (int y = kFirstTidalYear; y <= kLastTidalYear; ++y) {
      all.push_back(work_out_yearly_arguments(y));
    }
    return all;
  }();
  return years[static_cast<std::size_t>(year - kFirstTidalYear)];
}

}  // namespace passage_brief
