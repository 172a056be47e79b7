// Every number a person or a program reads: the plain result of one solved case.
//
// Filled by post::result() and post::formulas(); printed by cases/, written as JSON by
// post::json(). SI units throughout. Knows no mesh and no matrix.
#pragma once

#include "post/bias.hpp"
#include "post/bounded.hpp"
#include "post/formula_result.hpp"
#include "post/gap.hpp"
#include "post/heat.hpp"
#include "post/ladder.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace post
{

struct WindingResult
{
  std::string name;
  double turns = 0.0;
  Bounded inductance;     ///< [H]
  Bounded air_inductance; ///< The same winding, every material taken as air [H].
  double apparent_permeability = 1.0;
  double inductance_per_turn_squared = 0.0;           ///< [H]
  std::optional<double> wire_length;                  ///< [m]
  std::optional<double> dc_resistance;                ///< [ohm], at the temperature
  std::vector<std::pair<std::string, double>> shares; ///< Energy by region, sum 1; air included.
  std::optional<SelfCapacitance> capacitance;         ///< Where drive.capacitance asks for it.
  std::string no_capacitance; ///< Why there is none although asked for, in plain words.
};

/// @brief Demagnetising data of a part in a uniform background field.
struct Demagnetisation
{
  double apparent_permeability_middle = 1.0;
  std::optional<double> ballistic;      ///< Empty at mu = 1.
  std::optional<Bounded> magnetometric; ///< A single homogeneous part only.
};

struct RegionResult
{
  std::string name;
  double permeability = 1.0;
  double energy_share = 0.0;      ///< All windings as driven.
  double volume = 0.0;            ///< [m^3]; 0 for air, which is endless.
  double peak_flux_density = 0.0; ///< [T], at the points looked at.
  bool peak_at_corner = false;    ///< The field there has no finite peak: mesh-dependent.
  std::optional<Demagnetisation> demagnetisation;
};

struct ProbeResult
{
  std::string name;
  double r = 0.0; ///< [m]
  double z = 0.0;
  double B_r = 0.0; ///< [T], as driven
  double B_z = 0.0;
  double H_r = 0.0; ///< [A/m]
  double H_z = 0.0;
  double flux = 0.0; ///< Through the circle of radius r [Wb].
  std::string region;
};

struct MeshNumbers
{
  int triangles = 0;
  int unknowns = 0; ///< Of the flux function and the potential together.
  int order = 0;
  int refinements = 0;
};

/// @brief Wall-clock seconds by stage.
struct Seconds
{
  double mesh = 0.0;
  double assemble = 0.0;
  double solve = 0.0;
  double bracket = 0.0;
  double total = 0.0;
};

struct Result
{
  std::string title;
  double temperature = solver::room_temperature; ///< Of all that conducts [K].
  double line = 50.0; ///< Source and load that insertion losses and ports are told for [ohm].
  bool accuracy_reached = true;
  double accuracy_asked = 1e-3;
  double accuracy_met = 0.0;   ///< Largest relative half-width of a self inductance.
  double geometry_error = 0.0; ///< Relative, of curved boundaries; 0 where all are straight.
  std::string limit;           ///< Why the asked accuracy was not reached; empty if it was.
  std::vector<WindingResult> windings;
  std::vector<std::vector<Bounded>> mutual; ///< [H], whole matrix; empty for fewer than two.
  std::vector<RegionResult> regions;        ///< Parts and coatings, then "air".
  std::vector<FormulaResult> formulas;
  std::vector<ProbeResult> probes;
  std::vector<WireResult> wires;     ///< Straight wires at rest.
  std::vector<ToroidResult> toroids; ///< Toroids at rest.
  /// Of turns drawn and bodies that conduct, with drive.capacitance; not for too many of them.
  std::optional<CapacitanceMatrix> capacitances;
  std::vector<FrequencyResult> frequencies; ///< Ascending; empty without drive.frequency.
  std::vector<Ladder> ladders; ///< One a winding; empty for fewer than two frequencies.
  BiasCurve bias;              ///< No points without a saturating material or drive.bias.
  std::vector<GapResult> gaps; ///< Across the axis of a core, from below.
  HeatResult heat;             ///< No points unless asked for.
  MeshNumbers mesh;
  Seconds seconds;
  std::vector<std::string> files;
};

} // namespace post
