// Which frequencies of a curve are solved, and which are joined from them.
#include "solver/harmonic_model.hpp"

#include "solver/at_once.hpp"
#include "solver/factor_pool.hpp"
#include "solver/harmonic_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace solver
{

namespace
{

constexpr std::size_t fewest_to_join = 8;  ///< Frequencies; below, joining saves nothing.
constexpr std::size_t most_snapshots = 30; ///< Beyond, the rest is solved.
constexpr double most_bytes = 1.5e9;       ///< Kept of all snapshots.

/// The frequency of the widest disc beyond what is asked; then the widest at least an octave away,
/// so that two are solved at once.
std::vector<double> widest(const std::vector<double>& frequencies,
                           const std::vector<double>& relative, double accuracy)
{
  std::vector<double> chosen;
  for (int i = 0; i < 2; ++i)
  {
    double worst = accuracy, at = 0.0;
    for (std::size_t f = 0; f < frequencies.size(); ++f)
      if (relative[f] > worst &&
          (chosen.empty() || std::abs(std::log2(frequencies[f] / chosen[0])) >= 1.0))
      {
        worst = relative[f];
        at = frequencies[f];
      }
    if (at > 0.0)
      chosen.push_back(at);
  }
  return chosen;
}

/// Adds snapshots until every disc is as small as asked, but for frequencies whose own solution on
/// this mesh is not; these are returned.
std::set<double> complete(HarmonicModel& model, const std::vector<double>& frequencies,
                          double accuracy, std::size_t most, int threads)
{
  std::set<double> left;
  std::vector<double> next = {frequencies.front(), frequencies[frequencies.size() / 2],
                              frequencies.back()};
  while (true)
  {
    model.add(next, threads);
    std::vector<double> relative(frequencies.size(), 0.0);
    at_once(frequencies.size(), threads,
            [&](std::size_t i)
            {
              if (!left.contains(frequencies[i]))
                relative[i] = model.numbers_at(frequencies[i]).accuracy_met;
            });
    const std::vector<HarmonicState>& solved = model.span().states;
    for (std::size_t i = 0; i < frequencies.size(); ++i)
      if (relative[i] > accuracy &&
          (solved.size() >= most ||
           std::ranges::count(solved, frequencies[i], &HarmonicState::frequency) > 0))
      {
        left.insert(frequencies[i]);
        relative[i] = 0.0;
      }
    next = widest(frequencies, relative, accuracy);
    if (next.empty())
      return left;
  }
}

/// A mesh for all: skin depth is least at the highest frequency, and what the lowest needs beside.
/// The discs are asked a little smaller, which leaves room for what joining adds.
Harmonic common_mesh(Problem problem)
{
  const double accuracy = problem.accuracy;
  problem.accuracy *= 0.8;
  const Harmonic highest = solve_harmonic(problem, problem.frequencies.back());
  Harmonic base = solve_harmonic(problem, problem.frequencies.front(), &highest);
  base.problem.accuracy = accuracy;
  return base;
}

void solve_each(const Problem& problem, int threads,
                const std::function<void(std::size_t, const Harmonic&)>& use)
{
  const std::vector<double>& frequencies = problem.frequencies;
  // Skin depth is least at the highest: its mesh serves the others, refined on where it must be.
  const Harmonic finest = solve_harmonic(problem, frequencies.back());
  use(frequencies.size() - 1, finest);
  FactorPool factors;
  at_once(frequencies.size() - 1, threads,
          [&](std::size_t i) { use(i, solve_harmonic(problem, frequencies[i], finest, factors)); });
}

} // namespace

void solve_curve(const Problem& problem, int threads,
                 const std::function<void(std::size_t, const Harmonic&)>& use)
{
  const std::vector<double>& frequencies = problem.frequencies;
  if (frequencies.size() < fewest_to_join || problem.background)
    return solve_each(problem, threads, use);
  const Harmonic base = common_mesh(problem);
  const double kept =
      std::min<double>(most_snapshots, most_bytes / HarmonicModel::bytes_kept(base));
  if (!base.accuracy_reached || kept < 4.0)
    return solve_each(problem, threads, use);
  HarmonicModel model(base);
  const std::set<double> left =
      complete(model, frequencies, problem.accuracy, static_cast<std::size_t>(kept), threads);
  at_once(frequencies.size(), threads,
          [&](std::size_t i)
          {
            use(i, left.contains(frequencies[i])
                       ? solve_harmonic(problem, frequencies[i], base, model.factors())
                       : model.at(frequencies[i]));
          });
}

} // namespace solver
