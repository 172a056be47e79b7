// What the tables of a reading file share: an impedance with its tolerances, the leads, the bounds.
#pragma once

#include "cases/series_circuit.hpp"
#include "cases/tolerance.hpp"

namespace cases
{

inline constexpr Wanted read_inductance{Kind::inductance, 1e-13, 1e6,
                                        "inductances run from 0.1 pH to 1 MH", "\"122.8 uH\""};
inline constexpr Wanted read_frequency{Kind::frequency, 1e-3, 1e12,
                                       "frequencies run from 1 mHz to 1 THz", "\"10 kHz\""};
inline constexpr Wanted series_resistance{Kind::resistance, 0.0, 1e12,
                                          "resistances run from 0 to 1e12 ohm", "\"1.2 ohm\""};
inline constexpr Wanted parallel_resistance{
    Kind::resistance, 1e-9, 1e15, "resistances run from 1 nohm to 1e15 ohm", "\"150 kohm\""};
inline constexpr Wanted read_quality_factor{Kind::number, 1e-6, 1e12, "Q runs from 1e-6 to 1e12",
                                            "80"};
inline constexpr Wanted read_dissipation_factor{Kind::number, 0.0, 1e6, "D runs from 0 to 1e6",
                                                "0.0125"};

/// @brief "resistance", "quality_factor" or "dissipation_factor".
std::string_view key_of(Loss loss);

/// @brief Tolerances of an impedance, before or without its values.
struct ImpedanceTolerances
{
  ToleranceText inductance;
  Loss loss = Loss::none;   ///< Which of the three has a tolerance,
  ToleranceText loss_value; ///< and what it is.
  SpreadKeys spread;
};
/// @brief `tolerance`, `resistance_tolerance` and the like, `distribution`, `coverage_factor`.
ImpedanceTolerances read_impedance_tolerances(Section& section);

/// @brief The impedance in a section: `inductance`, `circuit`, a loss, their tolerances.
/// @param frequency  [Hz]; nothing where it is at fault, so that no circuit is converted.
std::optional<SeriesImpedance> read_impedance(Section& section, std::optional<double> frequency);

/// @brief `lead_inductance` with `lead_tolerance`, or `bare_coil = { ... }`.
struct LeadKeys
{
  std::optional<SeriesImpedance> lead;
  std::optional<SeriesImpedance> bare_coil;
};
/// @param frequency  Of the bare coil's reading where it gives none itself [Hz].
/// @param must       Whether it has to give one where `frequency` is nothing.
LeadKeys read_leads(Section& section, std::optional<double> frequency, bool must = false);

/// @brief A text of one line that is not blank; nothing where it is absent or at fault.
std::optional<std::string> read_word(Section& section, std::string_view key,
                                     std::string_view example, bool must);

/// @brief The readings of one `[[meter_files]]`; its file stands in the folder of `path`.
std::vector<Reading> read_meter_file(Section& section, const std::filesystem::path& path);

} // namespace cases
