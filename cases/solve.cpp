// `ferrule solve CASE`: one case from file to report.
#include "cases/origin.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "cases/report.hpp"
#include "post/json.hpp"

namespace cases
{

int solve(const std::filesystem::path& file, const Options& options)
{
  Progress progress(!options.quiet);

  // 1. Case file -> scene, materials, drive. Every fault of the file at once.
  std::vector<Case> read = {read_with(file, options)};
  expect_room({file}, options);

  // 2. Scene -> mesh -> field with its bracket; once more with every material as air.
  progress.step("solving " + file.filename().string());
  std::vector<Solved> all = solved(std::move(read), options);
  Solved& one = all.front();

  // 3. Numbers -> results folder.
  if (options.files)
  {
    progress.step("writing the results folder");
    const std::filesystem::path folder = results_folder(file, options.out);
    write_results(folder, one, options.revolve);
    write_origin(folder, {"solve", {file}, {}, options, {}});
  }

  // 4. Numbers -> one document, or a report with what doubling something would gain.
  if (options.json)
  {
    progress.wipe();
    print(post::json(one.result));
  }
  else if (!options.quiet)
  {
    progress.step("trying what doubling would gain");
    const std::vector<Tried> doubled = tried(one, options.threads);
    progress.wipe();
    print(solve_text(one.read, one.result, doubled));
  }
  return status(all);
}

} // namespace cases
