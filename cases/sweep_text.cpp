// The report of `sweep`.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/sweep_report.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr std::size_t shown_whole = 40, kept_rows = 12;

/// "parts.rod.length from 20 to 200 mm, 10 values"
Sheet varied_text(const std::vector<Varied>& varied)
{
  Sheet out;
  for (std::size_t k = 0; k < varied.size(); ++k)
  {
    const Varied& one = varied[k];
    const std::string span =
        fmt::format("{} to {}{}", value_cell(one, 0), value_cell(one, one.values.size() - 1),
                    one.unit.empty() ? "" : " " + one.unit);
    out += wrapped(fmt::format("{}{}, {} value{}: {}{}",
                               varied.size() > 1 ? fmt::format("key {}: ", k + 1) : "",
                               plain(keys_text(one)), one.values.size(),
                               one.values.size() == 1 ? "" : "s", span,
                               one.logarithmic ? ", logarithmic" : ""),
                   2, 4);
  }
  return out;
}

/// Reasons in the order they come up, each with a number.
std::size_t reason_number(std::vector<std::string>& reasons, const std::string& why)
{
  const auto found = std::ranges::find(reasons, why);
  const auto at = static_cast<std::size_t>(found - reasons.begin());
  if (found == reasons.end())
  {
    reasons.push_back(why);
  }
  return at + 1;
}

void add_row(Table& table, const SweepReport& report, std::size_t i, std::size_t w,
             std::vector<std::string>& reasons)
{
  const post::SweptPoint& point = report.swept.points[i];
  std::vector<std::string> row = key_cells(report, i);
  if (!point.fault.empty())
  {
    row.push_back(fmt::format("no ({})", reason_number(reasons, point.fault)));
    table.rows.push_back(std::move(row));
    return;
  }
  const post::WindingResult& winding = point.windings[w];
  const post::Ends ends = post::ends(winding.inductance, "H");
  const std::vector<std::string> numbers = {post::engineering(winding.inductance, "H"), ends.lower,
                                            ends.upper,
                                            ends.unit + (point.accuracy_reached ? "" : " !"),
                                            post::number(winding.apparent_permeability)};
  row.insert(row.end(), numbers.begin(), numbers.end());
  table.rows.push_back(std::move(row));
}

Sheet table_text(const SweepReport& report, std::size_t w, std::vector<std::string>& reasons)
{
  Table table;
  table.rows.push_back(key_headings(report.varied));
  const std::size_t keys = report.varied.size(), points = report.swept.points.size();
  for (const char* name : {"inductance", "lower", "upper", "", "mu_app"})
  {
    table.rows.back().emplace_back(name);
  }
  table.left = {keys + 3};
  for (const std::size_t i : rows_shown(points))
  {
    if (i == skipped)
    {
      table.rows.push_back(std::vector<std::string>(keys + 3, "..."));
      continue;
    }
    add_row(table, report, i, w, reasons);
  }
  return text(table);
}

Sheet where_the_rest_is(const SweepReport& report)
{
  const std::size_t points = report.swept.points.size();
  if (points <= shown_whole)
  {
    return {};
  }
  const auto csv = std::ranges::find_if(report.files, [](const std::string& file)
                                        { return file.ends_with("sweep.csv"); });
  return wrapped(fmt::format(
      "{} of {} points shown; {}.", 2 * kept_rows, points,
      csv == report.files.end() ? "--json prints all, and without --files none sweep.csv holds them"
                                : "all are in " + plain(*csv)));
}

Sheet method_text(const SweepReport& report)
{
  const std::vector<post::KeptModel>& models = report.swept.models;
  if (models.empty())
  {
    return wrapped(first_built(report) && first_built(report)->windings.empty()
                       ? "Every point is solved in full."
                       : "Every point is solved in full; each bracket is guaranteed.");
  }
  double met = 0.0, disc = 0.0;
  std::size_t snapshots = 0, there = 0;
  for (const post::KeptModel& kept : models)
  {
    met = std::max(met, kept.model.accuracy_met);
    snapshots += static_cast<std::size_t>(kept.model.snapshots);
    if (kept.impedance)
    {
      disc = std::max(disc, kept.impedance->model.accuracy_met);
      there += kept.impedance->model.span.states.size();
    }
  }
  std::string text = fmt::format(
      "Read from {}, made of {} solutions; each bracket is guaranteed all the same, half-width at "
      "most {} of the value over the whole range.",
      models.size() == 1 ? "one reduced model" : fmt::format("{} reduced models", models.size()),
      snapshots, post::fine_percent(met));
  if (there > 0)
  {
    text += fmt::format(" Impedances are read from {} solutions at the frequency, each within its "
                        "own guaranteed disc, of at most {} of the impedance at these points.",
                        there, post::fine_percent(disc));
  }
  return wrapped(text);
}

