// What a chart, a table or a search may show of a point: its words, and the numbers they name.
#include "cases/sweep_report.hpp"

#include <algorithm>
#include <array>

namespace cases
{

namespace
{

const std::array<ShownQuantity, 15>& known()
{
  static const std::array<ShownQuantity, 15> list = {
      {{"inductance", "inductance", "inductance", "H", true},
       {"apparent_permeability", "apparent permeability", "mu_app", "", true},
       {"inductance_per_turn_squared", "inductance per turn squared", "L/N2", "H", true},
       {"inductance_at_frequency", "inductance at its frequency", "inductance", "H", true},
       {"resistance", "resistance", "resistance", "ohm", true},
       {"quality", "quality factor", "Q", "", true},
       {"flux_linkage", "flux linkage", "linkage", "Wb"},
       {"secant_inductance", "secant inductance", "secant L", "H", true},
       {"incremental_inductance", "incremental inductance", "incr. L", "H"},
       {"apparent_permeability_middle", "apparent permeability in the middle", "mu mid", ""},
       {"apparent_permeability_volume", "apparent permeability over the volume", "mu vol", "",
        true},
       {"ballistic_factor", "ballistic factor", "N ball.", ""},
       {"magnetometric_factor", "magnetometric factor", "N magn.", "", true},
       {"inductance_per_metre", "inductance per metre", "inductance", "H/m"},
       {"resistance_per_metre", "resistance per metre", "resistance", "ohm/m"}}};
  return list;
}

std::optional<post::SweptQuantity> at_rest(const post::WindingResult& winding,
                                           const std::string& show)
{
  const post::Bounded &L = winding.inductance, &air = winding.air_inductance;
  const double n2 = winding.turns * winding.turns;
  const auto made = [&](const char* unit, const post::Bounded& value) {
    return post::SweptQuantity{show, winding.name, unit, value, post::Standing::bounded};
  };
  if (show == "inductance")
  {
    return made("H", L);
  }
  if (show == "apparent_permeability")
  {
    return made("", {winding.apparent_permeability, L.lower / air.upper, L.upper / air.lower});
  }
  if (show == "inductance_per_turn_squared")
  {
    return made("H", {winding.inductance_per_turn_squared, L.lower / n2, L.upper / n2});
  }
  return std::nullopt;
}

} // namespace

std::span<const std::string> shown_words()
{
  static const std::vector<std::string> words = []
  {
    std::vector<std::string> list;
    for (const ShownQuantity& one : known())
    {
      list.push_back(one.word);
    }
    return list;
  }();
  return words;
}

std::vector<std::string> sought_words()
{
  std::vector<std::string> list;
  for (const ShownQuantity& one : known())
  {
    if (one.sought)
    {
      list.push_back(one.word);
    }
  }
  return list;
}

ShownQuantity quantity_of(const std::string& show)
{
  const auto found = std::ranges::find(known(), show, &ShownQuantity::word);
  return found == known().end() ? ShownQuantity{show, "", "", ""} : *found;
}

std::optional<post::SweptQuantity> shown(const post::SweptPoint& point, const std::string& of,
                                         const std::string& show)
{
  const auto winding = std::ranges::find(point.windings, of, &post::WindingResult::name);
  if (winding != point.windings.end())
  {
    if (auto found = at_rest(*winding, show))
    {
      return found;
    }
  }
  const auto found = std::ranges::find_if(point.quantities, [&](const post::SweptQuantity& one)
                                          { return one.word == show && one.of == of; });
  return found == point.quantities.end() ? std::nullopt : std::optional(*found);
}

std::vector<std::string> shown_of(const std::vector<post::SweptPoint>& points,
                                  const std::string& show)
{
  std::vector<std::string> names;
  const auto add = [&](const std::string& name)
  {
    if (std::ranges::find(names, name) == names.end())
    {
      names.push_back(name);
    }
  };
  for (const post::SweptPoint& point : points)
  {
    for (const post::WindingResult& winding : point.windings)
    {
      if (at_rest(winding, show))
      {
        add(winding.name);
      }
    }
    for (const post::SweptQuantity& one : point.quantities)
    {
      if (one.word == show)
      {
        add(one.of);
      }
    }
  }
  return names;
}

std::vector<post::SweptQuantity> quantities_of(const std::vector<post::SweptPoint>& points)
{
  std::vector<post::SweptQuantity> list;
  for (const post::SweptPoint& point : points)
  {
    for (const post::SweptQuantity& one : point.quantities)
    {
      const auto known_already =
          std::ranges::find_if(list, [&](const post::SweptQuantity& other)
                               { return other.word == one.word && other.of == one.of; });
      if (known_already == list.end())
      {
        list.push_back(one);
      }
      else if (one.standing == post::Standing::bounded)
      {
        known_already->standing = one.standing; // the quality of a point without loss has no bounds
      }
    }
  }
  return list;
}

} // namespace cases
