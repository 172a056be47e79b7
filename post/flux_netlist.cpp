// Linkage over current as a circuit: a capacitor of 1 F counts the volt-seconds, a source draws the
// current that belongs to them.
#include "post/bias.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <fmt/format.h>

namespace post
{

namespace
{

struct Node
{
  double linkage = 0.0;
  double current = 0.0;
};

/// From (0, 0) upwards, odd about it; both rise.
std::vector<Node> nodes(const BiasCurve& curve, std::size_t winding)
{
  std::vector<Node> list = {{0.0, 0.0}};
  for (const BiasPoint& at : curve.points)
  {
    const BiasWinding& one = at.windings[winding];
    list.push_back({std::abs(one.flux_linkage.value), std::abs(one.current)});
  }
  std::ranges::sort(list, {}, &Node::current);
  std::vector<Node> rising;
  for (const Node& node : list)
    if (rising.empty() ||
        (node.current > rising.back().current && node.linkage > rising.back().linkage))
      rising.push_back(node);
  return rising;
}

/// A word every netlist takes: letters, digits and _, a letter first.
std::string word(const std::string& name, std::size_t number)
{
  std::string made;
  for (const char letter : name)
    made += std::isalnum(static_cast<unsigned char>(letter)) ? letter : '_';
  if (made.empty() || !std::isalpha(static_cast<unsigned char>(made.front())))
    made = fmt::format("winding{}_{}", number + 1, made);
  return made;
}

/// i(x) along straight lines, odd: m_last x + sum (m_k - m_k+1) / 2 (|x + x_k| - |x - x_k|).
std::string current_of_flux(const std::vector<Node>& nodes)
{
  std::vector<double> slope;
  for (std::size_t k = 1; k < nodes.size(); ++k)
    slope.push_back((nodes[k].current - nodes[k - 1].current) /
                    (nodes[k].linkage - nodes[k - 1].linkage));
  std::string out = fmt::format("{:.9g}*V(flux)", slope.back());
  for (std::size_t k = 0; k + 1 < slope.size(); ++k)
    out += fmt::format("\n+ {:+.9g}*(abs(V(flux)+{:.9g})-abs(V(flux)-{:.9g}))",
                       0.5 * (slope[k] - slope[k + 1]), nodes[k + 1].linkage, nodes[k + 1].linkage);
  return out;
}

} // namespace

std::string flux_netlist(const BiasCurve& curve)
{
  std::string out;
  for (std::size_t w = 0; w < curve.points.front().windings.size(); ++w)
  {
    const std::vector<Node> list = nodes(curve, w);
    if (list.size() < 3)
      continue;
    const std::string name = word(curve.points.front().windings[w].name, w);
    out += fmt::format("* {} points to {:.6g} A; no hysteresis, no loss, no wire resistance\n"
                       ".subckt {} a b\n"
                       "G1 0 flux a b 1\n"
                       "C1 flux 0 1\n"
                       "R1 flux 0 1e12\n"
                       "B1 a b I={}\n"
                       ".ends {}\n",
                       list.size(), list.back().current, name, current_of_flux(list), name);
  }
  return out.empty() ? out
                     : "* Flux linkage over current, each winding with the others at their own "
                       "currents.\n" +
                           out;
}

} // namespace post
