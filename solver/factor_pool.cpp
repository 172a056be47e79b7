// Those last given back go out first.
#include "solver/factor_pool.hpp"

namespace solver
{

void FactorPool::lend(const std::function<void(HarmonicFactors&)>& work)
{
  std::unique_ptr<HarmonicFactors> lent;
  {
    const std::lock_guard lock(_guard);
    if (!_idle.empty())
    {
      lent = std::move(_idle.back());
      _idle.pop_back();
    }
  }
  if (!lent)
    lent = std::make_unique<HarmonicFactors>();
  work(*lent);
  const std::lock_guard lock(_guard);
  _idle.push_back(std::move(lent));
}

int FactorPool::orderings() const
{
  int sum = 0;
  for (const auto& one : _idle)
    sum += one->flux.orderings() + one->potential.orderings();
  return sum;
}

} // namespace solver
