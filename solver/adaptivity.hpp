// Where to refine and how finely to begin: decisions from the bracket's gap alone.
#pragma once

#include "mesh/mesh.hpp"

#include <Eigen/Core>

#include <functional>
#include <span>
#include <string>

namespace solver
{

struct Bracket;
struct Space;

/// @brief Largest half-width of a bracket over its middle, over all sources.
/// @throws std::runtime_error when a number is not finite.
double relative_half_width(const Bracket& bracket);

/// @brief Relative gap of every triangle, then every exterior element: the greatest of any source.
Eigen::VectorXd indicators(const Bracket& bracket);

/// @brief Solves on a coarse mesh with layers at its corners, those that every solution of that
///        accuracy needs, so that none is spent on finding them: one at 1e-4, two at 1e-6, one less
///        where only a conductor's section ends. On the coarse mesh itself where those fold.
/// @param contrast  One number a region; corners where it differs are sharp.
/// @param solve     May throw FoldedElement.
void solved_graded(const mesh::Mesh& coarse, std::span<const double> contrast, double accuracy,
                   const std::function<void(const mesh::Mesh&)>& solve);

/// @brief Solves on a mesh refined where the gap is widest, so that it comes near `target`; where
///        that folds, on others: which edges are cut in which order decides, so marks for other
///        targets are tried before giving up.
/// @param gap       Relative gap of every triangle, then every exterior element.
/// @param contrast  One number a region; corners where it differs are graded sharply.
/// @param target    Relative gap wanted of the whole.
/// @param solve  Says why it must not, in plain words, or solves; may throw FoldedElement.
/// @return Why none was solved; empty where one was.
std::string solved_finer(const Space& space, const Eigen::VectorXd& gap,
                         std::span<const double> contrast, double target,
                         const std::function<std::string(const mesh::Mesh&)>& solve);

/// @brief Polynomial order that reaches the relative accuracy with few triangles: 3 to 8.
int order_for(double accuracy);

} // namespace solver
