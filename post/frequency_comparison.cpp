// Matching cases by frequency, elements by name, probes by place; ratios by interval arithmetic.
#include "post/frequency_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace post
{

namespace
{

bool same(double a, double b)
{
  return std::abs(a - b) <= 1e-9 * std::max(std::abs(a), std::abs(b));
}

const FrequencyResult* at_frequency(const Result& result, double frequency)
{
  const auto found = std::ranges::find_if(result.frequencies, [&](const FrequencyResult& at)
                                          { return same(at.frequency, frequency); });
  return found == result.frequencies.end() ? nullptr : &*found;
}

ComparedImpedance element(std::size_t of_case, const char* kind, const std::string& name,
                          double frequency, double R, double L, double disc)
{
  const double omega = 2.0 * std::numbers::pi * frequency;
  return {of_case,
          kind,
          name,
          frequency,
          {R, R - disc, R + disc},
          {L, L - disc / omega, L + disc / omega},
          R > 0.0 ? omega * L / R : std::numeric_limits<double>::infinity(),
          {},
          {}};
}

std::vector<ComparedImpedance> elements(std::size_t of_case, const FrequencyResult& at)
{
  std::vector<ComparedImpedance> list;
  for (const WindingImpedance& one : at.windings)
    list.push_back(element(of_case, "winding", one.name, at.frequency, one.resistance,
                           one.inductance, one.disc));
  for (const WireResult& one : at.wires)
    list.push_back(
        element(of_case, "wire", one.name, at.frequency, one.resistance, one.inductance, 0.0));
  for (const ToroidResult& one : at.toroids)
    list.push_back(element(of_case, "toroid", one.name, at.frequency, one.resistance,
                           one.inductance, one.disc));
  return list;
}

/// Where both are surely positive.
std::optional<Bounded> ratio(const Bounded& of, const Bounded& to)
{
  if (!(of.lower > 0.0 && to.lower > 0.0))
    return std::nullopt;
  return Bounded{of.value / to.value, of.lower / to.upper, of.upper / to.lower};
}

/// The element of the same kind and name, or the only one of that kind.
const ComparedImpedance* yardstick(const std::vector<ComparedImpedance>& first,
                                   const ComparedImpedance& one)
{
  const ComparedImpedance* only = nullptr;
  int of_kind = 0;
  for (const ComparedImpedance& other : first)
  {
    if (other.kind != one.kind)
      continue;
    if (other.name == one.name)
      return &other;
    only = &other;
    ++of_kind;
  }
  return of_kind == 1 ? only : nullptr;
}

/// Frequencies of the first case that every case with any has.
std::vector<double> common(std::span<const Result> results)
{
  std::vector<double> list;
  for (const FrequencyResult& at : results.front().frequencies)
    if (std::ranges::all_of(
            results, [&](const Result& one)
            { return one.frequencies.empty() || at_frequency(one, at.frequency) != nullptr; }))
      list.push_back(at.frequency);
  return list;
}

void add_impedances(FrequencyComparison& made, std::span<const Result> results)
{
  for (const double frequency : made.common)
  {
    const std::vector<ComparedImpedance> first =
        elements(0, *at_frequency(results.front(), frequency));
    std::vector<ComparedImpedance> here;
    for (std::size_t i = 0; i < results.size(); ++i)
      if (const FrequencyResult* at = at_frequency(results[i], frequency))
        for (ComparedImpedance& one : elements(i, *at))
        {
          if (const ComparedImpedance* to = yardstick(first, one))
          {
            const bool itself = i == 0 && to->name == one.name;
            const Bounded unity{1.0, 1.0, 1.0};
            one.resistance_ratio = itself ? unity : ratio(one.resistance, to->resistance);
            one.inductance_ratio = itself ? unity : ratio(one.inductance, to->inductance);
          }
          here.push_back(std::move(one));
        }
    // Side by side: an element's cases together, in the order of the first case.
    std::ranges::stable_sort(here, {},
                             [&](const ComparedImpedance& one)
                             {
                               const ComparedImpedance* to = yardstick(first, one);
                               return to ? to - first.data() : std::ptrdiff_t(first.size());
                             });
    made.impedances.insert(made.impedances.end(), here.begin(), here.end());
  }
}

/// Name, place and |B| of every probe, at rest or at a frequency.
struct Probed
{
  std::string name;
  double r, z, magnitude, noise;
};
std::vector<Probed> probed(const Result& result, double frequency)
{
  std::vector<Probed> list;
  if (frequency == 0.0)
    for (const ProbeResult& one : result.probes)
      list.push_back({one.name, one.r, one.z, std::hypot(one.B_r, one.B_z), 0.0});
  else if (const FrequencyResult* at = at_frequency(result, frequency))
    for (const ProbeAtFrequency& one : at->probes)
      list.push_back({one.name, one.r, one.z, one.magnitude, one.noise});
  return list;
}

bool same_place(const Probed& a, const Probed& b)
{
  const double near = 1e-9 * (std::hypot(a.r, a.z) + std::hypot(b.r, b.z));
  return std::hypot(a.r - b.r, a.z - b.z) <= near;
}

/// The probe of every case that has it at the same place; nothing where only the first has.
void add_probe(FrequencyComparison& made, std::span<const Result> results, const Probed& first,
               double frequency)
{
  std::vector<ComparedProbe> here;
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    const std::vector<Probed> all = probed(results[i], frequency);
    const auto found = std::ranges::find_if(
        all, [&](const Probed& one) { return one.name == first.name && same_place(one, first); });
    if (found == all.end())
    {
      made.probes_elsewhere =
          made.probes_elsewhere || std::ranges::find(all, first.name, &Probed::name) != all.end();
      continue;
    }
    ComparedProbe one{i,  first.name,   first.r, first.z, frequency, found->magnitude,
                      {}, found->noise, 0.0,     false};
    one.relative_noise = found->noise / found->magnitude + first.noise / first.magnitude;
    one.drowned = found->magnitude < found->noise || first.magnitude < first.noise;
    if (!one.drowned && found->magnitude > 0.0 && first.magnitude > 0.0)
      one.weaker = 20.0 * std::log10(first.magnitude / found->magnitude);
    here.push_back(std::move(one));
  }
  if (here.size() > 1)
    made.probes.insert(made.probes.end(), here.begin(), here.end());
}

void add_probes(FrequencyComparison& made, std::span<const Result> results)
{
  const bool still =
      std::ranges::all_of(results, [](const Result& one) { return one.frequencies.empty(); });
  const std::vector<double> frequencies = still ? std::vector{0.0} : made.common;
  const std::size_t count =
      frequencies.empty() ? 0 : probed(results.front(), frequencies.front()).size();
  for (std::size_t p = 0; p < count; ++p)
    for (const double frequency : frequencies)
      add_probe(made, results, probed(results.front(), frequency)[p], frequency);
}

} // namespace

FrequencyComparison compared_over_frequency(std::span<const Result> results)
{
  FrequencyComparison made;
  made.common = common(results);
  for (const Result& one : results)
  {
    std::vector<double>& rest = made.left_out.emplace_back();
    for (const FrequencyResult& at : one.frequencies)
      if (std::ranges::none_of(made.common, [&](double f) { return same(f, at.frequency); }))
        rest.push_back(at.frequency);
  }
  add_impedances(made, results);
  add_probes(made, results);
  return made;
}

} // namespace post
