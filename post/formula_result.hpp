// One hand formula's answer for a case, with where it holds and how it compares.
#pragma once

#include <optional>
#include <string>

namespace post
{

/// @brief Which number of a Result a hand formula estimates.
enum class Estimates
{
  inductance,          ///< Of the first winding.
  air_inductance,      ///< Of the first winding, every material taken as air.
  mutual_inductance,   ///< Between the first winding and the one named.
  middle_permeability, ///< Demagnetisation of the region named; likewise the next two.
  ballistic,
  magnetometric
};

struct FormulaResult
{
  std::string name;
  double value = 0.0;
  std::string unit;
  std::optional<double> deviation; ///< value/field - 1, nearest end of the bracket; 0 inside it.
  bool holds = false;              ///< The case lies in the formula's stated range.
  std::string why;                 ///< The range, or what of it the case breaks.
  std::string source;
  Estimates estimates = Estimates::inductance; ///< What judged() sets it against.
  std::string subject = {};                    ///< The second winding, or the region.
};

} // namespace post
