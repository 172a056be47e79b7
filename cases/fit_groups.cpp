// Readings sorted by sample and frequency, each with what is to be taken off it.
#include "cases/fit_case.hpp"
#include "cases/wording.hpp"
#include "post/quantities.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// What to take off a reading, and what to call it in a budget.
post::FitReading fit_reading(const Reading& one, const std::string& label, std::size_t winding,
                             const solver::Problem& problem)
{
  post::FitReading made;
  made.winding = winding;
  made.frequency = one.frequency;
  made.inductance = uncertain(label, one.read.inductance, one.read.inductance_tolerance);
  if (one.read.resistance)
  {
    made.loss =
        uncertain(label + ", resistance", *one.read.resistance, one.read.resistance_tolerance);
    if (const auto wire = post::wire(problem, problem.scene.windings[winding]))
    {
      made.winding_loss =
          post::UncertainInput{label + ", winding's own dc resistance", wire->dc_resistance};
    }
  }
  const auto take_off = [&](const SeriesImpedance& other, const std::string& what)
  {
    if (made.loss && other.resistance)
    {
      made.winding_loss =
          uncertain(what + ", resistance", *other.resistance, other.resistance_tolerance);
    }
    return uncertain(what, other.inductance, other.inductance_tolerance);
  };
  if (one.lead)
  {
    const auto own = made.winding_loss;
    made.lead = take_off(*one.lead, label + ", lead");
    if (own && made.winding_loss && one.lead->resistance)
    {
      made.winding_loss->estimate += own->estimate;
    }
  }
  if (one.bare_coil)
  {
    made.bare = take_off(*one.bare_coil, label + ", bare coil");
  }
  return made;
}

FitGroup& group_of(std::vector<FitGroup>& groups, const Reading& one)
{
  const auto found = std::ranges::find_if(
      groups, [&](const FitGroup& group)
      { return group.sample == one.sample && group.frequency == one.frequency; });
  if (found != groups.end())
  {
    return *found;
  }
  groups.push_back({one.sample, one.frequency, {}, true});
  return groups.back();
}

} // namespace

std::vector<FitGroup> fit_groups(const Readings& readings, const solver::Problem& problem,
                                 std::vector<Fault>& faults)
{
  std::vector<FitGroup> groups;
  const std::vector<mesh::Winding>& windings = problem.scene.windings;
  std::vector<std::string> names;
  for (const mesh::Winding& winding : windings)
  {
    names.push_back(winding.name);
  }
  for (const Reading& one : readings.readings)
  {
    const auto found = std::ranges::find(names, one.winding);
    if (found == names.end())
    {
      faults.push_back({one.where,
                        fmt::format("the case has no winding {}", in_quotes(one.winding)),
                        did_you_mean(one.winding, names,
                                     names.empty() ? std::string("it has no windings")
                                                   : fmt::format("it has {}", in_words(names)))});
      continue;
    }
    FitGroup& group = group_of(groups, one);
    const auto winding = static_cast<std::size_t>(found - names.begin());
    std::string label = "reading of " + one.winding;
    const auto same = std::ranges::count_if(group.readings, [&](const post::FitReading& other)
                                            { return other.winding == winding; });
    label += same > 0 ? fmt::format(" ({})", same + 1) : "";
    group.readings.push_back(fit_reading(one, label, winding, problem));
    const post::FitReading& last = group.readings.back();
    group.winding_loss_known = group.winding_loss_known && (!last.loss || last.winding_loss);
  }
  return groups;
}

} // namespace cases
