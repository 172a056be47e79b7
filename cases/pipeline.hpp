// The steps `solve` and `compare` share: read, solve, work out, write.
#pragma once

#include "cases/commands.hpp"
#include "cases/insight.hpp"
#include "post/result.hpp"
#include "solver/solution.hpp"

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief One case on its way through the commands.
struct Solved
{
  Case read;
  solver::Solution solution;
  post::Result result; ///< Formulas judged; files filled by write_results().
};

/// @brief Whether there is a field to solve, and not only straight wires and toroids.
bool has_field(const solver::Problem& problem);

/// @brief Reads the case with the options' overrides and accuracy applied.
Case read_with(const std::filesystem::path& file, const Options& options);

/// @brief Every case file read so; the faults of all of them at once.
std::vector<Case> read_all(const std::vector<std::filesystem::path>& files, const Options& options);

/// @brief Solves every problem, at most `threads` at once; the results do not depend on how many.
std::vector<solver::Solution> solutions(std::span<const solver::Problem> problems, int threads);

/// @brief A problem solved, and the same with every material as air where that is another problem
///        with a winding to compare.
struct Compared
{
  solver::Solution own;
  std::optional<solver::Solution> alone;
  /// @brief Without any material.
  const solver::Solution& air() const { return alone ? *alone : own; }
};
/// @brief Solves both, the second on the mesh of the first and from there.
Compared with_air(const solver::Problem& problem, int threads);

/// @brief All numbers of a case but what hand formulas, probes' noise, ladders and capacitances
///        say.
/// @param own  Its field; null where it has none.
/// @param air  The same with every material as air; own where that is no other.
post::Result numbers(const Case& read, const solver::Solution* own, const solver::Solution* air,
                     int threads);

/// @brief Solves each case, and the same with every material as air, and works out the numbers.
std::vector<Solved> solved(std::vector<Case> read, const Options& options);

/// @brief What a designer would try next, solved. A change that cannot be solved is no fault of the
///        case and goes unmentioned.
std::vector<Tried> tried(const Solved& one, int threads);

/// @brief Folder a case's results go to: `out`, or CASE.results beside the case.
std::filesystem::path results_folder(const std::filesystem::path& file,
                                     const std::filesystem::path& out);

/// @brief Before the work: whether each case's results folder can be made and written into, unless
///        no files are asked for. @throws std::runtime_error naming the first that cannot.
void expect_room(const std::vector<std::filesystem::path>& files, const Options& options);

/// @brief Field file, pictures, then result.json, each whole or not at all; fills result.files.
/// @throws std::runtime_error naming the path that could not be written.
void write_results(const std::filesystem::path& folder, Solved& solved, bool revolve = false);

/// @brief quality_unreached if any result missed its accuracy, else done.
int status(std::span<const Solved> all);

} // namespace cases
