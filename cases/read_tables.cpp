// `permeability_table` and `magnetisation_table`, CSV files beside the case, at its temperature.
//
// Either may have a column of temperatures, its rows sorted by them; between two, permeabilities
// follow a curve that overshoots nowhere, and beyond the ends nothing is guessed.
#include "cases/bodies.hpp"
#include "cases/csv.hpp"
#include "cases/reading_keys.hpp"
#include "cases/result_text.hpp"
#include "solver/interpolation.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

const Column by_temperature{{"temperature", "T"}, temperature, "degC"};

constexpr Wanted strength_of_row{Kind::field_strength, 0.0, 1e9,
                                 "field strengths run from 0 to 1e9 A/m", "\"100 A/m\""};
constexpr Wanted flux_of_row{Kind::flux_density, 0.0, 1e3, "flux densities run from 0 to 1000 T",
                             "\"0.3 T\""};

/// Rows of one temperature, from `begin` to before `end`.
struct Isotherm
{
  double temperature = 0.0; ///< [K]
  std::size_t begin = 0;
  std::size_t end = 0;
};

const SourcePlace& place(const CsvTable& table, std::size_t row)
{
  return table.rows[row].front().where;
}

/// The table by temperature; without such a column one isotherm of the case's own. Nothing where a
/// row is at fault, or the case's temperature lies beyond them.
std::optional<std::vector<Isotherm>> isotherms(Section& section, std::string_view key,
                                               const CsvTable& table, double asked)
{
  const auto index = column_index(table, by_temperature.names);
  if (!index)
  {
    return std::vector<Isotherm>{{asked, 0, table.rows.size()}};
  }
  const auto rows = numbers(table, *index, by_temperature, section.faults());
  if (!rows)
  {
    return std::nullopt;
  }
  std::vector<Isotherm> list;
  for (std::size_t i = 0; i < rows->size(); ++i)
  {
    const double here = (*rows)[i];
    if (!list.empty() && here < list.back().temperature)
    {
      section.faults().push_back({place(table, i), "temperatures must not fall from row to row",
                                  "sort the table by temperature"});
      return std::nullopt;
    }
    if (list.empty() || here > list.back().temperature)
    {
      list.push_back({here, i, i});
    }
    list.back().end = i + 1;
  }
  constexpr double round_off = 1e-6; // [K]
  if (!list.empty() &&
      (asked < list.front().temperature - round_off || asked > list.back().temperature + round_off))
  {
    section.fault_at(key,
                     fmt::format("holds {} to {}, and the case is at {}",
                                 degrees(list.front().temperature),
                                 degrees(list.back().temperature), degrees(asked)),
                     "give a drive.temperature within it, or extend it by measured rows");
    return std::nullopt;
  }
  return list;
}

/// One number at the asked temperature, from one an isotherm.
double at_temperature(const std::vector<Isotherm>& list, const std::vector<double>& values,
                      double asked)
{
  std::vector<double> T;
  for (const Isotherm& one : list)
  {
    T.push_back(one.temperature);
  }
  return T.size() == 1 ? values.front()
                       : solver::monotone_cubic(T, values, std::clamp(asked, T.front(), T.back()));
}

/// Frequencies rise within each isotherm, and are the same in all.
bool frequencies_sound(Section& section, const CsvTable& table, const std::vector<Isotherm>& list,
                       const std::vector<double>& frequency)
{
  for (const Isotherm& one : list)
  {
    for (std::size_t i = one.begin; i < one.end; ++i)
    {
      const std::size_t k = i - one.begin;
      if (k > 0 && !(frequency[i] > frequency[i - 1]))
      {
        section.faults().push_back({place(table, i), "frequencies must rise from row to row",
                                    "sort the table, each frequency once"});
        return false;
      }
      if (k >= list.front().end || frequency[i] != frequency[k])
      {
        section.faults().push_back({place(table, i),
                                    "this frequency is not among those of the first temperature",
                                    "give every temperature the same frequencies"});
        return false;
      }
    }
    if (one.end - one.begin != list.front().end)
    {
      section.faults().push_back({place(table, one.end - 1),
                                  "this temperature has fewer frequencies than the first",
                                  "give every temperature the same frequencies"});
      return false;
    }
  }
  return true;
}

bool has_rows(Section& section, const CsvTable& table, const std::string& cure)
{
  if (table.rows.empty())
  {
    section.faults().push_back({{table.file}, "the file holds no rows below its header", cure});
  }
  return !table.rows.empty();
}

