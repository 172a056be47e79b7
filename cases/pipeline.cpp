// Each step is one call to the station below; what is decided here is only order and threads.
#include "cases/pipeline.hpp"

#include "cases/bias_files.hpp"
#include "cases/fault.hpp"
#include "cases/frequency_files.hpp"
#include "mesh/layout.hpp"
#include "post/capacitance.hpp"
#include "post/files.hpp"
#include "post/formulas.hpp"
#include "post/json.hpp"
#include "post/pending_file.hpp"
#include "post/probe_noise.hpp"
#include "post/quantities.hpp"
#include "post/sample.hpp"
#include "solver/at_once.hpp"
#include "solver/heat.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <future>

namespace cases
{

namespace
{

constexpr int smooth_cuts = 6;

/// Straight wires and toroids, at rest and at every frequency.
void add_axial(post::Result& result, const Case& read, int threads)
{
  const solver::Problem& problem = read.problem;
  result.wires = wire_results(read.wires, problem, 0.0);
  result.toroids = toroid_results(read.toroids, problem, std::vector{0.0}, threads).front();
  if (read.wires.empty() && read.toroids.empty())
  {
    return;
  }
  result.frequencies.resize(problem.frequencies.size());
  const auto toroids = toroid_results(read.toroids, problem, problem.frequencies, threads);
  for (std::size_t i = 0; i < result.frequencies.size(); ++i)
  {
    post::FrequencyResult& at = result.frequencies[i];
    at.frequency = problem.frequencies[i];
    at.wires = wire_results(read.wires, problem, at.frequency);
    at.toroids = toroids[i];
    for (const post::ToroidResult& one : at.toroids)
    {
      at.accuracy_met = std::max(at.accuracy_met, one.accuracy_met);
      at.accuracy_reached = at.accuracy_reached && one.accuracy_reached;
      at.limit = at.limit.empty() ? one.limit : at.limit;
    }
  }
}

} // namespace

bool has_field(const solver::Problem& problem)
{
  return !problem.scene.windings.empty() || problem.background.has_value();
}

Case read_with(const std::filesystem::path& file, const Options& options)
{
  Case read = read_case(file, options.sets);
  read.problem.accuracy = options.accuracy.value_or(read.problem.accuracy);
  return read;
}

std::vector<Case> read_all(const std::vector<std::filesystem::path>& files, const Options& options)
{
  std::vector<Case> read;
  std::vector<Fault> faults;
  for (const std::filesystem::path& file : files)
  {
    try
    {
      read.push_back(read_with(file, options));
    }
    catch (const CaseError& error)
    {
      faults.insert(faults.end(), error.faults().begin(), error.faults().end());
    }
  }
  if (!faults.empty())
  {
    throw CaseError(std::move(faults));
  }
  return read;
}

std::vector<solver::Solution> solutions(std::span<const solver::Problem> problems, int threads)
{
  std::vector<solver::Solution> all;
  const std::size_t at_once = static_cast<std::size_t>(std::max(1, threads));
  for (std::size_t begin = 0; begin < problems.size(); begin += at_once)
  {
    const std::size_t end = std::min(problems.size(), begin + at_once);
    std::vector<std::future<solver::Solution>> running;
    for (std::size_t i = begin + 1; i < end; ++i)
    {
      running.push_back(
          std::async(std::launch::async, solver::solve, std::cref(problems[i]), threads));
    }
    all.push_back(solver::solve(problems[begin], threads));
    for (auto& one : running)
    {
      all.push_back(one.get());
    }
  }
  return all;
}

Compared with_air(const solver::Problem& problem, int threads)
{
  Compared made{solver::solve(problem, threads), std::nullopt};
  const std::vector<double>& mu = made.own.permeability;
  if (!problem.scene.windings.empty() &&
      std::any_of(mu.begin(), mu.end(), [](double one) { return one != 1.0; }))
  {
    made.alone = solver::solve_from(post::in_air(problem), made.own, threads);
  }
  return made;
}

post::Result numbers(const Case& read, const solver::Solution* own, const solver::Solution* air,
                     int threads)
{
  post::Result result;
  if (own)
  {
    result = post::result(*own, *air, read.probes);
    result.frequencies = post::over_frequency(read.problem, read.probes, *air, threads);
    result.bias = post::bias_curve(read.problem, threads);
  }
  add_toroids(read.toroids, read.problem, result.bias);
  post::tell_falls(result.bias);
  result.title = read.title;
  result.line = read.line;
  result.temperature = read.problem.temperature;
  add_axial(result, read, threads);
  return result;
}

std::vector<Solved> solved(std::vector<Case> read, const Options& options)
{
  std::vector<Compared> found(read.size());
  solver::at_once(read.size(), options.threads,
                  [&](std::size_t i)
                  {
                    if (has_field(read[i].problem))
                    {
                      found[i] = with_air(read[i].problem, options.threads);
                    }
                  });
  std::vector<Solved> all;
  for (std::size_t i = 0; i < read.size(); ++i)
  {
    Case& one = read[i];
    const bool field = has_field(one.problem);
    post::Result result = numbers(one, field ? &found[i].own : nullptr,
                                  field ? &found[i].air() : nullptr, options.threads);
    result.ladders = post::ladders(result.frequencies);
    solver::Solution solution;
    if (field)
    {
      result.formulas = post::judged(post::formulas(one.problem), result);
      post::tell_noise(result);
      post::add_capacitances(one.problem, result);
      post::add_heat(one.problem, result, options.threads);
      solution = std::move(found[i].own);
    }
    all.push_back({std::move(one), std::move(solution), std::move(result)});
  }
  return all;
}

std::filesystem::path results_folder(const std::filesystem::path& file,
                                     const std::filesystem::path& out)
{
  return out.empty() ? file.parent_path() / (file.stem().string() + ".results") : out;
}

void expect_room(const std::vector<std::filesystem::path>& files, const Options& options)
{
  for (const std::filesystem::path& file : files)
  {
    if (options.files)
    {
      post::expect_room(results_folder(file, options.out));
    }
  }
}

void write_results(const std::filesystem::path& folder, Solved& solved, bool revolve)
{
  std::vector<std::string> names;
  if (has_field(solved.read.problem))
  {
    const post::Sample sample = post::sampled(solved.solution, smooth_cuts);
    const mesh::Layout layout = mesh::layout(solved.read.problem.scene);
    names = post::write_field_files(folder, sample, layout, solved.result, revolve);
  }
  post::make_folder(folder);
  if (!solved.result.frequencies.empty())
  {
    const std::vector<std::string> more = write_frequency_files(folder, solved.result);
    names.insert(names.end(), more.begin(), more.end());
  }
  if (solved.result.capacitances)
  {
    names.emplace_back("capacitance.csv");
    post::write_text(folder / names.back(), post::capacitance_table(*solved.result.capacitances));
  }
  if (!solved.result.bias.points.empty())
  {
    const std::vector<std::string> more =
        write_bias_files(folder, solved.read.title, solved.result.bias);
    names.insert(names.end(), more.begin(), more.end());
  }
  if (!solved.result.heat.points.empty())
  {
    const std::size_t point = post::warmest(solved.result.heat);
    const std::vector<std::string> more = post::write_warm_files(
        folder,
        post::sampled(post::heat_field(solved.read.problem, solved.result, point), smooth_cuts),
        mesh::layout(post::with_envelopes(solved.read.problem.scene)), solved.result, point);
    names.insert(names.end(), more.begin(), more.end());
  }
  names.push_back("result.json");
  for (const std::string& name : names)
  {
    solved.result.files.push_back((folder / name).string());
  }
  post::write_text(folder / "result.json", post::json(solved.result));
}

int status(std::span<const Solved> all)
{
  const bool reached = std::all_of(
      all.begin(), all.end(),
      [](const Solved& one)
      {
        return one.result.accuracy_reached &&
               std::ranges::all_of(one.result.frequencies,
                                   &post::FrequencyResult::accuracy_reached) &&
               std::ranges::all_of(
                   one.result.windings, [](const post::WindingResult& winding)
                   { return !winding.capacitance || winding.capacitance->accuracy_reached; }) &&
               std::ranges::all_of(one.result.heat.points, &post::HeatPoint::accuracy_reached) &&
               std::ranges::all_of(one.result.bias.points, &post::BiasPoint::accuracy_reached);
      });
  return reached ? done : quality_unreached;
}

} // namespace cases
