// Elements with a curve by their points, all others by matrices kept from the start.
#include "solver/convex_energy.hpp"

#include "solver/gather.hpp"
#include "solver/problem.hpp"

namespace solver
{

ConvexEnergy::ConvexEnergy(const Energetic& given, const Eigen::VectorXd& currents, Side side)
    : _given(given), _side(side),
      _pull(side == Side::flux ? given.background / mu0 : given.background)
{
  const Space& space = given.space;
  const auto triangles = static_cast<int>(space.mesh.triangles.size());
  const std::vector<double> air(given.laws.size(), 1.0);
  const auto windings = static_cast<Eigen::Index>(given.sources.size());
  const Source background = background_source(space, given.layout, given.background);
  const Source driven = driving(given, currents);
  _by_current = Eigen::MatrixXd::Zero(space.count, windings);
  for (Eigen::Index w = 0; w < windings && side == Side::flux; ++w)
    _by_current.col(w) = -flux_load(space, given.layout, given.sources[w], air);
  Eigen::VectorXd apart = Eigen::VectorXd::Zero(space.count);
  for (int k = 0; k < triangles; ++k)
  {
    const RegionLaw& law = given.laws[space.mesh.triangles[k].region];
    _gather.push_back(triangle_gather(space, k));
    _index.push_back(law.curve ? static_cast<int>(_curved.size()) : -1);
    if (!law.curve)
    {
      scatter(_gather.back(), fixed_part(k, background), apart);
      for (Eigen::Index w = 0; w < windings && side == Side::field; ++w)
        scatter(_gather.back(), fixed_part(k, given.sources[w]), _by_current.col(w));
      continue;
    }
    const ElementTable table = triangle_table(space, k, Care::solving);
    FieldMap map = field_map(table, side);
    Curved one{_gather.back(), {}, source_field(given, driven, k, table, map, side), &law, {}};
    for (Eigen::Index w = 0; w < windings && side == Side::field; ++w)
      one.by_current.push_back(source_field(given, given.sources[w], k, table, map, side));
    one.map = std::move(map);
    _curved.push_back(std::move(one));
  }
  for (std::size_t x = 0; x < space.exteriors.size(); ++x)
    _gather.push_back(exterior_gather(space, static_cast<int>(x)));
  _fixed = _by_current * currents + apart;
}

Eigen::VectorXd ConvexEnergy::fixed_part(int triangle, const Source& source) const
{
  const mesh::Triangle& t = _given.space.mesh.triangles[triangle];
  const bool current = t.conductor >= 0 && source.ampere_turns[t.conductor] != 0.0;
  const bool pulled = source.background != 0.0 && _given.laws[t.region].permeability != 1.0;
  if (!pulled && (_side == Side::flux || (!current && source.offset[triangle].isZero(0.0))))
    return Eigen::VectorXd::Zero(static_cast<Eigen::Index>(_gather[triangle].index.size()));
  const ElementTable table = triangle_table(_given.space, triangle, Care::solving);
  const FieldMap map = field_map(table, _side);
  const double pull = source.background == 0.0 ? 0.0 : _pull;
  Eigen::Matrix2Xd X =
      coefficient(triangle) * source_field(_given, source, triangle, table, map, _side);
  X.row(1).array() -= pull;
  X = X * map.weight.asDiagonal();
  return map.r * X.row(0).transpose() + map.z * X.row(1).transpose();
}

double ConvexEnergy::coefficient(int element) const
{
  const Space& space = _given.space;
  const bool inside = element < static_cast<int>(space.mesh.triangles.size());
  const double mu =
      mu0 * (inside ? _given.laws[space.mesh.triangles[element].region].permeability : 1.0);
  return _side == Side::flux ? 1.0 / mu : mu;
}

Eigen::MatrixXd ConvexEnergy::matrix(int element, const Expansion& at) const
{
  const bool inside = element < static_cast<int>(_index.size());
  return inside && _index[element] >= 0 ? at.tangent[_index[element]]
                                        : coefficient(element) * _given.unit[element];
}

Eigen::VectorXd ConvexEnergy::linear_part(const Eigen::VectorXd& u) const
{
  Eigen::VectorXd made = Eigen::VectorXd::Zero(u.size());
  for (std::size_t k = 0; k < _gather.size(); ++k)
    if (k >= _index.size() || _index[k] < 0)
      scatter(_gather[k],
              coefficient(static_cast<int>(k)) * (_given.unit[k] * gathered(_gather[k], u)), made);
  return made;
}

ConvexEnergy::Curves ConvexEnergy::curves(CurvedFields X) const
{
  Curves made{std::move(X), {}};
  for (std::size_t k = 0; k < _curved.size(); ++k)
  {
    made.at.emplace_back();
    for (Eigen::Index c = 0; c < made.X[k].cols(); ++c)
      made.at.back().push_back(density(*_curved[k].law, _side, made.X[k].col(c).norm()));
  }
  return made;
}

ConvexEnergy::State ConvexEnergy::state(Eigen::VectorXd u) const
{
  State made;
  made.linear = linear_part(u);
  made.value = u.dot(0.5 * made.linear + _fixed);
  CurvedFields X;
  for (const Curved& one : _curved)
    X.push_back(one.map.field(gathered(one.gather, u)) + one.fixed);
  made.curves = curves(std::move(X));
  for (std::size_t k = 0; k < _curved.size(); ++k)
    for (std::size_t c = 0; c < made.curves.at[k].size(); ++c)
    {
      const auto point = static_cast<Eigen::Index>(c);
      made.value += _curved[k].map.weight[point] *
                    (made.curves.at[k][c].value - _pull * made.curves.X[k](1, point));
    }
  made.u = std::move(u);
  return made;
}

ConvexEnergy::Expansion ConvexEnergy::touching(const State& at, const Curves& about) const
{
  Expansion made{at.linear + _fixed, _by_current, {}};
  for (std::size_t k = 0; k < _curved.size(); ++k)
  {
    const Curved& one = _curved[k];
    const Eigen::Matrix2Xd& here = at.curves.X[k];
    const Eigen::Index points = here.cols();
    Eigen::VectorXd a(points), b(points), rr(points), rz(points), zz(points);
    for (Eigen::Index c = 0; c < points; ++c)
    {
      const Eigen::Vector2d x = about.X[k].col(c);
      const double magnitude = x.norm();
      const Density& law = about.at[k][static_cast<std::size_t>(c)];
      const Eigen::Matrix2d K = bend(law, x, magnitude);
      Eigen::Vector2d slope = K * (here.col(c) - x);
      if (magnitude > 0.0)
        slope += law.first / magnitude * x;
      const double w = one.map.weight[c];
      a[c] = w * slope[0];
      b[c] = w * (slope[1] - _pull);
      rr[c] = w * K(0, 0);
      rz[c] = w * K(0, 1);
      zz[c] = w * K(1, 1);
    }
    const Eigen::MatrixXd &R = one.map.r, &Z = one.map.z;
    scatter(one.gather, R * a + Z * b, made.gradient);
    for (std::size_t w = 0; w < one.by_current.size(); ++w)
    {
      const Eigen::VectorXd t_r = one.by_current[w].row(0).transpose(),
                            t_z = one.by_current[w].row(1).transpose();
      scatter(one.gather,
              R * (rr.cwiseProduct(t_r) + rz.cwiseProduct(t_z)) +
                  Z * (rz.cwiseProduct(t_r) + zz.cwiseProduct(t_z)),
              made.by_current.col(static_cast<Eigen::Index>(w)));
    }
    const Eigen::MatrixXd to_r = R * rr.asDiagonal() + Z * rz.asDiagonal(),
                          to_z = R * rz.asDiagonal() + Z * zz.asDiagonal();
    Eigen::MatrixXd tangent = to_r * R.transpose();
    tangent += to_z * Z.transpose();
    made.tangent.push_back(std::move(tangent));
  }
  return made;
}

} // namespace solver
