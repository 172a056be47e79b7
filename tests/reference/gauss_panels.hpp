// Gauss panels on a straight line, graded to its start, with interpolation between their nodes.
#pragma once

#include <Eigen/Core>

#include <functional>
#include <vector>

namespace reference
{

/// @brief Gauss-Legendre rule on -1..1 and the polynomials through its nodes.
struct GaussRule
{
  explicit GaussRule(int count);

  /// @brief The Lagrange polynomials at x.
  Eigen::VectorXd polynomials(double x) const;

  Eigen::VectorXd node;
  Eigen::VectorXd weight;
  Eigen::MatrixXd partial; ///< Row i: integrals of the polynomials from -1 to node i.

private:
  Eigen::VectorXd _barycentric;
};

/// @brief A piece of the line.
struct Stretch
{
  double from = 0.0;
  double to = 0.0;
};

/// @brief Halves 0..length until no stretch is `too_long`, and the first `levels` times.
std::vector<Stretch> graded(double length, int levels,
                            const std::function<bool(const Stretch&)>& too_long);

/// @brief Integrals over `stretch` of each of the rule's polynomials times a kernel.
///
/// The kernel may have a logarithmic singularity at 0, inside the stretch or near it: pieces shrink
/// towards it until none is longer than its distance from 0 (46 halvings: 1e-14 of the stretch).
Eigen::VectorXd singular_weights(const GaussRule& rule, const Stretch& stretch,
                                 const std::function<double(double)>& kernel);

} // namespace reference
