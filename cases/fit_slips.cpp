// Likely mistakes behind a reading no value of the unknown explains, each put into numbers.
#include "cases/fit_report.hpp"
#include "post/engineering.hpp"

#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// A decimal point one place off, or another prefix of the unit.
void add_unit(std::vector<Slip>& list, double read, double least, double most)
{
  for (const double factor : {1e-6, 1e-3, 0.1, 10.0, 1e3, 1e6})
  {
    if (read * factor >= least && read * factor <= most)
    {
      list.push_back(
          {fmt::format("the {}: {} would fit, not {}",
                       factor == 0.1 || factor == 10.0 ? "decimal point" : "unit",
                       post::engineering(read * factor, "H", 4), post::engineering(read, "H", 4))});
    }
  }
}

void add_turns(std::vector<Slip>& list, double turns, double read, double least, double most)
{
  const double fewest = turns * std::sqrt(read / most),
               most_turns = turns * std::sqrt(read / least);
  list.push_back(
      {fmt::format("the turns: with {} to {} of them this reading would be possible, "
                   "the case has {}",
                   post::number(fewest, 3), post::number(most_turns, 3), post::count(turns))});
}

} // namespace

std::vector<Slip> slips(const FitCase& asked, const std::vector<post::Response>& responses,
                        const FitGroup& group, const post::Impossible& impossible)
{
  const post::FitReading& reading = group.readings[impossible.reading];
  const post::Response& response = responses[reading.winding];
  const double one = std::exp(response.log_inductance.front()),
               other = std::exp(response.log_inductance.back());
  const double least = std::min(one, other), most = std::max(one, other);
  std::vector<Slip> list;
  if (impossible.reached <= 0.0)
  {
    return {{"what was taken off for the leads or the bare coil is too much"}};
  }
  add_turns(list, asked.read.problem.scene.windings[reading.winding].turns, impossible.reached,
            least, most);
  add_unit(list, impossible.reached, least, most);
  if (!impossible.below)
  {
    // L_p = L_s (1 + 1 / Q^2)
    const double Q = 1.0 / std::sqrt(impossible.reached / most - 1.0);
    list.push_back({fmt::format("the meter's circuit: a parallel reading is this much above the "
                                "series one where Q is {} or less",
                                post::number(Q, 2))});
    if (!reading.lead && !reading.bare)
    {
      list.push_back({fmt::format("the leads: {} of them would explain it; correct open and short, "
                                  "or read the bare coil too",
                                  post::engineering(impossible.reached - most, "H", 2))});
    }
  }
  else
  {
    if (reading.lead || reading.bare)
    {
      list.push_back({"what was taken off for the leads or the bare coil is too much"});
    }
    list.push_back({"a shorted turn, or metal near the coil, lowers a reading"});
  }
  return list;
}

} // namespace cases
