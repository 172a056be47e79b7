// Effective permeability of a packed powder from its particles, by published mixing rules.
#pragma once

#include <array>
#include <string_view>

namespace solver
{

enum class MixingRule
{
  maxwell_garnett,
  bruggeman,              ///< Symmetric.
  bruggeman_differential, ///< Asymmetric.
  lichtenecker,
  looyenga
};

/// @brief A powder in air: relative permeability of a particle and volume fraction filled.
struct Powder
{
  double particle_permeability = 1.0; ///< > 0
  double packing = 0.0;               ///< 0 <= packing <= 1
  MixingRule rule = MixingRule::maxwell_garnett;
};

/// @brief Name as written in case files ("maxwell-garnett"), and what is known of the rule.
struct RuleInfo
{
  MixingRule rule;
  std::string_view name;
  std::string_view source;
  std::string_view range;  ///< Where it is meant to hold, in words.
  std::string_view bounds; ///< Whether it keeps within PowderBounds, and how that is known.
  bool keeps_isotropic_bounds = true; ///< Hashin and Shtrikman's; all rules keep Wiener's.
};
std::array<RuleInfo, 5> mixing_rules();

/// @brief Relative permeability of the mixture by its rule.
double effective_permeability(const Powder& powder);

/// @brief Bounds no isotropic (Hashin-Shtrikman) or any (Wiener) two-phase mixture can leave.
struct PowderBounds
{
  double wiener_lower = 1.0;
  double wiener_upper = 1.0;
  double hashin_shtrikman_lower = 1.0;
  double hashin_shtrikman_upper = 1.0;
};
PowderBounds powder_bounds(const Powder& powder);

/// @brief Packing from the powder's density as filled and that of a grain [kg/m^3], both > 0.
/// @return Above 1 where the powder is said to be denser than its grains.
double packing(double tap_density, double grain_density);
/// @brief Packing from the powder's mass [kg], the volume it fills [m^3] and a grain's density.
double packing(double mass, double volume, double grain_density);

} // namespace solver
