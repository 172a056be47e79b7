// `ferrule formulas CASE`: the hand formulas that fit a case, without solving it.
#include "post/formulas.hpp"

#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/report.hpp"
#include "post/json.hpp"

namespace cases
{

int formulas(const std::filesystem::path& file, const Options& options)
{
  // 1. Case file -> scene.
  const Case read = read_with(file, options);

  // 2. Scene -> formulas, each with where it holds.
  const std::vector<post::FormulaResult> list = post::formulas(read.problem);

  // 3. Formulas -> one document or one list.
  if (options.json)
  {
    print(post::json(read.title, list));
  }
  else if (!options.quiet)
  {
    print(formulas_text(read, list));
  }
  return done;
}

} // namespace cases
