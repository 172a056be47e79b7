// Insertion loss of windings, pieces of wire and toroids over frequency.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"
#include "post/insertion.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

Sheet insertion_text(const post::Result& result)
{
  const std::vector<post::Insertion> all = post::insertions(result);
  if (all.empty())
  {
    return {};
  }
  const std::size_t parts = all.size() / result.frequencies.size();
  const std::vector<std::size_t> rows = shown(result.frequencies.size());
  Table table;
  table.rows.push_back({"in series", "", "frequency", "|Z|", "insertion loss"});
  table.left = {0, 1};
  for (std::size_t p = 0; p < parts; ++p)
  {
    for (const std::size_t i : rows)
    {
      const post::Insertion& one = all[i * parts + p];
      table.rows.push_back({plain(one.name), one.kind, post::engineering(one.frequency, "Hz", 4),
                            post::engineering(std::abs(one.impedance), "ohm", 3),
                            fmt::format("{:.2f} dB", one.loss + 0.0)});
    }
  }
  const bool wire = std::ranges::find(all, "wire", &post::Insertion::kind) != all.end();
  const std::string line = post::engineering(result.line, "ohm", 3);
  return heading("Put in series with a " + line + " line", "estimated: no capacitance is in it") +
         text(table) +
         wrapped(fmt::format(
             "Insertion loss: 20 log10 |1 + Z / {}|, source and load of {} each. "
             "Towards self-resonance, which ferrule does not know, a real part "
             "differs.{}{}",
             post::engineering(2.0 * result.line, "ohm", 3), line,
             wire ? " A wire counts with the flux inside conductor and coatings." : "",
             rows.size() < result.frequencies.size() ? " All frequencies are in insertion.csv."
                                                     : ""));
}

} // namespace cases
