// One pass over all elements at round-off quadrature.
#include "solver/bracket.hpp"

#include "solver/gather.hpp"
#include "solver/problem.hpp"
#include "solver/section_field.hpp"

#include <cmath>
#include <future>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

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
  const auto count = static_cast<Eigen::Index>(table.points.size());
  const double mu = mu0 * permeability;
  // Forms h_s ds + h_z dz, one row a source; H = nu B: h_s = -nu psi_z / (2 s), h_z = 2 nu psi_s.
  // Scaled by the square roots of their weights in 2 pi int mu (2 s h_s^2 + h_z^2 / 2) ds dz.
  const ElementTable::Gradients psi = table.gradients(flux), phi = table.gradients(potential);
  Eigen::MatrixXd B(n, 2 * count), H(n, 2 * count), D(n, 2 * count);
  for (Eigen::Index c = 0; c < count; ++c)
  {
    const ElementPoint& x = table.points[c];
    const double w_s = std::sqrt(two_pi * mu * x.weight * 2.0 * x.s);
    const double w_z = std::sqrt(two_pi * mu * x.weight * 0.5);
    for (Eigen::Index j = 0; j < n; ++j)
    {
      const double B_s = -psi.d_z(j, c) / (2.0 * x.s * mu), B_z = 2.0 / mu * psi.d_s(j, c);
      Eigen::Vector2d h{-phi.d_s(j, c), -phi.d_z(j, c)};
      if (conductor >= 0 && sources[j].ampere_turns[conductor] != 0.0)
        h += section_field(layout.conductors[conductor], sources[j].ampere_turns[conductor], x.s,
                           x.z);
      const double extra = sources[j].background * (1.0 / mu0 - 1.0 / mu);
      B(j, 2 * c) = w_s * B_s;
      B(j, 2 * c + 1) = w_z * B_z;
      H(j, 2 * c) = w_s * h[0];
      H(j, 2 * c + 1) = w_z * h[1];
      D(j, 2 * c) = w_s * (h[0] - B_s);
      D(j, 2 * c + 1) = w_z * (h[1] - B_z + extra);
    }
  }
  return {D * D.transpose(), B * B.transpose(), H * H.transpose()};
}

void add(Bracket& made, const Sums& sums, int region)
{
  made.gap += sums.gap;
  made.flux_energy += sums.flux;
  made.field_energy += sums.field;
  made.region_flux[region] += sums.flux;
  made.region_field[region] += sums.field;
}

Bracket empty_bracket(const Space& space, const mesh::Layout& layout, Eigen::Index n)
{
  const Eigen::MatrixXd zero = Eigen::MatrixXd::Zero(n, n);
  const auto triangles = static_cast<Eigen::Index>(space.mesh.triangles.size());
  const auto exteriors = static_cast<Eigen::Index>(space.exteriors.size());
  return {zero,
          zero,
          zero,
          Eigen::VectorXd::Zero(n),
          Eigen::MatrixXd::Zero(triangles, n),
          Eigen::MatrixXd::Zero(exteriors, n),
          std::vector(layout.regions.size(), zero),
          std::vector(layout.regions.size(), zero)};
}

/// Everything the elements share.
struct Given
{
  const Space& space;
  const mesh::Layout& layout;
  std::span<const Source> sources;
  std::span<const double> permeability;
  const Eigen::MatrixXd& flux;
  const Eigen::MatrixXd& potential;
};

/// Sums over triangles first <= k < last.
Bracket of_triangles(const Given& g, Eigen::Index first, Eigen::Index last)
{
  const auto n = static_cast<Eigen::Index>(g.sources.size());
  Bracket made = empty_bracket(g.space, g.layout, n);
  for (Eigen::Index k = first; k < last; ++k)
  {
    const mesh::Triangle& t = g.space.mesh.triangles[k];
    const Gather gather = triangle_gather(g.space, static_cast<int>(k));
    Eigen::MatrixXd phi = gathered(gather, g.potential);
    for (Eigen::Index j = 0; j < n; ++j)
      phi.col(j).head<3>() += g.sources[j].offset[k];
    const ElementTable table = triangle_table(g.space, static_cast<int>(k), Care::bracketing);
    const Sums sums = element_sums(table, g.layout, g.sources, t.conductor,
                                   g.permeability[t.region], gathered(gather, g.flux), phi);
    add(made, sums, t.region);
    made.triangle_gap.row(k) = sums.gap.diagonal().transpose();
    // The background's own constant: int (nu0 - nu) B0^2 over the bodies.
    const double contrast = (1.0 - 1.0 / g.permeability[t.region]) / mu0;
    if (contrast != 0.0)
      for (Eigen::Index j = 0; j < n; ++j)
        for (const ElementPoint& x : table.points)
          made.lower[j] += 0.5 * two_pi * x.weight * contrast * g.sources[j].background *
                           g.sources[j].background;
  }
  return made;
}

void add_exteriors(const Given& g, Bracket& made)
{
  for (std::size_t k = 0; k < g.space.exteriors.size(); ++k)
  {
    const int x = static_cast<int>(k);
    const Gather gather = exterior_gather(g.space, x);
    const Sums sums =
        element_sums(exterior_table(g.space, x, Care::bracketing), g.layout, g.sources, -1, 1.0,
                     gathered(gather, g.flux), gathered(gather, g.potential));
    add(made, sums, 0);
    made.exterior_gap.row(x) = sums.gap.diagonal().transpose();
  }
}

void add(Bracket& made, const Bracket& part)
{
  made.gap += part.gap;
  made.flux_energy += part.flux_energy;
  made.field_energy += part.field_energy;
  made.lower += part.lower;
  made.triangle_gap += part.triangle_gap;
  for (std::size_t r = 0; r < made.region_flux.size(); ++r)
  {
    made.region_flux[r] += part.region_flux[r];
    made.region_field[r] += part.region_field[r];
  }
}

} // namespace

Bracket bracket(const Space& space, const mesh::Layout& layout, std::span<const Source> sources,
                std::span<const double> permeability, const Eigen::MatrixXd& flux,
                const Eigen::MatrixXd& potential, const Eigen::MatrixXd& loads, int threads)
{
  const Given given{space, layout, sources, permeability, flux, potential};
  const auto triangles = static_cast<Eigen::Index>(space.mesh.triangles.size());
  // Always two halves, so that the sums do not depend on the threads.
  std::future<Bracket> half =
      std::async(threads > 1 ? std::launch::async : std::launch::deferred,
                 [&] { return of_triangles(given, triangles / 2, triangles); });
  Bracket made = of_triangles(given, 0, triangles / 2);
  add(made, half.get());
  add_exteriors(given, made);
  made.lower +=
      2.0 * loads.cwiseProduct(flux).colwise().sum().transpose() - made.flux_energy.diagonal();
  return made;
}

} // namespace solver
