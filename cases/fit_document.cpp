// The document of `fit`, key by key; an open end is null.
#include "cases/fit_report.hpp"
#include "post/version.hpp"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

using Json = nlohmann::ordered_json;

Json number(double value)
{
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json ends(const post::Interval& interval)
{
  return {{"lower", number(interval.lower)}, {"upper", number(interval.upper)}};
}

Json document(const post::MonteCarlo& drawn, std::uint64_t seed)
{
  return {{"draws", drawn.draws},
          {"seed", seed},
          {"open_below", drawn.minus_infinite},
          {"open_above", drawn.plus_infinite},
          {"mean", drawn.mean ? number(*drawn.mean) : Json(nullptr)},
          {"standard_uncertainty",
           drawn.standard_uncertainty ? number(*drawn.standard_uncertainty) : Json(nullptr)},
          {"median", number(drawn.median)},
          {"symmetric", ends(drawn.symmetric)},
          {"shortest", ends(drawn.shortest)}};
}

Json document(const post::Fitted& fitted, const post::FitOptions& options)
{
  Json one = {{"value", fitted.value ? number(*fitted.value) : Json(nullptr)}};
  one.update(ends(fitted.interval));
  if (fitted.first)
  {
    one["first_order"] = {{"standard_uncertainty", number(fitted.first->standard_uncertainty)},
                          {"coverage_factor", number(fitted.first->coverage_factor)}};
    one["first_order"].update(ends(fitted.first->interval));
  }
  one["monte_carlo"] = document(fitted.drawn, options.seed);
  one["first_order_agrees"] = fitted.agreement ? Json(fitted.agreement->agree) : Json(nullptr);
  return one;
}

Json budget(const post::FitResult& result)
{
  Json rows = Json::array();
  for (const post::Contribution& one : result.budget)
  {
    rows.push_back({{"input", one.input},
                    {"share", number(one.share)},
                    {"standard_uncertainty", number(one.standard_uncertainty)},
                    {"sensitivity", number(one.sensitivity)},
                    {"contribution", number(one.contribution)}});
  }
  return rows;
}

Json document(const FitReport& report, std::size_t i)
{
  const FitGroup& group = report.asked.groups[i];
  const post::FitResult& result = report.results[i];
  Json one = {{"sample", group.sample}, {"frequency_Hz", number(group.frequency)}};
  if (result.impossible)
  {
    Json slips = Json::array();
    for (const Slip& slip : report.slips[i])
    {
      slips.push_back(slip.what);
    }
    one["impossible"] = {{"below", result.impossible->below},
                         {"inductance_H", number(result.impossible->reached)},
                         {"limit_H", number(result.impossible->limit)},
                         {"likely", slips}};
    return one;
  }
  one["unknown"] = document(result.unknown, report.options);
  one["budget"] = budget(result);
  one["budget_of"] =
      std::isfinite(result.unknown.interval.lower) && std::isfinite(result.unknown.interval.upper)
          ? "unknown"
          : "logarithm of inductance";
  one["sensitivity"] = number(result.sensitivity);
  one["bracket_half_width"] = number(result.bracket);
  if (group.readings.size() > 1)
  {
    one["readings_apart"] = number(result.spread);
  }
  if (result.imaginary)
  {
    one["imaginary_permeability"] = document(*result.imaginary, report.options);
    one["imaginary_permeability"]["winding_loss_removed"] = group.winding_loss_known;
  }
  return one;
}

} // namespace

std::string fit_document(const FitReport& report)
{
  const post::FitResult& first = report.results.front();
  const bool possible = std::ranges::none_of(report.results, [](const post::FitResult& one)
                                             { return one.impossible.has_value(); });
  Json all = {{"tool", "ferrule"},
              {"version", std::string(post::version())},
              {"title", report.asked.read.title},
              {"status", possible ? "ok" : "reading impossible"}};
  all["unknown"] = {{"key", report.asked.question.key},
                    {"value", first.unknown.value && !first.impossible
                                  ? number(*first.unknown.value)
                                  : Json(nullptr)}};
  all["unknown"].update(first.impossible ? ends({-post::endless, post::endless})
                                         : ends(first.unknown.interval));
  all["coverage"] = report.options.coverage;
  all["budget"] = budget(first);
  all["samples"] = Json::array();
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    all["samples"].push_back(document(report, i));
  }
  Json ideas = Json::array();
  for (const post::SampleIdea& idea : report.ideas)
  {
    Json one = {{"sample", idea.what}, {"inductance_H", number(idea.inductance)}};
    one.update(ends(idea.interval));
    one["bounded"] = idea.bounded;
    ideas.push_back(one);
  }
  if (!report.ideas.empty())
  {
    all["better_samples"] = {{"assumed_permeability", number(report.assumed)},
                             {"reading_tolerance", number(report.tolerance)},
                             {"samples", ideas}};
  }
  all["files"] = report.files;
  return all.dump(2) + "\n";
}

} // namespace cases
