// `ferrule fit CASE --reading READING`: what a measured sample really shows.
#include "cases/fault.hpp"
#include "cases/fit_report.hpp"
#include "cases/origin.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// Nodes closed in on where the readings lie; there the dimensions are moved.
void sharpen(FitCase& asked, int threads)
{
  post::FitQuestion alone = asked.question;
  alone.dimensions.clear();
  post::FitOptions few;
  few.draws = 1000;
  const std::vector<post::Response> found = post::responses(alone, asked.bare_coil, threads);
  std::vector<double> values;
  for (const FitGroup& group : asked.groups)
  {
    if (const auto value = post::fit(alone, found, group.readings, false, few).unknown.value)
    {
      values.push_back(*value);
    }
  }
  if (values.empty())
  {
    return;
  }
  std::ranges::sort(values);
  std::vector<double>& nodes = asked.question.nodes;
  std::vector<double>& near = asked.question.near;
  const double least = nodes.front(), most = nodes.back();
  near = {0.9 * values.front(), values.front(), values[values.size() / 2], values.back(),
          1.1 * values.back()};
  std::erase_if(near, [&](double at) { return at < least || at > most; });
  const auto tidy = [](std::vector<double>& list)
  {
    std::ranges::sort(list);
    const auto same = [](double a, double b) { return b < a * (1.0 + 1e-3); };
    list.erase(std::unique(list.begin(), list.end(), same), list.end());
  };
  tidy(near);
  nodes.insert(nodes.end(), near.begin(), near.end());
  tidy(nodes);
}

/// The widest reading tolerance of the first group, relative.
double reading_tolerance(const FitGroup& group)
{
  double widest = 0.0;
  for (const post::FitReading& one : group.readings)
  {
    widest = std::max(widest, post::step(one.inductance) / one.inductance.estimate);
  }
  return widest;
}

/// What other sample would tell, where the first that tells little is of a material.
void add_ideas(FitReport& report, const Options& options)
{
  if (!report.asked.permeability)
  {
    return;
  }
  const auto poor = std::ranges::find_if(report.results, tells_little);
  if (poor == report.results.end() || poor->impossible)
  {
    return;
  }
  const std::string& material = report.asked.question.material->material;
  const post::Interval range = poor->unknown.interval;
  const double own = report.asked.read.problem.materials.at(material).permeability;
  const bool fits = own >= range.lower && own <= range.upper;
  const double least = std::isfinite(range.lower) ? range.lower : 1.0;
  report.assumed = fits ? own : poor->unknown.value.value_or(1.5 * least);
  const FitGroup& group =
      report.asked.groups[static_cast<std::size_t>(poor - report.results.begin())];
  report.tolerance = reading_tolerance(group);
  report.ideas = post::sample_ideas(report.asked.question.problem({}), material,
                                    group.readings.front().winding, report.assumed,
                                    report.tolerance, options.threads);
}

} // namespace

FitReport fitted(const std::filesystem::path& file, const std::filesystem::path& reading,
                 const Options& options, Progress& progress)
{
  // Readings and case -> one question. Every fault of either at once.
  const Readings readings = read_readings(reading);
  FitReport report;
  report.asked = fit_case(file, readings, options);
  expect_room({file}, options);

  // Question -> how the inductance answers to the unknown and to every toleranced dimension.
  progress.step("solving the sample and its tolerances");
  if (!report.asked.question.material)
  {
    sharpen(report.asked, options.threads);
  }
  report.responses =
      post::responses(report.asked.question, report.asked.bare_coil, options.threads);

  // Readings -> values, intervals and what they come from.
  progress.step("propagating the uncertainty");
  for (const FitGroup& group : report.asked.groups)
  {
    report.results.push_back(post::fit(report.asked.question, report.responses, group.readings,
                                       report.asked.permeability, report.options));
    const auto& impossible = report.results.back().impossible;
    report.slips.push_back(impossible ? slips(report.asked, report.responses, group, *impossible)
                                      : std::vector<Slip>{});
  }
  progress.step("looking for a sample that tells more");
  add_ideas(report, options);
  return report;
}

int status(const FitReport& report)
{
  const bool possible = std::ranges::none_of(report.results, [](const post::FitResult& one)
                                             { return one.impossible.has_value(); });
  return possible ? done : quality_unreached;
}

namespace
{

void write_files(FitReport& report, const std::filesystem::path& folder)
{
  post::make_folder(folder);
  if (const auto chart = fit_chart(report))
  {
    for (const std::string& name : post::write_chart(folder, "fit", *chart))
    {
      report.files.push_back((folder / name).string());
    }
  }
  report.files.push_back((folder / "fit.json").string());
  post::write_text(folder / "fit.json", fit_document(report));
}

} // namespace

int fit(const std::filesystem::path& file, const std::filesystem::path& reading,
        const Options& options)
{
  Progress progress(!options.quiet);

  // 1. Readings and case -> values, intervals and what they come from.
  FitReport report = fitted(file, reading, options, progress);

  // 2. Numbers -> files, then one document or one report.
  if (options.files)
  {
    const std::filesystem::path folder = results_folder(file, options.out);
    write_files(report, folder);
    write_origin(folder, {"fit", {file}, reading, options, {}});
  }
  progress.wipe();
  if (options.json)
  {
    print(fit_document(report));
  }
  else if (!options.quiet)
  {
    print(fit_text(report));
  }
  return status(report);
}

} // namespace cases
