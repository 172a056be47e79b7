// What `fit` found, as people and programs read it.
#pragma once

#include "cases/fit_case.hpp"
#include "cases/progress.hpp"
#include "cases/sheet.hpp"
#include "post/chart.hpp"
#include "post/sample_ideas.hpp"

#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief What could make an impossible reading right, each with the number that would.
struct Slip
{
  std::string what;
};

struct FitReport
{
  FitCase asked;
  post::FitOptions options;
  std::vector<post::Response> responses;
  std::vector<post::FitResult> results; ///< One a group of asked.groups.
  std::vector<std::vector<Slip>> slips; ///< One list a group; empty where it is possible.
  std::vector<post::SampleIdea> ideas;  ///< What sample could tell; empty where this one does.
  double assumed = 0.0;                 ///< Permeability the ideas take.
  double tolerance = 0.0;               ///< Relative half-width of the reading they take.
  std::vector<std::string> files;
};

/// @brief What the readings say: case and readings read, the sample solved, all propagated.
FitReport fitted(const std::filesystem::path& file, const std::filesystem::path& reading,
                 const Options& options, Progress& progress);
/// @brief quality_unreached where a reading is impossible, else done.
int status(const FitReport& report);
/// @brief Whether the interval is open, or its ends differ by more than half.
bool tells_little(const post::FitResult& result);

/// @brief The report of `fit`.
Sheet fit_text(const FitReport& report);
/// @brief The document of `fit --json` and fit.json; ends in a newline.
std::string fit_document(const FitReport& report);
/// @brief Samples, or frequencies of one sample, with their intervals; nothing for a single group.
std::optional<post::Chart> fit_chart(const FitReport& report);
/// @brief Turns, units, meter's circuit: what each would have to be for a reading to be possible.
std::vector<Slip> slips(const FitCase& asked, const std::vector<post::Response>& responses,
                        const FitGroup& group, const post::Impossible& impossible);
/// @brief What each fitted group means, and warnings where two ways or two readings disagree.
Sheet meaning_text(const FitReport& report);
/// @brief "tube 3 at 10 kHz"
std::string name_of(const FitReport& report, std::size_t group);
bool is_closed(const post::Interval& interval);
/// @brief "7.1 to 7.4", "at least 600"
std::string interval_text(const post::Interval& interval, Kind kind, int digits);
/// @brief "8.2", "0.51 mm": a value of the unknown.
std::string unknown_text(double value, Kind kind, int digits = 4);

} // namespace cases
