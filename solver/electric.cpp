// Solve both sides, bracket, refine where the gap is, until it is small enough.
#include "solver/electric.hpp"

#include "solver/adaptivity.hpp"
#include "solver/electric_mesh.hpp"
#include "solver/memory.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>
#include <utility>

namespace solver
{

namespace
{

/// Solves on one mesh; every element's worst relative gap.
Eigen::VectorXd solve_on_mesh(const ElectricProblem& problem, const mesh::Mesh& mesh, Electric& e)
{
  e.space = space(mesh, order_for(problem.accuracy));
  ElectricMesh found = electric_mesh(problem, e.space);
  const Eigen::VectorXd gap = found.gap.colwise().sum();
  e.upper = found.energy;
  e.lower = found.energy - gap;
  e.unknowns = found.unknowns;
  e.accuracy_met = 0.0;
  Eigen::VectorXd indicator = Eigen::VectorXd::Zero(found.gap.rows());
  for (Eigen::Index c = 0; c < gap.size(); ++c)
  {
    if (!std::isfinite(gap[c]) || !(found.energy[c] > 0.0))
      throw std::runtime_error("the electric field is not finite: sizes too far apart");
    e.accuracy_met = std::max(e.accuracy_met, 0.5 * gap[c] / found.energy[c]);
    indicator = indicator.cwiseMax(found.gap.col(c) / found.energy[c]);
  }
  e.accuracy_reached = e.accuracy_met <= problem.accuracy;
  e.potential = std::move(found.potential);
  e.flux = std::move(found.flux);
  e.voltage = std::move(found.voltage);
  e.charge = std::move(found.charge);
  return indicator;
}

/// One number a region that differs where the field bends sharply at an edge between two.
std::vector<double> contrast(const ElectricProblem& problem)
{
  std::vector<double> list = problem.permittivity;
  for (std::size_t g = 0; g < list.size(); ++g)
    if (problem.region_electrode[g] >= 0)
      list[g] = 1e12;
  return list;
}

/// Right-hand sides: one a case, and one a group that floats in it.
MeshSize size_of(const ElectricProblem& problem, const mesh::Mesh& mesh)
{
  std::size_t sources = problem.cases.size();
  for (const ElectricCase& one : problem.cases)
    sources += static_cast<std::size_t>(one.floating.cols());
  return {mesh.triangles.size(), order_for(problem.accuracy), sources};
}

/// A finer mesh that does not fold and that memory can hold, where there is one.
bool refine(const ElectricProblem& problem, Electric& e, Eigen::VectorXd& indicator)
{
  Electric next;
  next.refinements = e.refinements + 1;
  e.limit = solved_finer(e.space, indicator, contrast(problem), 2.0 * problem.accuracy,
                         [&](const mesh::Mesh& mesh)
                         {
                           std::string lacking = MemoryShare::lacking(size_of(problem, mesh));
                           if (lacking.empty())
                             indicator = solve_on_mesh(problem, mesh, next);
                           return lacking;
                         });
  if (!e.limit.empty())
    return false;
  e = std::move(next);
  return true;
}

} // namespace

std::vector<int> electrodes(const mesh::Mesh& mesh, const ElectricProblem& problem)
{
  std::vector<int> list;
  list.reserve(mesh.triangles.size());
  for (const mesh::Triangle& t : mesh.triangles)
  {
    const int section = t.conductor >= 0 ? problem.section_electrode[t.conductor] : -1;
    list.push_back(section >= 0 ? section : problem.region_electrode[t.region]);
  }
  return list;
}

std::vector<std::array<int, 2>> contacts(const mesh::Mesh& mesh, const ElectricProblem& problem)
{
  const std::vector<int> electrode = electrodes(mesh, problem);
  std::vector<std::set<int>> at(mesh.vertices.size());
  for (std::size_t k = 0; k < electrode.size(); ++k)
    for (const int v : mesh.triangles[k].vertices)
      if (electrode[k] >= 0)
        at[v].insert(electrode[k]);
  std::set<std::array<int, 2>> found;
  for (const std::set<int>& here : at)
    for (const int a : here)
      for (const int b : here)
        if (a < b)
          found.insert({a, b});
  return {found.begin(), found.end()};
}

Electric solve_electric(const ElectricProblem& problem)
{
  constexpr int most_refinements = 40, most_unknowns = 500000;
  if (!contacts(problem.mesh, problem).empty())
    throw std::invalid_argument("electrodes touch");
  const MemoryShare share;
  MemoryShare::require(size_of(problem, problem.mesh));
  Electric e;
  Eigen::VectorXd indicator = solve_on_mesh(problem, problem.mesh, e);
  while (!e.accuracy_reached)
  {
    if (e.refinements >= most_refinements || e.unknowns > most_unknowns)
    {
      e.limit = e.unknowns > most_unknowns ? "the mesh would need more than 500000 unknowns"
                                           : "40 refinements were not enough";
      return e;
    }
    if (!refine(problem, e, indicator))
      return e;
  }
  return e;
}

} // namespace solver
