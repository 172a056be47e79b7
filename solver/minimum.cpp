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

/// Goes along d by the largest of 1, 1/2, 1/4 ... whose energy falls by a share of what the slope
/// promises [Armijo 1966]; stays, and returns 0, where round-off hides the decrease.
double go_along(const ConvexEnergy& energy, const Eigen::VectorXd& d, double decrement,
                ConvexEnergy::State& at)
{
  constexpr double share = 1e-4;
  for (double length = 1.0; length > 1e-9; length *= 0.5)
  {
    ConvexEnergy::State next = energy.state(at.u + length * d);
    if (next.value <= at.value - share * length * decrement)
    {
      at = std::move(next);
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
  ConvexEnergy::State here = energy.state(std::move(start));
  for (int step = 0; step < most_steps; ++step)
  {
    const bool touching = step == 0 && !touch.empty();
    const ConvexEnergy::Expansion at =
        touching ? energy.expansion(here, touch) : energy.expansion(here);
    const Equation<double> equation(energy.space(),
                                    held_by_symmetry(energy.space(), energy.weight()),
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
    // So near the end a whole step is safe: its error is the decrement's square.
    const bool last = !touching && decrement <= tolerance * std::abs(here.value);
    double length = 1.0;
    if (last)
      here.u += d;
    else if (touching)
      here = energy.state(here.u + d);
    else
      length = go_along(energy, d, decrement, here);
    made.steps.push_back(length);
    if (last || length == 0.0)
      break;
  }
  made.values = std::move(here.u);
  return made;
}

} // namespace solver
