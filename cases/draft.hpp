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
  SourcePlace heat;                   ///< Of [heat].
  double current = 1.0;               ///< In every winding without its own [A].
  std::vector<std::optional<double>> own_currents; ///< One a winding of the scene [A].
};

/// @brief The case of a tree; `path` is where it was read. @throws CaseError as read_case().
Case read_tree(Node root, const std::filesystem::path& path,
               const std::vector<Override>& overrides);

// One function a top-level key, in the order read_case() calls them.
void read_materials(Draft& draft, Section& top);
void read_parts(Draft& draft, Section& top);
void read_windings(Draft& draft, Section& top);
void read_drive(Draft& draft, Section& top);
void read_accuracy(Draft& draft, Section& top);
void read_heat(Draft& draft, Section& top);
void read_probes(Draft& draft, Section& top);
void read_axial(Draft& draft, Section& top);
void read_sweep(Draft& draft, Section& top);
/// @brief Centres of the bodies that were placed by others.
void place_bodies(Draft& draft);
/// @brief Notes each pair of sound bodies that overlap.
void check_overlaps(Draft& draft);
/// @brief Notes what [heat] lacks in a case that is sound but for that.
void check_heat(Draft& draft);
/// @brief What [drive] temperature will be read as, for tables over it; 20 degC where it is at
///        fault, which is noted when its turn comes [K].
double drive_temperature(Section& top);

} // namespace cases
