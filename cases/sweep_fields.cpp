// Fields are dealt one by one to threads; their order in the collection is that of the points.
#include "cases/sweep_fields.hpp"

#include "cases/draft.hpp"
#include "cases/journal.hpp"
#include "cases/pipeline.hpp"
#include "mesh/layout.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"
#include "post/sample.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <future>
#include <mutex>

namespace cases
{

namespace
{

constexpr int smooth_cuts = 6;

std::string field_name(std::size_t point)
{
  return fmt::format("fields/point-{:04}.vtu", point + 1);
}

void write_field(const SweepPlan& plan, std::size_t point, const std::filesystem::path& path)
{
  solver::Problem problem = read_tree(plan.tree, plan.file, overrides(plan, point)).problem;
  if (!has_field(problem))
  {
    throw CaseError({{{}, "the case has no field to keep", "leave out --fields"}});
  }
  problem.accuracy = plan.options.accuracy.value_or(problem.accuracy);
  const solver::Solution solution = solver::solve(problem, 1);
  const post::Sample sample = post::sampled(solution, smooth_cuts);
  static std::mutex one_at_a_time; // VTK is asked by one thread only
  const std::lock_guard guard(one_at_a_time);
  post::write_text(path, post::field_vtu(sample));
}

/// The points whose fields are still to be written.
std::vector<std::size_t> left(const SweepReport& report, const Records& found,
                              const std::filesystem::path& folder)
{
  std::vector<std::size_t> points;
  for (std::size_t i = 0; i < report.swept.points.size(); ++i)
  {
    if (report.swept.points[i].fault.empty() &&
        !(found.contains(i) && std::filesystem::exists(folder / field_name(i))))
    {
      points.push_back(i);
    }
  }
  return points;
}

double step_of(const SweepReport& report, std::size_t point)
{
  const bool single = report.varied.size() == 1 && report.varied.front().numeric;
  return single ? report.varied.front().values[point].shown : static_cast<double>(point);
}

} // namespace

std::string collection(const std::vector<CollectedFile>& files)
{
  std::string text = "<?xml version=\"1.0\"?>\n"
                     "<VTKFile type=\"Collection\" version=\"0.1\">\n  <Collection>\n";
  for (const CollectedFile& file : files)
  {
    text += fmt::format("    <DataSet timestep=\"{}\" part=\"0\" file=\"{}\"/>\n", file.step,
                        file.name);
  }
  return text + "  </Collection>\n</VTKFile>\n";
}

std::vector<std::string> write_fields(const SweepPlan& plan, const SweepReport& report,
                                      const std::filesystem::path& folder, Progress& progress)
{
  post::make_folder(folder / "fields");
  Journal journal(folder / "fields.journal", plan.work);
  const std::vector<std::size_t> points = left(report, journal.found(), folder);
  std::mutex lock;
  std::size_t next = 0;
  const auto worker = [&]
  {
    for (;;)
    {
      std::size_t point = 0;
      {
        const std::lock_guard guard(lock);
        if (next == points.size())
        {
          return;
        }
        progress.step(fmt::format("writing field {} of {}", next + 1, points.size()));
        point = points[next++];
      }
      try
      {
        write_field(plan, point, folder / field_name(point));
        const std::lock_guard guard(lock);
        journal.add(point, "written");
      }
      catch (...)
      {
        const std::lock_guard guard(lock);
        next = points.size(); // nobody begins another
        throw;
      }
    }
  };
  std::vector<std::future<void>> others;
  const auto threads = static_cast<std::size_t>(std::max(1, plan.options.threads));
  for (std::size_t t = 1; t < std::min(threads, points.size()); ++t)
  {
    others.push_back(std::async(std::launch::async, worker));
  }
  worker();
  std::ranges::for_each(others, [](std::future<void>& one) { one.get(); });

  std::vector<CollectedFile> collected;
  std::vector<std::string> names = {"fields.pvd"};
  for (std::size_t i = 0; i < report.swept.points.size(); ++i)
  {
    if (report.swept.points[i].fault.empty())
    {
      collected.push_back({step_of(report, i), field_name(i)});
      names.push_back(field_name(i));
    }
  }
  post::write_text(folder / "fields.pvd", collection(collected));
  return names;
}

} // namespace cases
