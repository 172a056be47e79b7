// A number of a case that a search may move, and how far the case allows it.
//
// Read by seek and wish: KEY -> SearchKey -> cases with that number at any value of its range.
#pragma once

#include "cases/commands.hpp"
#include "cases/tree.hpp"

#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief A case to be built many times over.
struct SearchCase
{
  std::filesystem::path file;
  Node tree;
  std::string title;
  Options options;
};

struct SearchKey
{
  std::vector<std::string> keys; ///< One, or several moved alike.
  Kind kind = Kind::number;
  std::string unit;   ///< As written in the case or the range: "mm"; empty for pure numbers.
  double scale = 1.0; ///< A value as shown over the value in SI units.
  double own = 0.0;   ///< In the case; the range's middle where the case has none [SI].
  double from = 0.0;  ///< Sound cases reach from here ... [SI]
  double to = 0.0;
  bool whole = false;       ///< Turns and layers of wire drawn one by one.
  std::string below, above; ///< What speaks against values beyond; empty where the range was given.
};

/// @brief Reads the case as a tree. @throws CaseError.
SearchCase search_case(const std::filesystem::path& file, const Options& options);

/// @brief A key and its range: from a tenth to ten times its value where none is given, narrowed to
///        what makes a sound case.
/// @param typed    "KEY" or "KEY,KEY", and "=FROM:TO" after it if need be.
/// @param between  "FROM:TO" likewise, or empty.
/// @throws CaseError where the key leads to no number, or no value of the range is sound.
SearchKey search_key(const SearchCase& searched, const std::string& typed,
                     const std::string& between);

/// @brief "47.2 mm" as --set takes it.
std::string value_text(const SearchKey& key, double si);
/// @brief The case with each key at its value, accuracy set. @throws CaseError.
Case case_at(const SearchCase& searched, std::span<const SearchKey> keys,
             std::span<const double> values);
/// @brief Its problem, which has a winding. @throws CaseError.
solver::Problem problem_at(const SearchCase& searched, std::span<const SearchKey> keys,
                           std::span<const double> values);
/// @brief The first fault of an error, and how many more there are.
std::string first_fault(const CaseError& error);
/// @brief Materials whose permeability the key moves and nothing else; empty for other keys.
std::vector<std::string> materials_moved(const SearchKey& key);

} // namespace cases
