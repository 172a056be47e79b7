// Probes at rest and over frequency run in the same order.
#include "post/probe_noise.hpp"

#include <algorithm>
#include <cmath>

namespace post
{

void tell_noise(Result& result)
{
  for (FrequencyResult& at : result.frequencies)
    for (std::size_t p = 0; p < std::min(at.probes.size(), result.probes.size()); ++p)
    {
      const double still = std::hypot(result.probes[p].B_r, result.probes[p].B_z);
      at.probes[p].noise = std::max(at.probes[p].noise, still * std::sqrt(at.accuracy_met));
    }
}

} // namespace post
