// `ferrule sweep --model FILE`: points read from a kept model, without any case.
#include "cases/sweep_model.hpp"

#include "cases/fault.hpp"
#include "cases/limits.hpp"
#include "cases/request.hpp"

#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>

namespace cases
{

namespace
{

post::KeptModel read_model(const std::filesystem::path& path)
{
  const std::string text = read_text(path);
  try
  {
    return post::kept_model(text);
  }
  catch (const std::runtime_error& error)
  {
    throw CaseError(
        {{{path.string()}, error.what(), "give a model.json that ferrule sweep wrote"}});
  }
}

/// The material of the model that a key moves.
std::size_t material_of(const std::string& key, const post::KeptModel& kept,
                        const SourcePlace& where)
{
  std::vector<std::string> keys;
  for (const solver::VariedMaterial& one : kept.model.varied)
  {
    keys.push_back(fmt::format("materials.{}.permeability", one.material));
  }
  const auto found = std::ranges::find(keys, key);
  if (found == keys.end())
  {
    throw CaseError({{where, fmt::format("the model does not leave {} open", key),
                      fmt::format("it leaves {} open", in_words(keys))}});
  }
  return static_cast<std::size_t>(found - keys.begin());
}

void check_range(const Varied& varied)
{
  for (const VariedValue& value : varied.values)
  {
    if (!varied.numeric || varied.kind != Kind::number ||
        !(value.si >= relative_permeability.low) || value.si > relative_permeability.high)
    {
      throw CaseError({{varied.where, fmt::format("{} is no permeability", in_quotes(value.text)),
                        relative_permeability.bounds}});
    }
  }
}

} // namespace

SweepReport from_model(const SweepAsked& asked, const Options& options)
{
  post::KeptModel kept = read_model(asked.model);
  kept.accuracy_asked = options.accuracy.value_or(kept.accuracy_asked);
  SweepReport report;
  report.title = kept.title;
  const std::span<const std::string> known = shown_words().first(3);
  if (!asked.show.empty() && std::ranges::find(known, asked.show) == known.end())
  {
    usage_fault("a kept model has no " + asked.show, "write --show " + in_words(known, "or"));
  }
  report.show = asked.show.empty() ? shown_words().front() : asked.show;
  report.accuracy_asked = kept.accuracy_asked;
  const std::size_t materials = kept.model.varied.size();
  std::vector<std::size_t> moved_by(materials, materials);
  std::size_t count = 1;
  for (const std::string& typed : asked.vary)
  {
    report.varied.push_back(varied(typed));
    check_range(report.varied.back());
    count *= report.varied.back().values.size();
    for (const std::string& key : report.varied.back().keys)
    {
      moved_by[material_of(key, kept, report.varied.back().where)] = report.varied.size() - 1;
    }
  }
  for (std::size_t q = 0; q < materials; ++q)
  {
    if (moved_by[q] == materials)
    {
      usage_fault(
          fmt::format("the model leaves the permeability of {} open",
                      kept.model.varied[q].material),
          fmt::format("add --vary materials.{}.permeability=VALUE", kept.model.varied[q].material));
    }
  }
  if (count > most_points)
  {
    usage_fault(fmt::format("the sweep has more than {} points", most_points), "vary fewer values");
  }
  for (std::size_t i = 0; i < count; ++i)
  {
    const std::vector<std::size_t> at = indices(report.varied, i);
    std::vector<double> mu;
    for (const std::size_t k : moved_by)
    {
      mu.push_back(report.varied[k].values[at[k]].si);
    }
    report.swept.points.push_back(post::at(kept, mu));
  }
  report.swept.models.push_back(std::move(kept));
  return report;
}

Options files_if_out(Options options)
{
  options.files = options.files && !options.out.empty();
  return options;
}

} // namespace cases
