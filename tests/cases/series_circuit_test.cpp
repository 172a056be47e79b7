// Conversions of meter readings against the complex impedance itself, and half-widths against
// differences. Tolerances: round-off; for differences their own error, with the step beside it.
#include "cases/series_circuit.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <complex>
#include <numbers>

namespace
{

using cases::AsRead;
using cases::Circuit;
using cases::in_series;
using cases::Loss;

constexpr double frequency = 10e3;
constexpr double omega = 2.0 * std::numbers::pi * frequency;

AsRead as_read(Circuit circuit, double inductance, Loss loss, double value)
{
  return {frequency, circuit, {inductance, 0.0}, loss, {value, 0.0}};
}

/// Z of L and R side by side, from the sum of admittances.
std::complex<double> side_by_side(double inductance, double resistance)
{
  using namespace std::complex_literals;
  return 1.0 / (1.0 / resistance + 1.0 / (1i * omega * inductance));
}

} // namespace

TEST_CASE("a parallel circuit becomes the series circuit of the same impedance", "[reading]")
{
  for (const double R : {0.5, 8.0, 300.0, 1e6})
  {
    CAPTURE(R);
    const std::complex<double> Z = side_by_side(120e-6, R);
    const auto series = in_series(as_read(Circuit::parallel, 120e-6, Loss::resistance, R));
    CHECK(series.inductance == Approx(Z.imag() / omega).epsilon(1e-12));
    REQUIRE(series.resistance);
    CHECK(*series.resistance == Approx(Z.real()).epsilon(1e-12));
  }
}

TEST_CASE("Q and D tell the same of a circuit as its resistance", "[reading]")
{
  const double L = 120e-6, R_parallel = 40.0, R_series = 0.8;
  const double Q_parallel = R_parallel / (omega * L), Q_series = omega * L / R_series;
  const auto same = [&](const AsRead& one, const AsRead& other)
  {
    CHECK(in_series(one).inductance == Approx(in_series(other).inductance).epsilon(1e-14));
    CHECK(*in_series(one).resistance == Approx(*in_series(other).resistance).epsilon(1e-14));
  };
  same(as_read(Circuit::parallel, L, Loss::quality_factor, Q_parallel),
       as_read(Circuit::parallel, L, Loss::resistance, R_parallel));
  same(as_read(Circuit::parallel, L, Loss::dissipation_factor, 1.0 / Q_parallel),
       as_read(Circuit::parallel, L, Loss::resistance, R_parallel));
  same(as_read(Circuit::series, L, Loss::quality_factor, Q_series),
       as_read(Circuit::series, L, Loss::resistance, R_series));
  same(as_read(Circuit::series, L, Loss::dissipation_factor, 1.0 / Q_series),
       as_read(Circuit::series, L, Loss::resistance, R_series));
}

TEST_CASE("a series reading passes unchanged, and without a loss no resistance is made up",
          "[reading]")
{
  const auto alone = in_series(as_read(Circuit::series, 120e-6, Loss::none, 0.0));
  CHECK(alone.inductance == 120e-6);
  CHECK_FALSE(alone.resistance);
  const auto lossy = in_series(as_read(Circuit::series, 120e-6, Loss::resistance, 0.8));
  CHECK(lossy.inductance == 120e-6);
  CHECK(*lossy.resistance == Approx(0.8).epsilon(1e-14));
  const auto lossless =
      in_series(as_read(Circuit::parallel, 120e-6, Loss::dissipation_factor, 0.0));
  CHECK(lossless.inductance == 120e-6);
  CHECK(*lossless.resistance == 0.0);
}

TEST_CASE("half-widths are those of differences, added as for the worst case", "[reading]")
{
  struct Given
  {
    Circuit circuit;
    Loss loss;
    double value;
  };
  for (const Given& given : {Given{Circuit::series, Loss::resistance, 3.0},
                             {Circuit::series, Loss::quality_factor, 2.5},
                             {Circuit::series, Loss::dissipation_factor, 0.4},
                             {Circuit::parallel, Loss::resistance, 20.0},
                             {Circuit::parallel, Loss::resistance, 2.0}, // Q below 1
                             {Circuit::parallel, Loss::quality_factor, 2.5},
                             {Circuit::parallel, Loss::dissipation_factor, 1.7}})
  {
    CAPTURE(given.circuit, given.loss, given.value);
    constexpr double L = 120e-6, share = 1e-4; // central differences: error of share squared
    const auto at = [&](double by_inductance, double by_loss)
    {
      return in_series(as_read(given.circuit, L * (1.0 + by_inductance), given.loss,
                               given.value * (1.0 + by_loss)));
    };
    const auto inductance = [&](double l, double v) { return at(l, v).inductance; };
    const auto resistance = [&](double l, double v) { return *at(l, v).resistance; };
    const auto worst = [&](const auto& quantity)
    {
      return 0.5 * std::abs(quantity(share, 0.0) - quantity(-share, 0.0)) +
             0.5 * std::abs(quantity(0.0, share) - quantity(0.0, -share));
    };
    AsRead read = as_read(given.circuit, L, given.loss, given.value);
    read.inductance.half_width = L * share;
    read.loss_value.half_width = given.value * share;
    const auto series = in_series(read);
    CHECK(series.inductance_tolerance.value == Approx(worst(inductance)).epsilon(1e-6));
    CHECK(series.resistance_tolerance.value == Approx(worst(resistance)).epsilon(1e-6));
  }
}

TEST_CASE("a normal half-width keeps its spread and factor, and becomes u by that factor",
          "[reading]")
{
  AsRead read = as_read(Circuit::series, 120e-6, Loss::none, 0.0);
  read.inductance.half_width = 3e-6;
  const auto series = in_series(read, post::Spread::normal, 3.0);
  const auto input = cases::uncertain("reading", series.inductance, series.inductance_tolerance);
  CHECK(input.name == "reading");
  CHECK(input.estimate == 120e-6);
  CHECK(input.spread == post::Spread::normal);
  CHECK(input.width == Approx(1e-6).epsilon(1e-15));
  const auto even = cases::uncertain("reading", 120e-6, in_series(read).inductance_tolerance);
  CHECK(even.spread == post::Spread::uniform);
  CHECK(even.width == 3e-6);
}
