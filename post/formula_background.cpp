// A rod, tube or ball in a uniform axial field: demagnetising factors and the middle's
// permeability.
#include "post/formula_families.hpp"

#include <cmath>

namespace post
{
namespace
{

/// Aspect of the solid outline and the wall's share of its section.
struct Slug
{
  double aspect = 0.0;
  double wall_share = 1.0;
};

std::optional<Slug> slug(const mesh::Shape& shape)
{
  if (const auto* rod = std::get_if<mesh::Rod>(&shape))
  {
    return Slug{rod->length / rod->diameter, 1.0};
  }
  if (const auto* tube = std::get_if<mesh::Tube>(&shape))
  {
    return Slug{tube->length / tube->outer_diameter,
                1.0 - std::pow(tube->inner_diameter / tube->outer_diameter, 2)};
  }
  return std::nullopt;
}

std::vector<FormulaResult> rod_list(const MagneticBody& body, double aspect, const Condition& alone)
{
  const double mu = body.permeability;
  const double spheroid = spheroid_factor(aspect);
  const double burhans = burhans_factor(aspect);
  const Condition long_strong{aspect >= 2.0 && aspect <= 20.0 && mu >= 100.0,
                              "for rods of l/D 2 to 20 and mu above 100"};
  const Condition saturating{aspect >= 5.0 && mu * spheroid >= 5.0,
                             "for strongly magnetic rods, l/D above 5"};
  const Condition weak{mu <= 1.1, "for mu close to 1"};
  return {formula({"rod, spheroid factor", "[Osborn 1945; Stoner 1945]",
                   "12 % for strongly magnetic rods", Estimates::magnetometric, body.name},
                  spheroid, {alone, saturating}),
          formula({"rod, cylinder factor", "[Sato & Ishii 1989]", "5 % for mu close to 1",
                   Estimates::magnetometric, body.name},
                  sato_ishii_factor(aspect), {alone, weak}),
          formula({"rod, fitted factor", "[Pettengill 1977; Burhans 1979]",
                   "20 % for l/D 2 to 20, mu above 100", Estimates::ballistic, body.name},
                  burhans, {alone, long_strong}),
          formula({"rod middle, fitted factor", "[Pettengill 1977; Burhans 1979]",
                   "20 % for l/D 2 to 20, mu above 100", Estimates::middle_permeability, body.name},
                  apparent_permeability(mu, burhans), {alone, long_strong})};
}

std::vector<FormulaResult> ball_list(const MagneticBody& body, const Condition& alone)
{
  const double mu = body.permeability;
  return {
      formula({"ball", "[Osborn 1945]", "exact", Estimates::magnetometric, body.name}, 1.0 / 3.0,
              {alone}),
      formula({"ball, middle", "[Osborn 1945]", "exact", Estimates::middle_permeability, body.name},
              apparent_permeability(mu, 1.0 / 3.0), {alone})};
}

} // namespace

std::vector<FormulaResult> background_formulas(const FormulaScene& scene)
{
  if (!scene.problem.background || scene.magnetic.empty())
  {
    return {};
  }
  const MagneticBody& body = scene.magnetic.front();
  if (body.part == nullptr || body.coating)
  {
    return {};
  }
  const Condition alone{only_body(scene) != nullptr, why_not_one_body(scene)};
  if (const auto* ring = std::get_if<mesh::Ring>(&body.part->shape))
  {
    return ring->loop_diameter == 0.0 ? ball_list(body, alone) : std::vector<FormulaResult>{};
  }
  const std::optional<Slug> shape = slug(body.part->shape);
  if (!shape)
  {
    return {};
  }
  if (shape->wall_share == 1.0)
  {
    return rod_list(body, shape->aspect, alone);
  }
  return {formula({"tube, spheroid factor by wall share",
                   "[Osborn 1945] times wall share; common practice, no source",
                   "rough, for long strongly magnetic tubes", Estimates::magnetometric, body.name},
                  spheroid_factor(shape->aspect) * shape->wall_share,
                  {alone, {shape->aspect >= 5.0, "for tubes longer than five diameters"}})};
}

} // namespace post
