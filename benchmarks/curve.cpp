// An impedance curve of 20 solid coated turns, 60 frequencies over five decades, certified to 1e-3;
// beside it the same sweep by a general-purpose library's complex sparse LU on the finest mesh,
// which certifies nothing.
//
//   build/release/benchmarks/curve [RUNS]        (default 3; medians are printed)
#include "solver/at_once.hpp"
#include "solver/harmonic_model.hpp"

#include <Eigen/SparseLU>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fmt/format.h>
#include <numbers>

namespace
{

using Complex = std::complex<double>;
using Sparse = Eigen::SparseMatrix<Complex>;
constexpr double two_pi = 2.0 * std::numbers::pi, mm = 1e-3;

/// Turns of 1 mm wire in a skin of lossy paste; invented.
solver::Problem turns()
{
  solver::Problem problem;
  problem.materials["paste"] = {.permeability = 12, .imaginary = 0.6};
  mesh::RoundTurns build{.wire_diameter = 1 * mm, .inner_diameter = 20 * mm, .pitch = 2 * mm};
  build.insulation = 0.05 * mm;
  build.coating = mesh::Coating{"paste", 0.3 * mm};
  build.strand = mesh::Strand::solid;
  problem.scene.windings.push_back({"coil", 20.0, build});
  for (int i = 0; i < 60; ++i)
    problem.frequencies.push_back(1e2 * std::pow(1e5, i / 59.0));
  problem.accuracy = 1e-3;
  return problem;
}

double seconds_since(std::chrono::steady_clock::time_point start)
{
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// What the peer assembles once: each element's unit matrices.
struct Elements
{
  std::vector<solver::Gather> gather;
  std::vector<Eigen::MatrixXd> diffusion, reaction; ///< reaction: triangles of solid turns.
};

Elements elements(const solver::Space& space)
{
  Elements made;
  const int triangles = static_cast<int>(space.mesh.triangles.size());
  for (int k = 0; k < triangles + static_cast<int>(space.exteriors.size()); ++k)
  {
    const bool inside = k < triangles;
    made.gather.push_back(inside ? triangle_gather(space, k)
                                 : exterior_gather(space, k - triangles));
    made.diffusion.push_back(inside
                                 ? triangle_matrix(space, k, solver::Weight::over_r)
                                 : exterior_matrix(space, k - triangles, solver::Weight::over_r));
    if (inside)
      made.reaction.push_back(space.mesh.triangles[k].conductor >= 0 ? triangle_reaction(space, k)
                                                                     : Eigen::MatrixXd());
  }
  return made;
}

/// Z by the library's LU: psi off the axis, then one constant a turn.
Complex peer(const solver::Harmonic& on, const Elements& of, double frequency)
{
  const solver::Space& space = on.space;
  const double omega = two_pi * frequency;
  const Complex eddy(0.0, omega * solver::conductivity(solver::material(on.problem, "copper"),
                                                       on.problem.temperature));
  const auto count = static_cast<int>(on.layout.conductors.size());
  std::vector<int> row(static_cast<std::size_t>(space.count), -1);
  int rows = 0;
  for (int i = 0; i < space.count; ++i)
    row[i] = space.on_axis[i] ? -1 : rows++;
  std::vector<Eigen::Triplet<Complex>> list;
  for (std::size_t k = 0; k < of.gather.size(); ++k)
  {
    const bool inside = k < space.mesh.triangles.size();
    const Complex mu =
        solver::mu0 * (inside ? on.permeability[space.mesh.triangles[k].region] : Complex(1.0));
    Eigen::MatrixXcd K = of.diffusion[k].cast<Complex>() / mu;
    const solver::Gather& at = of.gather[k];
    std::vector<int> index;
    std::vector<double> sign = at.sign;
    for (const int i : at.index)
      index.push_back(row[i]);
    if (inside && of.reaction[k].size() > 0)
    {
      const Eigen::Index n = K.rows();
      const Eigen::VectorXcd whole = eddy * of.reaction[k].leftCols(3).rowwise().sum();
      K += eddy * of.reaction[k];
      K.conservativeResize(n + 1, n + 1);
      K.col(n).head(n) = -whole;
      K.row(n).head(n) = -whole.transpose();
      K(n, n) = whole.head<3>().sum();
      index.push_back(rows + space.mesh.triangles[k].conductor);
      sign.push_back(1.0);
    }
    for (Eigen::Index j = 0; j < K.cols(); ++j)
      for (Eigen::Index i = 0; i < K.rows(); ++i)
        if (index[i] >= 0 && index[j] >= 0)
          list.emplace_back(index[i], index[j], sign[i] * sign[j] * K(i, j));
  }
  Sparse matrix(rows + count, rows + count);
  matrix.setFromTriplets(list.begin(), list.end());
  Eigen::VectorXcd load = Eigen::VectorXcd::Zero(rows + count);
  load.tail(count).setConstant(two_pi);
  Eigen::SparseLU<Sparse> lu;
  lu.isSymmetric(true);
  lu.compute(matrix);
  const Eigen::VectorXcd u = lu.solve(load);
  return Complex(0.0, omega) * two_pi * u.tail(count).sum();
}

double middle(std::vector<double> values)
{
  std::ranges::sort(values);
  return values[values.size() / 2];
}

} // namespace

int main(int argc, char** argv)
{
  const int runs = argc > 1 ? std::max(1, std::atoi(argv[1])) : 3, threads = 2;
  const solver::Problem problem = turns();
  const std::size_t count = problem.frequencies.size();
  std::vector<double> own, other;
  double worst = 0.0, apart = 0.0;
  for (int run = 0; run < runs; ++run)
  {
    std::vector<Complex> Z(count);
    std::vector<double> disc(count);
    auto start = std::chrono::steady_clock::now();
    solver::solve_curve(problem, threads,
                        [&](std::size_t i, const solver::Harmonic& s)
                        {
                          Z[i] = s.impedance(0, 0);
                          disc[i] = s.disc(0, 0);
                        });
    own.push_back(seconds_since(start));
    start = std::chrono::steady_clock::now();
    const solver::Harmonic finest = solver::solve_harmonic(problem, problem.frequencies.back());
    const Elements of = elements(finest.space);
    std::vector<Complex> by_peer(count);
    solver::at_once(count, threads,
                    [&](std::size_t i) { by_peer[i] = peer(finest, of, problem.frequencies[i]); });
    other.push_back(seconds_since(start));
    for (std::size_t i = 0; i < count; ++i)
    {
      worst = std::max(worst, disc[i] / std::abs(Z[i]));
      apart = std::max(apart, std::abs(Z[i] - by_peer[i]) / std::abs(Z[i]));
    }
  }
  fmt::print("60 frequencies, 20 solid coated turns, {} threads, medians of {} runs\n", threads,
             runs);
  fmt::print("ferrule       {:6.2f} s  every point certified within {:.1e}\n", middle(own), worst);
  fmt::print("sparse LU     {:6.2f} s  uncertified, mesh given; {:.1e} apart; {:.1f} times "
             "ferrule's time\n",
             middle(other), apart, middle(other) / middle(own));
}
