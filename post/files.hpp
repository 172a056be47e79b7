// The results folder: field file and pictures, written whole or not at all.
//
// Drawing and VTK live in one module opened here on demand, so that a run that draws nothing
// never loads them.
#pragma once

#include "mesh/layout.hpp"
#include "post/result.hpp"
#include "post/sample.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace post
{

/// @brief Writes field.vtu, picture.svg and picture.png into `folder`, which is made if missing.
/// @param revolve  Also revolved.vtp and revolved.png: bodies and sections as solids, a quarter
///                 cut out.
/// @return File names relative to the folder.
/// @throws std::runtime_error naming the path that could not be written, or the missing module.
std::vector<std::string> write_field_files(const std::filesystem::path& folder,
                                           const Sample& sample, const mesh::Layout& layout,
                                           const Result& result, bool revolve = false);

/// @brief Writes temperature.svg and temperature.png of one of the result's heat points likewise.
std::vector<std::string> write_warm_files(const std::filesystem::path& folder, const Sample& sample,
                                          const mesh::Layout& layout, const Result& result,
                                          std::size_t point);

/// @brief The bytes of temperature.svg and of picture.svg, for a page to hold.
std::string warm_svg(const Sample& sample, const mesh::Layout& layout, const Result& result,
                     std::size_t point);
std::string field_svg(const Sample& sample, const mesh::Layout& layout, const Result& result);

/// @brief The bytes of field.vtu.
std::string field_vtu(const Sample& sample);

/// @brief Writes text to a file that appears whole or not at all.
/// @throws std::runtime_error naming the path.
void write_text(const std::filesystem::path& path, const std::string& text);

} // namespace post
