// One counter all threads take their next piece from.
#include "solver/at_once.hpp"

#include <atomic>
#include <future>
#include <vector>

namespace solver
{

void at_once(std::size_t count, int threads, const std::function<void(std::size_t)>& work)
{
  std::atomic<std::size_t> next = 0;
  const auto worker = [&]
  {
    for (std::size_t i = next++; i < count; i = next++)
      work(i);
  };
  std::vector<std::future<void>> others;
  for (int t = 1; t < threads; ++t)
    others.push_back(std::async(std::launch::async, worker));
  worker();
  for (std::future<void>& one : others)
    one.get();
}

} // namespace solver
