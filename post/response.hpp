// How a winding's inductance answers to one unknown of a case, and to its uncertain dimensions.
//
// A table any number of draws can be read from. Where the unknown is a material's, every geometry
// is a reduced model [solver/reduced_model.hpp]; else the case is solved at each node. A dimension
// moved by xi of its step adds linear * xi + quadratic * xi^2 to ln L; dimensions add up.
#pragma once

#include "post/uncertainty.hpp"
#include "solver/problem.hpp"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace post
{

/// @brief A case with one of its numbers moved; neither set: as described.
struct Moved
{
  std::optional<double> unknown;
  std::optional<std::size_t> dimension; ///< Index into FitQuestion::dimensions.
  double value = 0.0;                   ///< Of that dimension.
};

/// @brief An unknown that only changes one material's permeability.
struct MaterialUnknown
{
  std::string material;
  std::function<double(double)> permeability; ///< Of the material, rising with the unknown.
};

/// @brief What is to be found, in which case, and what else of the case is uncertain.
struct FitQuestion
{
  std::string key;           ///< Of the unknown, for messages.
  std::vector<double> nodes; ///< Values of the unknown to tabulate, ascending, > 0, at least 4.
  std::vector<double> near;  ///< Nodes where dimensions are moved; empty: all. Not of a material.
  std::optional<MaterialUnknown> material;
  std::vector<UncertainInput> dimensions; ///< Named by their keys; estimates as in the case.
  /// Dimensions that take whole numbers only (turns drawn one by one): solved a whole step away and
  /// scaled to their own. Empty: none; else one a dimension.
  std::vector<bool> whole = {};
  /// The problem of a moved case, its accuracy set. May throw where it cannot be built.
  std::function<solver::Problem(const Moved&)> problem;
};

/// @brief One winding's answer; the vectors run over `unknown`, the outer ones over dimensions.
struct Response
{
  std::string winding;
  std::vector<double> unknown;        ///< Ascending.
  std::vector<double> log_inductance; ///< ln(L / 1 H), middle of the bracket.
  std::vector<double> half_width;     ///< Relative half-width of the bracket.
  std::vector<std::vector<double>> linear;
  std::vector<std::vector<double>> quadratic;
  double log_air = 0.0; ///< ln of the winding's inductance with every material taken as air.
  std::vector<double> air_linear; ///< One a dimension.
  std::vector<double> air_quadratic;
};

/// @brief Step of a dimension: its half-width; twice the standard uncertainty of a normal one.
double step(const UncertainInput& dimension);

/// @brief Answers of all windings, solved on all threads.
/// @param air  Also those in air, as a reading of the bare coil needs them.
/// @throws std::runtime_error naming a dimension that can be moved neither way, and why.
/// @throws std::invalid_argument for a question without windings or nodes.
std::vector<Response> responses(const FitQuestion& question, bool air, int threads);

} // namespace post
