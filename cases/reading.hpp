// What a meter showed of a wound sample, and how far it and the case's dimensions may be off.
//
// Plain data in SI, read from a reading file (TOML, and the meter's CSV files it names) by
// read_readings(); the reading file's keys stand above that function. Knows no case: that keys and
// windings exist is for whoever puts the two together.
#pragma once

#include "cases/fault.hpp"
#include "cases/units.hpp"
#include "post/uncertainty.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief A tolerance: a half-width, uniform within, or normal with u = half-width / factor.
struct HalfWidth
{
  double value = 0.0; ///< In the unit of what it belongs to; 0 where none is given.
  post::Spread spread = post::Spread::uniform;
  double coverage_factor = 2.0; ///< Of a normal spread only.
};
/// @brief The input of a propagation of uncertainty for an estimate known to that half-width.
post::UncertainInput uncertain(std::string name, double estimate, const HalfWidth& tolerance);

/// @brief An impedance as a series circuit, at the frequency it was read at.
struct SeriesImpedance
{
  double inductance = 0.0; ///< [H]
  HalfWidth inductance_tolerance;
  std::optional<double> resistance; ///< [ohm]; nothing where neither R, Q nor D was read.
  HalfWidth resistance_tolerance;
};

/// @brief One reading of one sample; the coil alone is `read.inductance - lead.inductance`, or
///        `read.inductance - bare_coil.inductance + computed air inductance`.
struct Reading
{
  std::string sample; ///< Empty where the file names none.
  std::string winding;
  double frequency = 0.0; ///< [Hz]
  SeriesImpedance read;
  std::optional<SeriesImpedance> lead;      ///< Leads and fixture, in series with the coil.
  std::optional<SeriesImpedance> bare_coil; ///< The same winding and leads without the part.
  SourcePlace where; ///< Of the inductance, in the reading file or the meter's.
};

/// @brief How far a value of the case may be off.
struct CaseTolerance
{
  std::string key; ///< As in overrides: "parts.core.diameter".
  double relative = 0.0;
  double absolute = 0.0;             ///< [SI], added to the relative part.
  Kind absolute_kind = Kind::number; ///< Of the absolute part, where there is one.
  post::Spread spread = post::Spread::uniform;
  double coverage_factor = 2.0;
  SourcePlace where;
};
/// @brief Its half-width for a case that gives this value [SI]: relative |value| + absolute.
HalfWidth half_width(const CaseTolerance& tolerance, double value);

struct Readings
{
  std::filesystem::path path;
  std::string unknown; ///< Key of the case.
  SourcePlace unknown_where;
  std::vector<Reading> readings; ///< At least one; those of the file first, then the meter's.
  std::vector<CaseTolerance> tolerances;
};

/// @brief Reads a reading file and the meter's files it names.
///
/// `[unknown]`: `key`. `[[readings]]`: `winding`, `inductance`, `frequency`, `tolerance`; optional
/// `sample`, `circuit = "series" | "parallel"` (of the meter's model; converted to series), one of
/// `resistance`, `quality_factor`, `dissipation_factor` with its own `resistance_tolerance`, ...,
/// `distribution = "uniform" | "normal"`, `coverage_factor`, and for the leads either
/// `lead_inductance` with `lead_tolerance`, or `bare_coil = { inductance, tolerance, ... }`, a
/// reading of the winding without the part. `[[meter_files]]`: `file` (CSV, beside this file),
/// `winding`, `tolerance`, optional `at` (only rows of this frequency), `frequency` and `sample`
/// where the file has no such column, and the further keys of a reading; the CSV's columns: see
/// meter_file.hpp. `[[tolerances]]`: `key`, `tolerance`, `distribution`, `coverage_factor`.
/// A tolerance is "1 %", "0.2 uH" or a list of both (summed).
/// @throws CaseError holding every fault of the file and of the meter's files.
Readings read_readings(const std::filesystem::path& path);

} // namespace cases
