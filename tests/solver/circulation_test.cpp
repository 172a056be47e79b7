// The field T that carries the currents: curl T = J triangle by triangle, traces that match.
#include "core_scenes.hpp"

#include "mesh/refine.hpp"
#include "solver/circulation.hpp"
#include "solver/quadrature.hpp"
#include "solver/section_field.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace solver;

namespace
{

/// T . tangent along local edge i of triangle k at parameter t from its first vertex [A].
double trace(const scenes::Discrete& d, int source, int k, int i, double t)
{
  const mesh::Triangle& triangle = d.space.mesh.triangles[k];
  const Source& from = d.sources[source];
  const mesh::ElementMap map = mesh::element_map(d.space.mesh, d.space.bends, k);
  const mesh::EdgePlace x = mesh::edge_place(map, i, t);
  double sum = from.offset[k][i] - from.offset[k][(i + 1) % 3];
  if (triangle.conductor >= 0)
    sum += section_field(d.layout.conductors[triangle.conductor],
                         from.ampere_turns[triangle.conductor], x.point[0], x.point[1])
               .dot(x.tangent);
  return sum;
}

/// int J dr dz over a triangle [A].
double current_in(const scenes::Discrete& d, int source, int k)
{
  const int c = d.space.mesh.triangles[k].conductor;
  if (c < 0)
    return 0.0;
  const ElementTable table = triangle_table(d.space, k, Care::bracketing);
  double sum = 0.0;
  for (const ElementPoint& x : table.points)
    sum += x.weight / (2.0 * std::sqrt(x.s)) *
           current_density(d.layout.conductors[c], d.sources[source].ampere_turns[c], x.s, x.z);
  return sum;
}

/// Meshes with sources only, once refined at random so that curves and sheets are cut.
scenes::Discrete sourced(const mesh::Scene& scene)
{
  const mesh::Layout layout = mesh::layout(scene);
  mesh::Mesh mesh = mesh::coarse_mesh(layout);
  std::mt19937 random(3);
  mesh::Marks marks{std::vector<int>(mesh.triangles.size(), 0),
                    std::vector<int>(mesh.vertices.size(), 0)};
  for (std::size_t k = 0; k < marks.halvings.size(); ++k)
    marks.halvings[k] = random() % 4 == 0 ? 1 : 0;
  scenes::Discrete d{
      layout, scenes::permeabilities(layout), space(mesh::refined(mesh, marks), 3), {}, {}, {}, {}};
  for (std::size_t w = 0; w < scene.windings.size(); ++w)
    d.sources.push_back(winding_source(d.space, layout, static_cast<int>(w)));
  return d;
}

double total(const Source& source)
{
  double sum = 0.0;
  for (const double I : source.ampere_turns)
    sum += std::abs(I);
  return sum;
}

} // namespace

TEST_CASE("the circulation of T around every triangle is minus the current in it", "[circulation]")
{
  const LineRule& rule = line_rule(24);
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const scenes::Discrete d = sourced(one.scene);
    for (std::size_t j = 0; j < d.sources.size(); ++j)
    {
      const int source = static_cast<int>(j);
      double worst = 0.0, all = 0.0;
      for (int k = 0; k < static_cast<int>(d.space.mesh.triangles.size()); ++k)
      {
        double around = 0.0;
        for (int i = 0; i < 3; ++i)
          for (std::size_t q = 0; q < rule.points.size(); ++q)
            around += rule.weights[q] * trace(d, source, k, i, rule.points[q]);
        const double inside = current_in(d, source, k);
        worst = std::max(worst, std::abs(around + inside));
        all += inside;
      }
      // The solid turn's chord field is integrated by a rule of 20 points a quarter.
      CHECK(worst < 1e-12 * total(d.sources[j]));
      double expected = 0.0; // sheets carry theirs between triangles
      for (std::size_t c = 0; c < d.layout.conductors.size(); ++c)
        if (!std::holds_alternative<mesh::SheetSection>(d.layout.conductors[c].section))
          expected += d.sources[j].ampere_turns[c];
      CHECK(all == Approx(expected).epsilon(1e-12));
    }
  }
}

TEST_CASE("traces of T match point by point, jump by K on sheets, and vanish on the box",
          "[circulation]")
{
  for (const scenes::Named& one : scenes::all())
  {
    CAPTURE(one.name);
    const scenes::Discrete d = sourced(one.scene);
    const mesh::Mesh& mesh = d.space.mesh;
    mesh::EdgeMap<std::vector<std::pair<int, int>>> sides;
    for (int k = 0; k < static_cast<int>(mesh.triangles.size()); ++k)
      for (int i = 0; i < 3; ++i)
      {
        const auto& v = mesh.triangles[k].vertices;
        sides[mesh::edge(v[i], v[(i + 1) % 3])].emplace_back(k, i);
      }
    for (std::size_t j = 0; j < d.sources.size(); ++j)
    {
      const int source = static_cast<int>(j);
      double worst = 0.0, on_box = 0.0;
      for (const auto& [e, beside] : sides)
        for (const double t : {0.1, 0.5, 0.73})
        {
          if (beside.size() == 1)
          {
            if (!mesh::on_axis(mesh.vertices[e.a]) || !mesh::on_axis(mesh.vertices[e.b]))
              on_box = std::max(on_box,
                                std::abs(trace(d, source, beside[0].first, beside[0].second, t)));
            continue;
          }
          // The two run against each other.
          double jump = trace(d, source, beside[0].first, beside[0].second, t) +
                        trace(d, source, beside[1].first, beside[1].second, 1.0 - t);
          if (const auto found = mesh.sheets.find(e); found != mesh.sheets.end())
          {
            // A sheet's inner side runs up: H_z inside exceeds H_z outside by K.
            const auto& sheet =
                std::get<mesh::SheetSection>(d.layout.conductors[found->second].section);
            jump -= d.sources[j].ampere_turns[found->second] *
                    std::abs(mesh.vertices[e.a].z - mesh.vertices[e.b].z) /
                    (sheet.z_high - sheet.z_low);
          }
          worst = std::max(worst, std::abs(jump));
        }
      CHECK(worst < 1e-12 * total(d.sources[j]));
      CHECK(on_box < 1e-12 * total(d.sources[j]));
    }
  }
}

TEST_CASE("no current gives no T", "[circulation]")
{
  const scenes::Discrete d = sourced(scenes::all()[0].scene);
  const std::vector<double> none(d.layout.conductors.size(), 0.0);
  for (const Eigen::Vector3d& offset : current_offsets(d.space, d.layout, none))
    CHECK(offset.isZero(0.0));
}
