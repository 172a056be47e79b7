// What a reduced model keeps of a solution: fields at points, weighted so that products are
// energies.
#include "solver/harmonic_passes.hpp"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

/// Real and imaginary parts of the first n columns, then of the others.
Eigen::MatrixXd parted(const Eigen::MatrixXcd& x, Eigen::Index n)
{
  Eigen::MatrixXd parts(x.rows(), 4 * n);
  parts << x.leftCols(n).real(), x.leftCols(n).imag(), x.rightCols(n).real(), x.rightCols(n).imag();
  return parts;
}

} // namespace

void Passes::record(int k, const ElementTable& at, const ElementTable::Gradients& by,
                    const Eigen::MatrixXd& values, const ElementTable::Gradients& phi)
{
  const auto points = static_cast<Eigen::Index>(at.points.size());
  const Complex nu = 1.0 / mu(k);
  const Eigen::MatrixXcd& X = _field[k]; // nu b - T, and H = T - d phi in the sign of nu b
  Eigen::MatrixXcd magnetic(2 * points, 2 * _count);
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const ElementPoint& x = at.points[c];
    const double s = std::sqrt(two_pi * x.weight * 2.0 * x.s),
                 z = std::sqrt(two_pi * x.weight * 0.5);
    for (Eigen::Index w = 0; w < _count; ++w)
    {
      const Complex b_s = Complex(by.d_z(w, c), by.d_z(_count + w, c)) / (2.0 * x.s),
                    b_z = -2.0 * Complex(by.d_s(w, c), by.d_s(_count + w, c));
      const Complex left_s = X(2 * c, w) - Complex(phi.d_s(w, c), phi.d_s(_count + w, c)),
                    left_z = X(2 * c + 1, w) - Complex(phi.d_z(w, c), phi.d_z(_count + w, c));
      magnetic(2 * c, w) = s * b_s;
      magnetic(2 * c + 1, w) = z * b_z;
      magnetic(2 * c, _count + w) = s * (nu * b_s - left_s);
      magnetic(2 * c + 1, _count + w) = z * (nu * b_z - left_z);
    }
  }
  _kept->magnetic.push_back(parted(magnetic, _count));
  if (k >= _triangles)
    return;
  _kept->eddy.emplace_back();
  if (sigma(k) == 0.0)
    return;
  Eigen::MatrixXcd eddy(points, 2 * _count);
  eddy.rightCols(_count) = at.shapes->value.transpose() * _density[k];
  for (Eigen::Index c = 0; c < points; ++c)
  {
    const ElementPoint& x = at.points[c];
    const double v = std::sqrt(two_pi * x.weight * sigma(k) / (2.0 * x.s)),
                 t = std::sqrt(two_pi * x.weight * 2.0 * x.s / sigma(k));
    for (Eigen::Index w = 0; w < _count; ++w)
      eddy(c, w) = v * driven(values, c, x.s, w, solid(k));
    eddy.row(c).tail(_count) *= t * x.gradient.determinant();
  }
  _kept->eddy.back() = parted(eddy, _count);
}

std::vector<int> element_groups(const Harmonic& given, std::vector<Group>& groups)
{
  const mesh::Mesh& mesh = given.space.mesh;
  std::vector<int> list;
  for (std::size_t k = 0; k < mesh.triangles.size() + given.space.exteriors.size(); ++k)
  {
    Group group;
    if (k < mesh.triangles.size())
    {
      group.region = mesh.triangles[k].region;
      if (const int conductor = mesh.triangles[k].conductor; conductor >= 0)
      {
        const mesh::Conductor& is = given.layout.conductors[static_cast<std::size_t>(conductor)];
        const auto* round = std::get_if<mesh::RoundSection>(&is.section);
        group.winding = static_cast<int>(is.winding);
        group.solid = round && round->strand == mesh::Strand::solid;
        group.plain = std::holds_alternative<mesh::Block>(
            given.problem.scene.windings[static_cast<std::size_t>(is.winding)].build);
      }
    }
    const auto found = std::ranges::find(groups, group);
    list.push_back(static_cast<int>(found - groups.begin()));
    if (found == groups.end())
      groups.push_back(group);
  }
  return list;
}

} // namespace solver