/// The curve between two at once at every field strength of either; what never falls in both never
/// falls between.
solver::CurveRows between(const solver::Magnetisation& low, const solver::CurveRows& low_rows,
                          const solver::Magnetisation& high, const solver::CurveRows& high_rows,
                          double share)
{
  std::vector<double> strengths;
  for (const solver::CurveRows* rows : {&low_rows, &high_rows})
  {
    for (const solver::CurveRow& row : *rows)
    {
      strengths.push_back(row.H);
    }
  }
  std::ranges::sort(strengths);
  strengths.erase(std::unique(strengths.begin(), strengths.end()), strengths.end());
  solver::CurveRows made;
  for (const double H : strengths)
  {
    made.push_back({H, (1.0 - share) * low.at_field(H).B + share * high.at_field(H).B});
  }
  return made;
}

} // namespace

std::optional<std::vector<solver::Dispersion>>
read_permeability_table(const Draft& draft, Section& section, bool& follows)
{
  static const Column by_frequency{{"frequency", "f"}, read_frequency, "Hz"};
  static const std::vector<Column> parts = {{{"real", "mu'"}, relative_permeability},
                                            {{"imaginary", "mu''"}, imaginary_permeability}};
  constexpr std::string_view key = "permeability_table";
  const auto table = file_table(section, key, "dust.csv", draft.result.path);
  if (!table)
  {
    return std::nullopt;
  }
  follows = column_index(*table, by_temperature.names).has_value();
  const bool over_frequency = !follows || column_index(*table, by_frequency.names).has_value();
  std::vector<Column> wanted = parts;
  if (over_frequency)
  {
    wanted.insert(wanted.begin(), by_frequency);
  }
  auto found = columns(*table, wanted, section.faults());
  if (!found || !has_rows(section, *table,
                          over_frequency ? "give it one a frequency" : "give it one a temperature"))
  {
    return std::nullopt;
  }
  if (!over_frequency) // alike at all: told by a frequency of zero
  {
    found->insert(found->begin(), std::vector<double>(table->rows.size(), 0.0));
  }
  const double asked = draft.result.problem.temperature;
  const auto list = isotherms(section, key, *table, asked);
  if (!list || !frequencies_sound(section, *table, *list, found->front()))
  {
    return std::nullopt;
  }
  std::vector<solver::Dispersion> rows;
  for (std::size_t k = 0; k < list->front().end; ++k)
  {
    std::vector<double> real, imaginary;
    for (const Isotherm& one : *list)
    {
      real.push_back((*found)[1][one.begin + k]);
      imaginary.push_back((*found)[2][one.begin + k]);
    }
    rows.push_back({found->front()[k], at_temperature(*list, real, asked),
                    at_temperature(*list, imaginary, asked)});
  }
  return rows;
}

std::shared_ptr<const solver::Magnetisation>
read_magnetisation_table(const Draft& draft, Section& section, bool& follows)
{
  static const std::vector<Column> wanted = {{{"H"}, strength_of_row, "A/m"},
                                             {{"B"}, flux_of_row, "T"}};
  constexpr std::string_view key = "magnetisation_table";
  const auto table = file_table(section, key, "core.csv", draft.result.path);
  const auto found = table ? columns(*table, wanted, section.faults()) : std::nullopt;
  const double asked = draft.result.problem.temperature;
  const auto list = found ? isotherms(section, key, *table, asked) : std::nullopt;
  if (!list)
  {
    return nullptr;
  }
  follows = column_index(*table, by_temperature.names).has_value();
  std::vector<solver::CurveRows> rows(std::max<std::size_t>(1, list->size()));
  std::vector<std::shared_ptr<const solver::Magnetisation>> curves;
  for (std::size_t t = 0; t < rows.size(); ++t)
  {
    const std::size_t begin = list->empty() ? 0 : (*list)[t].begin;
    for (std::size_t i = begin; !list->empty() && i < (*list)[t].end; ++i)
    {
      rows[t].push_back({(*found)[0][i], (*found)[1][i]});
    }
    try
    {
      curves.push_back(std::make_shared<const solver::Magnetisation>(rows[t]));
    }
    catch (const solver::LawFault& fault)
    {
      section.faults().push_back({fault.row >= 0
                                      ? place(*table, begin + static_cast<std::size_t>(fault.row))
                                      : SourcePlace{table->file},
                                  fault.what(), fault.cure});
      return nullptr;
    }
  }
  for (std::size_t t = 0; t + 1 < curves.size(); ++t)
  {
    const double low = (*list)[t].temperature, high = (*list)[t + 1].temperature;
    if (asked <= high || t + 2 == curves.size())
    {
      const double share = std::clamp((asked - low) / (high - low), 0.0, 1.0);
      return share == 0.0   ? curves[t]
             : share == 1.0 ? curves[t + 1]
                            : std::make_shared<const solver::Magnetisation>(
                                  between(*curves[t], rows[t], *curves[t + 1], rows[t + 1], share));
    }
  }
  return curves.front();
}

} // namespace cases
