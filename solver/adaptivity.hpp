// Where to refine and how finely to begin: decisions from the bracket's gap alone.
#pragma once

#include "mesh/refine.hpp"

#include <Eigen/Core>

#include <functional>
#include <span>
#include <string>

namespace solver
{

struct Bracket;
struct Solution;
struct Space;

/// @brief Largest half-width of a bracket over its middle, over all sources.
/// @throws std::runtime_error when a number is not finite.
double relative_half_width(const Bracket& bracket);

/// @brief What to refine so that all gaps come near an even share of `target`, the small ones left
///        out.
/// @param target  Relative gap wanted of the whole.
mesh::Marks marks(const Solution& solution, double target);

/// @brief The same from the relative gap of every triangle, then every exterior element.
/// @param contrast  One number a region; corners where it differs are graded sharply.
mesh::Marks marks(const Space& space, const Eigen::VectorXd& gap, std::span<const double> contrast,
                  double target);

/// @brief Solves on a finer mesh; where that folds, on others: which edges are cut in which order
///        decides, so marks for other targets are tried before giving up.
/// @param solve  Says why it must not, in plain words, or solves; may throw FoldedElement.
/// @return Why none was solved; empty where one was.
std::string solved_finer(const Space& space, const Eigen::VectorXd& gap,
                         std::span<const double> contrast, double target,
                         const std::function<std::string(const mesh::Mesh&)>& solve);

/// @brief Polynomial order that reaches the relative accuracy with few triangles: 3 to 8.
int order_for(double accuracy);

} // namespace solver
