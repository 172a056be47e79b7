// Small scenes that between them hold every kind of curve, section and material, and one solve on a
// given mesh: shared by the tests of mesh/ and solver/.
#pragma once

#include "mesh/layout.hpp"
#include "mesh/mesher.hpp"
#include "solver/bracket.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/problem.hpp"
#include "solver/source.hpp"

#include <numbers>
#include <string>
#include <utility>
#include <vector>

namespace scenes
{

inline constexpr double pi = std::numbers::pi, mm = 1e-3;

struct Named
{
  std::string name;
  mesh::Scene scene;
};

inline mesh::Part rod(double diameter, double length)
{
  return {"core", mesh::Rod{diameter * mm, length * mm}, "core", 0.0, std::nullopt};
}

inline mesh::Winding block(double inner, double outer, double length, double turns)
{
  return {"coil", turns, mesh::Block{inner * mm, outer * mm, length * mm}, 0.0};
}

inline mesh::Winding turns(mesh::Strand strand, std::optional<mesh::Coating> coating = std::nullopt)
{
  const mesh::RoundTurns build{.wire_diameter = 1.0 * mm,
                               .inner_diameter = 9.0 * mm,
                               .layers = 2,
                               .pitch = 1.0 * mm + (coating ? 2.0 * coating->thickness : 0.0),
                               .insulation = 0.0,
                               .coating = coating,
                               .strand = strand};
  return {"turns", 5, build, 1.0 * mm};
}

/// @brief Block and rod, sheets, touching turns of both kinds, ring, coatings, nesting, a cone.
inline std::vector<Named> all()
{
  const mesh::Coating dust{"dust", 0.5 * mm};
  mesh::Part coated = rod(6, 20), cone = rod(1, 1);
  coated.coating = dust;
  cone.shape = mesh::Profile{{{0.0, -8 * mm}, {4 * mm, -8 * mm}, {1.5 * mm, 8 * mm}, {0, 8 * mm}}};
  const mesh::Part ring{"core", mesh::Ring{16 * mm, 4 * mm}, "core", 0.0, dust};
  const mesh::Part shell{"shell", mesh::Rod{10 * mm, 30 * mm}, "dust", 0.0, std::nullopt};
  const mesh::Part collar{"collar", mesh::Tube{6 * mm, 9 * mm, 4 * mm}, "dust", 12 * mm,
                          std::nullopt};
  return {{"block about a rod", {{rod(6, 20)}, {block(8, 11, 12, 30)}}},
          {"two sheets in air", {{}, {block(10, 10, 8, 20), block(14, 14, 20, 10)}}},
          {"fine turns about a rod", {{rod(6, 12)}, {turns(mesh::Strand::fine)}}},
          {"solid turns in air", {{}, {turns(mesh::Strand::solid)}}},
          {"coated turns", {{}, {turns(mesh::Strand::solid, dust)}}},
          {"sheet about a coated rod", {{coated}, {block(10, 10, 10, 40)}}},
          {"block in a coated ring", {{ring}, {block(6, 8, 6, 10)}}},
          {"nested rods, touching collar", {{shell, rod(6, 20), collar}, {block(12, 14, 9, 25)}}},
          {"cone in a sheet", {{cone}, {block(10, 10, 24, 50)}}}};
}

inline double permeability_of(const std::string& material)
{
  return material == "core" ? 80.0 : material == "dust" ? 6.0 : 1.0;
}

inline std::vector<double> permeabilities(const mesh::Layout& layout)
{
  std::vector<double> values;
  for (const mesh::Region& region : layout.regions)
    values.push_back(permeability_of(region.material));
  return values;
}

/// @brief Both equations and their bracket on one mesh.
struct Discrete
{
  mesh::Layout layout;
  std::vector<double> permeability;
  solver::Space space;
  std::vector<solver::Source> sources;
  Eigen::MatrixXd flux_loads, flux, potential;
  solver::Bracket bracket() const
  {
    return solver::bracket(space, layout, sources, permeability, flux, potential, flux_loads);
  }
};

/// @brief One coefficient a triangle: reluctivity over_r, permeability times_r.
inline std::vector<double> coefficients(const Discrete& d, solver::Weight weight)
{
  std::vector<double> made;
  for (const mesh::Triangle& t : d.space.mesh.triangles)
  {
    const double mu = solver::mu0 * d.permeability[t.region];
    made.push_back(weight == solver::Weight::over_r ? 1.0 / mu : mu);
  }
  return made;
}

inline Eigen::MatrixXd solved(const Discrete& d, solver::Weight weight,
                              const Eigen::MatrixXd& loads)
{
  const std::vector<double> coefficient = coefficients(d, weight);
  const double outside = weight == solver::Weight::over_r ? 1.0 / solver::mu0 : solver::mu0;
  const solver::Equation<double> equation(d.space, weight, coefficient, outside);
  return equation.expanded(solver::Factor(equation.matrix()).solve(equation.reduced(loads)), loads);
}

/// @brief Solves for every winding, and for a background of 1 T where `background` is set.
inline Discrete discrete(const mesh::Layout& layout, const std::vector<double>& permeability,
                         mesh::Mesh mesh, int order, int windings, bool background = false)
{
  Discrete d{layout, permeability, solver::space(std::move(mesh), order), {}, {}, {}, {}};
  for (int w = 0; w < windings; ++w)
    d.sources.push_back(solver::winding_source(d.space, layout, w));
  if (background)
    d.sources.push_back(solver::background_source(d.space, layout, 1.0));
  const auto n = static_cast<Eigen::Index>(d.sources.size());
  d.flux_loads.resize(d.space.count, n);
  Eigen::MatrixXd potential_loads(d.space.count, n);
  for (Eigen::Index j = 0; j < n; ++j)
  {
    d.flux_loads.col(j) = solver::flux_load(d.space, layout, d.sources[j], permeability);
    potential_loads.col(j) = solver::potential_load(d.space, layout, d.sources[j], permeability);
  }
  d.flux = solved(d, solver::Weight::over_r, d.flux_loads);
  d.potential = solved(d, solver::Weight::times_r, potential_loads);
  return d;
}

inline Discrete discrete(const mesh::Scene& scene, int order, bool background = false)
{
  const mesh::Layout layout = mesh::layout(scene);
  return discrete(layout, permeabilities(layout), mesh::coarse_mesh(layout), order,
                  static_cast<int>(scene.windings.size()), background);
}

} // namespace scenes
