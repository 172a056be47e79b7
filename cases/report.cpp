// `ferrule report CASE ...`: one page to send, in one HTML file.
#include "cases/report.hpp"
#include "cases/bias_files.hpp"
#include "cases/compare_sections.hpp"
#include "cases/frequency_files.hpp"
#include "cases/output.hpp"
#include "cases/progress.hpp"
#include "cases/ranks.hpp"
#include "cases/report_page.hpp"
#include "cases/result_text.hpp"
#include "cases/sweep_run.hpp"
#include "post/comparison.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"
#include "post/version.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace cases
{

namespace
{

void add(post::Page& page, std::vector<post::PageSection> more)
{
  for (post::PageSection& section : more)
  {
    if (!section.blocks.empty())
    {
      page.sections.push_back(std::move(section));
    }
  }
}

void add(post::Page& page, const Sheet& sheet)
{
  add(page, sections(sheet));
}

void add(post::Page& page, post::PageSection section)
{
  std::vector<post::PageSection> one;
  one.push_back(std::move(section));
  add(page, std::move(one));
}

/// A chart below the section that its numbers stand in.
void add_chart(post::Page& page, const post::Chart& chart)
{
  page.sections.back().blocks.emplace_back(
      post::PagePicture{post::chart_svg(chart), "Chart: " + chart.title + ", " + chart.subtitle +
                                                    ". Its numbers are in the table above."});
}

/// The points of a case's own [sweep]; a journal of an earlier run is gone on with.
SweepReport swept(const std::filesystem::path& file, const Options& options, Progress& progress)
{
  const SweepPlan plan = sweep_plan(file, {}, options);
  progress.step(fmt::format("solving {} points", plan.points));
  Team team(launched_ranks());
  return sweep_report(plan,
                      records(plan, Share{}, results_folder(file, options.out), progress, team));
}

/// From what it means to what it rests on: the answer first, the details after it.
void add_one(post::Page& page, const Solved& one, std::span<const Tried> doubled, int threads)
{
  const post::Result& result = one.result;
  const bool field = has_field(one.read.problem);
  page.answers = answers(result);
  if (field)
  {
    add(page, meaning_text(result, doubled));
  }
  add(page, parts_section(one.read, "The parts"));
  add(page, winding_text(result) + parallel_text(one.read.problem) + mutual_text(result));
  add(page, what_if_section(one.read, result, "What if", "c", threads));
  if (field)
  {
    add(page, energy_section(one));
    add(page, field_section(one, "The field"));
  }
  add(page, bias_text(result));
  if (const auto chart = bias_chart(one.read.title, result.bias))
  {
    add_chart(page, *chart);
  }
  add(page, capacitance_text(one.read.problem, result) + frequency_text(result));
  for (const auto& [name, chart] : frequency_charts(result))
  {
    add_chart(page, chart);
  }
  if (!result.heat.points.empty())
  {
    add(page, warm_section(one, "How warm"));
  }
  add(page, heat_text(one.read.problem, result) + ladder_text(result) + axial_text(result) +
                insertion_text(result) + (field ? Sheet() : temperature_text(one.read.problem)) +
                background_text(result) + gap_text(result) + formula_text(result.formulas) +
                probe_text(result) + powder_text({&one.read, 1}));
  if (field)
  {
    add(page, accuracy_text(result) + temperature_text(one.read.problem));
  }
}

void add_compared(post::Page& page, std::span<const Solved> all, int threads)
{
  std::vector<Case> read;
  std::vector<post::Result> results;
  std::vector<solver::Problem> problems;
  for (const Solved& one : all)
  {
    read.push_back(one.read);
    results.push_back(one.result);
    problems.push_back(one.read.problem);
  }
  const std::vector<std::string> names = labels(read);
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    for (post::PageAnswer& answer : answers(results[i], names[i]))
    {
      page.answers.push_back(std::move(answer));
    }
    add(page, parts_section(read[i], "The parts of " + names[i]));
  }
  add(page, compare_text(read, results, post::compared(results, problems)));
  for (const auto& [name, chart] : comparison_charts(results, names))
  {
    add_chart(page, chart);
  }
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    add(page, what_if_section(read[i], results[i], "What if, with " + names[i],
                              fmt::format("c{}", i), threads));
    if (has_field(read[i].problem))
    {
      add(page, field_section(all[i], "The field of " + names[i]));
    }
  }
}

