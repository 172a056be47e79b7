// Newton's method on a convex energy: tangent, step, as much of the step as the energy allows.
#include "solver/minimum.hpp"

#include "solver/equation.hpp"
#include "solver/factor.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace solver
{

namespace
{

/// Largest of 1, 1/2, 1/4 ... whose energy falls by a share of what the slope promises [Armijo
/// 1966]; 0 where round-off hides the decrease.
double step_length(const ConvexEnergy& energy, const Eigen::VectorXd& u, const Eigen::VectorXd& d,
                   double decrement, double& value)
{
  constexpr double share = 1e-4;
  for (double length = 1.0; length > 1e-9; length *= 0.5)
  {
    const double next = energy.value(u + length * d);
    if (next <= value - share * length * decrement)
    {
      value = next;
      return length;
    }
  }
  return 0.0;
}

} // namespace

Minimum minimum(const ConvexEnergy& energy, Eigen::VectorXd start, const CurvedFields& touch,
                double tolerance, int most_steps, Factor& factor)
{
  Minimum made;
  made.values = std::move(start);
  made.energy = energy.value(made.values);
  for (int step = 0; step < most_steps; ++step)
  {
    const bool touching = step == 0 && !touch.empty();
    const ConvexEnergy::Expansion at =
        energy.expansion(made.values, touching ? touch : energy.fields(made.values));
    const Equation<double> equation(energy.space(), held_on_axis(energy.space(), energy.weight()),
                                    [&](int k) { return energy.matrix(k, at); });
    factor.compute(equation.matrix());
    Eigen::MatrixXd pushed(at.gradient.size(), 1 + at.by_current.cols());
    pushed << -at.gradient, -at.by_current;
    const Eigen::MatrixXd found = equation.expanded(factor.solve(equation.reduced(pushed)), pushed);
    const Eigen::VectorXd d = found.col(0);
    const double decrement = -at.gradient.dot(d);
    made.responses = found.rightCols(at.by_current.cols());
    made.unknowns = equation.unknowns();
    made.decrements.push_back(decrement);
    if (!std::isfinite(decrement))
      throw std::runtime_error("the saturating field is not finite: materials too far apart");
    if (touching)
    {
      made.values += d;
      made.energy = energy.value(made.values);
      made.steps.push_back(1.0);
      continue;
    }
    // So near the end a whole step is safe: its error is the decrement's square.
    const bool last = decrement <= tolerance * std::abs(made.energy);
    const double length = last ? 1.0 : step_length(energy, made.values, d, decrement, made.energy);
    made.steps.push_back(length);
    made.values += length * d;
    if (last || length == 0.0)
      break;
  }
  return made;
}

} // namespace solver
