// The magnetic law of a saturating material: B over H, isotropic, without hysteresis, single
// valued.
//
// B and H are magnitudes along one direction. The slope dB/dH never falls below mu0: what is
// tabulated or given by a formula is the polarisation J = B - mu0 H, which never falls.
#pragma once

#include <span>
#include <stdexcept>
#include <string>
#include <variant>
#include <vector>

namespace solver
{

/// @brief J = J_s x / (1 + x), x = chi mu0 H / J_s [Froehlich 1881; Kennelly 1891].
struct FroehlichKennelly
{
  double saturation = 0.0;   ///< Polarisation J_s far up [T], > 0.
  double permeability = 1.0; ///< Relative, at H = 0; chi = permeability - 1 > 0.
};
/// @brief J = J_s tanh(chi mu0 H / J_s); common practice, no source.
struct HyperbolicTangent
{
  double saturation = 0.0;
  double permeability = 1.0;
};
/// @brief J = (2 J_s / pi) arctan(pi chi mu0 H / (2 J_s)); common practice, no source.
struct ArcTangent
{
  double saturation = 0.0;
  double permeability = 1.0;
};
/// @brief H = (k1 exp(k2 B^2) + k3) B up to where dB/dH has fallen to mu0 [Brauer 1975].
struct Brauer
{
  double k1 = 0.0; ///< [m/H]
  double k2 = 0.0; ///< [1/T^2]
  double k3 = 0.0; ///< [m/H]
};
/// @brief One row of a measured first-quadrant curve.
struct CurveRow
{
  double H = 0.0; ///< [A/m]
  double B = 0.0; ///< [T]
};
using CurveRows = std::vector<CurveRow>;

using MagneticLaw =
    std::variant<FroehlichKennelly, HyperbolicTangent, ArcTangent, Brauer, CurveRows>;

/// @brief Thrown where a law cannot be: the row at fault, counted from 0 (-1: no row), and why.
struct LawFault : std::invalid_argument
{
  LawFault(int at, const std::string& why, std::string remedy)
      : std::invalid_argument(why), row(at), cure(std::move(remedy))
  {
  }
  int row;
  std::string cure;
};

/// @brief Where a curve stands: both fields, the slope, the coenergy below.
struct MagneticState
{
  double H = 0.0;                                    ///< [A/m]
  double B = 0.0;                                    ///< [T]
  double slope = 0.0;                                ///< dB/dH, >= mu0 [H/m]
  double coenergy = 0.0;                             ///< int_0^H B dH [J/m^3]
  double energy() const { return B * H - coenergy; } ///< int_0^B H dB [J/m^3]
};

/// @brief A table made ready: columns of one length.
struct CurveNodes
{
  std::vector<double> H;     ///< [A/m], from 0
  std::vector<double> J;     ///< [T]
  std::vector<double> slope; ///< dJ/dH [H/m]
  std::vector<double> area;  ///< int_0^H J dH [J/m^3]
};

class Magnetisation
{
public:
  /// @brief Rows from (0, 0) upwards; between them J is a cubic that overshoots nowhere [Fritsch &
  ///        Carlson 1980], level at the last row, and constant beyond: slope mu0.
  /// @throws LawFault for a row where J falls, or a law whose numbers make no curve.
  explicit Magnetisation(MagneticLaw law);

  /// @param H  >= 0 [A/m]
  MagneticState at_field(double H) const;
  /// @param B  >= 0 [T]
  MagneticState at_flux(double B) const;
  /// @brief dB/dH over mu0 at H = 0.
  double initial_permeability() const;
  /// @brief Polarisation far up [T]; of Brauer's law, where it ends.
  double saturation() const;
  const MagneticLaw& law() const { return _law; }

private:
  MagneticLaw _law;
  CurveNodes _nodes; ///< Of a table.
  double _end = 0.0; ///< Brauer's law: B where the slope has fallen to mu0.
};

} // namespace solver
