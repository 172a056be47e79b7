// The field across the strands of a plain section: what proximity loss grows with.
#include "solver/harmonic_passes.hpp"

#include <cmath>

namespace solver
{

void Passes::sum_strands(int k, const ElementTable& at, const ElementTable::Gradients& by)
{
  const int conductor = k < _triangles ? _space.mesh.triangles[k].conductor : -1;
  if (conductor < 0 ||
      !std::holds_alternative<mesh::BlockSection>(_s.layout.conductors[conductor].section))
    return;
  Eigen::MatrixXcd& sum = _made.strand_field[_s.layout.conductors[conductor].winding];
  for (std::size_t i = 0; i < at.points.size(); ++i)
  {
    const ElementPoint& x = at.points[i];
    const auto c = static_cast<Eigen::Index>(i);
    Eigen::VectorXcd H_r(_windings), H_z(_windings); // the section itself is not magnetic
    for (Eigen::Index w = 0; w < _windings; ++w)
    {
      H_r[w] = -std::complex<double>(by.d_z(w, c), by.d_z(_count + w, c)) / (mu0 * std::sqrt(x.s));
      H_z[w] = 2.0 / mu0 * std::complex<double>(by.d_s(w, c), by.d_s(_count + w, c));
    }
    const double volume = std::numbers::pi * x.weight; // 2 pi r dr dz = pi ds dz
    sum += volume * (H_r * H_r.adjoint() + H_z * H_z.adjoint());
  }
}

} // namespace solver
