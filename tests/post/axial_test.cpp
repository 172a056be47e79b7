// Currents along the axis against closed forms.
#include "post/axial.hpp"
#include "solver/problem.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Matchers::Message;

namespace
{

constexpr double pi = std::numbers::pi;
constexpr double copper = 58e6, a = 1e-3;

/// Frequency at which a copper wire of radius a has x = a sqrt(omega mu0 sigma).
double frequency_of(double x)
{
  return x * x / (a * a * solver::mu0 * copper) / (2.0 * pi);
}

} // namespace

TEST_CASE("a round wire's resistance and inductance follow Kelvin's skin effect", "[axial]")
{
  // NBS Circular 74, Re and Im of z J0(z) / (2 J1(z)); 7 decimals computed from it.
  struct Row
  {
    double x, resistance, inductance;
  };
  const post::WireResult still = post::wire_at_rest({{a, 1.0, copper}});
  CHECK(still.inductance == Approx(50e-9).epsilon(1e-14)); // mu0 / 8 pi
  CHECK(still.resistance == Approx(1.0 / (copper * pi * a * a)).epsilon(1e-14));
  for (const Row& row : {Row{1.0, 1.0051867, 0.9974075}, Row{2.0, 1.0781587, 0.9611351},
                         Row{3.0, 1.3180948, 0.8451665}, Row{5.0, 2.0427251, 0.5559681},
                         Row{10.0, 3.7985761, 0.2816193}, Row{50.0, 17.9303197, 0.0565598}})
  {
    INFO("x " << row.x);
    const post::WireResult at = post::wire_at({{a, 1.0, copper}}, frequency_of(row.x));
    CHECK(std::abs(at.resistance / still.resistance - row.resistance) < 5.1e-8);
    CHECK(std::abs(at.inductance / still.inductance - row.inductance) < 5.1e-8);
  }
}

TEST_CASE("far above the skin effect's onset a wire's surface carries all", "[axial]")
{
  // R / R0 = x / (2 sqrt 2) + 1/4 + O(1/x), and R = omega L to O(1/x^2).
  const double x = 2000.0, f = frequency_of(x);
  const post::WireResult at = post::wire_at({{a, 1.0, copper}}, f);
  const double R0 = 1.0 / (copper * pi * a * a);
  CHECK(at.resistance / R0 == Approx(x / (2.0 * std::sqrt(2.0)) + 0.25).epsilon(1e-6));
}

TEST_CASE("a coating that does not conduct adds mu0 (mu - 1) ln(b/a) / 2 pi to the air's",
          "[axial]")
{
  const double b = 3e-3, f = 1e5;
  const std::complex<double> mu{10.0, -3.0};
  const double per_mu = solver::mu0 * std::log(b / a) / (2.0 * pi);
  const post::WireResult bare = post::wire_at({{a, 1.0, copper}}, f),
                         coated = post::wire_at({{a, 1.0, copper}, {b, mu, 0.0}}, f);
  CHECK(coated.inductance - bare.inductance == Approx(10.0 * per_mu).epsilon(1e-12));
  CHECK(coated.resistance - bare.resistance == Approx(2.0 * pi * f * 3.0 * per_mu).epsilon(1e-10));
  const post::WireResult still = post::wire_at_rest({{a, 1.0, copper}, {b, 10.0, 0.0}});
  REQUIRE(still.layer_gains.size() == 2);
  CHECK(still.layer_gains[1] == Approx(10.0 * per_mu).epsilon(1e-13));
}

TEST_CASE("layers of the same material are one wire", "[axial]")
{
  const double f = frequency_of(7.0);
  const post::WireResult whole = post::wire_at({{a, 1.0, copper}}, f),
                         split = post::wire_at({{0.3 * a, 1.0, copper}, {a, 1.0, copper}}, f);
  CHECK(split.resistance == Approx(whole.resistance).epsilon(1e-12));
  CHECK(split.inductance == Approx(whole.inductance).epsilon(1e-12));
  const post::WireResult rest = post::wire_at_rest({{0.3 * a, 1.0, copper}, {a, 1.0, copper}});
  CHECK(rest.inductance == Approx(50e-9).epsilon(1e-13));
}

TEST_CASE("at low frequency a wire of several conducting layers is the one at rest", "[axial]")
{
  const std::vector<post::WireLayer> layers = {
      {a, 1.0, copper}, {1.5 * a, 40.0, 1e6}, {2.0 * a, 5.0, 0.0}, {2.2 * a, 1.0, copper}};
  const post::WireResult still = post::wire_at_rest(layers), slow = post::wire_at(layers, 1e-3);
  CHECK(slow.resistance == Approx(still.resistance).epsilon(1e-9));
  CHECK(slow.inductance == Approx(still.inductance).epsilon(1e-9));
}

TEST_CASE("a toroid of rectangular section has mu0 mu N^2 h ln(D/d) / 2 pi", "[axial]")
{
  // IEC 60205 (from memory): OD 25, ID 15, h 10 mm, mu 2300.
  const double integral = post::toroid_integral(mesh::rectangle(7.5e-3, 12.5e-3, -5e-3, 5e-3));
  CHECK(integral == Approx(10e-3 * std::log(25.0 / 15.0)).epsilon(1e-13));
  const post::ToroidResult ring = post::toroid("ring", 20.0, integral, {2300.0, -100.0}, 1e4);
  CHECK(ring.inductance == Approx(400.0 * 2349.79787e-9).epsilon(1e-8));
  CHECK(ring.resistance == Approx(2.0 * pi * 1e4 * ring.inductance * 100.0 / 2300.0));
}

TEST_CASE("a toroid of round section has 2 pi (R - sqrt(R^2 - r^2)) for its section", "[axial]")
{
  const double R = 10e-3, r = 2e-3;
  CHECK(post::toroid_integral(mesh::circle({R, 0.0}, r)) ==
        Approx(2.0 * pi * (R - std::sqrt(R * R - r * r))).epsilon(1e-12));
}

TEST_CASE("a slanting edge and one nearly upright agree on both sides of the series", "[axial]")
{
  // The section between z = 0 and a line from (r1, 0) to (r2, h) and back to the axis side: exact
  // by parts, int (ln r(z) - ln r0) dz.
  const double r0 = 5e-3, h = 4e-3;
  for (const double r2 : {5.0e-3 * 1.0099, 5.0e-3 * 1.0101, 6e-3})
  {
    const std::vector<mesh::Point> corners = {{r0, 0.0}, {r0, h}, {r2, h}};
    // r(z) = r0 + (r2 - r0) z / h
    const double exact = h * (r2 * std::log(r2 / r0) / (r2 - r0) - 1.0);
    CHECK(post::toroid_integral(mesh::polygon(corners)) == Approx(exact).epsilon(1e-9));
  }
}

TEST_CASE("a wire that cannot be is refused", "[axial]")
{
  CHECK_THROWS_MATCHES(post::wire_at_rest({{a, 1.0, copper}, {a, 1.0, 0.0}}), std::invalid_argument,
                       Message("every layer of a wire must lie around the one before"));
  CHECK_THROWS_MATCHES(post::wire_at_rest({{a, 1.0, 0.0}}), std::invalid_argument,
                       Message("no layer of the wire conducts"));
  CHECK_THROWS_MATCHES(post::wire_at({{a, 1.0, copper}}, 0.0), std::invalid_argument,
                       Message("a frequency must be positive"));
}
