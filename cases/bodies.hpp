// What tables of a case share: lists of tables, names, positions, materials, coatings, points.
#pragma once

#include "cases/csv.hpp"
#include "cases/draft.hpp"

namespace cases
{

/// @brief The tables of a list ([[parts]]), each with what to call it; other nodes are at fault.
std::vector<Section> sections(Section& top, std::string_view key);

/// @brief The name a table gives itself, empty where it has none that can be used.
/// @param example  A name to show where there is none.
std::string checked_name(Section& section, std::string_view example);

/// @brief " at line 12", empty for places without one.
std::string at_line(const SourcePlace& where);

/// @brief Enters a body under its name, or notes that the name is taken.
/// @return The body; null where there is none to enter.
Body* enter(Draft& draft, Section& section, const std::string& name);

/// @brief `centre` as a number [m], or as a neighbour kept in the body.
std::optional<double> read_centre(Section& section, Body* body);

/// @brief The name of a material that exists.
std::optional<std::string> read_material(const Draft& draft, Section& section);

/// @brief `coating = { material, thickness }`; sets `sound` to false where it is at fault.
std::optional<mesh::Coating> read_coating(const Draft& draft, Section& section, bool& sound);

/// @brief `insulation` of turns: a thickness, or { material, thickness }; air, none by absence.
struct Insulation
{
  std::string material;
  double thickness = 0.0; ///< [m]
};
std::optional<Insulation> read_insulation(const Draft& draft, Section& section);
/// @brief `capacitance` and `earthed` of [drive].
void read_capacitance(Draft& draft, Section& drive);

/// @brief `frequency` of [drive], ascending [Hz]; none where it is absent or at fault.
std::vector<double> read_frequencies(Section& drive);
/// @brief `permeability_table`, a CSV file beside the case: columns frequency, real, imaginary, and
///        temperature or not; without a frequency one row of frequency zero.
/// @param follows  Whether it has temperatures; the rows then are those of the case's.
std::optional<std::vector<solver::Dispersion>>
read_permeability_table(const Draft& draft, Section& section, bool& follows);
/// @brief `magnetisation_table`, likewise: columns H, B, and temperature or not; null at fault.
std::shared_ptr<const solver::Magnetisation>
read_magnetisation_table(const Draft& draft, Section& section, bool& follows);
/// @brief `magnetisation = { law = "tanh", ... }`; null where it is absent or at fault.
std::shared_ptr<const solver::Magnetisation> read_magnetisation(Section& section);
/// @brief The CSV file a key names, beside the case; nothing where it is at fault.
std::optional<CsvTable> file_table(Section& section, std::string_view key, std::string_view example,
                                   const std::filesystem::path& case_file);
/// @brief `bias` of [drive] in the order written [A]; none where it is absent or at fault.
std::vector<double> read_bias(Section& drive);

/// @brief A point written ["r", "z"]; `path` names it in messages.
std::optional<mesh::Point> read_point(const Node& node, const std::string& path,
                                      std::vector<Fault>& faults);
/// @brief A list of them that must be there.
std::optional<std::vector<mesh::Point>> read_points(Section& section, std::string_view key);

} // namespace cases
