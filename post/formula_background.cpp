// A rod, tube or ball in a uniform axial field: demagnetising factors and the middle's
// permeability.
#include "post/formula_families.hpp"

#include <fmt/format.h>

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

Condition in_table(double aspect, double mu)
{
  return {aspect >= 0.1 && aspect <= 100.0 && mu > 1.0, "for l/D 0.1 to 100, mu above 1"};
}

/// Estimates of a rod's mean over its volume.
std::vector<FormulaResult> volume_list(const MagneticBody& body, double aspect,
                                       const Condition& alone)
{
  const double mu = body.permeability;
  const double spheroid = spheroid_factor(aspect);
  const auto what = Estimates::magnetometric;
  return {formula({"rod volume, table of cylinders",
                   "quantity of [Chen, Brug & Goldfarb 1991], computed anew",
                   "1 % for l/D 0.1 to 100, mu above 1", what, body.name},
                  cylinder_factors(aspect, mu).magnetometric, {alone, in_table(aspect, mu)}),
          formula({"rod, spheroid factor", "[Osborn 1945; Stoner 1945]",
                   "22 % for strongly magnetic rods, l/D 5 to 100", what, body.name},
                  spheroid,
                  {alone,
                   {aspect >= 5.0 && aspect <= 100.0 && mu * spheroid >= 5.0,
                    "for strongly magnetic rods, l/D 5 to 100"}}),
          formula({"rod, cylinder factor", "[Sato & Ishii 1989]", "7 % for mu below 1.1; computed",
                   what, body.name},
                  sato_ishii_factor(aspect), {alone, {mu <= 1.1, "for mu close to 1"}})};
}

/// Estimates of its middle plane: the ballistic factor, and B there by the same factor.
std::vector<FormulaResult> middle_list(const MagneticBody& body, double aspect,
                                       const Condition& alone)
{
  const double mu = body.permeability;
  const Condition strong{aspect >= 2.0 && aspect <= 20.0 && mu >= 100.0,
                         "for rods of l/D 2 to 20 and mu above 100"};
  const Condition charted{aspect >= 10.0 && aspect <= 100.0 &&
                              (mu - 1.0) * bozorth_factor(aspect) >= 3.0,
                          "for strongly magnetic rods of l/D 10 to 100"};
  const Condition fitted{aspect >= 2.0 && aspect <= 10.0 && mu >= 100.0,
                         "for l/D 2 to 10, mu above 100; quoted to 100, computed off"};
  const FormulaLabel labels[] = {
      {"table of cylinders", "quantity of [Chen, Brug & Goldfarb 1991], computed anew",
       "3 % for l/D 0.1 to 100, mu above 1"},
      {"fitted factor", "[Pettengill 1977; Burhans 1979]", "20 % for l/D 2 to 20, mu above 100"},
      {"fitted chart", "[Rhea 1994], found quoted",
       "20 % for l/D 2 to 10, mu above 100; quoted to 100, computed off"},
      {"chart of 1942", "[Bozorth & Chapin 1942], from memory",
       "20 % for strongly magnetic rods of l/D 10 to 100"}};
  const double factors[] = {cylinder_factors(aspect, mu).ballistic, burhans_factor(aspect),
                            rhea_factor(aspect, mu), bozorth_factor(aspect)};
  const Condition ranges[] = {in_table(aspect, mu), strong, fitted, charted};
  std::vector<FormulaResult> list;
  for (std::size_t i = 0; i < std::size(labels); ++i)
  {
    for (const bool field : {false, true})
    {
      if (!(factors[i] > 0.0 && mu > 1.0))
      {
        continue; // a fit far from its chart
      }
      const std::string name = fmt::format("rod{}, {}", field ? " middle" : "", labels[i].name);
      FormulaLabel label = labels[i];
      label.name = name;
      label.estimates = field ? Estimates::middle_permeability : Estimates::ballistic;
      label.subject = body.name;
      list.push_back(formula(label, field ? apparent_permeability(mu, factors[i]) : factors[i],
                             {alone, ranges[i]}));
    }
  }
  return list;
}

std::vector<FormulaResult> rod_list(const MagneticBody& body, double aspect, const Condition& alone)
{
  std::vector<FormulaResult> list = volume_list(body, aspect, alone);
  const std::vector<FormulaResult> middle = middle_list(body, aspect, alone);
  list.insert(list.end(), middle.begin(), middle.end());
  return list;
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

/// A ball whose coating is a shell about it, the only bodies there.
std::vector<FormulaResult> shelled_ball(const FormulaScene& scene)
{
  const mesh::Part& part = scene.problem.scene.parts.front();
  const auto* ring = std::get_if<mesh::Ring>(&part.shape);
  if (scene.problem.scene.parts.size() != 1 || ring == nullptr || ring->loop_diameter != 0.0 ||
      !part.coating)
  {
    return {};
  }
  const auto permeability = [&](const std::string& name)
  { return solver::material(scene.problem, name).permeability; };
  const double a = ring->section_diameter / 2.0;
  const bool wound = !scene.problem.scene.windings.empty() && scene.round != nullptr &&
                     scene.round->coating.has_value();
  return {formula({"ball in a shell, middle", "potential theory [Jackson 1999, sect. 5.12]",
                   "exact", Estimates::middle_permeability, part.name},
                  ball_in_shell(permeability(part.material), permeability(part.coating->material),
                                a / (a + part.coating->thickness)),
                  {{!wound, "counts one ball and its shell; here also a coated winding"}})};
}

} // namespace

std::vector<FormulaResult> background_formulas(const FormulaScene& scene)
{
  if (!scene.problem.background || scene.magnetic.empty())
  {
    return {};
  }
  if (auto shell = shelled_ball(scene); !shell.empty())
  {
    return shell;
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
  const double mu = body.permeability;
  const double factor = spheroid_factor(shape->aspect) * shape->wall_share;
  const double as_rod = 1.0 + shape->wall_share * (mu - 1.0);
  return {formula({"tube, spheroid factor by wall share",
                   "[Osborn 1945] times wall share; common practice, no source",
                   "10 % for strongly magnetic tubes, l/D above 5; computed",
                   Estimates::magnetometric, body.name},
                  factor,
                  {alone,
                   {shape->aspect >= 5.0 && mu * factor >= 5.0,
                    "for strongly magnetic tubes, l/D above 5"}}),
          formula({"tube, table by wall share",
                   "quantity of [Chen, Brug & Goldfarb 1991] times wall share",
                   "25 % for l/D 1 to 100, mu above 1; computed here", Estimates::magnetometric,
                   body.name},
                  cylinder_factors(shape->aspect, as_rod).magnetometric * shape->wall_share,
                  {alone,
                   {shape->aspect >= 1.0 && shape->aspect <= 100.0 && mu > 1.0,
                    "for l/D 1 to 100, mu above 1"}})};
}

} // namespace post
