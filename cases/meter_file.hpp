// A meter's CSV file as readings: which columns are read, and what the reading file adds to them.
//
// Columns, in any order, others passed over: `f` (`frequency`, `freq`), `Ls` or else `Lp`, and of
// `Rs` (`ESR`) with Ls, `Rp` (`EPR`) with Lp, `Q`, `D` the first that is there; `sample`. All but
// Q, D and sample have their unit in the heading; the grammar of the file: csv.hpp.
#pragma once

#include "cases/csv.hpp"
#include "cases/reading_keys.hpp"

namespace cases
{

/// @brief One `[[meter_files]]` as read, without its file.
struct MeterFile
{
  std::string winding;
  std::optional<std::string> sample;
  std::optional<double> frequency; ///< Of all rows, where the file has no such column [Hz].
  std::optional<double> at;        ///< Of the rows that count; others are passed over [Hz].
  ImpedanceTolerances tolerances;
  LeadKeys leads;
};

/// @brief One reading a row; none where the table or what is said of it is at fault.
/// @param section  Of the file, for faults.
std::vector<Reading> readings(CsvTable table, const MeterFile& file, Section& section);

} // namespace cases
