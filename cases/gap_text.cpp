// Gaps of cores: what the field says of their fringing beside what published rules say.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/wording.hpp"
#include "post/engineering.hpp"

#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

Sheet one_gap(const post::GapResult& gap)
{
  Table table;
  table.rows.push_back({"fringing factor", "F", ""});
  table.left = {0, 2};
  table.rows.push_back({"from the field", post::number(gap.fringing, 4), ""});
  table.below.resize(2);
  for (const post::FringingRule& rule : gap.rules)
  {
    const double off = rule.value / gap.fringing - 1.0;
    table.rows.push_back({rule.name, post::number(rule.value, 4),
                          post::percent(std::abs(off)) + (off > 0.0 ? " above" : " below")});
    table.below.push_back((rule.holds ? "holds here: for " : "outside its range: for ") +
                          rule.range + "; " + rule.source);
  }
  return wrapped(fmt::format(
             "{} between the faces of {}, {} across, filled with {}{}:",
             post::millimetres(gap.length), plain(gap.between), post::millimetres(2.0 * gap.radius),
             plain(gap.filled),
             gap.filled == "air"
                 ? ""
                 : fmt::format(", as much as {} of air", post::engineering(gap.equivalent, "m")))) +
         text(table);
}

/// The rule nearest to a field's factor among those that hold.
const post::FringingRule* nearest(const post::GapResult& gap)
{
  const post::FringingRule* best = nullptr;
  for (const post::FringingRule& rule : gap.rules)
  {
    if (rule.holds &&
        (!best || std::abs(rule.value - gap.fringing) < std::abs(best->value - gap.fringing)))
    {
      best = &rule;
    }
  }
  return best;
}

} // namespace

Sheet gap_text(const post::Result& result)
{
  if (result.gaps.empty())
  {
    return {};
  }
  Sheet out = heading("Gap in the core", "estimated; weak fields");
  for (const post::GapResult& gap : result.gaps)
  {
    out += one_gap(gap);
  }
  return out + wrapped("F from the field: flux through the post where it is greatest over the "
                       "magnetic potential difference between the faces, against mu0 A / g; so "
                       "what enters beside the gap counts.");
}

Sheet compare_gap_text(std::span<const post::Result> results, std::span<const std::string> names)
{
  Table table;
  table.rows.push_back({"case", "gap", "filled with", "as air", "F", "nearest rule", ""});
  table.left = {0, 2, 5};
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    for (const post::GapResult& gap : results[i].gaps)
    {
      const post::FringingRule* rule = nearest(gap);
      table.rows.push_back({names[i], post::millimetres(gap.length), plain(gap.filled),
                            post::engineering(gap.equivalent, "m"), post::number(gap.fringing, 4),
                            rule ? rule->name : "none holds",
                            rule ? post::number(rule->value, 4) : ""});
    }
  }
  return table.rows.size() < 2
             ? Sheet()
             : heading("Gaps and their fringing", "estimated; weak fields") + text(table) +
                   wrapped("F: flux of the post over the potential difference across the gap, "
                           "against that of its section alone. As air: the air gap of the same "
                           "reluctance.");
}

} // namespace cases
