// Complex flux function, an equilibrated field beside it, the disc, refinement where it is wide.
#include "solver/harmonic.hpp"

#include "mesh/mesher.hpp"
#include "solver/adaptivity.hpp"
#include "solver/factor_pool.hpp"
#include "solver/field.hpp"
#include "solver/harmonic_mesh.hpp"
#include "solver/memory.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

void solve_on_mesh(Harmonic& s, const mesh::Mesh& mesh, Eigen::VectorXd& indicators,
                   HarmonicFactors* factors = nullptr)
{
  s.space = space(mesh, order_for(s.problem.accuracy));
  OnMesh found = on_mesh(s, nullptr, factors);
  s.sources = std::move(found.sources);
  s.flux = std::move(found.flux);
  s.field = std::move(found.field);
  s.region_energy = std::move(found.region_energy);
  s.region_loss = std::move(found.region_loss);
  s.winding_loss = std::move(found.winding_loss);
  s.strand_field = std::move(found.strand_field);
  s.unknowns = found.unknowns;
  s.impedance = std::complex<double>(0.0, two_pi * s.frequency) * found.linkage;
  s.error_energy.resize(found.linkage.rows());
  const double cosine = loss_cosine(s.permeability);
  for (Eigen::Index j = 0; j < s.error_energy.size(); ++j)
    s.error_energy[j] =
        error_bound(std::sqrt(found.eta.col(j).sum()), std::sqrt(found.zeta.col(j).sum()), cosine);
  // Shares of both residuals, relative to |l(psi)|, the worst winding's.
  indicators = Eigen::VectorXd::Zero(found.eta.rows());
  for (Eigen::Index j = 0; j < s.error_energy.size(); ++j)
    indicators =
        indicators.cwiseMax((found.eta.col(j) + found.zeta.col(j)) / std::abs(found.linkage(j, j)));
  judge(s);
}

/// One number a region that differs where the field bends sharply at an edge between two.
std::vector<double> contrast(const Harmonic& s)
{
  std::vector<double> list;
  for (const std::complex<double>& mu : s.permeability)
    list.push_back(std::abs(mu));
  return list;
}

MeshSize size_of(const Harmonic& s, const mesh::Mesh& mesh)
{
  return {mesh.triangles.size(), order_for(s.problem.accuracy),
          s.problem.scene.windings.size() + (s.problem.background ? 1 : 0), true};
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(Harmonic& s, Eigen::VectorXd& indicators)
{
  Harmonic next = s;
  ++next.refinements;
  // A disc's radius is up to 1.7 times the sum of the shares.
  s.limit = solved_finer(s.space, indicators, contrast(s), s.problem.accuracy / 1.5,
                         [&](const mesh::Mesh& mesh)
                         {
                           std::string lacking = MemoryShare::lacking(size_of(s, mesh));
                           if (lacking.empty())
                             solve_on_mesh(next, mesh, indicators);
                           return lacking;
                         });
  if (!s.limit.empty())
    return false;
  s = std::move(next);
  return true;
}

/// @param factors  Of that mesh at another frequency, or null.
void refine_until_reached(Harmonic& s, const mesh::Mesh& mesh, HarmonicFactors* factors = nullptr)
{
  const MemoryShare share;
  MemoryShare::require(size_of(s, mesh));
  constexpr int most_refinements = 60, most_unknowns = 500000;
  Eigen::VectorXd indicators;
  solve_on_mesh(s, mesh, indicators, factors);
  double before = std::numeric_limits<double>::infinity();
  while (!s.accuracy_reached)
  {
    if (s.refinements >= most_refinements || s.unknowns > most_unknowns)
      s.limit = s.unknowns > most_unknowns ? "the mesh would need more than 500000 unknowns"
                                           : "60 refinements were not enough";
    else if (s.refinements % 8 == 7 && s.accuracy_met > 0.5 * before)
      s.limit = "round-off: refining no longer narrows the disc";
    if (!s.limit.empty())
      return;
    if (s.refinements % 8 == 0)
      before = s.accuracy_met;
    if (!refine(s, indicators))
      return;
  }
}

void check(const Problem& problem, double frequency)
{
  if (problem.scene.windings.empty() && !problem.background)
    throw std::invalid_argument("nothing to solve: no winding and no background field");
  if (!(frequency > 0.0))
    throw std::invalid_argument("a frequency must be positive");
}

/// Solid turns and coatings of turns have a constant each, those below the middle too: they need
/// the whole. So does a body in a background, as in solve().
mesh::Portion portion(const Problem& problem)
{
  const bool constants = std::ranges::any_of(
      problem.scene.windings,
      [](const mesh::Winding& winding)
      {
        const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build);
        return turns && (turns->strand == mesh::Strand::solid || turns->coating);
      });
  return constants || problem.background ? mesh::Portion::whole : mesh::Portion::half_if_mirrored;
}