/// At a frequency or a bias, the same windings at rest are left to the files.
bool windings_told(const SweepReport& report)
{
  const std::vector<post::SweptQuantity> more = quantities_of(report.swept.points);
  return std::ranges::none_of(more, [](const post::SweptQuantity& one)
                              { return one.word == "resistance" || one.word == "flux_linkage"; });
}

/// What is not in the table though the case has it.
Sheet left_out_text(const SweepReport& report)
{
  const post::SweptPoint* first = first_built(report);
  Sheet out;
  if (report.left_out.frequencies)
  {
    out += wrapped("A point has one frequency: those of the case are left out, the field is at "
                   "rest. --vary drive.frequency=... runs through them.");
  }
  if (report.left_out.biases)
  {
    out += wrapped("A point has one bias: those of the case are left out. --vary drive.bias=... "
                   "runs through them.");
  }
  if (first && !first->windings.empty() && !windings_told(report))
  {
    out += wrapped("Inductances at rest are in sweep.csv and with --json.");
  }
  if (first && first->windings.size() > 1)
  {
    out += wrapped(first->mutual.empty()
                       ? "Mutual inductances are not in the reduced model; --full tells them."
                       : "Mutual inductances are in sweep.csv and with --json.");
  }
  return out;
}

Sheet fault_text(const SweepReport& report, const std::vector<std::string>& reasons)
{
  constexpr std::size_t most = 5;
  const auto missing = static_cast<std::size_t>(std::ranges::count_if(
      report.swept.points, [](const post::SweptPoint& point) { return !point.fault.empty(); }));
  if (missing == 0)
  {
    return {};
  }
  Sheet out =
      heading(fmt::format("Not built: {} of {} points", missing, report.swept.points.size()));
  for (std::size_t i = 0; i < std::min(most, reasons.size()); ++i)
  {
    out += wrapped(fmt::format("({}) {}", i + 1, plain(reasons[i])), 2, 6);
  }
  return out + (reasons.size() > most
                    ? wrapped(fmt::format("and {} more reasons", reasons.size() - most))
                    : Sheet());
}

Sheet accuracy_note(const SweepReport& report)
{
  const bool all = std::ranges::all_of(report.swept.points, [](const post::SweptPoint& point)
                                       { return !point.fault.empty() || point.accuracy_reached; });
  return all ? Sheet()
             : wrapped(fmt::format("! The bracket holds, but is wider than the {} asked for.",
                                   post::fine_percent(report.accuracy_asked)));
}

} // namespace

std::vector<std::size_t> rows_shown(std::size_t points)
{
  std::vector<std::size_t> list;
  for (std::size_t i = 0; i < points; ++i)
  {
    if (points > shown_whole && i == kept_rows)
    {
      list.push_back(skipped);
      i = points - kept_rows;
    }
    list.push_back(i);
  }
  return list;
}

const post::SweptPoint* first_built(const SweepReport& report)
{
  const auto found = std::ranges::find_if(report.swept.points, [](const post::SweptPoint& point)
                                          { return point.fault.empty(); });
  return found == report.swept.points.end() ? nullptr : &*found;
}

Sheet sweep_text(const SweepReport& report)
{
  Sheet out = title(plain(report.title)) +
              heading(fmt::format("Sweep of {} points", report.swept.points.size())) +
              varied_text(report.varied);
  std::vector<std::string> reasons;
  const post::SweptPoint* first = first_built(report);
  for (std::size_t w = 0; first && windings_told(report) && w < first->windings.size(); ++w)
  {
    out += heading("Inductance of " + plain(first->windings[w].name),
                   "bounded: the true value lies between lower and upper") +
           table_text(report, w, reasons);
  }
  out += quantity_tables(report);
  for (const post::SweptPoint& point : report.swept.points)
  {
    if (!point.fault.empty())
    {
      reason_number(reasons, point.fault);
    }
  }
  return out + where_the_rest_is(report) + method_text(report) + accuracy_note(report) +
         left_out_text(report) + fault_text(report, reasons);
}

} // namespace cases
