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
#include "post/pending_file.hpp"

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
  std::string owner; ///< Winding or part; empty: the only one.
  std::string show;
  double value = 0.0;
};

Target target(const std::string& typed)
{
  const std::size_t equals = typed.find('=');
  const std::string name = typed.substr(0, equals);
  const std::size_t dot = name.rfind('.');
  Target made;
  made.owner = dot == std::string::npos ? "" : name.substr(0, dot);
  made.show = dot == std::string::npos ? name : name.substr(dot + 1);
  const SourcePlace where{"--seek " + name};
  if (equals == std::string::npos || !std::ranges::count(sought_words(), made.show))
  {
    throw CaseError({{{"ferrule"},
                      fmt::format("--seek is {}", in_quotes(typed)),
                      fmt::format("write [WINDING.]QUANTITY=VALUE with {}, e.g. inductance=100uH",
                                  in_words(sought_words(), "or"))}});
  }
  const std::string unit = quantity_of(made.show).unit;
  const Kind kind = unit == "H"     ? Kind::inductance
                    : unit == "ohm" ? Kind::resistance
                                    : Kind::number;
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

/// Those a quantity can be of.
std::vector<std::string> owners(const Case& read, const std::string& show)
{
  std::vector<std::string> names;
  if (show == "apparent_permeability_volume" || show == "magnetometric_factor")
  {
    for (const mesh::Part& one : read.problem.scene.parts)
    {
      names.push_back(one.name);
    }
    return names;
  }
  for (const mesh::Winding& one : read.problem.scene.windings)
  {
    names.push_back(one.name);
  }
  for (const Toroid& one : read.toroids)
  {
    names.push_back(one.name);
  }
  return names;
}

std::string owner(const Case& read, const Target& wanted)
{
  const std::vector<std::string> words = words_of(read);
  if (std::ranges::find(words, wanted.show) == words.end())
  {
    usage_fault(fmt::format("--seek {}: the case has none", wanted.show),
                fmt::format("it has {}", in_words(words)));
  }
  const std::vector<std::string> names = owners(read, wanted.show);
  if (std::ranges::find(names, wanted.owner) != names.end())
  {
    return wanted.owner;
  }
  if (wanted.owner.empty() && names.size() == 1)
  {
    return names.front();
  }
  const bool part = !names.empty() && read.problem.scene.windings.empty() && read.toroids.empty();
  const char* const noun = part ? "part" : "winding";
  usage_fault(wanted.owner.empty()
                  ? fmt::format("--seek {} does not say of which {}", wanted.show, noun)
                  : fmt::format("the case has no {} {}", noun, in_quotes(wanted.owner)),
              fmt::format("write e.g. --seek {}.{}=VALUE; the {}s are {}", names.front(),
                          wanted.show, noun, in_words(names)));
}

bool at_rest(const std::string& show)
{
  const std::span<const std::string> words = shown_words().first(3);
  return std::ranges::find(words, show) != words.end();
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
      const post::SweptPoint point = _model ? post::at(*_model, permeabilities(at))
                                            : solved_in_full(one_condition(read(at)), _threads);
      made.quantity = bounds(point);
      made.accuracy_reached = point.accuracy_reached;
      made.slope = _model ? ledger_slope(point, at) : turns_slope();
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
  Case read(double at) const
  {
    Case made = case_at(_report.searched, std::span(&_report.key, 1), std::span(&at, 1));
    if (at_rest(_report.show))
    {
      made.problem.frequencies.clear();
    }
    return made;
  }
  post::Bounded bounds(const post::SweptPoint& point) const
  {
    const auto found = shown(point, _report.owner, _report.show);
    if (!found || found->standing == post::Standing::estimated || !(found->value.value > 0.0))
    {
      throw CaseError({{{},
                        fmt::format("{} has no bounded {} there", _report.owner,
                                    quantity_of(_report.show).label),
                        ""}});
    }
    return found->value;
  }
  std::vector<double> permeabilities(double at) const
  {
    const solver::Problem made = read(at).problem;
    std::vector<double> list;
    for (const solver::VariedMaterial& one : _model->model.varied)
    {
      list.push_back(made.materials.at(one.material).permeability);
    }
    return list;
  }
  /// A material's energy share is d ln L / d ln mu; its rule gives d ln mu / d ln key.
  std::optional<double> ledger_slope(const post::SweptPoint& point, double at) const
  {
    const post::WindingResult& winding =
        *std::ranges::find(point.windings, _report.owner, &post::WindingResult::name);
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
                     _report.key.keys == std::vector{"windings." + _report.owner + ".turns"};
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
  post::make_folder(folder);
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
  const Case own =
      case_at(report.searched, std::span(&report.key, 1), std::span(&report.key.own, 1));
  report.owner = owner(own, wanted);
  report.show = wanted.show;
  report.accuracy_asked = own.problem.accuracy;
  expect_room({file}, options);

  // 2. Key -> brackets: one reduced model for a material's, else a solution a value.
  progress.step("solving");
  const std::vector<std::string> materials = materials_moved(report.key);
  std::optional<post::KeptModel> kept;
  if (!materials.empty() && materials.size() <= 3 && !asked.full && at_rest(report.show) &&
      !own.problem.scene.windings.empty())
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
