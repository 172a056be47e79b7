// `ferrule sweep CASE --vary KEY=...`: a case at many values of its keys.
#include "cases/fault.hpp"
#include "cases/origin.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "cases/request.hpp"
#include "cases/sweep_fields.hpp"
#include "cases/sweep_model.hpp"
#include "cases/sweep_report.hpp"
#include "cases/sweep_run.hpp"
#include "cases/wording.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cases
{

namespace
{

void write_files(SweepReport& report, const std::filesystem::path& folder)
{
  post::make_folder(folder);
  std::vector<std::string> names;
  if (const auto chart = sweep_chart(report))
  {
    names = post::write_chart(folder, "sweep", *chart);
  }
  const std::vector<post::KeptModel>& models = report.swept.models;
  for (std::size_t i = 0; i < models.size(); ++i)
  {
    names.push_back(models.size() == 1 ? "model.json" : fmt::format("model-{:03}.json", i + 1));
    post::write_text(folder / names.back(), post::json(models[i]) + "\n");
  }
  names.insert(names.end(), {"sweep.csv", "sweep.json"});
  for (const std::string& name : names)
  {
    report.files.push_back((folder / name).string());
  }
  post::write_text(folder / "sweep.csv", sweep_csv(report));
  post::write_text(folder / "sweep.json", sweep_document(report));
}

} // namespace

SweepReport sweep_report(const SweepPlan& plan, const std::vector<std::string>& records)
{
  SweepReport report;
  report.title = plan.title;
  report.show = plan.show;
  report.varied = plan.varied;
  report.accuracy_asked = plan.accuracy;
  report.left_out = plan.left_out;
  report.beside = plan.beside;
  report.swept = points(plan, records);
  return report;
}

/// All points failing is a fault of the command line; some, a result of less than was asked.
int status(const SweepReport& report)
{
  const bool whole = std::ranges::all_of(report.swept.points, [](const post::SweptPoint& point)
                                         { return point.fault.empty() && point.accuracy_reached; });
  return whole ? done : quality_unreached;
}

namespace
{

void refuse_if_nothing(const SweepReport& report)
{
  if (first_built(report))
  {
    return;
  }
  throw CaseError(
      {{{"ferrule"},
        fmt::format("no point of the sweep can be built: {}", report.swept.points.front().fault),
        ""}});
}

/// A refused command leaves nothing: no journal of points that never were, no folder made for it.
void take_back(const std::filesystem::path& folder, const Share& part, bool made)
{
  std::error_code none;
  std::filesystem::remove(folder / journal_name(part), none);
  if (made)
  {
    std::filesystem::remove(folder, none); // where it is empty
  }
}

int told(SweepReport& report, const std::filesystem::path& folder, const Options& options,
         Progress& progress)
{
  refuse_if_nothing(report);
  if (options.files)
  {
    progress.step("writing the results folder");
    write_files(report, folder);
  }
  progress.wipe();
  if (options.json)
  {
    print(sweep_document(report));
  }
  else if (!options.quiet)
  {
    print(sweep_text(report));
  }
  return status(report);
}

/// A share only fills its journal; what it tells is how to go on.
int share_done(const SweepPlan& plan, const Share& part, const std::filesystem::path& folder)
{
  const std::filesystem::path journal = folder / journal_name(part);
  std::size_t own = 0;
  for (std::size_t i = part.number - 1; i < plan.pieces.size(); i += part.of)
  {
    ++own;
  }
  if (plan.options.json)
  {
    print(fmt::format("{{ \"share\": \"{}/{}\", \"solved\": {}, \"of\": {} }}\n", part.number,
                      part.of, own, plan.pieces.size()));
  }
  else if (!plan.options.quiet)
  {
    print(fmt::format("Share {}/{}: {} of {} solutions are in {}.\n"
                      "When all shares are there: the same command with --join.\n",
                      part.number, part.of, own, plan.pieces.size(), journal.string()));
  }
  return done;
}

void check_fields(const SweepPlan& plan, const Share& part, const Options& options)
{
  if (!options.files)
  {
    usage_fault("--files none keeps no fields", "leave out one of --files none and --fields");
  }
  if (part.of > 1)
  {
    usage_fault("a share keeps no fields", "give --fields with --join");
  }
  if (plan.points > most_fields)
  {
    usage_fault(fmt::format("the sweep has {} points, and fields are kept of at most {}",
                            plan.points, most_fields),
                "vary fewer values, or leave out --fields");
  }
}

/// What a rank other than the first does: it solves what it is dealt, and prints and writes
/// nothing.
int help_out(const Ranks& ranks, const std::filesystem::path& file, const SweepAsked& asked,
             const Options& options)
{
  std::optional<SweepPlan> plan;
  std::string failure;
  try
  {
    plan = sweep_plan(file, asked, options);
  }
  catch (const std::exception& error)
  {
    failure = error.what();
  }
  serve(ranks, plan ? plan->work : "", failure,
        [&](std::size_t piece) { return worked_out(*plan, plan->pieces[piece], options.threads); });
  return done;
}

} // namespace

int sweep(const std::filesystem::path& file, const SweepAsked& asked, const Options& options)
{
  const Ranks& ranks = launched_ranks();
  if (ranks.rank > 0)
  {
    return help_out(ranks, file, asked, options);
  }
  Team team(ranks);
  Progress progress(!options.quiet);

  // 1. Command line or [sweep] -> points, and pieces of work. Every fault at once.
  if (!asked.show.empty() && std::ranges::find(shown_words(), asked.show) == shown_words().end())
  {
    usage_fault("--show is " + in_quotes(asked.show),
                "write --show " + in_words(shown_words(), "or"));
  }
  if (!asked.model.empty())
  {
    SweepReport report = from_model(asked, options);
    return told(report, options.out, files_if_out(options), progress);
  }
  const SweepPlan plan = sweep_plan(file, asked, options);
  const Share part = share(asked.share);
  const std::filesystem::path folder = results_folder(file, options.out);
  if ((part.of > 1 || asked.join) && !options.files)
  {
    usage_fault("--files none keeps no shares", "leave it out with --share and --join");
  }
  if (asked.fields)
  {
    check_fields(plan, part, options);
  }

  // 2. Pieces -> records, as far as a journal does not hold them already.
  progress.step(fmt::format("solving {} points", plan.points));
  const bool made = !std::filesystem::exists(folder);
  const std::vector<std::string> all =
      asked.join
          ? joined(plan, folder)
          : records(plan, part, options.files ? folder : std::filesystem::path(), progress, team);
  if (part.of > 1)
  {
    progress.wipe();
    return share_done(plan, part, folder);
  }

  // 3. Records -> points -> files, then one document or one report.
  SweepReport report = sweep_report(plan, all);
  if (!first_built(report) && options.files && !asked.join)
  {
    take_back(folder, part, made);
  }
  if (asked.fields)
  {
    refuse_if_nothing(report);
    for (const std::string& name : write_fields(plan, report, folder, progress))
    {
      report.files.push_back((folder / name).string());
    }
  }
  const int reached = told(report, folder, options, progress);
  if (options.files)
  {
    write_origin(
        folder,
        {"sweep", {file}, {}, options, fmt::format("{}", fmt::join(asked.vary, " --vary "))});
  }
  return reached;
}

} // namespace cases
