// Series and parallel circuits of one impedance, with their first derivatives.
#include "cases/series_circuit.hpp"

#include <cassert>
#include <cmath>
#include <numbers>

namespace cases
{
namespace
{

/// D with its derivatives by the inductance and by the loss as read.
struct Dissipation
{
  double D = 0.0;
  double by_inductance = 0.0;
  double by_loss = 0.0;
};

Dissipation dissipation(const AsRead& as_read, double omega)
{
  const double L = as_read.inductance.value;
  const double loss = as_read.loss_value.value;
  switch (as_read.loss)
  {
  case Loss::resistance:
    return as_read.circuit == Circuit::series
               ? Dissipation{loss / (omega * L), -loss / (omega * L * L), 1.0 / (omega * L)}
               : Dissipation{omega * L / loss, omega / loss, -omega * L / (loss * loss)};
  case Loss::quality_factor:
    return {1.0 / loss, 0.0, -1.0 / (loss * loss)};
  case Loss::dissipation_factor:
    return {loss, 0.0, 1.0};
  case Loss::none:
    break;
  }
  return {};
}

} // namespace

SeriesImpedance in_series(const AsRead& as_read, post::Spread spread, double coverage_factor)
{
  assert(as_read.circuit == Circuit::series || as_read.loss != Loss::none);
  const double omega = 2.0 * std::numbers::pi * as_read.frequency;
  const double L = as_read.inductance.value;
  const Dissipation d = dissipation(as_read, omega);
  // L_s = L F(D) and R_s = omega L G(D), with F' and G'.
  const bool parallel = as_read.circuit == Circuit::parallel;
  const double sum = 1.0 + d.D * d.D;
  const double F = parallel ? 1.0 / sum : 1.0;
  const double F_slope = parallel ? -2.0 * d.D / (sum * sum) : 0.0;
  const double G = d.D * F;
  const double G_slope = F + d.D * F_slope;

  const auto widened = [&](double by_inductance, double by_loss)
  {
    const double half_width = std::abs(by_inductance) * as_read.inductance.half_width +
                              std::abs(by_loss) * as_read.loss_value.half_width;
    return HalfWidth{half_width, spread, coverage_factor};
  };
  SeriesImpedance series;
  series.inductance = L * F;
  series.inductance_tolerance = widened(F + L * F_slope * d.by_inductance, L * F_slope * d.by_loss);
  if (as_read.loss != Loss::none)
  {
    series.resistance = omega * L * G;
    series.resistance_tolerance =
        widened(omega * (G + L * G_slope * d.by_inductance), omega * L * G_slope * d.by_loss);
  }
  return series;
}

} // namespace cases
