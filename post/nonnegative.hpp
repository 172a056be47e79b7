// Least squares with no negative unknown. Knows no circuit.
#pragma once

#include <Eigen/Core>

namespace post
{

/// @brief x >= 0 that minimises |A x - b|, by active sets [Lawson & Hanson 1974, chapter 23].
Eigen::VectorXd nonnegative_least_squares(const Eigen::MatrixXd& A, const Eigen::VectorXd& b);

} // namespace post
