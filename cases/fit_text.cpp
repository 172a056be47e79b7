// The report of `fit`: the answer, how sure it is, what that comes from, what would tell more.
#include "cases/fit_report.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// Digits that the interval decides, 2 to 4.
int digits(const post::Interval& interval, double value)
{
  const double width = interval.upper - interval.lower;
  return std::isfinite(width) && width > 0.0
             ? std::clamp(static_cast<int>(std::ceil(std::log10(value / width))) + 2, 2, 5)
             : 3;
}

/// Rows: sample, value, interval, first order.
Sheet answer_text(const FitReport& report)
{
  Table table;
  table.rows.push_back({"sample", "best value",
                        fmt::format("{:.0f} % interval", 100.0 * report.options.coverage),
                        "first order"});
  table.left = {0};
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    if (one.impossible)
    {
      table.rows.push_back({name_of(report, i), "impossible", "-", "-"});
      continue;
    }
    const post::Fitted& found = one.unknown;
    const bool closed = found.value && found.first && is_closed(found.interval);
    const int shown = digits(found.interval, found.value.value_or(1.0));
    const auto half_width = [&]
    { return 0.5 * (found.first->interval.upper - found.first->interval.lower); };
    table.rows.push_back({name_of(report, i),
                          closed ? unknown_text(*found.value, report.asked.kind, shown) : "open",
                          interval_text(found.interval, report.asked.kind, shown),
                          closed ? "+- " + unknown_text(half_width(), report.asked.kind, 2) : "-"});
  }
  return heading(report.asked.question.key, "estimated, from all that is uncertain") + text(table);
}

Sheet loss_text(const FitReport& report)
{
  Table table;
  table.rows.push_back({"sample", "mu''", "interval", "loss angle tan"});
  bool whole = true;
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    if (!one.imaginary || !one.imaginary->value)
    {
      continue;
    }
    whole = whole && report.asked.groups[i].winding_loss_known;
    const int shown = digits(one.imaginary->interval, *one.imaginary->value);
    table.rows.push_back({name_of(report, i), post::number(*one.imaginary->value, shown),
                          interval_text(one.imaginary->interval, Kind::number, shown),
                          post::number(*one.imaginary->value / *one.unknown.value, 2)});
  }
  if (table.rows.size() == 1)
  {
    return {};
  }
  return heading("Loss: imaginary part of the permeability", "estimated, to first order") +
         text(table) +
         wrapped(whole ? "The winding's resistance was taken off, as read or else that of the wire "
                         "at dc and 20 degC. Its rise by skin and proximity effect beside the "
                         "core was not, so the material's own loss is lower than this."
                       : "The winding's own resistance is not known and still counted: the loss "
                         "is at most this. Read the bare coil too, or describe the wire.");
}

/// Budget of the first possible sample: what its interval comes from.
Sheet budget_text(const FitReport& report)
{
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    if (one.impossible || one.budget.empty())
    {
      continue;
    }
    std::vector<post::Contribution> rows = one.budget;
    std::ranges::stable_sort(rows, std::greater(), &post::Contribution::share);
    Table table;
    table.rows.push_back({"input", "share of variance", "moves it by (1 sigma)"});
    for (const post::Contribution& row : rows)
    {
      if (row.contribution == 0.0)
      {
        continue; // a resistance, say, tells nothing of this
      }
      table.rows.push_back({plain(row.input), post::percent(row.share),
                            is_closed(one.unknown.interval)
                                ? unknown_text(row.contribution, report.asked.kind, 2)
                                : post::fine_percent(row.contribution) + " of L"});
    }
    return heading("What the uncertainty comes from",
                   is_closed(one.unknown.interval) ? name_of(report, i)
                                                   : name_of(report, i) + ", of the inductance") +
           text(table);
  }
  return {};
}

Sheet impossible_text(const FitReport& report)
{
  Sheet out;
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    if (!report.results[i].impossible)
    {
      continue;
    }
    const post::Impossible& is = *report.results[i].impossible;
    const double off = std::abs(is.reached / is.limit - 1.0);
    out += heading("IMPOSSIBLE READING: " + name_of(report, i));
    out += wrapped(fmt::format("{} is {} {} the {} this geometry allows, {} (at {} {}).",
                               post::engineering(is.reached, "H", 4), post::percent(off),
                               is.below ? "below" : "above", is.below ? "least" : "most",
                               post::engineering(is.limit, "H", 4), report.asked.noun,
                               unknown_text(is.at, report.asked.kind)));
    out += wrapped("Likely mistakes:");
    for (const Slip& slip : report.slips[i])
    {
      out += wrapped("- " + slip.what + ".", 2, 4);
    }
  }
  return out;
}

Sheet ideas_text(const FitReport& report)
{
  if (report.ideas.empty())
  {
    return {};
  }
  Table table;
  table.rows.push_back({"sample", "would read", "would leave"});
  for (const post::SampleIdea& idea : report.ideas)
  {
    table.rows.push_back({idea.what, post::engineering(idea.inductance, "H", 3),
                          interval_text(idea.interval, Kind::number, 3)});
  }
  return heading("Samples that tell more or less", "bounded, but the ring: thin-ring formula") +
         text(table) +
         wrapped(fmt::format("For a material of permeability {} and a reading within {}, all "
                             "dimensions exact.",
                             post::number(report.assumed, 3), post::percent(report.tolerance)));
}

} // namespace

Sheet fit_text(const FitReport& report)
{
  const bool any = std::ranges::any_of(report.results,
                                       [](const post::FitResult& one) { return !one.impossible; });
  const post::FitOptions& o = report.options;
  return title(plain(report.asked.read.title)) + impossible_text(report) +
         (any ? answer_text(report) + loss_text(report) + budget_text(report) + ideas_text(report) +
                    meaning_text(report) +
                    wrapped(fmt::format(
                        "Interval: {} draws, seed {} [JCGM 101:2008]; first order [JCGM 100:2008]. "
                        "The field's own bracket, {} of the inductance, is among the inputs.",
                        o.draws, o.seed, post::fine_percent(report.results.front().bracket)))
              : Sheet()) +
         safety_text({&report.asked.read, 1});
}

} // namespace cases
