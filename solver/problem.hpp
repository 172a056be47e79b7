// What is to be solved: a scene, its materials, and what drives it.
//
// Built by cases/ from a case file or in code; read by solver::solve, which takes each material's
// permeability of weak fields, and by solver::solve_saturated, which follows its curve.
#pragma once

#include "mesh/scene.hpp"
#include "solver/magnetisation.hpp"
#include "solver/powder.hpp"

#include <complex>
#include <map>
#include <memory>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace solver
{

/// @brief Magnetic constant [H/m], 4 pi 1e-7; CODATA 2018 differs by 5.5e-10 of it.
inline constexpr double mu0 = 4e-7 * std::numbers::pi;

/// @brief 20 degC [K], at which conductivities are usually given.
inline constexpr double room_temperature = 293.15;

/// @brief One row of a permeability table: relative, mu' - j mu''.
struct Dispersion
{
  double frequency = 0.0; ///< [Hz]
  double real = 1.0;
  double imaginary = 0.0;
};

/// @brief Isotropic magnetic law; what a powder is made of is kept for the report.
struct Material
{
  double permeability = 1.0; ///< Relative, > 0.
  double imaginary = 0.0;    ///< mu'' of mu' - j mu'', >= 0; counts in harmonic fields only.
  double conductivity = 0.0; ///< At reference_temperature [S/m]; not in fields at rest.
  double temperature_coefficient = 0.0; ///< Of the resistivity [1/K]; 0: the same at all.
  double reference_temperature = room_temperature; ///< [K]
  std::vector<Dispersion> table = {};          ///< Ascending; empty: the same at all frequencies.
  double density = 0.0;                        ///< [kg/m^3]; 0 where unknown.
  std::optional<Powder> powder = std::nullopt; ///< Where `permeability` came from, for the report.
  double permittivity = 1.0;                   ///< Relative; counts in electric fields only.
  /// Curve of a saturating material, `permeability` then that of weak fields; null: linear.
  std::shared_ptr<const Magnetisation> magnetisation = nullptr;
  double thermal_conductivity = 0.0; ///< [W/(m K)]; 0 where unknown. Counts in heat only.
  double curie_temperature = 0.0;    ///< Above it no ferromagnet [K]; 0 where unknown.
  bool follows_temperature = false;  ///< Its magnetic law was read at the problem's temperature.
};

/// @brief What carries heat away from the surfaces of the bodies; none of it is computed.
struct Cooling
{
  double ambient = room_temperature; ///< Of the air and of all that is seen around [K].
  double convection = 0.0;           ///< [W/(m^2 K)]
  double emissivity = 0.0;           ///< 0: nothing is radiated.
  double winding_conductivity = 0.0; ///< Of windings, wire and what is between as one [W/(m K)].
};

/// @brief One working point of saturating materials.
struct Bias
{
  double current = 0.0;         ///< In every winding without a current of its own [A].
  std::vector<double> currents; ///< One a winding [A].
};

/// @brief Asks for the self-capacitance of windings drawn turn by turn.
struct Electrostatics
{
  std::vector<std::string> earthed; ///< Parts that conduct, held at zero; the others float.
};

struct Problem
{
  mesh::Scene scene;
  std::map<std::string, Material> materials; ///< "air" and "copper" exist without an entry.
  std::vector<double> currents;              ///< Peak, one a winding [A]; empty: 1 A each.
  std::optional<double> background;          ///< Uniform axial flux density far away [T].
  std::vector<double> frequencies;           ///< Ascending; for harmonic fields [Hz].
  double temperature = room_temperature;     ///< Of all bodies: conductivities, tables over it [K].
  std::optional<Cooling> cooling = std::nullopt; ///< Asks for temperature rises.
  std::optional<Electrostatics> electrostatics = std::nullopt;
  std::vector<Bias> bias; ///< In the order asked for.
  double accuracy = 1e-3; ///< Asked relative half-width of each inductance's bracket.
};

/// @brief The relative permeability at a frequency, tables read without overshoot over its
/// logarithm.
/// @throws std::out_of_range for a frequency beyond the material's table.
std::complex<double> permeability(const Material& material, double frequency);

/// @brief Conductivity at a temperature [K], the resistivity linear in it: sigma / (1 + a (T -
/// T0)).
double conductivity(const Material& material, double temperature);

/// @brief The material of that name, the built-in ones included.
/// @throws std::invalid_argument naming the material that is missing.
const Material& material(const Problem& problem, const std::string& name);

} // namespace solver