/// Solved on a mesh that begins coarse.
Harmonic begun(const Problem& problem, double frequency, mesh::Portion portion)
{
  Harmonic s = harmonic_of(problem, mesh::layout(problem.scene), frequency);
  solved_graded(mesh::coarse_mesh(s.layout, portion), contrast(s), problem.accuracy,
                [&](const mesh::Mesh& mesh) { refine_until_reached(s, mesh); });
  return s;
}

} // namespace

Harmonic harmonic_of(const Problem& problem, const mesh::Layout& layout, double frequency)
{
  Harmonic made;
  made.problem = problem;
  made.layout = layout;
  made.frequency = frequency;
  for (const mesh::Region& region : layout.regions)
  {
    const Material& of = material(problem, region.material);
    made.permeability.push_back(permeability(of, frequency));
    made.conductivity.push_back(conductivity(of, problem.temperature));
  }
  return made;
}

void judge(Harmonic& s)
{
  s.accuracy_met = 0.0;
  for (Eigen::Index i = 0; i < s.impedance.rows(); ++i)
  {
    if (s.impedance(i, i) == 0.0 && s.error_energy[i] == 0.0)
      continue; // a background that meets no body
    const double radius = s.disc(i, i) / std::abs(s.impedance(i, i));
    if (!std::isfinite(radius))
      throw std::runtime_error("the solution is not finite: materials or sizes too far apart");
    s.accuracy_met = std::max(s.accuracy_met, radius);
  }
  s.accuracy_reached = s.accuracy_met <= s.problem.accuracy;
}

double loss_cosine(const std::vector<std::complex<double>>& permeability)
{
  double least = 1.0;
  for (const std::complex<double>& mu : permeability)
    least = std::min(least, std::cos(0.5 * std::abs(std::arg(mu))));
  return least;
}

double Harmonic::disc(Eigen::Index i, Eigen::Index j) const
{
  return two_pi * frequency * std::sqrt(error_energy[i] * error_energy[j]);
}

Harmonic solve_harmonic(const Problem& problem, double frequency, const Harmonic* start)
{
  check(problem, frequency);
  if (!start)
    return begun(problem, frequency, portion(problem));
  Harmonic s = harmonic_of(problem, start->layout, frequency);
  refine_until_reached(s, start->space.mesh);
  return s;
}

mesh::Mesh skin_mesh(const Problem& problem, double frequency)
{
  check(problem, frequency);
  return begun(problem, frequency, mesh::Portion::whole).space.mesh;
}

Harmonic solve_harmonic(const Problem& problem, double frequency, const Harmonic& start,
                        FactorPool& pool)
{
  Harmonic s = harmonic_of(problem, start.layout, frequency);
  pool.lend([&](HarmonicFactors& factors) { refine_until_reached(s, start.space.mesh, &factors); });
  return s;
}

HarmonicPoint field_at(const Harmonic& s, const Eigen::VectorXd& currents, mesh::Point point)
{
  const mesh::Box& box = s.space.mesh.box;
  if (box.halved && point.z < box.middle)
  {
    HarmonicPoint image = field_at(s, currents, {point.r, 2.0 * box.middle - point.z});
    image.B_r = -image.B_r;
    return image;
  }
  const Place place = locate(s.space, point);
  const Eigen::VectorXcd flux = s.flux * currents.cast<std::complex<double>>();
  const FluxPoint real = flux_at(s.space, place, point, flux.real()),
                  imaginary = flux_at(s.space, place, point, flux.imag());
  const double background = s.problem.background.value_or(0.0) *
                            (s.problem.background ? currents[currents.size() - 1] : 0.0);
  return {{real.B_r, imaginary.B_r},
          {real.B_z + background, imaginary.B_z},
          place.triangle < 0 ? 0 : s.space.mesh.triangles[place.triangle].region};
}

double error_bound(double eta, double zeta, double c)
{
  constexpr double rounding = 1.0 + 1e-14;
  const double cc = c * c;
  // Of one alone: c^2 x^2 + y^2 <= eta^2 x, or <= zeta^2 y, and its farthest point along x + y.
  if (zeta == 0.0)
    return rounding * eta * eta * (1.0 + std::sqrt(1.0 + cc)) / (2.0 * cc);
  if (eta == 0.0)
    return rounding * zeta * zeta * (1.0 + std::sqrt(1.0 + 1.0 / cc)) / 2.0;
  // By Cauchy's inequality (eta sqrt x + zeta sqrt y)^2 <= K (q x + y), K = eta^2 / q + zeta^2, for
  // any q: an ellipse. The least one is told by its own farthest point; few steps come close.
  double least = std::numeric_limits<double>::infinity(), q = eta / zeta;
  for (int step = 0; step < 12; ++step)
  {
    const double K = eta * eta / q + zeta * zeta;
    const double lambda = 0.5 * std::sqrt((q * q / cc + 1.0) / (1.0 + 1.0 / cc));
    const double x = K * (0.5 * q + lambda) / cc, y = K * (0.5 + lambda);
    least = std::min(least, x + y);
    q = eta / zeta * std::sqrt(y / x);
  }
  return rounding * least;
}

} // namespace solver
