// `ferrule sweep --fields`: the field of every point as a file, and one collection of them all.
//
// After the points: each is solved once more in full, as a reduced model has no field of its own.
#pragma once

#include "cases/progress.hpp"
#include "cases/sweep_plan.hpp"
#include "cases/sweep_report.hpp"

namespace cases
{

inline constexpr std::size_t most_fields = 5000; ///< A field file has about a megabyte.

/// @brief Writes fields/point-0001.vtu ... and fields.pvd, which names them, into the folder.
///
/// The time step of the collection is the value of a single varied key, as typed, else the number
/// of the point from 0. Points that could not be built are left out. A journal remembers what is
/// written, so that an interrupted run goes on.
/// @return Names relative to the folder.
/// @throws std::runtime_error naming the path that could not be written.
std::vector<std::string> write_fields(const SweepPlan& plan, const SweepReport& report,
                                      const std::filesystem::path& folder, Progress& progress);

/// @brief The text of a collection for viewers that are built on VTK: a file a time step.
struct CollectedFile
{
  double step = 0.0;
  std::string name; ///< Relative to the collection.
};
std::string collection(const std::vector<CollectedFile>& files);

} // namespace cases
