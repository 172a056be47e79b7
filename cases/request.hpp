// A command line as typed, and what it asks for.
//
// Typed -> Options -> command. Every option arrives as text, so that its faults read like those of
// a case file.
#pragma once

#include "cases/commands.hpp"

#include <map>
#include <string>
#include <vector>

namespace cases
{

/// @brief Options before they are understood.
struct Typed
{
  std::vector<std::string> files;
  std::vector<std::string> sets; ///< "KEY=VALUE"
  std::string accuracy;
  std::string vary; ///< Of `compare`.
  std::string out;
  std::string written = "all"; ///< Of --files.
  std::string threads;
  std::string reading; ///< Of `fit`.
  std::string kind;    ///< Of `new`.
  bool check = false;  ///< Of `formulas`; likewise the next.
  bool fine = false;
  SweepAsked sweep; ///< Own options of `sweep`; --model as text in the next.
  std::string model;
  std::map<std::string, std::string> mix; ///< Own options of `mix`.
  bool revolve = false;                   ///< Of `solve`.
  bool json = false;
  bool quiet = false;
};

/// @brief Refuses a command line: "ferrule: error: WHAT; CURE".
/// @throws CaseError, always.
[[noreturn]] void usage_fault(const std::string& what, const std::string& cure);

/// @brief The options meant.
/// @throws CaseError naming the option and how to write it.
Options options(const Typed& typed);

/// @brief Runs a command of that name and returns its exit status.
/// @throws CaseError when its case files are missing or too many, and all a command throws.
int run(const std::string& command, const Typed& typed);

} // namespace cases
