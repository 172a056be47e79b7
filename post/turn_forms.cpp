// The closed forms of circles and turns; each equation stands with its source in the header.
#include "post/turn_forms.hpp"

#include "solver/problem.hpp"

#include <cmath>
#include <numbers>

namespace post
{
namespace
{

using solver::mu0;
using std::numbers::pi;

double square(double x)
{
  return x * x;
}

} // namespace

double coaxial_circles(double a, double b, double z)
{
  const double sum = std::hypot(a + b, z);
  double root = std::hypot(a - b, z) / sum;
  double c = 2.0 * a * b / (sum * sum * (1.0 + root)); // (1 - root)/2 without cancellation
  double mean = 0.5 * (1.0 + root);
  root = std::sqrt(root);
  double S = c * c;
  for (double power = 2.0; c > 1e-17 * mean; power *= 2.0)
  {
    const double next = 0.5 * (mean + root);
    root = std::sqrt(mean * root);
    mean = next;
    c = c * c / (4.0 * mean);
    S += power * c * c;
  }
  return mu0 * sum * pi / (2.0 * mean) * S;
}

double ring_uniform(double a, double r)
{
  const double q = square(r / a);
  return mu0 * a * ((1.0 + q / 8.0) * std::log(8.0 * a / r) + q / 24.0 - 1.75);
}

double ring_kirchhoff(double a, double r)
{
  return mu0 * a * (std::log(8.0 * a / r) - 1.75);
}

double ring_skin(double a, double r)
{
  return mu0 * a * (std::log(8.0 * a / r) - 2.0);
}

double ring_solid(double a, double r)
{
  const double q = square(r / a);
  return mu0 * a * ((1.0 - q / 8.0) * std::log(8.0 * a / r) + 5.0 * q / 24.0 - 1.75);
}

double rosa_mutual(int turns)
{
  const double N = turns;
  double sum = 0.0;
  for (int n = 2; n < turns; ++n)
  {
    sum += (N - n) * std::log(static_cast<double>(n));
  }
  return -1.5 - N * std::log(N) + 1.5 * N + 2.0 * sum / N;
}

double array_correction(double pitch, double wire)
{
  return std::log(pitch / wire) + 0.1381 + 0.017;
}

double coating_inductance(double permeability, double inner, double outer)
{
  return mu0 * (permeability - 1.0) * std::log(outer / inner) / (2.0 * pi);
}

double coating_inductance(std::span<const StraightLayer> layers)
{
  double sum = 0.0;
  for (const StraightLayer& layer : layers)
  {
    sum += coating_inductance(layer.permeability, layer.inner, layer.outer);
  }
  return sum;
}

double bead_inductance(const StraightLayer& bead, double length, double turns)
{
  return mu0 * bead.permeability * square(turns) * length * std::log(bead.outer / bead.inner) /
         (2.0 * pi);
}

} // namespace post
