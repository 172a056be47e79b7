// `ferrule formulas --check`: the whole catalogue against the field, over a grid of shapes.
#include "cases/check_text.hpp"
#include "cases/commands.hpp"
#include "cases/output.hpp"
#include "cases/progress.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace cases
{

namespace
{

/// A map a formula and third parameter in `maps`, then table, points and record.
std::vector<std::string> write_check(const std::filesystem::path& folder,
                                     const post::FormulaCheck& check)
{
  std::vector<std::string> names;
  for (const post::FormulaScore& score : check.scores)
  {
    const std::size_t thirds = check.families[score.family].third.values.size();
    for (std::size_t k = 0; k < thirds; ++k)
    {
      for (const std::string& name :
           post::write_chart(folder / "maps", post::map_name(check, score, k),
                             post::formula_map(check, score, k)))
      {
        names.push_back((folder / "maps" / name).string());
      }
    }
  }
  for (const char* name : {"table.txt", "points.csv", "result.json"})
  {
    names.push_back((folder / name).string());
  }
  post::write_text(folder / "table.txt", check_text(check));
  post::write_text(folder / "points.csv", post::check_csv(check));
  post::write_text(folder / "result.json", post::check_json(check, names));
  return names;
}

} // namespace

int check_formulas(bool fine, const Options& options)
{
  const std::filesystem::path folder = options.out.empty() ? "formulas.results" : options.out;
  if (options.files)
  {
    post::expect_room(folder);
  }

  // 1. The catalogue's grids.
  post::FormulaCheck check;
  check.families = post::check_families(fine);
  std::size_t shapes = 0;
  for (post::CheckFamily& family : check.families)
  {
    family.accuracy = options.accuracy.value_or(family.accuracy);
    shapes += family.x.values.size() * family.y.values.size() * family.third.values.size();
  }

  // 2. Shapes -> fields, formulas judged.
  Progress progress(!options.quiet && !options.json);
  check.points =
      post::check_points(check.families, options.threads,
                         [&](std::size_t done)
                         { progress.step(fmt::format("{} of {} shapes solved", done, shapes)); });

  // 3. Points -> each formula's record.
  check.scores = post::formula_scores(check.points);

  // 4. Record -> maps, table and points in the results folder.
  std::vector<std::string> files;
  if (options.files)
  {
    progress.step("drawing maps");
    files = write_check(folder, check);
  }
  progress.wipe();

  // 5. Record -> one document or one report.
  if (options.json)
  {
    print(post::check_json(check, files));
  }
  else if (!options.quiet)
  {
    print(check_text(check));
  }
  return std::ranges::all_of(check.points, &post::CheckPoint::reached) ? done : quality_unreached;
}

} // namespace cases
