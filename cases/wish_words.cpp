// "--wish coil.inductance=up" and "--keep mass<20g" taken apart.
#include "cases/wish.hpp"

#include "cases/request.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"
#include "post/quantities.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace cases
{

namespace
{

struct Word
{
  const char* name;
  Aim aim;
  Kind kind;
  const char* unit;
  bool of_winding;
};

constexpr std::array<Word, 5> words = {
    {{"inductance", Aim::inductance, Kind::inductance, "H", true},
     {"volume", Aim::volume, Kind::volume, "m3", false},
     {"mass", Aim::mass, Kind::mass, "kg", false},
     {"wire_length", Aim::wire_length, Kind::length, "m", true},
     {"dc_resistance", Aim::dc_resistance, Kind::resistance, "ohm", true}}};

std::vector<std::string> names()
{
  std::vector<std::string> list;
  for (const Word& one : words)
  {
    list.emplace_back(one.name);
  }
  return list;
}

const Word& word(Aim aim)
{
  return *std::ranges::find(words, aim, &Word::aim);
}

std::size_t winding_of(const std::string& option, const std::string& name, const std::string& what,
                       const solver::Problem& problem)
{
  const std::vector<mesh::Winding>& windings = problem.scene.windings;
  const auto found = std::ranges::find(windings, name, &mesh::Winding::name);
  if (found == windings.end() && !(name.empty() && windings.size() == 1))
  {
    std::vector<std::string> all;
    std::ranges::transform(windings, std::back_inserter(all), &mesh::Winding::name);
    usage_fault(
        fmt::format("{} does not say of which winding", option),
        fmt::format("write e.g. {}.{}; the windings are {}", all.front(), what, in_words(all)));
  }
  return name.empty() ? 0 : static_cast<std::size_t>(found - windings.begin());
}

/// Materials of bodies that have no density.
std::vector<std::string> without_density(const solver::Problem& problem)
{
  std::vector<std::string> list;
  for (const mesh::Region& region : mesh::layout(problem.scene).regions)
  {
    if (region.material != "air" && !(solver::material(problem, region.material).density > 0.0) &&
        std::ranges::find(list, region.material) == list.end())
    {
      list.push_back(region.material);
    }
  }
  return list;
}

Measured measured(const std::string& option, const std::string& typed,
                  const solver::Problem& problem)
{
  const std::size_t dot = typed.rfind('.');
  const std::string name = dot == std::string::npos ? typed : typed.substr(dot + 1),
                    winding = dot == std::string::npos ? "" : typed.substr(0, dot);
  const auto found = std::ranges::find(words, name, &Word::name);
  if (found == words.end() || (!found->of_winding && !winding.empty()))
  {
    usage_fault(fmt::format("{} speaks of {}", option, in_quotes(typed)),
                "it may speak of " + in_words(names(), "or"));
  }
  Measured made{found->aim, typed, 0};
  if (found->of_winding)
  {
    made.winding = winding_of(option, winding, name, problem);
  }
  const bool copper = found->aim == Aim::wire_length || found->aim == Aim::dc_resistance;
  if (copper && !post::wire(problem, problem.scene.windings[made.winding]))
  {
    usage_fault(fmt::format("{} needs a winding drawn turn by turn", option),
                "give its wire and layers instead of outer_diameter and length");
  }
  const std::vector<std::string> unknown =
      found->aim == Aim::mass ? without_density(problem) : std::vector<std::string>{};
  if (!unknown.empty())
  {
    usage_fault(fmt::format("{} needs the density of {}", option, in_words(unknown)),
                fmt::format("e.g. --set \"materials.{}.density=4.8 g/cm3\"", unknown.front()));
  }
  return made;
}

} // namespace

Wish read_wish(const std::string& typed, const solver::Problem& problem)
{
  const std::string option = "--wish " + typed;
  const std::size_t equals = typed.find('=');
  const std::string way = equals == std::string::npos ? "" : typed.substr(equals + 1);
  if (way != "up" && way != "down")
  {
    usage_fault(fmt::format("--wish is {}", in_quotes(typed)),
                "write e.g. --wish inductance=up or --wish mass=down");
  }
  return {measured(option, typed.substr(0, equals), problem), way == "up"};
}

Keep read_keep(const std::string& typed, const solver::Problem& problem)
{
  const std::string option = "--keep " + typed;
  const std::size_t sign = typed.find_first_of("<>");
  if (sign == std::string::npos || typed.find_first_of("<>=", sign + 1) != std::string::npos)
  {
    usage_fault(fmt::format("--keep is {}", in_quotes(typed)),
                "write e.g. --keep \"mass<20g\" or --keep \"inductance>1mH\"");
  }
  Keep made{measured(option, typed.substr(0, sign), problem), typed[sign] == '<', 0.0};
  const auto read = quantity(typed.substr(sign + 1), word(made.measured.aim).kind);
  if (const Misread* misread = std::get_if<Misread>(&read))
  {
    throw CaseError({{{option}, misread->what, misread->cure}});
  }
  made.limit = std::get<double>(read);
  if (!(made.limit > 0.0))
  {
    throw CaseError({{{option}, "the limit must be above zero", "e.g. \"mass<20g\""}});
  }
  return made;
}

std::string unit_of(const Measured& measured)
{
  return word(measured.aim).unit;
}

post::Bounded value_of(const Measured& measured, const Design& design)
{
  const post::WindingResult& winding = design.windings[measured.winding];
  if (measured.aim == Aim::inductance)
  {
    return winding.inductance;
  }
  const double value = measured.aim == Aim::volume        ? design.volume
                       : measured.aim == Aim::mass        ? design.mass
                       : measured.aim == Aim::wire_length ? winding.wire_length.value_or(0.0)
                                                          : winding.dc_resistance.value_or(0.0);
  return {value, value, value};
}

} // namespace cases
