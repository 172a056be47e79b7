// What made a results folder: kept in it as origin.json, so that `report` can be given the folder.
#pragma once

#include "cases/commands.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

/// @brief A command and what it was told.
struct Origin
{
  std::string command;                      ///< "solve", "compare", "sweep", "fit"
  std::vector<std::filesystem::path> files; ///< Case files.
  std::filesystem::path reading;            ///< Of `fit`; else empty.
  Options options;                          ///< Overrides and accuracy only.
  std::string vary; ///< What --vary said beyond the case files; empty without.
};

/// @brief Writes origin.json, whole or not at all, with the text of every file it names.
/// @throws std::runtime_error naming the path that could not be read or written.
void write_origin(const std::filesystem::path& folder, const Origin& origin);

/// @brief Reads it back; paths as they are found from here.
/// @throws CaseError where the folder has none, or a file has changed since: its numbers would be
///         others than those beside the page.
Origin read_origin(const std::filesystem::path& folder);

} // namespace cases
