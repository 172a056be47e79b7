// psi to B, phi to H, in (r, z); densities of energy and their bends.
#include "solver/field_map.hpp"

#include "solver/problem.hpp"
#include "solver/section_field.hpp"

#include <cmath>

namespace solver
{

Eigen::Matrix2Xd FieldMap::field(const Eigen::VectorXd& u) const
{
  Eigen::Matrix2Xd X(2, weight.size());
  X.row(0) = u.transpose() * r;
  X.row(1) = u.transpose() * z;
  return X;
}

FieldMap field_map(const ElementTable& table, Side side)
{
  // B_r = -psi_z / r, B_z = 2 psi_s; -d phi: H_r = -2 r phi_s, H_z = -phi_z; dV = pi ds dz.
  const auto points = static_cast<Eigen::Index>(table.points.size());
  const ShapeTable& shapes = *table.shapes;
  FieldMap made{Eigen::MatrixXd(shapes.d1.rows(), points),
                Eigen::MatrixXd(shapes.d1.rows(), points), Eigen::VectorXd(points)};
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const ElementPoint& x = table.points[c];
    const double r = std::sqrt(x.s);
    const bool flux = side == Side::flux;
    const Eigen::Vector2d to_r = flux ? Eigen::Vector2d(-1.0 / r * x.gradient.row(1))
                                      : Eigen::Vector2d(-2.0 * r * x.gradient.row(0));
    const Eigen::Vector2d to_z =
        flux ? Eigen::Vector2d(2.0 * x.gradient.row(0)) : Eigen::Vector2d(-x.gradient.row(1));
    made.r.col(c) = to_r[0] * shapes.d1.col(c) + to_r[1] * shapes.d2.col(c);
    made.z.col(c) = to_z[0] * shapes.d1.col(c) + to_z[1] * shapes.d2.col(c);
    made.weight[c] = std::numbers::pi * x.weight;
  }
  return made;
}

Eigen::Matrix2Xd source_field(const Energetic& given, const Source& source, int triangle,
                              const ElementTable& table, const FieldMap& map, Side side)
{
  Eigen::Matrix2Xd X = Eigen::Matrix2Xd::Zero(2, map.weight.size());
  X.row(1).setConstant(side == Side::flux ? source.background : source.background / mu0);
  if (side == Side::flux)
    return X;
  const int conductor = given.space.mesh.triangles[triangle].conductor;
  const double I = conductor >= 0 ? source.ampere_turns[conductor] : 0.0;
  Eigen::VectorXd offset = Eigen::VectorXd::Zero(map.r.rows());
  offset.head<3>() = source.offset[triangle];
  X += map.field(offset);
  for (Eigen::Index c = 0; c < map.weight.size() && I != 0.0; ++c)
  {
    const ElementPoint& x = table.points[c];
    const Eigen::Vector2d h = section_field(given.layout.conductors[conductor], I, x.s, x.z);
    X(0, c) += 2.0 * std::sqrt(x.s) * h[0];
    X(1, c) += h[1];
  }
  return X;
}

Density density(const RegionLaw& law, Side side, double magnitude)
{
  if (law.curve == nullptr)
  {
    const double c = side == Side::flux ? 1.0 / (mu0 * law.permeability) : mu0 * law.permeability;
    return {0.5 * c * magnitude * magnitude, c * magnitude, c};
  }
  if (side == Side::flux)
  {
    const MagneticState at = law.curve->at_flux(magnitude);
    return {at.energy(), at.H, 1.0 / at.slope};
  }
  const MagneticState at = law.curve->at_field(magnitude);
  return {at.coenergy, at.B, at.slope};
}

Eigen::Matrix2d bend(const Density& at, const Eigen::Vector2d& X, double magnitude)
{
  if (magnitude == 0.0)
    return at.second * Eigen::Matrix2d::Identity();
  const double across = at.first / magnitude;
  return across * Eigen::Matrix2d::Identity() +
         (at.second - across) / (magnitude * magnitude) * X * X.transpose();
}

Source driving(const Energetic& given, const Eigen::VectorXd& currents)
{
  std::vector<Source> all(given.sources.begin(), given.sources.end());
  all.push_back(background_source(given.space, given.layout, given.background));
  Eigen::VectorXd amperes(currents.size() + 1);
  amperes << currents, 1.0;
  return combined(all, amperes);
}

} // namespace solver
