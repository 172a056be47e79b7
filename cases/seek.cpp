// `ferrule sweep CASE --seek QUANTITY=VALUE --by KEY`: the value of a key that meets a target.
#include "cases/fault.hpp"
#include "cases/output.hpp"
#include "cases/pipeline.hpp"
#include "cases/progress.hpp"
#include "cases/ranks.hpp"
#include "cases/request.hpp"
#include "cases/seek_report.hpp"
#include "cases/sweep_points.hpp"
#include "cases/sweep_report.hpp"
#include "cases/units.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"
#include "post/files.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// "coil.inductance=100uH" taken apart, not yet set against a case.
struct Target
{
  std::string winding;
  std::string show;
  double value = 0.0;
};

Target target(const std::string& typed)
{
  const std::size_t equals = typed.find('=');
  const std::string name = typed.substr(0, equals);
  const std::size_t dot = name.rfind('.');
  Target made;
  made.winding = dot == std::string::npos ? "" : name.substr(0, dot);
  made.show = dot == std::string::npos ? name : name.substr(dot + 1);
  const SourcePlace where{"--seek " + name};
  if (equals == std::string::npos ||
      std::ranges::find(shown_words(), made.show) == shown_words().end())
  {
    throw CaseError({{{"ferrule"},
                      fmt::format("--seek is {}", in_quotes(typed)),
                      fmt::format("write [WINDING.]QUANTITY=VALUE with {}, e.g. inductance=100uH",
                                  in_words(shown_words(), "or"))}});
  }
  const Kind kind = *quantity_of(made.show).unit ? Kind::inductance : Kind::number;
  const std::string text = typed.substr(equals + 1);
  char* end = nullptr;
  const double number = std::strtod(text.c_str(), &end);
  const bool bare = end != text.c_str() && *end == '\0' && std::isfinite(number);
  if (bare && kind != Kind::number)
  {
    const Misread misread = bare_number(text, text, kind);
    throw CaseError({{where, misread.what, misread.cure}});
  }
  const auto read = quantity(text, kind);
  const double* const si = std::get_if<double>(&read);
  if (!si && !bare)
  {
    const Misread& misread = std::get<Misread>(read);
    throw CaseError({{where, misread.what, misread.cure}});
  }
  made.value = bare ? number : *si;
  if (!(made.value > 0.0))
  {
    throw CaseError({{where, fmt::format("must be above zero, got {}", in_quotes(text)),
                      "write e.g. inductance=100uH"}});
  }
  return made;
}

std::size_t winding_of(const solver::Problem& problem, const Target& wanted)
{
  std::vector<std::string> names;
  for (const mesh::Winding& one : problem.scene.windings)
  {
    names.push_back(one.name);
  }
  const auto found = std::ranges::find(names, wanted.winding);
  if (found != names.end())
  {
    return static_cast<std::size_t>(found - names.begin());
  }
  if (wanted.winding.empty() && names.size() == 1)
  {
    return 0;
  }
  usage_fault(wanted.winding.empty()
                  ? fmt::format("--seek {} does not say of which winding", wanted.show)
                  : fmt::format("the case has no winding {}", in_quotes(wanted.winding)),
              fmt::format("write e.g. --seek {}.{}=VALUE; the windings are {}", names.front(),
                          wanted.show, in_words(names)));
}

/// One reduced model for every value, where the key only moves permeabilities.
std::optional<post::KeptModel> model(const SeekReport& report,
                                     const std::vector<std::string>& names)
{
  const std::span<const SearchKey> key(&report.key, 1);
  std::vector<solver::Problem> ends;
  for (const double at : {report.key.from, report.key.to})
  {
    ends.push_back(problem_at(report.searched, key, std::span(&at, 1)));
  }
  const auto regions = mesh::layout(ends[0].scene).regions;
  std::vector<solver::VariedMaterial> varied;
  for (const std::string& name : names)
  {
    if (std::ranges::none_of(regions,
                             [&](const mesh::Region& one) { return one.material == name; }))
    {
      throw CaseError({{{"--by " + report.key.keys.front()},
                        fmt::format("no body is made of {}", name),
                        "name the material of a body"}});
    }
    const auto [from, to] = std::minmax(ends[0].materials.at(name).permeability,
                                        ends[1].materials.at(name).permeability);
    if (from < to)
    {
      varied.push_back({name, from, to});
    }
  }
  return varied.empty() ? std::nullopt
                        : std::optional(post::kept_model(ends[0], std::move(varied),
                                                         report.searched.options.threads));
}

/// Solves the case with the key at a value, one way or the other.
class Solver
{
public:
  Solver(const SeekReport& report, std::optional<post::KeptModel> model, int threads)
      : _report(report), _model(std::move(model)), _threads(threads)
  {
  }

