// Tables as instruments write them (CSV): cells with their places, and columns of numbers by
// header.
//
// Separated by commas, semicolons or tabs, whichever the header holds; quotes as in RFC 4180. Lines
// that begin with # are comments, anywhere; the first other line is the header. Empty lines are
// skipped. A heading names a quantity and its unit: "Ls [uH]", "Ls (uH)" or "f/Hz".
#pragma once

#include "cases/fault.hpp"
#include "cases/limits.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cases
{

struct Cell
{
  std::string text; ///< Without quotes and outer spaces.
  SourcePlace where;
};

struct CsvTable
{
  std::string file;
  std::vector<Cell> header;
  std::vector<std::vector<Cell>> rows; ///< Each as long as the header.
};

/// @brief The table of a text; rows of another length than the header are faults and left out.
/// @param file  Name printed in messages.
CsvTable csv_table(std::string_view text, const std::string& file, std::vector<Fault>& faults);

/// @brief What a heading says: "Ls [uH]" is Ls in uH.
struct Heading
{
  std::string name;
  std::string unit; ///< Empty where none is given.
};
Heading heading(std::string_view cell);

/// @brief A column as it is looked for.
struct Column
{
  std::vector<std::string> names; ///< Any of these; capitals, spaces, _ and - are no matter.
  Wanted wanted;                  ///< Kind and bounds of its numbers.
  std::string unit = {};          ///< Meant where the heading gives none; empty: it must.
};

/// @brief Index of the first column of one of these names.
std::optional<std::size_t> column_index(const CsvTable& table, std::span<const std::string> names);

/// @brief The numbers of a column in SI, one a row; nothing where one is at fault.
///
/// Numbers have a decimal point; their unit stands in the heading. Decimal commas are one fault a
/// column, whatever their number.
std::optional<std::vector<double>> numbers(const CsvTable& table, std::size_t index,
                                           const Column& column, std::vector<Fault>& faults);

/// @brief Columns that must all be there, in the order asked for: `frequency,real,imaginary`.
/// @return Nothing where one is missing or at fault.
std::optional<std::vector<std::vector<double>>>
columns(const CsvTable& table, std::span<const Column> wanted, std::vector<Fault>& faults);

} // namespace cases
