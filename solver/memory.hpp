// Memory a mesh will take, and what this machine has left: so that a case too large stops in time.
//
// Estimates, not bounds: factors grow with the mesh's shape. Where nothing tells the limit, none is
// assumed.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

namespace solver
{

/// @brief A sound case that this machine cannot hold; what() says how much is lacking.
class NotEnoughMemory : public std::runtime_error
{
public:
  using std::runtime_error::runtime_error;
};

/// @brief Bytes that this process may still take: the least of the free memory of the machine, of
///        its control groups (versions 1 and 2) and of its own limit of address space.
/// @param root  Where /proc and /sys are looked for.
double memory_left(const std::filesystem::path& root = "/");

/// @brief A mesh as the estimate sees it.
struct MeshSize
{
  std::size_t triangles = 0;
  int order = 0;
  std::size_t sources = 1;
  bool complex = false; ///< Over frequency.
};
/// @brief Bytes while both sides of it are solved, estimated.
///
/// 60 MB, and for m = (p+1)(p+2)/2 functions and p^2 unknowns a triangle: 16 m^2 for element
/// matrices, 430 an unknown for matrix and factor, 60 an unknown and source. Fitted to peaks of
/// runs with 130 000 to 1 400 000 unknowns of order 4 and 6, one source; complex ones take twice.
double memory_needed(const MeshSize& size);

/// @brief One problem under way; those that run at once share what is left.
class MemoryShare
{
public:
  MemoryShare();
  ~MemoryShare();
  MemoryShare(const MemoryShare&) = delete;
  MemoryShare& operator=(const MemoryShare&) = delete;
  /// @brief Why a mesh of that size must not be solved here; empty where it may.
  static std::string lacking(const MeshSize& size);
  /// @throws NotEnoughMemory with that.
  static void require(const MeshSize& size);
};

} // namespace solver