  post::TriedValue operator()(double at) const
  {
    post::TriedValue made;
    made.at = at;
    try
    {
      const post::SweptPoint point =
          _model ? post::at(*_model, permeabilities(at)) : solved_in_full(problem(at), _threads);
      const post::WindingResult& winding = point.windings[_report.winding];
      made.quantity = shown(winding, _report.show);
      made.accuracy_reached = point.accuracy_reached;
      made.slope = _model ? ledger_slope(winding, at) : turns_slope();
    }
    catch (const CaseError& error)
    {
      made.fault = first_fault(error);
    }
    catch (const std::bad_alloc&)
    {
      throw;
    }
    catch (const std::exception& error)
    {
      made.fault = error.what();
    }
    return made;
  }

private:
  solver::Problem problem(double at) const
  {
    return problem_at(_report.searched, std::span(&_report.key, 1), std::span(&at, 1));
  }
  std::vector<double> permeabilities(double at) const
  {
    const solver::Problem made = problem(at);
    std::vector<double> list;
    for (const solver::VariedMaterial& one : _model->model.varied)
    {
      list.push_back(made.materials.at(one.material).permeability);
    }
    return list;
  }
  /// A material's energy share is d ln L / d ln mu; its rule gives d ln mu / d ln key.
  std::optional<double> ledger_slope(const post::WindingResult& winding, double at) const
  {
    constexpr double step = 1e-4;
    const double low = std::max(at * (1.0 - step), _report.key.from),
                 high = std::min(at * (1.0 + step), _report.key.to);
    const std::vector<double> below = permeabilities(low), above = permeabilities(high);
    double slope = 0.0;
    for (std::size_t q = 0; q < below.size(); ++q)
    {
      slope += winding.shares[q].second * std::log(above[q] / below[q]) / std::log(high / low);
    }
    return slope;
  }
  /// A plain section of so many turns has L ~ turns squared.
  std::optional<double> turns_slope() const
  {
    const bool own = !_report.key.whole && _report.show == shown_words().front() &&
                     _report.key.keys == std::vector{"windings." + _report.winding_name + ".turns"};
    return own ? std::optional(2.0) : std::nullopt;
  }

  const SeekReport& _report;
  std::optional<post::KeptModel> _model;
  int _threads;
};

/// Turns of a plain section can be any number, but are wound as whole ones.
void add_whole_turns(SeekReport& report)
{
  post::Sought& found = report.found;
  if (report.key.whole || !found.value || !report.key.keys.front().ends_with(".turns") ||
      !(*found.value >= 1.0))
  {
    return;
  }
  const double below = std::floor(*found.value);
  for (const double turns : {below, below + 1.0})
  {
    found.neighbours.push_back(report.question.tried(turns));
  }
}

void write_files(SeekReport& report, const std::filesystem::path& folder)
{
  std::filesystem::create_directories(folder);
  std::vector<std::string> names;
  if (const auto chart = seek_chart(report))
  {
    names = post::write_chart(folder, "seek", *chart);
  }
  names.emplace_back("seek.json");
  for (const std::string& name : names)
  {
    report.files.push_back((folder / name).string());
  }
  post::write_text(folder / "seek.json", seek_document(report));
}

} // namespace

int seek(const std::filesystem::path& file, const SweepAsked& asked, const Options& options)
{
  if (launched_ranks().rank > 0)
  {
    return done; // a search is one rank's work
  }
  Progress progress(!options.quiet);

  // 1. Command line and case -> target, key, and the range in which the case is sound.
  const Target wanted = target(asked.seek);
  SeekReport report;
  report.searched = search_case(file, options);
  report.key = search_key(report.searched, asked.by.front(), asked.between);
  const solver::Problem own =
      problem_at(report.searched, std::span(&report.key, 1), std::span(&report.key.own, 1));
  report.winding = winding_of(own, wanted);
  report.winding_name = own.scene.windings[report.winding].name;
  report.show = wanted.show;
  report.accuracy_asked = own.accuracy;

  // 2. Key -> brackets: one reduced model for a material's, else a solution a value.
  progress.step("solving");
  const std::vector<std::string> materials = materials_moved(report.key);
  std::optional<post::KeptModel> kept;
  if (!materials.empty() && materials.size() <= 3 && !asked.full)
  {
    kept = model(report, materials);
  }
  report.method = kept ? "Read from one reduced model; each bracket is guaranteed all the same."
                       : "Every value is solved in full.";
  const Solver solve(report, std::move(kept), 1);
  report.question = {wanted.value,   report.key.from,  report.key.to,
                     report.key.own, report.key.whole, std::cref(solve)};
  report.found = post::sought(report.question, options.threads);
  add_whole_turns(report);

  // 3. Numbers -> files, then one document or one report.
  if (options.files)
  {
    progress.step("writing the results folder");
    write_files(report, results_folder(file, options.out));
  }
  progress.wipe();
  if (options.json)
  {
    print(seek_document(report));
  }
  else if (!options.quiet)
  {
    print(seek_text(report));
  }
  return seek_status(report) == "ok" ? done : quality_unreached;
}

} // namespace cases
