// One pass over all elements at round-off quadrature.
#include "solver/bracket.hpp"

#include "solver/problem.hpp"
#include "solver/section_field.hpp"

#include <cmath>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

/// int mu (h, h') with h = h_s ds + h_z dz: weights of the two parts at a point.
Eigen::MatrixXd product(const Eigen::RowVectorXd& a_s, const Eigen::RowVectorXd& a_z,
                        const Eigen::RowVectorXd& b_s, const Eigen::RowVectorXd& b_z, double s)
{
  return 2.0 * s * a_s.transpose() * b_s + 0.5 * a_z.transpose() * b_z;
}

struct Sums
{
  Eigen::MatrixXd gap, flux, field;
};

/// @param conductor  Index, or -1 outside conductors.
Sums element_sums(const ElementTable& table, const mesh::Layout& layout,
                  std::span<const Source> sources, int conductor, double permeability,
                  const Eigen::MatrixXd& flux, const Eigen::MatrixXd& potential)
{
  const auto n = static_cast<Eigen::Index>(sources.size());
  Sums sums{Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, n), Eigen::MatrixXd::Zero(n, n)};
  const double mu = mu0 * permeability;
  const ShapeTable& shapes = *table.shapes;
  const Eigen::MatrixXd psi_1 = flux.transpose() * shapes.d1, psi_2 = flux.transpose() * shapes.d2,
                        phi_1 = potential.transpose() * shapes.d1,
                        phi_2 = potential.transpose() * shapes.d2;
  for (Eigen::Index c = 0; c < psi_1.cols(); ++c)
  {
    const ElementPoint& x = table.points[c];
    const Eigen::Matrix2d& g = x.gradient;
    // H = nu B: h_s = -nu psi_z / (2 s), h_z = 2 nu psi_s.
    const Eigen::RowVectorXd B_s = -(g(1, 0) * psi_1.col(c) + g(1, 1) * psi_2.col(c)).transpose() /
                                   (2.0 * x.s * mu),
                             B_z = 2.0 / mu *
                                   (g(0, 0) * psi_1.col(c) + g(0, 1) * psi_2.col(c)).transpose();
    Eigen::RowVectorXd H_s = -(g(0, 0) * phi_1.col(c) + g(0, 1) * phi_2.col(c)).transpose(),
                       H_z = -(g(1, 0) * phi_1.col(c) + g(1, 1) * phi_2.col(c)).transpose();
    Eigen::RowVectorXd D_s = H_s - B_s, D_z = H_z - B_z;
    for (Eigen::Index j = 0; j < n; ++j)
    {
      if (conductor >= 0 && sources[j].ampere_turns[conductor] != 0.0)
      {
        const Eigen::Vector2d T = section_field(layout.conductors[conductor],
                                                sources[j].ampere_turns[conductor], x.s, x.z);
        H_s[j] += T[0];
        H_z[j] += T[1];
        D_s[j] += T[0];
        D_z[j] += T[1];
      }
      D_z[j] += sources[j].background * (1.0 / mu0 - 1.0 / mu);
    }
    const double w = two_pi * mu * x.weight;
    sums.gap += w * product(D_s, D_z, D_s, D_z, x.s);
    sums.flux += w * product(B_s, B_z, B_s, B_z, x.s);
    sums.field += w * product(H_s, H_z, H_s, H_z, x.s);
  }
  return sums;
}

Eigen::MatrixXd local_part(const Gather& gather, const Eigen::MatrixXd& global)
{
  Eigen::MatrixXd local(gather.index.size(), global.cols());
  for (std::size_t i = 0; i < gather.index.size(); ++i)
    local.row(i) = gather.sign[i] * global.row(gather.index[i]);
  return local;
}

void add(Bracket& made, const Sums& sums, int region)
{
  made.gap += sums.gap;
  made.flux_energy += sums.flux;
  made.field_energy += sums.field;
  made.region_energy[region] += 0.5 * (sums.flux + sums.field);
}

} // namespace

Bracket bracket(const Space& space, const mesh::Layout& layout, std::span<const Source> sources,
                std::span<const double> permeability, const Eigen::MatrixXd& flux,
                const Eigen::MatrixXd& potential, const Eigen::MatrixXd& loads)
{
  const auto n = static_cast<Eigen::Index>(sources.size());
  const auto triangles = static_cast<Eigen::Index>(space.mesh.triangles.size());
  const auto exteriors = static_cast<Eigen::Index>(space.exteriors.size());
  const Eigen::MatrixXd zero = Eigen::MatrixXd::Zero(n, n);
  Bracket made{zero,
               zero,
               zero,
               Eigen::VectorXd::Zero(n),
               Eigen::MatrixXd::Zero(triangles, n),
               Eigen::MatrixXd::Zero(exteriors, n),
               std::vector(layout.regions.size(), zero)};
  for (Eigen::Index k = 0; k < triangles; ++k)
  {
    const mesh::Triangle& t = space.mesh.triangles[k];
    const Gather gather = triangle_gather(space, static_cast<int>(k));
    Eigen::MatrixXd phi = local_part(gather, potential);
    for (Eigen::Index j = 0; j < n; ++j)
      phi.col(j).head<3>() += sources[j].offset[k];
    const ElementTable table = triangle_table(space, static_cast<int>(k), Care::bracketing);
    const Sums sums = element_sums(table, layout, sources, t.conductor, permeability[t.region],
                                   local_part(gather, flux), phi);
    add(made, sums, t.region);
    made.triangle_gap.row(k) = sums.gap.diagonal().transpose();
    // The background's own constant: int (nu0 - nu) B0^2 over the bodies.
    const double contrast = (1.0 - 1.0 / permeability[t.region]) / mu0;
    if (contrast != 0.0)
      for (Eigen::Index j = 0; j < n; ++j)
        for (const ElementPoint& x : table.points)
          made.lower[j] +=
              0.5 * two_pi * x.weight * contrast * sources[j].background * sources[j].background;
  }
  for (Eigen::Index k = 0; k < exteriors; ++k)
  {
    const Gather gather = exterior_gather(space, static_cast<int>(k));
    const Sums sums =
        element_sums(exterior_table(space, static_cast<int>(k), Care::bracketing), layout, sources,
                     -1, 1.0, local_part(gather, flux), local_part(gather, potential));
    add(made, sums, 0);
    made.exterior_gap.row(k) = sums.gap.diagonal().transpose();
  }
  made.lower +=
      2.0 * loads.cwiseProduct(flux).colwise().sum().transpose() - made.flux_energy.diagonal();
  return made;
}

} // namespace solver
