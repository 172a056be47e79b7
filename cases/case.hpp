// A case file as read: the problem to solve and what the person wrote around it.
#pragma once

#include "cases/axial.hpp"
#include "cases/vary.hpp"
#include "post/quantities.hpp"
#include "solver/problem.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

struct Case
{
  std::filesystem::path path;
  std::string title; ///< The file's stem where the case has none.
  std::string notes;
  std::string variant; ///< What tells it from other cases of the same file; `compare` sets it.
  solver::Problem problem;
  std::vector<post::ProbePoint> probes;
  std::vector<StraightWire> wires;
  std::vector<Toroid> toroids;
  double line = 50.0;         ///< Source and load of insertion losses and ports [ohm].
  std::vector<Varied> varied; ///< Of [sweep]; only `sweep` reads it.
  std::string show; ///< What its chart shows, one of shown_words(); empty: the points decide.
  std::vector<std::string> beside; ///< Hand formulas its chart draws beside.
};

/// @brief One `--set KEY=VALUE`; a text value needs no quotes ("parts.core.length=20mm").
struct Override
{
  std::string key;
  std::string value;
};

/// @brief Reads and checks a case file.
/// @throws CaseError holding every fault of the file, each with place and cure.
/// @throws std::runtime_error when the file cannot be read for a reason of the machine's.
Case read_case(const std::filesystem::path& path, const std::vector<Override>& overrides = {});

} // namespace cases
