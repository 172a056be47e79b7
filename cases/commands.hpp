// What a person can ask ferrule for: one function a command, each in its own file.
//
// main.cpp turns the command line into these; each returns the exit status.
#pragma once

#include "cases/case.hpp"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief Exit statuses people and scripts rely on.
enum Status
{
  done = 0,
  failed = 1,           ///< The machine: a file, memory, a broken pipe.
  input_fault = 2,      ///< Case file or command line.
  quality_unreached = 3 ///< Sound case, but not to the asked accuracy; what was reached is written.
};

/// @brief The options all commands share.
struct Options
{
  std::filesystem::path out;      ///< Results folder; empty: CASE.results beside the case.
  bool json = false;              ///< One document on standard output.
  std::vector<Override> sets;     ///< Keys of the case overridden.
  std::optional<double> accuracy; ///< Relative half-width of the bracket, over the case's own.
  std::string vary;               ///< `compare`: "KEY=VALUES" at which every case is solved.
  bool files = true;              ///< Write the results folder.
  bool quiet = false;             ///< No report and no progress.
  bool revolve = false;           ///< `solve` writes the solids too.
  int threads = 1;                ///< Problems solved at once.
};

/// @brief One case: table, ledger, formulas, sentences; field files and pictures.
int solve(const std::filesystem::path& file, const Options& options);

/// @brief Several cases side by side, the first as the yardstick.
int compare(const std::vector<std::filesystem::path>& files, const Options& options);

/// @brief The hand formulas that fit a case, without solving it.
int formulas(const std::filesystem::path& file, const Options& options);

/// @brief What readings of a wound sample say of one unknown of its case, and how surely.
int fit(const std::filesystem::path& file, const std::filesystem::path& reading,
        const Options& options);

/// @brief One case, several side by side, or what a reading says: a page to send, report.html.
/// @param reading  Empty, or that of the one case.
int report(const std::vector<std::filesystem::path>& files, const std::filesystem::path& reading,
           const Options& options);

/// @brief The whole catalogue of hand formulas against field solutions; maps, table and points in
///        `formulas.results` or --out. @param fine  Denser grids.
int check_formulas(bool fine, const Options& options);

/// @brief A powder by every mixing rule: two of particle, packing and effective permeability known.
/// @param typed  Values of its own options, by option ("--packing").
int mix(const std::map<std::string, std::string>& typed, const Options& options);

/// @brief What `sweep` is told besides, as typed.
struct SweepAsked
{
  std::vector<std::string> vary; ///< "KEY=VALUES", over the case's own [sweep].
  std::string show;              ///< One of shown_words(); empty: as the case says.
  std::string share;             ///< "3/20"; empty: all.
  std::filesystem::path model;   ///< A kept reduced model in place of a case.
  bool join = false;             ///< Put shares together.
  bool full = false;             ///< No reduced model.
  bool fields = false;           ///< A field file a point, and their collection.
  std::string seek;              ///< "[WINDING.]QUANTITY=VALUE"; empty: a sweep over values.
  std::vector<std::string> by;   ///< "KEY", "KEY,KEY" or "KEY=FROM:TO" of a search.
  std::string between;           ///< "FROM:TO" of that key; empty: about its own value.
  std::vector<std::string> wish; ///< "QUANTITY=up" or "QUANTITY=down", two of them.
  std::vector<std::string> keep; ///< "QUANTITY<VALUE" or "QUANTITY>VALUE".
};

/// @brief A case at many values of its keys: table, chart, each point with its bracket.
/// @param file  Empty where a kept model is asked.
int sweep(const std::filesystem::path& file, const SweepAsked& asked, const Options& options);

/// @brief The value of a key at which a winding meets a target, with the interval its bracket
/// leaves.
int seek(const std::filesystem::path& file, const SweepAsked& asked, const Options& options);

/// @brief Two wishes that pull against each other: what each level of one leaves of the other.
int wish(const std::filesystem::path& file, const SweepAsked& asked, const Options& options);

/// @brief A commented starter case on standard output; an empty kind lists the kinds.
int starter(const std::string& kind);

} // namespace cases