post::Page fit_page(const FitReport& report)
{
  post::Page page;
  page.title = plain(report.asked.read.title);
  page.question = report.asked.read.notes;
  page.answers = answers(report);
  add(page, fit_text(report));
  if (const auto chart = fit_chart(report))
  {
    add_chart(page, *chart);
  }
  add(page, parts_section(report.asked.read, "The sample"));
  return page;
}

/// What every page closes with.
void close(post::Page& page, std::span<const Case> read,
           const std::vector<std::filesystem::path>& files, const std::filesystem::path& reading,
           const Options& options)
{
  add(page, limits_section(read));
  add(page, cautions_section(read));
  std::vector<std::filesystem::path> shown = files;
  if (!reading.empty())
  {
    shown.push_back(reading);
  }
  add(page, files_section(shown));
  post::PageSection again = reproduce_section(files, reading, options);
  if (std::ranges::any_of(read,
                          [](const Case& one) {
                            return !one.problem.frequencies.empty() || !one.problem.bias.empty();
                          }))
  {
    again.blocks.emplace_back(post::PageText{
        "Tables and netlists that this page names (.csv, .cir) are written by ferrule solve."});
  }
  add(page, std::move(again));
  page.foot = fmt::format("Made with ferrule {}. A computed field is no approval of a part, a "
                          "device or a workplace.",
                          post::version());
}

void write(const post::Page& page, const std::filesystem::path& folder, const Options& options,
           Progress& progress)
{
  post::make_folder(folder);
  post::write_text(folder / "report.html", post::html(page));
  progress.wipe();
  if (!options.quiet)
  {
    print("Written: " + plain((folder / "report.html").string()) + "\n");
  }
}

} // namespace

int report(const std::vector<std::filesystem::path>& files, const std::filesystem::path& reading,
           const Options& options)
{
  Progress progress(!options.quiet);
  const std::filesystem::path folder = results_folder(files.front(), options.out);

  // 1. A reading turns the case round: what it says of the material is the page.
  if (!reading.empty())
  {
    const FitReport fit = fitted(files.front(), reading, options, progress);
    post::Page page = fit_page(fit);
    close(page, {&fit.asked.read, 1}, files, reading, options);
    write(page, folder, options, progress);
    return status(fit);
  }

  // 2. Case files -> fields with their brackets.
  std::vector<Case> read = read_all(files, options);
  expect_room({files.front()}, options);
  progress.step(fmt::format("solving {} case{}", files.size(), files.size() == 1 ? "" : "s"));
  const std::vector<Case> kept = read;
  const std::vector<Solved> all = solved(std::move(read), options);
  int reached = status(all);

  // 3. Numbers, sentences and pictures -> sections, the answer first.
  progress.step("drawing, and making the models for the sliders");
  post::Page page;
  page.title = all.size() == 1 ? plain(all.front().read.title)
                               : fmt::format("{} designs side by side", all.size());
  for (const Solved& one : all)
  {
    page.question += (page.question.empty() ? "" : "\n") +
                     (all.size() == 1 ? "" : plain(one.read.title) + ". ") + one.read.notes;
  }
  if (all.size() == 1)
  {
    add_one(page, all.front(), tried(all.front(), options.threads), options.threads);
  }
  else
  {
    add_compared(page, all, options.threads);
  }

  // 4. A case with a [sweep] of its own shows it too.
  if (all.size() == 1 && !all.front().read.varied.empty())
  {
    const SweepReport sweep = swept(files.front(), options, progress);
    add(page, sweep_text(sweep));
    if (const auto chart = sweep_chart(sweep))
    {
      add_chart(page, *chart);
    }
    reached = std::max<int>(reached, status(sweep));
  }

  // 5. What it rests on -> one file.
  close(page, kept, files, {}, options);
  write(page, folder, options, progress);
  return reached;
}

} // namespace cases
