// `ferrule sweep --model FILE`: points read from a kept model, without any case.
#include "cases/sweep_model.hpp"

#include "cases/fault.hpp"
#include "cases/limits.hpp"
#include "cases/request.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <complex>
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

/// What a key moves of a model: a material's permeability, or the imaginary part of it.
struct Moved
{
  std::size_t material = 0;
  bool imaginary = false;
};

Moved moved_by_key(const std::string& key, const post::KeptModel& kept, const SourcePlace& where)
{
  std::vector<std::string> keys;
  for (std::size_t q = 0; q < kept.model.varied.size(); ++q)
  {
    const std::string own = fmt::format("materials.{}.permeability", kept.model.varied[q].material);
    if (key == own || (kept.impedance && key == own + ".real"))
    {
      return {q, false};
    }
    if (kept.impedance && key == own + ".imaginary")
    {
      return {q, true};
    }
    keys.push_back(own);
    if (kept.impedance)
    {
      keys.push_back(own + ".imaginary");
    }
  }
  throw CaseError({{where, fmt::format("the model does not leave {} open", key),
                    fmt::format("it leaves {} open", in_words(keys))}});
}

void check_range(const Varied& varied, const Wanted& wanted)
{
  for (const VariedValue& value : varied.values)
  {
    if (!varied.numeric || varied.kind != Kind::number || !(value.si >= wanted.low) ||
        value.si > wanted.high)
    {
      throw CaseError({{varied.where, fmt::format("{} is no permeability", in_quotes(value.text)),
                        wanted.bounds}});
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
  std::vector<std::string> known(shown_words().begin(), shown_words().begin() + 3);
  if (kept.impedance)
  {
    known.insert(known.begin(), {"inductance_at_frequency", "resistance", "quality"});
  }
  if (!asked.show.empty() && std::ranges::find(known, asked.show) == known.end())
  {
    usage_fault("a kept model has no " + asked.show, "write --show " + in_words(known, "or"));
  }
  report.show = asked.show.empty() ? known.front() : asked.show;
  report.accuracy_asked = kept.accuracy_asked;
  const std::size_t materials = kept.model.varied.size();
  const std::size_t none = asked.vary.size();
  std::vector<std::size_t> real_by(materials, none), imaginary_by(materials, none);
  std::size_t count = 1;
  for (const std::string& typed : asked.vary)
  {
    report.varied.push_back(varied(typed));
    count *= report.varied.back().values.size();
    for (const std::string& key : report.varied.back().keys)
    {
      const Moved moved = moved_by_key(key, kept, report.varied.back().where);
      check_range(report.varied.back(),
                  moved.imaginary ? imaginary_permeability : relative_permeability);
      (moved.imaginary ? imaginary_by : real_by)[moved.material] = report.varied.size() - 1;
    }
  }
  for (std::size_t q = 0; q < materials; ++q)
  {
    if (real_by[q] == none)
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
    const auto value = [&](std::size_t k)
    { return k == none ? 0.0 : report.varied[k].values[at[k]].si; };
    std::vector<std::complex<double>> mu;
    for (std::size_t q = 0; q < materials; ++q)
    {
      mu.emplace_back(value(real_by[q]), -value(imaginary_by[q]));
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
