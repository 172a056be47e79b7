// Curves of saturating materials: `magnetisation_table`, a CSV file beside the case, or
// `magnetisation = { law = ..., ... }`.
#include "cases/bodies.hpp"
#include "cases/csv.hpp"

namespace cases
{

namespace
{

constexpr Wanted strength_of_row{Kind::field_strength, 0.0, 1e9,
                                 "field strengths run from 0 to 1e9 A/m", "\"100 A/m\""};
constexpr Wanted flux_of_row{Kind::flux_density, 0.0, 1e3, "flux densities run from 0 to 1000 T",
                             "\"0.3 T\""};
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

Curve read_magnetisation_table(Section& section, const std::filesystem::path& case_file)
{
  static const std::vector<Column> wanted = {{{"H"}, strength_of_row, "A/m"},
                                             {{"B"}, flux_of_row, "T"}};
  const auto table = file_table(section, "magnetisation_table", "core.csv", case_file);
  if (!table)
  {
    return nullptr;
  }
  const auto found = columns(*table, wanted, section.faults());
  if (!found)
  {
    return nullptr;
  }
  solver::CurveRows rows;
  for (std::size_t i = 0; i < table->rows.size(); ++i)
  {
    rows.push_back({(*found)[0][i], (*found)[1][i]});
  }
  try
  {
    return std::make_shared<const solver::Magnetisation>(rows);
  }
  catch (const solver::LawFault& fault)
  {
    const bool row = fault.row >= 0;
    section.faults().push_back({row ? table->rows[static_cast<std::size_t>(fault.row)].front().where
                                    : SourcePlace{table->file},
                                fault.what(), fault.cure});
    return nullptr;
  }
}

} // namespace cases
