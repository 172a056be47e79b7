// `ferrule sweep CASE --wish ... --wish ... --by KEY`: what one wish costs the other.
#include "cases/wish.hpp"

#include "cases/fault.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "cases/ranks.hpp"
#include "cases/request.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"
#include "post/quantities.hpp"
#include "solver/at_once.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <mutex>

namespace cases
{

namespace
{

constexpr double while_searching = 3e-3; ///< Accuracy of trials; the designs told are solved anew.

std::vector<double> values(const std::vector<SearchKey>& keys, const std::vector<double>& at)
{
  std::vector<double> list;
  for (std::size_t k = 0; k < keys.size(); ++k)
  {
    const SearchKey& key = keys[k];
    const double value = key.from > 0.0 ? key.from * std::pow(key.to / key.from, at[k])
                                        : key.from + (key.to - key.from) * at[k];
    list.push_back(key.whole ? std::round(value) : std::clamp(value, key.from, key.to));
  }
  return list;
}

double coordinate(const SearchKey& key, double value)
{
  return key.from > 0.0 ? std::log(value / key.from) / std::log(key.to / key.from)
                        : (value - key.from) / (key.to - key.from);
}

Design solved_design(const WishReport& report, std::vector<double> at, double accuracy)
{
  solver::Problem problem = problem_at(report.searched, report.keys, at);
  problem.accuracy = accuracy;
  const solver::Solution solution = solver::solve(problem, 1);
  const post::Result result = post::result(solution, solution, {});
  Design made{std::move(at), result.windings, 0.0, 0.0, result.accuracy_reached};
  for (const post::RegionResult& region : result.regions)
  {
    const auto found = std::ranges::find(solution.layout.regions, region.name, &mesh::Region::name);
    made.volume += region.volume;
    made.mass += solver::material(problem, found->material).density * region.volume;
  }
  return made;
}

/// Logarithms that are to be small, and logarithms that are not to be above zero.
std::vector<double> numbers(const WishReport& report, const Design& design)
{
  std::vector<double> list;
  for (const Wish& wish : report.wishes)
  {
    const double value = std::log(value_of(wish.measured, design).value);
    list.push_back(wish.up ? -value : value);
  }
  for (const Keep& keep : report.keeps)
  {
    const post::Bounded value = value_of(keep.measured, design);
    list.push_back(keep.below ? std::log(value.upper / keep.limit)
                              : std::log(keep.limit / value.lower));
  }
  return list;
}

/// Solves trials and remembers them: coordinates may differ where rounded turns do not.
class Trials
{
public:
  Trials(const WishReport& report, Progress& progress) : _report(report), _progress(progress) {}

  std::optional<std::vector<double>> operator()(const std::vector<double>& coordinates)
  {
    const std::vector<double> at = values(_report.keys, coordinates);
    {
      const std::lock_guard<std::mutex> lock(_mutex);
      if (const auto found = _known.find(at); found != _known.end())
      {
        return found->second;
      }
    }
    std::optional<std::vector<double>> made = solved(at);
    const std::lock_guard<std::mutex> lock(_mutex);
    _known.emplace(at, made);
    _progress.step(fmt::format("{} designs tried", _known.size()));
    return made;
  }

private:
  std::optional<std::vector<double>> solved(const std::vector<double>& at) const
  {
    try
    {
      return numbers(_report,
                     solved_design(_report, at, std::max(_report.accuracy_asked, while_searching)));
    }
    catch (const CaseError&)
    {
      return std::nullopt;
    }
    catch (const std::bad_alloc&)
    {
      throw;
    }
    catch (const std::runtime_error&)
    {
      return std::nullopt; // no mesh, or no field on it
    }
  }

  const WishReport& _report;
  Progress& _progress;
  std::mutex _mutex;
  std::map<std::vector<double>, std::optional<std::vector<double>>> _known;
};

/// Solved as asked; what then breaks a limit or is beaten in both wishes is left out.
std::vector<Design> designs(const WishReport& report, const post::Front& front, int threads)
{
  std::vector<Design> all(front.points.size());
  solver::at_once(all.size(), threads,
                  [&](std::size_t i)
                  {
                    all[i] = solved_design(report, values(report.keys, front.points[i].at),
                                           report.accuracy_asked);
                  });
  std::vector<Design> good;
  for (Design& one : all)
  {
    const std::vector<double> own = numbers(report, one);
    const bool kept = std::all_of(own.begin() + 2, own.end(), [](double x) { return x <= 0.0; });
    const bool beaten = std::ranges::any_of(good, [&](const Design& other)
                                            { return numbers(report, other)[0] <= own[0]; });
    if (kept && !beaten)
    {
      good.push_back(std::move(one));
    }
  }
  return good;
}

void write_files(WishReport& report, const std::filesystem::path& folder)
{
  post::make_folder(folder);
  std::vector<std::string> names;
  if (const auto chart = wish_chart(report))
  {
    names = post::write_chart(folder, "wish", *chart);
  }
  names.insert(names.end(), {"wish.csv", "wish.json"});
  for (const std::string& name : names)
  {
    report.files.push_back((folder / name).string());
  }
  post::write_text(folder / "wish.csv", wish_csv(report));
  post::write_text(folder / "wish.json", wish_document(report));
}

void read_question(WishReport& report, const SweepAsked& asked)
{
  for (const std::string& one : asked.by)
  {
    report.keys.push_back(search_key(report.searched, one, ""));
  }
  std::vector<double> own;
  std::ranges::transform(report.keys, std::back_inserter(own), &SearchKey::own);
  const solver::Problem problem = problem_at(report.searched, report.keys, own);
  report.accuracy_asked = problem.accuracy;
  for (const std::string& one : asked.wish)
  {
    report.wishes.push_back(read_wish(one, problem));
  }
  for (const std::string& one : asked.keep)
  {
    report.keeps.push_back(read_keep(one, problem));
  }
}

} // namespace

int wish(const std::filesystem::path& file, const SweepAsked& asked, const Options& options)
{
  if (launched_ranks().rank > 0)
  {
    return done; // a search is one rank's work
  }
  Progress progress(!options.quiet);

  // 1. Command line and case -> keys with their ranges, wishes, limits.
  WishReport report;
  report.searched = search_case(file, options);
  read_question(report, asked);
  expect_room({file}, options);

  // 2. Keys -> trials -> the best of the first wish at each level of the second, solved as asked.
  progress.step("trying designs");
  post::FrontQuestion question;
  for (const SearchKey& key : report.keys)
  {
    question.own.push_back(coordinate(key, key.own));
  }
  Trials trials(report, progress);
  question.numbers = std::ref(trials);
  const post::Front front = post::front(question, options.threads);
  report.tried = front.tried;
  report.impossible = front.impossible;
  progress.step("solving the designs found");
  report.designs = designs(report, front, options.threads);

  // 3. Designs -> files, then one document or one report.
  if (options.files)
  {
    write_files(report, results_folder(file, options.out));
  }
  progress.wipe();
  if (options.json)
  {
    print(wish_document(report));
  }
  else if (!options.quiet)
  {
    print(wish_text(report));
  }
  const bool whole = std::ranges::all_of(report.designs, &Design::accuracy_reached);
  return whole && !report.designs.empty() ? done : quality_unreached;
}

} // namespace cases
