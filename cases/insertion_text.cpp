// Insertion loss of windings, pieces of wire and toroids over frequency.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/wording.hpp"
#include "post/engineering.hpp"
#include "post/insertion.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr double worth_telling = 0.01; // [dB]

std::string loss_words(double loss)
{
  return fmt::format("{:.{}f} dB", loss + 0.0, std::abs(loss) < 0.1 ? 3 : 2);
}

/// Whether a part takes anything worth a row at any frequency; `parts` is how many there are.
bool takes(const std::vector<post::Insertion>& all, std::size_t part, std::size_t parts)
{
  for (std::size_t i = part; i < all.size(); i += parts)
  {
    if (std::abs(all[i].loss) >= worth_telling)
    {
      return true;
    }
  }
  return false;
}

} // namespace

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
  std::vector<std::string> nothing;
  for (std::size_t p = 0; p < parts; ++p)
  {
    if (!takes(all, p, parts))
    {
      nothing.push_back(plain(all[p].name));
      continue;
    }
    for (const std::size_t i : rows)
    {
      const post::Insertion& one = all[i * parts + p];
      table.rows.push_back({plain(one.name), one.kind, post::engineering(one.frequency, "Hz", 4),
                            post::engineering(std::abs(one.impedance), "ohm", 3),
                            loss_words(one.loss)});
    }
  }
  const bool wire = std::ranges::find(all, "wire", &post::Insertion::kind) != all.end();
  const std::string line = post::engineering(result.line, "ohm", 3);
  const Sheet head =
      heading("Put in series with a " + line + " line", "estimated: no capacitance is in it");
  const Sheet small =
      nothing.empty()
          ? Sheet{}
          : wrapped(fmt::format("Less than 0.01 dB at every frequency: {}.", in_words(nothing)), 2,
                    4);
  if (table.rows.size() == 1)
  {
    return head + small;
  }
  return head + text(table) + small +
         wrapped(fmt::format(
             "Insertion loss: 20 log10 |1 + Z / {}|, source and load of {} each. Towards "
             "self-resonance, which ferrule does not know, a real part differs.{}{}",
             post::engineering(2.0 * result.line, "ohm", 3), line,
             wire ? " A wire counts with the flux inside conductor and coatings." : "",
             rows.size() < result.frequencies.size() ? " All frequencies are in insertion.csv."
                                                     : ""));
}

} // namespace cases
