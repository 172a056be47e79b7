// The energy of one side of a saturating field, and its least value: Newton's method with a search
// along each step.
//
// Flux side: int w(B) - H0.b dV - l(psi), w the energy density; field side: int w*(H) - B0.h dV, w*
// the coenergy density; both convex, so that every step goes down and only one minimum is there
// [DEVELOPERS.md, saturation]. Regions without a curve are quadratic and keep their matrices.
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

class Factor;

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
  const std::vector<Eigen::MatrixXd>& unit; ///< unit_matrices() of the side's weight.
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

/// @brief Field vectors (r, z) at the points of every triangle with a curve.
using CurvedFields = std::vector<Eigen::Matrix2Xd>;

class ConvexEnergy
{
public:
  /// @param currents  One a winding's source [A].
  ConvexEnergy(const Energetic& given, const Eigen::VectorXd& currents, Side side);

  /// @brief Energy at u, up to a constant [J].
  double value(const Eigen::VectorXd& u) const;
  CurvedFields fields(const Eigen::VectorXd& u) const;
  /// @brief Gradient at u, and tangents, of the energy that is quadratic where there is a curve and
  ///        touches this one at fields X; for X = fields(u) those of this one.
  struct Expansion
  {
    Eigen::VectorXd gradient;             ///< One a degree of freedom.
    Eigen::MatrixXd by_current;           ///< What 1 A more in a winding adds to it.
    std::vector<Eigen::MatrixXd> tangent; ///< One a triangle with a curve.
  };
  Expansion expansion(const Eigen::VectorXd& u, const CurvedFields& X) const;
  /// @brief Element matrix with those tangents: triangles, then exteriors.
  Eigen::MatrixXd matrix(int element, const Expansion& at) const;
  /// @brief Law of the k-th triangle with a curve.
  const RegionLaw& curved_law(std::size_t k) const { return *_curved[k].law; }
  const Space& space() const { return _given.space; }
  Weight weight() const { return _side == Side::flux ? Weight::over_r : Weight::times_r; }

private:
  /// A triangle with a curve.
  struct Curved
  {
    Gather gather;
    FieldMap map;
    Eigen::Matrix2Xd fixed; ///< By what drives the field.
    const RegionLaw* law = nullptr;
    CurvedFields by_current; ///< What 1 A in each winding fixes of the field; the field side only.
  };
  double coefficient(int element) const;
  /// Sum over elements without a curve of their matrix times u.
  Eigen::VectorXd linear_part(const Eigen::VectorXd& u) const;
  /// What a source fixes of the gradient in a triangle without a curve.
  void add_fixed(int triangle, const Source& source, Eigen::Ref<Eigen::VectorXd> gradient) const;
  Energetic _given;
  Side _side;
  double _pull = 0.0; ///< H0 on the flux side, B0 on the field side.
  std::vector<Curved> _curved;
  std::vector<int> _index;     ///< Of a triangle among those with a curve, or -1.
  std::vector<Gather> _gather; ///< Of every element.
  Eigen::VectorXd _fixed;      ///< Gradient at u = 0 of all but the triangles with a curve.
  Eigen::MatrixXd _by_current; ///< What 1 A in each winding has of it.
};

/// @brief Where Newton's method arrived.
struct Minimum
{
  Eigen::VectorXd values;
  double energy = 0.0;
  std::vector<double> decrements; ///< Twice the decrease each step promised [J].
  std::vector<double> steps;      ///< Share of each step taken; 1 near the minimum.
  Eigen::MatrixXd responses;      ///< Change by 1 A more in each winding, by the last tangent.
  int unknowns = 0;
};

/// @param start      Where to begin.
/// @param touch      Fields at which the first step takes its tangents; empty: those of `start`.
/// @param tolerance  Share of the energy; stops after a step that promises less.
/// @param most_steps  Then what was reached is returned: bounds hold for any of it.
/// @param factor     Keeps the ordering from one use to the next on the same space.
Minimum minimum(const ConvexEnergy& energy, Eigen::VectorXd start, const CurvedFields& touch,
                double tolerance, int most_steps, Factor& factor);

} // namespace solver
