// The tables of `mix`: each rule's value, the bounds, where each rule comes from.
#include "cases/mix.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using Complex = std::complex<double>;
using post::Mixture;
using post::MixtureByRule;
using post::MixtureSought;

/// Where a value without loss lies against the isotropic bounds.
std::string against(const MixtureByRule& one, const Mixture& mixture)
{
  if (!mixture.bounds)
  {
    return "";
  }
  const solver::UnmixedRange& range = mixture.bounds->hashin_shtrikman;
  const double value = one.found.value->real(), slack = 1e-9 * value; // round-off
  const bool at_end =
      std::abs(value - range.lower) <= slack || std::abs(value - range.upper) <= slack;
  const char* const end = value - range.lower <= slack ? "lower" : "upper";
  return at_end                ? fmt::format("on the {} bound", end)
         : value < range.lower ? "below Hashin-Shtrikman's"
         : value > range.upper ? "above Hashin-Shtrikman's"
                               : "inside the bounds";
}

/// Why a rule read backwards has nothing to give.
std::string nothing(const MixtureByRule& one, const Mixture& mixture)
{
  const double least = one.found.least, most = one.found.most;
  const double asked = mixture.question.effective->real();
  if (mixture.sought == MixtureSought::packing)
  {
    return least == most ? "none: such particles are like air at every packing"
                         : fmt::format("none: any packing gives {} to {}", post::number(least),
                                       post::number(most));
  }
  if (!mixture.lossy && asked >= most)
  {
    return fmt::format("none: it stays below {}", post::number(most));
  }
  if (!mixture.lossy && asked <= least)
  {
    return fmt::format("none: it stays above {}", post::number(least));
  }
  return mixture.lossy ? "none that only loses power" : "none: beyond all numbers";
}

std::vector<std::string> row(const MixtureByRule& one, const Mixture& mixture)
{
  const std::string name(one.rule.name);
  if (!one.found.value)
  {
    return {name, "-", "-", nothing(one, mixture)};
  }
  const Complex value = *one.found.value;
  if (mixture.lossy)
  {
    return {name, post::number(value.real(), 4), post::number(-value.imag(), 4),
            post::number(-value.imag() / value.real(), 3)};
  }
  const std::string remark = against(one, mixture);
  return mixture.sought == MixtureSought::effective
             ? std::vector{name, post::number(value.real(), 4), remark}
             : std::vector{name, post::number(value.real(), 4),
                           one.sensitivity ? post::number(std::abs(*one.sensitivity), 2) + " %"
                                           : "-",
                           remark};
}

/// Both ends, an open one in words.
std::string ends(const solver::UnmixedRange& range)
{
  const std::string lower = post::number(range.lower);
  return std::isfinite(range.upper) ? fmt::format("{} to {}", lower, post::number(range.upper))
                                    : fmt::format("{} or more, without limit", lower);
}

} // namespace

std::string mix_rule_text(const Mixture& mixture)
{
  Table table;
  if (mixture.lossy)
  {
    table.rows.push_back({"rule", "mu'", "mu''", "tan delta"});
  }
  else if (mixture.sought != MixtureSought::effective)
  {
    table.rows.push_back({"rule", mixture.sought == MixtureSought::packing ? "packing" : "mu",
                          "per 1 %", "among isotropic arrangements"});
  }
  table.left = mixture.lossy                                ? std::vector<std::size_t>{0}
               : mixture.sought == MixtureSought::effective ? std::vector<std::size_t>{0, 2}
                                                            : std::vector<std::size_t>{0, 3};
  for (const MixtureByRule& one : mixture.rules)
  {
    table.rows.push_back(row(one, mixture));
  }
  const char* const what = mixture.sought == MixtureSought::effective ? "Effective permeability"
                           : mixture.sought == MixtureSought::packing ? "Packing"
                                                                      : "Particle permeability";
  const bool sensitive =
      std::any_of(mixture.rules.begin(), mixture.rules.end(),
                  [](const MixtureByRule& one) { return one.sensitivity.has_value(); });
  return heading(fmt::format("{} by rule", what), "estimated") + text(table) +
         (sensitive ? wrapped("Per 1 %: what an error of 1 % in the powder's permeability makes of "
                              "the value found.")
                    : Sheet());
}

std::string mix_bounds_text(const Mixture& mixture)
{
  Table table;
  table.left = {0, 1};
  if (mixture.corners)
  {
    const auto corners = [](const Complex(&pair)[2])
    {
      return fmt::format("{:.4g} - j {:.3g} and {:.4g} - j {:.3g}", pair[0].real(), -pair[0].imag(),
                         pair[1].real(), -pair[1].imag());
    };
    table.rows = {{"isotropic (Hashin-Shtrikman)", corners(mixture.corners->hashin_shtrikman)},
                  {"any arrangement (Wiener)", corners(mixture.corners->wiener)}};
    return heading("Corners of the bounds") + text(table) +
           wrapped("With loss the bounds are no intervals: every mixture lies in the lens between "
                   "two arcs of circles through Wiener's two values, one of which goes on through "
                   "1, the other through the particle's mu.");
  }
  if (!mixture.bounds)
  {
    return "";
  }
  table.rows = {
      {"isotropic arrangements (Hashin-Shtrikman)", ends(mixture.bounds->hashin_shtrikman)},
      {"any arrangement (Wiener)", ends(mixture.bounds->wiener)}};
  return heading("Bounds", "bounded, for the permeabilities given") + text(table);
}

std::string mix_sources_text(const Mixture& mixture)
{
  std::string out = heading("Where each rule comes from, and where it holds");
  for (const MixtureByRule& one : mixture.rules)
  {
    out += wrapped(fmt::format("{}: {}. Bounds: {}. Source: {}.", one.rule.name, one.rule.range,
                               one.rule.bounds, one.rule.source),
                   2, 4);
  }
  return out;
}

} // namespace cases
