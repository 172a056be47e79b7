// `ferrule compare CASE CASE ...`: cases side by side, the first as the yardstick.
#include "cases/compare_sections.hpp"
#include "cases/fault.hpp"
#include "cases/origin.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "cases/report.hpp"
#include "cases/variants.hpp"
#include "post/comparison.hpp"
#include "post/files.hpp"
#include "post/json.hpp"

#include <fmt/format.h>
#include <set>

namespace cases
{

namespace
{

/// A folder a case: below --out by the case's stem, numbered where stems repeat; else beside it,
/// numbered where one file is several cases.
std::vector<std::filesystem::path> folders(std::span<const Case> read,
                                           const std::filesystem::path& out)
{
  std::vector<std::filesystem::path> list;
  std::set<std::filesystem::path> taken;
  for (const Case& one : read)
  {
    const std::string stem = one.path.stem().string();
    const auto place = [&](const std::string& name)
    {
      return out.empty() ? results_folder(one.path.parent_path() / (name + ".toml"), {})
                         : out / name;
    };
    std::filesystem::path made = place(stem);
    for (int copy = 2; !taken.insert(made).second; ++copy)
    {
      made = place(fmt::format("{}-{}", stem, copy));
    }
    list.push_back(std::move(made));
  }
  return list;
}

/// What compare says about solved cases, side by side.
struct Report
{
  std::vector<Case> read;
  std::vector<post::Result> results;
  std::vector<post::Compared> compared;
};

Report side_by_side(std::span<const Solved> all)
{
  Report report;
  std::vector<solver::Problem> problems;
  for (const Solved& one : all)
  {
    report.read.push_back(one.read);
    report.results.push_back(one.result);
    problems.push_back(one.read.problem);
  }
  report.compared = post::compared(report.results, problems);
  return report;
}

} // namespace

int compare(const std::vector<std::filesystem::path>& files, const Options& options)
{
  Progress progress(!options.quiet);

  // 1. Case files -> scenes.
  std::vector<Case> read = read_variants(files, options);
  expect_room(files, options);
  const std::vector<std::filesystem::path> places = folders(read, options.out);

  // 2. Scenes -> fields with their brackets, and all once more as air.
  progress.step(fmt::format("solving {} cases", read.size()));
  std::vector<Solved> all = solved(std::move(read), options);

  // 3. Numbers -> a results folder a case.
  for (std::size_t i = 0; options.files && i < all.size(); ++i)
  {
    progress.step("writing " + places[i].string());
    write_results(places[i], all[i]);
  }

  // 4. Numbers -> ratios, then one document or one report.
  progress.wipe();
  const Report report = side_by_side(all);
  if (options.files)
  {
    const auto& place = options.out.empty() ? places.front() : options.out;
    post::write_text(place / "comparison.json", post::json(report.results, report.compared));
    write_comparison_charts(place, report.results, labels(report.read));
    write_origin(place, {"compare", files, {}, options, options.vary});
  }
  if (options.json)
  {
    print(post::json(report.results, report.compared));
  }
  else if (!options.quiet)
  {
    print(compare_text(report.read, report.results, report.compared));
  }
  return status(all);
}

} // namespace cases
