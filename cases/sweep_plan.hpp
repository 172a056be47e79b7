// Which points a sweep has, and how they fall into pieces of work.
//
// A piece is one geometry: a single point solved in full, or all points that differ only in
// permeability, for which one reduced model serves.
#pragma once

#include "cases/case.hpp"
#include "cases/commands.hpp"
#include "cases/tree.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

struct SweepPiece
{
  std::vector<std::size_t> points; ///< In their order in the sweep.
  bool modelled = false;
};

/// @brief What points leave out, having one frequency and one bias at most.
struct LeftOut
{
  bool frequencies = false;
  bool biases = false;
};

struct SweepPlan
{
  std::filesystem::path file;
  Node tree; ///< Of the case, as it was when the sweep began.
  std::string title;
  Options options;
  std::vector<Varied> varied;
  std::string show;                ///< One of shown_words() that the points have.
  std::vector<std::string> beside; ///< Hand formulas drawn beside.
  double accuracy = 1e-3;          ///< Asked, where the case as it stands can be read.
  LeftOut left_out;
  std::size_t points = 0;
  std::vector<SweepPiece> pieces;
  std::string work; ///< Names everything the points depend on, for the journal.
};

inline constexpr std::size_t most_points = 1000000;

/// @brief Reads the case, and what to vary from the command line or else from [sweep].
/// @throws CaseError with every fault of what is varied; the points themselves are not built yet.
SweepPlan sweep_plan(const std::filesystem::path& file, const SweepAsked& asked,
                     const Options& options);

/// @brief Index of the value of each varied key at a point; the last key runs fastest.
std::vector<std::size_t> indices(const std::vector<Varied>& varied, std::size_t point);
/// @brief What --set would have to be told for this point.
std::vector<Override> overrides(const SweepPlan& plan, std::size_t point);
/// @brief Words of shown_words() that points of such a case have, the one meant first.
std::vector<std::string> words_of(const Case& read);
/// @brief Whether a reduced model tells all there is at its points: windings at rest, and at one
///        frequency.
bool model_tells_all(const Case& read);
/// @brief Whether a key moves nothing but one material's permeability, or a part of it.
bool is_material_key(const std::string& key);

/// @brief Names the running program: its linker's build id, or its version where there is none.
std::string program_id();

} // namespace cases
