// All pieces of a sweep worked out: on all threads, with a journal, in shares, or joined.
#pragma once

#include "cases/deal.hpp"
#include "cases/progress.hpp"
#include "cases/sweep_plan.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace cases
{

/// @brief One of several equal parts of the pieces: piece i belongs to share i % of + 1.
struct Share
{
  std::size_t number = 1;
  std::size_t of = 1;
};

/// @brief "3/20". @throws CaseError.
Share share(const std::string& typed);

/// @brief Works out the pieces of a share that its journal does not hold yet.
/// @param folder  Of the journal, made if missing; empty: none is kept.
/// @param team    The other ranks that help, if any.
/// @return One record a piece, empty for those of other shares.
std::vector<std::string> records(const SweepPlan& plan, const Share& share,
                                 const std::filesystem::path& folder, Progress& progress,
                                 Team& team);

/// @brief The records that shares have left in the folder.
/// @throws CaseError naming what is missing.
std::vector<std::string> joined(const SweepPlan& plan, const std::filesystem::path& folder);

/// @brief "sweep.journal", "share-3-of-20.journal"
std::string journal_name(const Share& share);

} // namespace cases
