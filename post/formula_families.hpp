// What the families of hand formulas share: the first winding as a plain coil, the magnetic bodies
// about it, and a way to state a range. Internal to post/formula*.cpp.
#pragma once

#include "post/closed_forms.hpp"
#include "post/formulas.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace post
{

/// @brief Anything whose relative permeability is not 1.
struct MagneticBody
{
  std::string name;
  double permeability = 1.0;
  const mesh::Part* part = nullptr; ///< Null for the coating of a winding's turns.
  bool coating = false;
};

/// @brief A problem as a hand formula sees it. Borrows from the problem it was made of.
struct FormulaScene
{
  const solver::Problem& problem;
  std::vector<MagneticBody> magnetic;
  const mesh::Winding* winding = nullptr;  ///< The first one; null where there is none.
  const mesh::RoundTurns* round = nullptr; ///< How its turns are drawn, if they are.
  CoilShape coil;                          ///< That winding as one section.
};
FormulaScene formula_scene(const solver::Problem& problem);

/// @brief Centre to centre along the axis [m]; turns without one lie close.
double pitch(const mesh::RoundTurns& turns);
/// @brief Any winding as one section: turns drawn one by one fill pitch x layers.
CoilShape coil_shape(const mesh::Winding& winding);

/// @brief The one part that is magnetic, when it alone is, uncoated, and of that shape.
const MagneticBody* only_body(const FormulaScene& scene);
/// @brief Why only_body() finds none: "two magnetic bodies: core, sleeve".
std::string why_not_one_body(const FormulaScene& scene);

/// @brief A condition of a formula's range and what to say when it is broken.
struct Condition
{
  bool met = true;
  std::string otherwise;
};

/// @brief What a formula is called, where it comes from, what it estimates.
struct FormulaLabel
{
  std::string_view name;
  std::string_view source;
  std::string_view range; ///< Said where it holds.
  Estimates estimates = Estimates::inductance;
  std::string subject = {};
};
/// @brief Value [H] (or a ratio, by what is estimated) with the first broken condition told.
FormulaResult formula(const FormulaLabel& label, double value,
                      const std::vector<Condition>& conditions);

/// @brief Best hand value of the winding without any material [H].
double air_estimate(const FormulaScene& scene);

// One function a family; each returns nothing where the family has nothing to say.
std::vector<FormulaResult> air_coil_formulas(const FormulaScene& scene);
std::vector<FormulaResult> ring_formulas(const FormulaScene& scene);
std::vector<FormulaResult> rod_formulas(const FormulaScene& scene);
std::vector<FormulaResult> gap_formulas(const FormulaScene& scene);
std::vector<FormulaResult> sleeve_formulas(const FormulaScene& scene);
std::vector<FormulaResult> coating_formulas(const FormulaScene& scene);
std::vector<FormulaResult> mutual_formulas(const FormulaScene& scene);
std::vector<FormulaResult> background_formulas(const FormulaScene& scene);

} // namespace post
