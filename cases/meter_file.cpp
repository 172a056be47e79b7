// Rows of a meter's CSV file into readings, by the names of its columns.
#include "cases/meter_file.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

const std::vector<std::string> frequency_names = {"f", "frequency", "freq"};
const std::vector<std::string> sample_names = {"sample"};

/// A loss column and how to look for it.
struct LossColumn
{
  Loss loss;
  Column column;
};

/// Which columns a file is read by.
struct Choice
{
  Circuit circuit = Circuit::series;
  std::size_t inductance = 0;
  Loss loss = Loss::none;
  std::optional<std::size_t> loss_index;
  Column loss_column;
};

SourcePlace header_place(const CsvTable& table)
{
  return table.header.front().where;
}

/// The file without its folders, for the middle of a sentence.
std::string short_name(const CsvTable& table)
{
  return std::filesystem::path(table.file).filename().string();
}

std::vector<std::string> named(const CsvTable& table)
{
  std::vector<std::string> names;
  for (const Cell& cell : table.header)
  {
    if (std::string name = heading(cell.text).name; !name.empty())
    {
      names.push_back(in_quotes(name));
    }
  }
  return names;
}

/// Ls before Lp; resistance before Q before D.
std::optional<Choice> choice_of(const CsvTable& table, std::vector<Fault>& faults)
{
  Choice choice;
  const auto series = column_index(table, std::vector<std::string>{"Ls"});
  const auto parallel = column_index(table, std::vector<std::string>{"Lp"});
  if (!series && !parallel)
  {
    const auto bare = column_index(table, std::vector<std::string>{"L"});
    faults.push_back(bare ? Fault{table.header[*bare].where,
                                  "the column L says neither series nor parallel",
                                  "name it Ls or Lp, as the meter was set"}
                          : Fault{header_place(table), "there is no column Ls or Lp",
                                  fmt::format("the header names {}; lines above it begin with #",
                                              in_words(named(table)))});
    return std::nullopt;
  }
  choice.circuit = series ? Circuit::series : Circuit::parallel;
  choice.inductance = series ? *series : *parallel;
  const std::vector<LossColumn> losses = {
      {Loss::resistance, series ? Column{{"Rs", "ESR"}, series_resistance}
                                : Column{{"Rp", "EPR"}, parallel_resistance}},
      {Loss::quality_factor, Column{{"Q", "quality factor"}, read_quality_factor}},
      {Loss::dissipation_factor, Column{{"D", "dissipation factor"}, read_dissipation_factor}}};
  for (const LossColumn& candidate : losses)
  {
    choice.loss_index = column_index(table, candidate.column.names);
    if (choice.loss_index)
    {
      choice.loss = candidate.loss;
      choice.loss_column = candidate.column;
      return choice;
    }
  }
  if (!series)
  {
    faults.push_back({table.header[choice.inductance].where,
                      "the column Lp alone says nothing of the series inductance",
                      "add a column Rp, Q or D"});
    return std::nullopt;
  }
  return choice;
}

/// Frequencies of the rows; rows of others than `at` are taken out of the table.
std::optional<std::vector<double>> frequencies(CsvTable& table, const MeterFile& file,
                                               Section& section)
{
  const auto index = column_index(table, frequency_names);
  if (!index)
  {
    if (!file.frequency && !file.at && !section.has("frequency"))
    {
      section.faults().push_back({header_place(table), "there is no column of frequencies",
                                  "name it f, e.g. f [Hz], or give frequency in [[meter_files]]"});
    }
    const auto all = file.frequency ? file.frequency : file.at;
    return all ? std::optional(std::vector<double>(table.rows.size(), *all)) : std::nullopt;
  }
  if (file.frequency)
  {
    section.fault_at("frequency", "comes on top of the file's own column",
                     "for the rows of one frequency write at = \"10 kHz\"");
    return std::nullopt;
  }
  auto all = numbers(table, *index, {frequency_names, read_frequency}, section.faults());
  if (!all || !file.at || all->empty())
  {
    return all;
  }
  constexpr double print_precision = 1e-6;
  const auto [lowest, highest] = std::ranges::minmax(*all);
  std::vector<std::vector<Cell>> rows;
  for (std::size_t i = 0; i < all->size(); ++i)
  {
    if (std::abs((*all)[i] / *file.at - 1.0) < print_precision)
    {
      rows.push_back(std::move(table.rows[i]));
    }
  }
  if (rows.empty())
  {
    section.fault_at("at", fmt::format("meets no row of {}", short_name(table)),
                     fmt::format("its frequencies run from {:g} Hz to {:g} Hz", lowest, highest));
    return std::nullopt;
  }
  table.rows = std::move(rows);
  return std::vector<double>(table.rows.size(), *file.at);
}

/// The sample's name of each row.
std::optional<std::vector<std::string>> samples(const CsvTable& table, const MeterFile& file,
                                                Section& section)
{
  const auto index = column_index(table, sample_names);
  if (!index)
  {
    return std::vector<std::string>(table.rows.size(), file.sample.value_or(""));
  }
  if (file.sample)
  {
    section.fault_at("sample", "comes on top of the file's own column", "leave it out");
    return std::nullopt;
  }
  std::vector<std::string> names;
  bool sound = true;
  for (const std::vector<Cell>& row : table.rows)
  {
    const Cell& cell = row[*index];
    if (cell.text.empty())
    {
      section.faults().push_back({cell.where, "the sample has no name", "give each row one"});
      sound = false;
    }
    names.push_back(cell.text);
  }
  return sound ? std::optional(names) : std::nullopt;
}

} // namespace

std::vector<Reading> readings(CsvTable table, const MeterFile& file, Section& section)
{
  const auto frequency = frequencies(table, file, section);
  const auto choice = choice_of(table, section.faults());
  const auto sample = samples(table, file, section);
  if (!choice)
  {
    return {};
  }
  const auto inductance =
      numbers(table, choice->inductance, {{"L"}, read_inductance}, section.faults());
  const auto loss = choice->loss_index
                        ? numbers(table, *choice->loss_index, choice->loss_column, section.faults())
                        : std::optional(std::vector<double>(table.rows.size(), 0.0));
  const ImpedanceTolerances& tolerances = file.tolerances;
  if (tolerances.loss != Loss::none && tolerances.loss != choice->loss)
  {
    const std::string key = fmt::format("{}_tolerance", key_of(tolerances.loss));
    section.fault_at(key, fmt::format("belongs to no column that is read of {}", short_name(table)),
                     choice->loss == Loss::none
                         ? std::string("leave it out")
                         : fmt::format("it is read by its {}: write {}_tolerance",
                                       choice->loss_column.names.front(), key_of(choice->loss)));
    return {};
  }
  std::vector<Reading> found;
  for (std::size_t i = 0; frequency && sample && inductance && loss && i < table.rows.size(); ++i)
  {
    const double L = (*inductance)[i];
    const double value = (*loss)[i];
    const AsRead as_read{(*frequency)[i],
                         choice->circuit,
                         {L, tolerances.inductance.half_width(L)},
                         choice->loss,
                         {value, tolerances.loss_value.half_width(value)}};
    found.push_back(
        {(*sample)[i], file.winding, (*frequency)[i],
         in_series(as_read, tolerances.spread.spread, tolerances.spread.coverage_factor),
         file.leads.lead, file.leads.bare_coil, table.rows[i][choice->inductance].where});
  }
  return found;
}

} // namespace cases
