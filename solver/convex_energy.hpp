// The energy of one side of a saturating field.
//
// Flux side: int w(B) - H0.b dV - l(psi), w the energy density; field side: int w*(H) - B0.h dV, w*
// the coenergy density; both convex, so that every step goes down and only one minimum is there
// [DEVELOPERS.md, saturation]. Regions without a curve are quadratic and keep their matrices.
#pragma once

#include "solver/field_map.hpp"

#include <Eigen/Core>

#include <vector>

namespace solver
{

/// @brief Field vectors (r, z) at the points of every triangle with a curve.
using CurvedFields = std::vector<Eigen::Matrix2Xd>;

class ConvexEnergy
{
public:
  /// @param currents  One a winding's source [A].
  ConvexEnergy(const Energetic& given, const Eigen::VectorXd& currents, Side side);

  /// @brief Fields at the points of every triangle with a curve, and what the laws make of them.
  struct Curves
  {
    CurvedFields X;
    std::vector<std::vector<Density>> at;
  };
  /// @brief All that one field's values tell: each law is asked once.
  struct State
  {
    Eigen::VectorXd u;
    Eigen::VectorXd linear; ///< Elements without a curve: sum of their matrices times u.
    Curves curves;
    double value = 0.0; ///< Energy, up to a constant [J].
  };
  State state(Eigen::VectorXd u) const;
  /// @brief Gradient at a state, and tangents, of the energy that is quadratic where there is a
  ///        curve and touches this one at the fields X; without X those of this one.
  struct Expansion
  {
    Eigen::VectorXd gradient;             ///< One a degree of freedom.
    Eigen::MatrixXd by_current;           ///< What 1 A more in a winding adds to it.
    std::vector<Eigen::MatrixXd> tangent; ///< One a triangle with a curve.
  };
  Expansion expansion(const State& at) const { return touching(at, at.curves); }
  Expansion expansion(const State& at, const CurvedFields& X) const
  {
    return touching(at, curves(X));
  }
  /// @brief Element matrix with those tangents: triangles, then exteriors.
  Eigen::MatrixXd matrix(int element, const Expansion& at) const;
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
  Curves curves(CurvedFields X) const;
  Expansion touching(const State& at, const Curves& about) const;
  double coefficient(int element) const;
  /// Sum over elements without a curve of their matrix times u.
  Eigen::VectorXd linear_part(const Eigen::VectorXd& u) const;
  /// What a source fixes of the gradient in a triangle without a curve.
  Eigen::VectorXd fixed_part(int triangle, const Source& source) const;
  Energetic _given;
  Side _side;
  double _pull = 0.0; ///< H0 on the flux side, B0 on the field side.
  std::vector<Curved> _curved;
  std::vector<int> _index;     ///< Of a triangle among those with a curve, or -1.
  std::vector<Gather> _gather; ///< Of every element.
  Eigen::VectorXd _fixed;      ///< Gradient at u = 0 of all but the triangles with a curve.
  Eigen::MatrixXd _by_current; ///< What 1 A in each winding has of it.
};

} // namespace solver
