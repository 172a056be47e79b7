// The processes of one run that an MPI launcher started on several cores or machines.
//
// Only texts go between them. Nothing of MPI is loaded by a run that no launcher started.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>

namespace cases
{

/// @brief This process among the others; rank 0 deals the work and writes all files.
struct Ranks
{
  int rank = 0;
  int size = 1;
  std::function<void(int to, const std::string& text)> send;
  /// A text that has come and its sender; nothing where none has.
  std::function<std::optional<std::pair<int, std::string>>()> receive;
};

/// @brief The ranks of this run; size 1 where no launcher is behind it.
/// @throws std::runtime_error where one is, but this ferrule was built without MPI.
const Ranks& launched_ranks();

/// @brief Takes leave of the other ranks at the end of main, where there are any.
class Leave
{
public:
  Leave() = default;
  ~Leave();
  Leave(const Leave&) = delete;
  Leave& operator=(const Leave&) = delete;
};

} // namespace cases
