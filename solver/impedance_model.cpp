// A mesh for the extremes of permeability, snapshots where the disc is widest.
#include "solver/impedance_model.hpp"

#include "solver/at_once.hpp"
#include "solver/harmonic_model.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace solver
{

namespace
{

using Values = std::vector<std::complex<double>>; ///< One a varied material.

constexpr std::size_t most_snapshots = 40;
constexpr std::size_t tried_first = 64; ///< Points looked at to choose snapshots.
constexpr int most_meshes = 5;

Problem with(Problem problem, const std::vector<std::string>& varied, const Values& at)
{
  for (std::size_t q = 0; q < varied.size(); ++q)
  {
    Material& of = problem.materials[varied[q]];
    of.permeability = at[q].real();
    of.imaginary = -at[q].imag();
    of.table.clear();
  }
  return problem;
}

double size_of(const Values& at)
{
  return std::accumulate(at.begin(), at.end(), 0.0,
                         [](double sum, const std::complex<double>& mu)
                         { return sum + std::log(std::abs(mu)); });
}

void check(const Problem& problem, const std::vector<std::string>& varied,
           const std::vector<Values>& points)
{
  if (problem.scene.windings.empty() || problem.background || problem.frequencies.size() != 1)
    throw std::invalid_argument("a model of impedances needs windings, one frequency and no "
                                "background field");
  if (varied.empty() || points.empty())
    throw std::invalid_argument("a model of impedances needs a material to vary, and its values");
}

/// The points by size of their permeabilities, at most `count` of them, both ends included.
std::vector<std::size_t> spread(const std::vector<Values>& points, std::size_t count)
{
  std::vector<std::size_t> order(points.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return size_of(points[i]); });
  if (order.size() <= count)
    return order;
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < count; ++i)
    kept.push_back(order[i * (order.size() - 1) / (count - 1)]);
  return kept;
}

/// Widths of discs at points over |Z_ii|, the largest of any winding.
std::vector<double> widths(const ImpedanceModel& model, const std::vector<Values>& points,
                           const std::vector<std::size_t>& of, int threads)
{
  std::vector<double> list(of.size());
  at_once(of.size(), threads,
          [&](std::size_t i)
          {
            const HarmonicState there = state(model, points[of[i]]);
            list[i] = at(model.span, there).accuracy_met(there.frequency);
          });
  return list;
}

bool solved_already(const HarmonicSpan& span, const HarmonicState& at)
{
  return std::ranges::any_of(span.states, [&](const HarmonicState& one)
                             { return one.permeability == at.permeability; });
}

/// Adds snapshots until the disc is as small as asked at all points.
/// @return The point whose own solution is not; the count of points where all are, or no more
///         snapshots are to be had.
std::size_t complete(ImpedanceModel& model, HarmonicModel& solved,
                     const std::vector<Values>& points, std::vector<std::size_t> chosen,
                     double accuracy, int threads)
{
  std::vector<std::size_t> tried = spread(points, tried_first);
  while (true)
  {
    std::vector<HarmonicState> next;
    for (const std::size_t i : chosen)
      if (HarmonicState one = state(model, points[i]); !solved_already(solved.span(), one))
        next.push_back(std::move(one));
    solved.add(next, threads);
    model.span = solved.span();
    std::vector<double> wide = widths(model, points, tried, threads);
    auto worst = std::ranges::max_element(wide);
    if (*worst <= accuracy && tried.size() < points.size())
    {
      tried = spread(points, points.size());
      wide = widths(model, points, tried, threads);
      worst = std::ranges::max_element(wide);
    }
    model.accuracy_met = *worst;
    model.accuracy_reached = *worst <= accuracy;
    const std::size_t at = tried[static_cast<std::size_t>(worst - wide.begin())];
    if (model.accuracy_reached || model.span.states.size() >= most_snapshots)
      return points.size();
    if (solved_already(model.span, state(model, points[at])))
      return at;
    chosen = {at};
  }
}

} // namespace

HarmonicState state(const ImpedanceModel& model, std::span<const std::complex<double>> permeability)
{
  if (permeability.size() != model.varied.size())
    throw std::invalid_argument("one permeability a varied material is needed");
  HarmonicState made = model.fixed;
  for (std::size_t g = 0; g < made.permeability.size(); ++g)
    for (std::size_t q = 0; q < model.varied.size(); ++q)
      if (model.region_material[g] == model.varied[q])
        made.permeability[g] = permeability[q];
  return made;
}

ImpedanceModel impedance_model(const Problem& given, std::vector<std::string> varied,
                               const std::vector<Values>& points, int threads)
{
  check(given, varied, points);
  Problem problem = given;
  problem.accuracy = 0.7 * given.accuracy; // the rest is for what the snapshots leave
  const double frequency = problem.frequencies.front();
  ImpedanceModel model;
  model.varied = std::move(varied);
  const std::vector<std::size_t> ends = spread(points, 3);
  Harmonic base = solve_harmonic(with(problem, model.varied, points[ends.back()]), frequency);
  base = solve_harmonic(with(problem, model.varied, points[ends.front()]), frequency, &base);
  model.fixed = {frequency, base.permeability};
  for (const mesh::Region& region : base.layout.regions)
    model.region_material.push_back(region.material);
  for (int meshes = 0; meshes < most_meshes; ++meshes)
  {
    HarmonicModel solved(base);
    const std::size_t wide = complete(model, solved, points, ends, given.accuracy, threads);
    model.unknowns = base.unknowns;
    if (wide == points.size())
      break;
    const std::size_t before = base.space.mesh.triangles.size();
    base = solve_harmonic(with(problem, model.varied, points[wide]), frequency, &base);
    if (base.space.mesh.triangles.size() == before)
      break; // the mesh has met its floor
  }
  return model;
}

} // namespace solver
