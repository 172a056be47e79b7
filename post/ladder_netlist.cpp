// Ladders as text: subcircuits of R and L elements, whatever a winding is called.
#include "post/ladder.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace post
{

namespace
{

/// Letters, digits and underscores, a letter first; readers of netlists do not tell capitals apart,
/// so that two names must differ otherwise.
std::string circuit_name(const std::string& winding, std::set<std::string>& taken)
{
  std::string name;
  for (const char letter : winding.substr(0, 40))
  {
    const bool lower = letter >= 'a' && letter <= 'z', digit = letter >= '0' && letter <= '9';
    const bool upper = letter >= 'A' && letter <= 'Z';
    name += lower || digit ? letter : upper ? static_cast<char>(letter - 'A' + 'a') : '_';
  }
  if (name.empty() || name.front() < 'a')
    name = "winding_" + name;
  std::string free = name;
  for (int copy = 2; !taken.insert(free).second; ++copy)
    free = fmt::format("{}_{}", name, copy);
  return free;
}

/// One line of printable ASCII for a comment.
std::string printable(const std::string& words)
{
  std::string line;
  for (const char letter : words.substr(0, 60))
    line += letter >= ' ' && letter <= '~' ? letter : '?';
  return line;
}

std::string element(const char* sort, std::size_t number, std::size_t from, std::size_t to,
                    double value)
{
  return fmt::format("{}{} {} {} {:.9g}\n", sort, number, from, to, value);
}

std::string subcircuit(const Ladder& ladder, const std::string& name)
{
  std::string out =
      fmt::format("*\n* winding {}: {:.6g} Hz to {:.6g} Hz\n"
                  "* deviation of R at most {:.2g}, rms {:.2g}; of L at most {:.2g}, rms {:.2g}\n",
                  printable(ladder.winding), ladder.from, ladder.to, ladder.of_resistance.largest,
                  ladder.of_resistance.rms, ladder.of_inductance.largest, ladder.of_inductance.rms);
  if (ladder.inductance_rises)
    out += "* the inductance rises with frequency: no ladder of R and L follows that\n";
  // The last element ends at the second port, node 2; the others at nodes of their own, from 3.
  struct Step
  {
    double resistance, inductance;
    std::size_t number;
  };
  std::vector<Step> chain;
  if (ladder.resistance > 0.0)
    chain.push_back({ladder.resistance, 0.0, 0});
  // Without any element the ports are joined.
  if (ladder.inductance > 0.0 || (chain.empty() && ladder.cells.empty()))
    chain.push_back({0.0, std::max(ladder.inductance, 1e-15), 0});
  for (std::size_t k = 0; k < ladder.cells.size(); ++k)
    chain.push_back({ladder.cells[k].resistance, ladder.cells[k].inductance, k + 1});
  out += fmt::format(".subckt {} 1 2\n", name);
  std::size_t from = 1;
  for (std::size_t i = 0; i < chain.size(); ++i)
  {
    const std::size_t to = i + 1 == chain.size() ? 2 : i + 3;
    if (chain[i].resistance > 0.0)
      out += element("R", chain[i].number, from, to, chain[i].resistance);
    if (chain[i].inductance > 0.0)
      out += element("L", chain[i].number, from, to, chain[i].inductance);
    from = to;
  }
  return out + fmt::format(".ends {}\n", name);
}

} // namespace

std::string netlist(std::span<const Ladder> ladders)
{
  std::string out =
      "* R-L ladders fitted to impedances over frequency: estimated, passive, ohm and "
      "henry;\n* each winding on its own, the others open; nothing is said beyond the "
      "frequencies fitted\n";
  std::set<std::string> taken;
  for (const Ladder& ladder : ladders)
    out += subcircuit(ladder, circuit_name(ladder.winding, taken));
  return out;
}

} // namespace post
