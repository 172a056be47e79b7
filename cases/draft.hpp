// A case while it is being read: the sound pieces so far, the faults, and what is still to resolve.
#pragma once

#include "cases/case.hpp"
#include "cases/section.hpp"

#include <map>
#include <set>

namespace cases
{

/// @brief A position by another body: `centre = { above = "core", gap = "0.5 mm" }`.
struct Neighbour
{
  std::string name;
  bool above = true;
  double gap = 0.0; ///< Between the surfaces, coatings included [m].
  SourcePlace where;
};

struct Body
{
  std::string path;   ///< "parts.core"
  SourcePlace where;  ///< Of its table.
  bool sound = false; ///< Without fault so far, and in the scene.
  std::optional<Neighbour> neighbour = std::nullopt;
};

struct Draft
{
  explicit Draft(std::vector<Fault>& sink) : faults(sink) {}

  Case result;
  std::vector<Fault>& faults;
  std::map<std::string, Body> bodies; ///< By name, unsound ones included.
  std::set<std::string> materials;    ///< Names that may be used, unsound ones included.
  double current = 1.0;               ///< In every winding without its own [A].
  std::vector<std::optional<double>> own_currents; ///< One a winding of the scene [A].
};

/// @brief The tables of a list ([[parts]]), each with what to call it; other nodes are at fault.
std::vector<Section> sections(Section& top, std::string_view key);

/// @brief The name a table gives itself, empty where it has none that can be used.
/// @param what  "a part"
std::string checked_name(Section& section, std::string_view what);

/// @brief Enters a body under its name, or notes that the name is taken.
/// @return The body; null where there is none to enter.
Body* enter(Draft& draft, Section& section, const std::string& name);

/// @brief `centre` as a number [m], or as a neighbour kept in the body.
std::optional<double> read_centre(Section& section, Body* body);

/// @brief The name of a material that exists.
std::optional<std::string> read_material(const Draft& draft, Section& section);

/// @brief `coating = { material, thickness }`; sets `sound` to false where it is at fault.
std::optional<mesh::Coating> read_coating(const Draft& draft, Section& section, bool& sound);

/// @brief A point written ["r", "z"]; `path` names it in messages.
std::optional<mesh::Point> read_point(const Node& node, const std::string& path,
                                      std::vector<Fault>& faults);
/// @brief A list of points that must be there, [["r", "z"], ...].
std::optional<std::vector<mesh::Point>> read_points(Section& section, std::string_view key);

void read_materials(Draft& draft, Section& top);
void read_parts(Draft& draft, Section& top);
void read_windings(Draft& draft, Section& top);
void read_drive(Draft& draft, Section& top);
void read_accuracy(Draft& draft, Section& top);
void read_probes(Draft& draft, Section& top);

/// @brief Centres of the bodies that were placed by others.
void place_bodies(Draft& draft);
/// @brief Notes each pair of sound bodies that partly overlap.
void check_overlaps(Draft& draft);

} // namespace cases
