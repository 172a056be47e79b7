// What doubling something would gain, solved.
#include "cases/doublings.hpp"
#include "cases/pipeline.hpp"

namespace cases
{

std::vector<Tried> tried(const Solved& one, int threads)
{
  if (!has_field(one.read.problem))
  {
    return {};
  }
  const std::vector<Change> changes = doublings(one.read.problem, one.result);
  std::vector<solver::Problem> problems;
  for (const Change& change : changes)
  {
    problems.push_back(change.problem);
  }
  std::vector<Tried> list;
  try // the air twins are not needed for a gain
  {
    const std::vector<solver::Solution> found = solutions(problems, threads);
    for (std::size_t i = 0; i < changes.size(); ++i)
    {
      list.push_back({changes[i].what, post::result(found[i], found[i], {})});
    }
  }
  catch (const std::exception&)
  {
    list.clear();
  }
  return list;
}

} // namespace cases
