// [materials.NAME]: one magnetic law each, and besides conductivity and density.
#include "cases/bodies.hpp"

#include "cases/result_text.hpp"
#include "cases/wording.hpp"
#include "solver/powder_complex.hpp"
#include "solver/powder_saturation.hpp"

#include <algorithm>
#include <array>
#include <complex>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::array<std::string_view, 5> laws = {"permeability", "powder", "permeability_table",
                                                  "magnetisation_table", "magnetisation"};

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
  std::shared_ptr<const solver::Magnetisation> curve = nullptr; ///< Of saturating particles.
};

/// The particles' permeability, a number or that of the material `particle` names.
std::optional<std::complex<double>> read_particle(const Draft& draft, Section& table,
                                                  const solver::Material*& grain)
{
  if (!table.has("particle"))
  {
    if (!table.has("particle_permeability"))
    {
      table.missing("particle_permeability", "700");
    }
    return read_permeability(table, "particle_permeability", 1.0);
  }
  table.misplaced("particle_permeability", "stands beside particle, which names a material",
                  "keep one of them");
  const auto name = table.needed_text("particle", "grain");
  const auto& known = draft.result.problem.materials;
  const auto found = name ? known.find(*name) : known.end();
  if (found == known.end())
  {
    if (name && !draft.materials.contains(*name))
    {
      std::vector<std::string> names(draft.materials.begin(), draft.materials.end());
      table.fault_at("particle", fmt::format("names no material, got {}", in_quotes(*name)),
                     did_you_mean(*name, names, "name a [materials.NAME] that is no powder"));
    }
    else if (name)
    {
      table.fault_at(
          "particle",
          fmt::format("names {}, which is no solid material with a law", in_quotes(*name)),
          "name a [materials.NAME] that is no powder of particles itself");
    }
    return std::nullopt;
  }
  grain = &found->second;
  return std::complex<double>(grain->permeability, -grain->imaginary);
}

std::optional<ReadPowder> read_powder(const Draft& draft, Section& section)
{
  auto table = section.table("powder", "{ particle_permeability = 700, packing = 0.55 }");
  if (!table)
  {
    return std::nullopt;
  }
  const solver::Material* grain = nullptr;
  const auto particle = read_particle(draft, *table, grain);
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
  if (grain && grain->magnetisation)
  {
    return ReadPowder{powder, solver::effective_permeability(powder),
                      std::make_shared<const solver::Magnetisation>(
                          solver::powder_curve(*grain->magnetisation, *packing, powder.rule))};
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
  if (holds_control(name))
  {
    return "has a control character in its name";
  }
  return name.find('.') == std::string::npos ? "" : "has a dot in its name";
}

/// Above its Curie temperature nothing is as the case says.
void check_curie(const Draft& draft, Section& section, const solver::Material& material)
{
  const double here = draft.result.problem.temperature;
  if (material.curie_temperature > 0.0 && here >= material.curie_temperature &&
      (material.permeability != 1.0 || material.magnetisation))
  {
    section.fault_at("curie_temperature",
                     fmt::format("is {}, and the case is at {}: there it is hardly magnetic",
                                 degrees(material.curie_temperature), degrees(here)),
                     "lower drive.temperature, or give it permeability = 1 for what is left");
  }
}

void read_material_table(Draft& draft, Section& section, const std::string& name)
{
  const bool copper = name == "copper";
  solver::Material material = copper ? solver::material({}, name) : solver::Material{};
  const auto mu = read_permeability(section, "permeability", material.permeability);
  const bool has_powder = section.has("powder");
  const auto powder = read_powder(draft, section);
  const auto sigma = section.value("conductivity", conductivity, material.conductivity);
  const auto coefficient = section.value("temperature_coefficient", temperature_coefficient,
                                         material.temperature_coefficient);
  const auto reference =
      section.value("reference_temperature", temperature, material.reference_temperature);
  const auto epsilon = section.value("permittivity", relative_permittivity, 1.0);
  const auto heat =
      section.value("thermal_conductivity", thermal_conductivity, material.thermal_conductivity);
  const auto curie = section.value("curie_temperature", temperature, 0.0);
  const bool has_density = section.has("density");
  const auto mass = has_density ? section.needed("density", density) : std::optional(0.0);
  const bool has_table = section.has("permeability_table");
  if (has_table)
  {
    if (auto rows = read_permeability_table(draft, section, material.follows_temperature))
    {
      material.table = std::move(*rows);
    }
  }
  const bool has_curve = section.has("magnetisation_table") || section.has("magnetisation");
  if (section.has("magnetisation_table"))
  {
    material.magnetisation = read_magnetisation_table(draft, section, material.follows_temperature);
  }
  if (section.has("magnetisation"))
  {
    material.magnetisation = read_magnetisation(section);
  }
  section.at("density");
  section.finish("a material");
  check_one_law(section, copper || section.has("permittivity"));
  if (!mu || !sigma || !mass || !epsilon || !coefficient || !reference || !heat || !curie ||
      (has_powder && !powder) || (has_table && material.table.empty()) ||
      (has_curve && !material.magnetisation))
  {
    return;
  }
  const std::complex<double> law = powder ? powder->effective : *mu;
  material.permeability = has_table ? material.table.front().real : law.real();
  material.imaginary = has_table ? material.table.front().imaginary : -law.imag();
  if (has_table && material.table.front().frequency == 0.0) // over temperature alone
  {
    material.table.clear();
  }
  if (powder && powder->curve)
  {
    material.magnetisation = powder->curve;
  }
  if (has_curve)
  {
    material.permeability = material.magnetisation->initial_permeability();
    material.imaginary = 0.0;
  }
  material.powder = powder ? std::optional(powder->powder) : std::nullopt;
  material.conductivity = *sigma;
  material.temperature_coefficient = *coefficient;
  material.reference_temperature = *reference;
  material.permittivity = *epsilon;
  material.thermal_conductivity = *heat;
  material.curie_temperature = *curie;
  check_curie(draft, section, material);
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
  // Powders whose particles are another material come after it.
  std::vector<std::string> later;
  const auto made_of_another = [](const Node* node)
  {
    const auto* table = node ? std::get_if<Entries>(&node->value) : nullptr;
    const Entry* powder = table ? find(*table, "powder") : nullptr;
    const auto* entries = powder ? std::get_if<Entries>(&powder->node.value) : nullptr;
    return entries && find(*entries, "particle") != nullptr;
  };
  for (const std::string& name : materials->keys())
  {
    if (const std::string why = unfit_name(name); !why.empty())
    {
      materials->misplaced(name, why, "choose another name, e.g. [materials.core]");
      continue;
    }
    draft.materials.insert(name);
    if (made_of_another(materials->at(name)))
    {
      later.push_back(name);
    }
    else if (auto table = materials->table(name))
    {
      read_material_table(draft, *table, name);
    }
  }
  for (const std::string& name : later)
  {
    auto table = materials->table(name);
    read_material_table(draft, *table, name);
  }
}

} // namespace cases
