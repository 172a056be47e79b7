// Sheets as sections of a page; answers, energy and field in their own blocks.
#include "cases/report_page.hpp"
#include "cases/result_text.hpp"
#include "mesh/layout.hpp"
#include "post/engineering.hpp"
#include "post/files.hpp"
#include "post/sample.hpp"
#include "solver/heat.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr int smooth_cuts = 5;

/// Blocks before any heading have no place on the page.
struct Filing
{
  std::vector<post::PageSection>& list;

  void operator()(const Title&) const {}
  void operator()(const Headline& heading) const
  {
    list.push_back({heading.what, heading.taken_as, {}});
  }
  void operator()(const Paragraph& paragraph) const
  {
    if (!paragraph.apart && !list.empty())
    {
      list.back().blocks.emplace_back(post::PageText{paragraph.words});
    }
  }
  void operator()(const Table& table) const
  {
    if (list.empty())
    {
      return;
    }
    post::PageTable made{table.rows, table.left, table.below, true};
    made.heads = table.below.empty(); // formulas have no headings
    list.back().blocks.emplace_back(std::move(made));
  }
};

std::string bounds(const post::Bounded& bounded, const char* unit)
{
  const post::Ends ends = post::ends(bounded, unit);
  return fmt::format("guaranteed to lie between {} and {} {}", ends.lower, ends.upper, ends.unit);
}

} // namespace

std::vector<post::PageSection> sections(const Sheet& sheet)
{
  std::vector<post::PageSection> list;
  for (const SheetBlock& block : sheet.blocks)
  {
    std::visit(Filing{list}, block);
  }
  return list;
}

std::vector<post::PageAnswer> answers(const post::Result& result, const std::string& label)
{
  std::vector<post::PageAnswer> list;
  const auto named = [&](const std::string& name)
  { return (label.empty() ? "" : label + ": ") + plain(name); };
  for (const post::WindingResult& winding : result.windings)
  {
    list.push_back({"Inductance of " + named(winding.name),
                    post::engineering(winding.inductance, "H"), bounds(winding.inductance, "H")});
  }
  for (const post::WireResult& wire : result.wires)
  {
    list.push_back({"Inductance of " + named(wire.name),
                    post::engineering(wire.inductance, "H", 5) + "/m", "exact, endless wire"});
  }
  for (const post::ToroidResult& toroid : result.toroids)
  {
    list.push_back({"Inductance of " + named(toroid.name),
                    post::engineering(toroid.inductance, "H", 5), "exact for even, close winding"});
  }
  return list;
}

std::vector<post::PageAnswer> answers(const FitReport& report)
{
  std::vector<post::PageAnswer> list;
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    const std::string name = report.asked.question.key + ": " + name_of(report, i);
    if (one.impossible)
    {
      list.push_back({name, "impossible reading", "see below"});
      continue;
    }
    list.push_back({name,
                    one.unknown.value && is_closed(one.unknown.interval)
                        ? unknown_text(*one.unknown.value, report.asked.kind, 3)
                        : "open",
                    fmt::format("estimated, {:.0f} % interval {}", 100.0 * report.options.coverage,
                                interval_text(one.unknown.interval, report.asked.kind, 3))});
  }
  return list;
}

post::PageSection field_section(const Solved& solved, const std::string& heading)
{
  const post::Sample sample = post::sampled(solved.solution, smooth_cuts);
  const std::string limit = limit_sentence(solved.result);
  return {heading,
          "estimated",
          {post::PagePicture{
              post::field_svg(sample, mesh::layout(solved.read.problem.scene), solved.result),
              "Lines of flux and, in colour, flux density around " + plain(solved.read.title) +
                  ". " + limit}}};
}

post::PageSection warm_section(const Solved& solved, const std::string& heading)
{
  const solver::Problem& problem = solved.read.problem;
  const std::size_t point = post::warmest(solved.result.heat);
  return {heading,
          "estimated",
          {post::PagePicture{
              post::warm_svg(
                  post::sampled(post::heat_field(problem, solved.result, point), smooth_cuts),
                  mesh::layout(post::with_envelopes(problem.scene)), solved.result, point),
              "Rises over the air around, in colour, of the bodies of " + plain(solved.read.title) +
                  ". The tables tell them in numbers."}}};
}

post::PageSection energy_section(const Solved& solved)
{
  std::vector<post::PageSection> all = sections(region_text(solved.read.problem, solved.result));
  post::PageSection made = std::move(all.front());
  if (!solved.result.windings.empty())
  {
    post::PageBars bars;
    for (const post::RegionResult& region : solved.result.regions)
    {
      bars.bars.push_back(
          {plain(region.name), region.energy_share, post::percent(region.energy_share)});
    }
    made.blocks.insert(made.blocks.begin(), std::move(bars));
  }
  return made;
}

} // namespace cases
