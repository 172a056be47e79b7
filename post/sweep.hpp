// One point of a sweep, and a reduced model kept with what it takes to make points of it.
//
// Plain numbers; which keys were varied is known to cases/.
#pragma once

#include "post/kept_impedance.hpp"
#include "post/result.hpp"
#include "solver/problem.hpp"
#include "solver/reduced_model.hpp"

#include <complex>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace post
{

/// @brief How sure a number is.
enum class Standing
{
  bounded,   ///< lower <= true value <= upper
  estimated, ///< No bounds: both equal the value.
  exact      ///< But for round-off; both equal the value.
};

/// @brief A number of a point beside what its windings show at rest.
struct SweptQuantity
{
  std::string word; ///< As a chart is asked for it: "resistance".
  std::string of;   ///< Winding, part, straight wire or toroid.
  std::string unit;
  Bounded value; ///< Not a number where there is none; its value may lie off the middle.
  Standing standing = Standing::estimated;
};

/// @brief What `solve` says of the windings at one point, or why there is nothing to say.
struct SweptPoint
{
  std::string fault;     ///< Why the case could not be built or solved; empty where it was.
  bool modelled = false; ///< From a reduced model: shares are those of the varied materials.
  bool accuracy_reached = false;
  double accuracy_met = 0.0;   ///< Largest relative half-width of a self inductance.
  double geometry_error = 0.0; ///< As in Result.
  std::vector<WindingResult> windings;
  std::vector<std::vector<Bounded>> mutual; ///< Empty for one winding, and from a model.
  std::vector<SweptQuantity> quantities;    ///< At its frequency, its bias, in a background ...
  std::vector<SweptQuantity> formulas;      ///< What hand formulas asked for say, `of` their names.
};

/// @brief A reduced model of one geometry, fit to be kept and evaluated anywhere.
struct KeptModel
{
  std::string title;
  double accuracy_asked = 1e-3;
  solver::ReducedModel model;
  /// One a winding of the model: all that does not depend on the varied permeabilities.
  std::vector<WindingResult> windings;
  std::optional<KeptImpedance> impedance; ///< At the problem's frequency, of the same materials.
};

/// @brief Builds the model of a case and solves its windings in air.
/// @param threads  As in solver::solve(); from 2 on, air and model at once.
KeptModel kept_model(const solver::Problem& problem, std::vector<solver::VariedMaterial> varied,
                     int threads);

/// @brief The point at one permeability mu' - j mu'' a varied material, mu' > 0, mu'' >= 0: at rest
///        of mu' alone, and where there is a frequency the impedances.
SweptPoint at(const KeptModel& kept, std::span<const std::complex<double>> permeability);
/// @brief The same without loss.
SweptPoint at(const KeptModel& kept, std::span<const double> permeability);

/// @brief The point as solved in full; the same numbers as `solve`.
///
/// A point has one frequency and one bias: several of them are left out.
SweptPoint swept_point(const Result& result);

/// @brief Impedances at its frequency, linkages at its bias, parts in its background, wires and
///        toroids; at rest, only what is exact.
std::vector<SweptQuantity> swept_quantities(const Result& result);

// Documents: SI units, keys end in their unit, one line each, read back to the last bit.
std::string json(const SweptPoint& point);
std::string json(const KeptModel& kept);
/// @throws std::runtime_error saying what is wrong with the text.
SweptPoint swept_point(std::string_view text);
KeptModel kept_model(std::string_view text);

} // namespace post
