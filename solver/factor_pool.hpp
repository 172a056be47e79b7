// Factors of one mesh, lent to one piece of work at a time: the mesh is ordered once for each that
// runs at once, not once a frequency.
#pragma once

#include "solver/factor.hpp"
#include "solver/symmetric_factor.hpp"

#include <functional>
#include <memory>
#include <mutex>
#include <vector>

namespace solver
{

/// @brief Of the two systems of a harmonic problem.
struct HarmonicFactors
{
  SymmetricFactor flux;
  Factor potential;
};

class FactorPool
{
public:
  /// @brief Calls work with factors no other call has meanwhile; they come back with its end.
  void lend(const std::function<void(HarmonicFactors&)>& work);
  /// @brief How often any of the factors here was ordered; none lent.
  int orderings() const;

private:
  std::mutex _guard;
  std::vector<std::unique_ptr<HarmonicFactors>> _idle;
};

} // namespace solver
