// [materials.NAME]: one magnetic law each, and besides conductivity and density.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"
#include "solver/powder_complex.hpp"

#include <algorithm>
#include <array>
#include <complex>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::array<std::string_view, 4> laws = {"permeability", "powder", "permeability_table",
                                                  "magnetisation_table"};

/// Exactly one law, but for copper, which keeps its own where none is given, and for dielectrics.
void check_one_law(Section& section, bool may_lack)
{
  std::vector<std::string> given;
  for (const std::string_view law : laws)
  {
    if (section.has(law))
    {
      given.emplace_back(law);
    }
  }
  if (given.empty() && !may_lack)
  {
    section.fault("has no magnetic law", "write e.g. permeability = 700");
  }
  if (given.size() > 1)
  {
    section.fault_at(given.back(),
                     fmt::format("makes {} magnetic laws of one material", given.size()),
                     fmt::format("keep one of {}", in_words(given)));
  }
}

/// A number, or { real, imaginary }: mu' - j mu''.
std::optional<std::complex<double>> read_permeability(Section& section, std::string_view key,
                                                      double absent)
{
  const Node* node = section.at(key);
  if (node && std::holds_alternative<Entries>(node->value))
  {
    auto table = section.table(key, "{ real = 700, imaginary = 20 }");
    const auto real = table->needed("real", relative_permeability);
    const auto imaginary = table->needed("imaginary", imaginary_permeability);
    table->finish("a complex permeability");
    return real && imaginary ? std::optional(std::complex<double>(*real, -*imaginary))
                             : std::nullopt;
  }
  const auto real = section.value(key, relative_permeability, absent);
  return real ? std::optional(std::complex<double>(*real)) : std::nullopt;
}

std::vector<std::string> rule_names()
{
  std::vector<std::string> names;
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    names.emplace_back(info.name);
  }
  return names;
}

/// A powder, and the imaginary part its particles' loss gives the mixture.
struct ReadPowder
{
  solver::Powder powder;
  std::complex<double> effective;
};

std::optional<ReadPowder> read_powder(Section& section)
{
  auto table = section.table("powder", "{ particle_permeability = 700, packing = 0.55 }");
  if (!table)
  {
    return std::nullopt;
  }
  if (!table->has("particle_permeability"))
  {
    table->missing("particle_permeability", "700");
  }
  const auto particle = read_permeability(*table, "particle_permeability", 1.0);
  const auto packing = table->needed("packing", packing_fraction);
  const auto rule = table->choice("rule", rule_names());
  table->finish("a powder");
  if (!particle || !packing || !rule)
  {
    return std::nullopt;
  }
  solver::Powder powder{particle->real(), *packing};
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    powder.rule = info.name == *rule ? info.rule : powder.rule;
  }
  if (particle->imag() == 0.0)
  {
    return ReadPowder{powder, solver::effective_permeability(powder)};
  }
  return ReadPowder{powder, solver::effective_permeability(*particle, *packing, powder.rule)};
}

/// Why a material may not be called so; empty where it may.
std::string unfit_name(const std::string& name)
{
  if (name == "air")
  {
    return "is built in and cannot be changed";
  }
  if (name.find_first_not_of(" \t") == std::string::npos)
  {
    return "has an empty name";
  }
  if (std::ranges::any_of(name,
                          [](char letter) { return static_cast<unsigned char>(letter) < 0x20; }))
  {
    return "has a control character in its name";
  }
  return name.find('.') == std::string::npos ? "" : "has a dot in its name";
}

void read_material_table(Draft& draft, Section& section, const std::string& name)
{
  const bool copper = name == "copper";
  solver::Material material = copper ? solver::material({}, name) : solver::Material{};
  const auto mu = read_permeability(section, "permeability", material.permeability);
  const bool has_powder = section.has("powder");
  const auto powder = read_powder(section);
  const auto sigma = section.value("conductivity", conductivity, material.conductivity);
  const auto coefficient = section.value("temperature_coefficient", temperature_coefficient,
                                         material.temperature_coefficient);
  const auto reference =
      section.value("reference_temperature", temperature, material.reference_temperature);
  const auto epsilon = section.value("permittivity", relative_permittivity, 1.0);
  const bool has_density = section.has("density");
  const auto mass = has_density ? section.needed("density", density) : std::optional(0.0);
  const bool has_table = section.has("permeability_table");
  if (has_table)
  {
    if (auto rows = read_permeability_table(section, draft.result.path))
    {
      material.table = std::move(*rows);
    }
  }
  section.misplaced("magnetisation_table", "is not supported by this version",
                    "give permeability as one number");
  section.at("density");
  section.finish("a material");
  check_one_law(section, copper || section.has("permittivity"));
  if (!mu || !sigma || !mass || !epsilon || !coefficient || !reference || (has_powder && !powder) ||
      (has_table && material.table.empty()))
  {
    return;
  }
  const std::complex<double> law = powder ? powder->effective : *mu;
  material.permeability = has_table ? material.table.front().real : law.real();
  material.imaginary = has_table ? material.table.front().imaginary : -law.imag();
  material.powder = powder ? std::optional(powder->powder) : std::nullopt;
  material.conductivity = *sigma;
  material.temperature_coefficient = *coefficient;
  material.reference_temperature = *reference;
  material.permittivity = *epsilon;
  material.density = has_density ? *mass : material.density;
  draft.result.problem.materials[name] = material;
}

} // namespace

void read_materials(Draft& draft, Section& top)
{
  draft.materials = {"air", "copper"};
  auto materials = top.table("materials");
  if (!materials)
  {
    return;
  }
  for (const std::string& name : materials->keys())
  {
    if (const std::string why = unfit_name(name); !why.empty())
    {
      materials->misplaced(name, why, "choose another name, e.g. [materials.core]");
      continue;
    }
    draft.materials.insert(name);
    if (auto table = materials->table(name))
    {
      read_material_table(draft, *table, name);
    }
  }
}

} // namespace cases
