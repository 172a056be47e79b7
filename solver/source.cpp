// Loads of both equations, element by element.
#include "solver/source.hpp"

#include "solver/circulation.hpp"
#include "solver/problem.hpp"
#include "solver/quadrature.hpp"
#include "solver/section_field.hpp"
#include "solver/shapes.hpp"
#include "solver/table.hpp"

#include <cmath>

namespace solver
{

namespace
{

constexpr double two_pi = 2.0 * std::numbers::pi;

void add(Eigen::VectorXd& load, const Gather& gather, const Eigen::VectorXd& local)
{
  for (std::size_t i = 0; i < gather.index.size(); ++i)
    load[gather.index[i]] += gather.sign[i] * local[static_cast<Eigen::Index>(i)];
}

/// 2 pi K int v dz along every sheet edge, K the sheet's current per length.
void add_sheets(const Space& space, const mesh::Layout& layout, const Source& source,
                Eigen::VectorXd& load)
{
  std::vector<bool> done(space.edge_count, false);
  for (std::size_t k = 0; k < space.mesh.triangles.size(); ++k)
    for (int i = 0; i < 3; ++i)
    {
      const auto& v = space.mesh.triangles[k].vertices;
      const mesh::Edge e = mesh::edge(v[i], v[(i + 1) % 3]);
      const auto found = space.mesh.sheets.find(e);
      const int number = space.triangle_edges[k][i];
      if (found == space.mesh.sheets.end() || done[number])
        continue;
      done[number] = true;
      const auto& sheet = std::get<mesh::SheetSection>(layout.conductors[found->second].section);
      const double K =
          images(space) * source.ampere_turns[found->second] / (sheet.z_high - sheet.z_low);
      const double h = std::abs(space.mesh.vertices[e.a].z - space.mesh.vertices[e.b].z);
      const Gather gather = triangle_gather(space, static_cast<int>(k));
      const LineRule& rule = line_rule(space.order + 1);
      const int p = space.order;
      for (std::size_t q = 0; q < rule.points.size(); ++q)
      {
        const LineShapes shapes = edge_shapes(p, rule.points[q]);
        const double w = two_pi * K * h * rule.weights[q];
        load[v[i]] += w * shapes.value[0];
        load[v[(i + 1) % 3]] += w * shapes.value[1];
        for (int d = 2; d <= p; ++d)
        {
          const int row = 3 + i * (p - 1) + d - 2;
          load[gather.index[row]] += w * gather.sign[row] * shapes.value[d];
        }
      }
    }
}

} // namespace

Source winding_source(const Space& space, const mesh::Layout& layout, int winding)
{
  Source source;
  for (const mesh::Conductor& conductor : layout.conductors)
    source.ampere_turns.push_back(conductor.winding == winding ? conductor.turns : 0.0);
  source.offset = current_offsets(space, layout, source.ampere_turns);
  return source;
}

Source background_source(const Space& space, const mesh::Layout& layout, double B0)
{
  Source source;
  source.ampere_turns.assign(layout.conductors.size(), 0.0);
  source.background = B0;
  source.offset.assign(space.mesh.triangles.size(), Eigen::Vector3d::Zero());
  return source;
}

Source combined(std::span<const Source> sources, const Eigen::VectorXd& currents)
{
  Source made;
  made.ampere_turns.assign(sources.front().ampere_turns.size(), 0.0);
  made.offset.assign(sources.front().offset.size(), Eigen::Vector3d::Zero());
  for (std::size_t j = 0; j < sources.size(); ++j)
  {
    const double I = currents[static_cast<Eigen::Index>(j)];
    made.background += I * sources[j].background;
    for (std::size_t k = 0; k < made.offset.size(); ++k)
      made.offset[k] += I * sources[j].offset[k];
    for (std::size_t c = 0; c < made.ampere_turns.size(); ++c)
      made.ampere_turns[c] += I * sources[j].ampere_turns[c];
  }
  return made;
}

Eigen::VectorXd flux_load(const Space& space, const mesh::Layout& layout, const Source& source,
                          std::span<const double> permeability)
{
  Eigen::VectorXd load = Eigen::VectorXd::Zero(space.count);
  for (std::size_t k = 0; k < space.mesh.triangles.size(); ++k)
  {
    const mesh::Triangle& t = space.mesh.triangles[k];
    const double I = t.conductor >= 0 ? source.ampere_turns[t.conductor] : 0.0;
    const double pull = source.background * (1.0 / permeability[t.region] - 1.0) / mu0;
    if (I == 0.0 && pull == 0.0)
      continue;
    const ElementTable table = triangle_table(space, static_cast<int>(k), Care::bracketing);
    const auto count = static_cast<Eigen::Index>(table.points.size());
    Eigen::VectorXd density = Eigen::VectorXd::Zero(count), pulled = density;
    for (Eigen::Index q = 0; q < count; ++q)
    {
      const ElementPoint& x = table.points[q];
      if (I != 0.0)
        density[q] = two_pi * x.weight / (2.0 * std::sqrt(x.s)) *
                     current_density(layout.conductors[t.conductor], I, x.s, x.z);
      pulled[q] = -two_pi * x.weight * pull;
    }
    Eigen::VectorXd local = table.shapes->value * density;
    if (pull != 0.0)
      local += table.tested(pulled, Eigen::VectorXd::Zero(count));
    add(load, triangle_gather(space, static_cast<int>(k)), local);
  }
  if (!space.mesh.sheets.empty())
    add_sheets(space, layout, source, load);
  return load;
}

Eigen::VectorXd potential_load(const Space& space, const mesh::Layout& layout, const Source& source,
                               std::span<const double> permeability)
{
  Eigen::VectorXd load = Eigen::VectorXd::Zero(space.count);
  for (std::size_t k = 0; k < space.mesh.triangles.size(); ++k)
  {
    const mesh::Triangle& t = space.mesh.triangles[k];
    const double I = t.conductor >= 0 ? source.ampere_turns[t.conductor] : 0.0;
    const double H0 = source.background / mu0 * (1.0 - 1.0 / permeability[t.region]);
    if (I == 0.0 && H0 == 0.0 && source.offset[k].isZero(0.0))
      continue;
    const ElementTable table = triangle_table(space, static_cast<int>(k), Care::solving);
    const auto count = static_cast<Eigen::Index>(table.points.size());
    Eigen::VectorXd offset = Eigen::VectorXd::Zero(table.shapes->value.rows());
    offset.head<3>() = source.offset[k];
    const ElementTable::Gradients carried = table.gradients(offset);
    Eigen::VectorXd a(count), b(count);
    for (Eigen::Index q = 0; q < count; ++q)
    {
      const ElementPoint& x = table.points[q];
      Eigen::Vector2d T{-carried.d_s(0, q), H0 - carried.d_z(0, q)};
      if (I != 0.0)
        T += section_field(layout.conductors[t.conductor], I, x.s, x.z);
      a[q] = two_pi * x.weight * 2.0 * x.s * T[0];
      b[q] = two_pi * x.weight * 0.5 * T[1];
    }
    const Eigen::VectorXd local = table.tested(a, b);
    add(load, triangle_gather(space, static_cast<int>(k)), mu0 * permeability[t.region] * local);
  }
  return load;
}

} // namespace solver
