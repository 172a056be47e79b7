// What a page to send is made of, section by section; report.cpp puts them in order.
//
// Case, result, sheets -> post::PageSection. Words are those of the terminal's reports.
#pragma once

#include "cases/fit_report.hpp"
#include "cases/pipeline.hpp"
#include "cases/sheet.hpp"
#include "cases/sweep_report.hpp"
#include "post/page.hpp"

#include <span>
#include <string>
#include <vector>

namespace cases
{

/// @brief A section a heading; the title and what stands apart are left out.
std::vector<post::PageSection> sections(const Sheet& sheet);

/// @brief The value of each winding with its bounds; `label` before its name where there is one.
std::vector<post::PageAnswer> answers(const post::Result& result, const std::string& label = {});
std::vector<post::PageAnswer> answers(const FitReport& report);

/// @brief The parts drawn to scale, numbered, with their sizes in words.
post::PageSection parts_section(const Case& read, const std::string& heading);

/// @brief Field lines and flux density; the case must have been solved.
post::PageSection field_section(const Solved& solved, const std::string& heading);
/// @brief The temperature picture of the warmest drive; there must be one.
post::PageSection warm_section(const Solved& solved, const std::string& heading);

/// @brief A bar a region, before the table of `region_text`.
post::PageSection energy_section(const Solved& solved);

/// @brief Sliders over a reduced model made here; no blocks where the case has no winding.
/// @param mark  Tells the boxes of one page apart: letters and digits.
post::PageSection what_if_section(const Case& read, const post::Result& result,
                                  const std::string& heading, const std::string& mark, int threads);

/// @brief What the numbers rest on, and what they say nothing about.
post::PageSection limits_section(std::span<const Case> read);

/// @brief The usual cautions for what these cases hold.
post::PageSection cautions_section(std::span<const Case> read);

/// @brief Case and reading files as they are.
post::PageSection files_section(const std::vector<std::filesystem::path>& files);

/// @brief The command that makes this page again, and the version that did.
post::PageSection reproduce_section(const std::vector<std::filesystem::path>& files,
                                    const std::filesystem::path& reading, const Options& options);

/// @brief A word of a command line as a POSIX shell takes it.
std::string shell_word(const std::string& word);

} // namespace cases
