// B and H of saturating fields at the points of elements, and the energies they make there.
#pragma once

#include "mesh/layout.hpp"
#include "solver/form.hpp"
#include "solver/magnetisation.hpp"
#include "solver/source.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace solver
{

/// @brief Magnetic law of one region: a curve, or a constant relative permeability.
struct RegionLaw
{
  double permeability = 1.0;            ///< Of weak fields.
  const Magnetisation* curve = nullptr; ///< Outlives its users; null: linear.
};

enum class Side
{
  flux, ///< psi, B
  field ///< phi, H = T - d phi
};

/// @brief What a scene on a space makes the energies of.
struct Energetic
{
  const Space& space;
  const mesh::Layout& layout;
  std::span<const RegionLaw> laws;          ///< One a region.
  std::span<const Source> sources;          ///< One a winding at 1 A.
  double background = 0.0;                  ///< [T]
  const std::vector<Eigen::MatrixXd>& unit; ///< unit_matrices() of the side.
};

/// @brief All sources of a scene as one: those currents and the background.
Source driving(const Energetic& given, const Eigen::VectorXd& currents);

/// @brief Field of one element at its points as a linear map of its coefficients, in (r, z).
struct FieldMap
{
  Eigen::MatrixXd r, z;   ///< Functions by points.
  Eigen::VectorXd weight; ///< Of dV [m^3].
  /// @brief The field of coefficients: (r, z) by points.
  Eigen::Matrix2Xd field(const Eigen::VectorXd& u) const;
};
/// @brief psi to B, or phi to -d phi.
FieldMap field_map(const ElementTable& table, Side side);
/// @brief What a source fixes in a triangle: B0 of B, or T + H0 of H.
/// @param map  field_map() of the same table and side.
Eigen::Matrix2Xd source_field(const Energetic& given, const Source& source, int triangle,
                              const ElementTable& table, const FieldMap& map, Side side);

/// @brief Value, slope and bend of w at |B|, or of w* at |H|.
struct Density
{
  double value = 0.0;
  double first = 0.0;
  double second = 0.0;
};
Density density(const RegionLaw& law, Side side, double magnitude);
/// @brief Bend of the density at a field of that magnitude: second along it, first / |X| across.
Eigen::Matrix2d bend(const Density& at, const Eigen::Vector2d& X, double magnitude);

} // namespace solver
