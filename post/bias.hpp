// Windings of saturating materials over their currents: linkage, inductances, energy, peaks.
#pragma once

#include "post/bounded.hpp"

#include <optional>
#include <string>
#include <vector>

namespace solver
{
struct Bias;
struct Problem;
} // namespace solver

namespace post
{

/// @brief What a small ripple about a working point meets: estimated.
struct Ripple
{
  double frequency = 0.0;  ///< [Hz]
  double resistance = 0.0; ///< Eddy currents and wire, without proximity loss of strands [ohm].
  double inductance = 0.0; ///< [H]
};

/// @brief One winding at one working point, the others as they are driven there.
struct BiasWinding
{
  std::string name;
  double current = 0.0;                ///< [A]
  Bounded flux_linkage;                ///< [Wb]; `value` lies between, not midway.
  Bounded secant_inductance;           ///< Linkage over current; not a number without one [H].
  double incremental_inductance = 0.0; ///< d linkage / d current [H]: estimated.
  double incremental_spread = 0.0;     ///< Half the difference of both sides of the field [H].
  std::vector<Ripple> ripple = {};     ///< One a frequency asked for beside a bias.
};

struct BiasRegion
{
  std::string name;
  double peak_flux_density = 0.0; ///< At the points looked at [T].
  bool peak_at_corner = false;    ///< Mesh-dependent.
  double energy = 0.0;            ///< Stored [J]: estimated.
};

struct BiasPoint
{
  double current = 0.0; ///< As asked for [A].
  std::vector<BiasWinding> windings;
  Bounded coenergy;                ///< [J]
  double stored_energy = 0.0;      ///< [J]: estimated.
  std::vector<BiasRegion> regions; ///< Bodies, then "air".
  double accuracy_met = 0.0;       ///< Half-width of the coenergy's bracket over its middle.
  bool accuracy_reached = true;
  std::string limit; ///< Why it was not reached.
  int iterations = 0;
  int unknowns = 0;
};

/// @brief Where the incremental inductance has fallen by a share of that at the weakest current.
struct BiasDrop
{
  std::string winding;
  double share = 0.0; ///< 0.1, 0.2, 0.3
  std::optional<double>
      current; ///< Between two points, by a straight line [A]; empty: not reached.
};

struct BiasCurve
{
  std::vector<BiasPoint> points; ///< In the order asked for.
  std::vector<BiasDrop> drops;
};

/// @brief Points to solve: those asked for; without any, the problem's own currents if a material
/// of
///        its bodies saturates.
std::vector<solver::Bias> working_points(const solver::Problem& problem);

/// @brief Fills in where each winding's incremental inductance has fallen, for two points or more,
///        none negative.
void tell_falls(BiasCurve& curve);

/// @brief The field of the problem at each working point, and ripples about those that were asked
///        for at the problem's frequencies; falls left out.
/// @param threads  Points solved at once; the numbers do not depend on it.
BiasCurve bias_curve(const solver::Problem& problem, int threads);

/// @brief Columns of every point: current, and of each winding linkage with bounds, inductances;
///        energies; peaks of the bodies (CSV).
std::string bias_table(const BiasCurve& curve);

/// @brief One row a winding, current and frequency (CSV); nothing without ripples.
std::string ripple_table(const BiasCurve& curve);

/// @brief { "bias": [...], "bias_falls": [...] }, SI, keys ending in their unit.
std::string json(const BiasCurve& curve);

/// @brief One two-terminal subcircuit a winding, others at rest at their bias, whose flux follows
///        the computed linkages along straight lines; elements R, C, G and B alone.
/// @return Empty where no winding has two points of distinct current.
std::string flux_netlist(const BiasCurve& curve);

} // namespace post
