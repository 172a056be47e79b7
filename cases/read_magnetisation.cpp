// Laws of saturating materials: `magnetisation = { law = ..., ... }`.
#include "cases/bodies.hpp"

namespace cases
{

namespace
{

constexpr Wanted saturation{Kind::flux_density, 1e-6, 10.0,
                            "it is the polarisation far up, from 1 uT to 10 T", "\"0.4 T\""};
constexpr Wanted weak_permeability{Kind::number, 1.0, 1e9,
                                   "it is that of weak fields, from 1 to 1e9", "2000"};
constexpr Wanted reluctivity{Kind::reluctivity, 0.0, 1e12, "reluctivities run from 0 to 1e12 m/H",
                             "\"100 m/H\""};
constexpr Wanted exponent{Kind::inverse_square_flux_density, 1e-9, 1e9,
                          "it runs from 1e-9 to 1e9 T-2", "\"6 T-2\""};

using Curve = std::shared_ptr<const solver::Magnetisation>;

/// The curve of a law, its fault noted at `where`.
Curve made(Section& section, const SourcePlace& where, solver::MagneticLaw law)
{
  try
  {
    return std::make_shared<const solver::Magnetisation>(std::move(law));
  }
  catch (const solver::LawFault& fault)
  {
    section.faults().push_back({where, section.path() + ": " + fault.what(), fault.cure});
    return nullptr;
  }
}

Curve read_brauer(Section& table)
{
  const auto k1 = table.needed("k1", reluctivity), k2 = table.needed("k2", exponent),
             k3 = table.needed("k3", reluctivity);
  table.finish("Brauer's law");
  return k1 && k2 && k3 ? made(table, table.where(), solver::Brauer{*k1, *k2, *k3}) : nullptr;
}

} // namespace

Curve read_magnetisation(Section& section)
{
  static const std::vector<std::string> laws = {"froehlich-kennelly", "tanh", "arctangent",
                                                "brauer"};
  auto table = section.table("magnetisation",
                             "{ law = \"tanh\", saturation = \"0.4 T\", permeability = 2000 }");
  if (!table)
  {
    return nullptr;
  }
  const auto law = table->choice("law", laws, true);
  if (!law)
  {
    for (const char* known : {"saturation", "permeability", "k1", "k2", "k3"})
    {
      table->at(known); // whose law it would be, none can say
    }
    table->finish("a law of magnetisation");
    return nullptr;
  }
  if (*law == "brauer")
  {
    return read_brauer(*table);
  }
  const auto J_s = table->needed("saturation", saturation);
  const auto mu = table->needed("permeability", weak_permeability);
  table->finish("a law of magnetisation");
  if (!J_s || !mu)
  {
    return nullptr;
  }
  const SourcePlace& where = table->where();
  if (*law == "tanh")
  {
    return made(*table, where, solver::HyperbolicTangent{*J_s, *mu});
  }
  return *law == "arctangent" ? made(*table, where, solver::ArcTangent{*J_s, *mu})
                              : made(*table, where, solver::FroehlichKennelly{*J_s, *mu});
}

} // namespace cases
