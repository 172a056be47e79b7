// Independent pieces of work, shared out over threads as each becomes free.
#pragma once

#include <cstddef>
#include <functional>

namespace solver
{

/// @brief Calls work(0) .. work(count - 1), at most `threads` at once; the order is free.
///
/// The first exception comes through once all threads have ended.
void at_once(std::size_t count, int threads, const std::function<void(std::size_t)>& work);

} // namespace solver
