// An impedance as a meter shows it, from the keys of one table.
#include "cases/reading_keys.hpp"

#include "cases/wording.hpp"

#include <array>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::array<Loss, 3> losses = {Loss::resistance, Loss::quality_factor,
                                        Loss::dissipation_factor};

const Wanted& wanted_of(Loss loss, Circuit circuit)
{
  switch (loss)
  {
  case Loss::quality_factor:
    return read_quality_factor;
  case Loss::dissipation_factor:
    return read_dissipation_factor;
  case Loss::resistance:
  case Loss::none:
    break;
  }
  return circuit == Circuit::series ? series_resistance : parallel_resistance;
}

Circuit read_circuit(Section& section)
{
  static const std::vector<std::string> circuits = {"series", "parallel"};
  section.misplaced("parallel", "is no key of its own",
                    "write circuit = \"parallel\" for Lp, \"series\" for Ls");
  return section.choice("circuit", circuits) == "parallel" ? Circuit::parallel : Circuit::series;
}

/// The one loss a section gives; of several the first, with a fault.
Loss given_loss(Section& section)
{
  Loss given = Loss::none;
  for (const Loss loss : losses)
  {
    section.at(key_of(loss));
    if (!section.has(key_of(loss)))
    {
      continue;
    }
    if (given != Loss::none)
    {
      section.fault_at(key_of(loss), fmt::format("comes on top of {}", key_of(given)),
                       "keep one of the two");
      continue;
    }
    given = loss;
  }
  return given;
}

} // namespace

std::string_view key_of(Loss loss)
{
  switch (loss)
  {
  case Loss::resistance:
    return "resistance";
  case Loss::quality_factor:
    return "quality_factor";
  case Loss::dissipation_factor:
    return "dissipation_factor";
  case Loss::none:
    break;
  }
  return "";
}

ImpedanceTolerances read_impedance_tolerances(Section& section)
{
  static constexpr std::array of_inductance = {Kind::inductance};
  static constexpr std::array of_resistance = {Kind::resistance};
  static constexpr std::array of_number = {Kind::number};
  ImpedanceTolerances tolerances;
  if (!section.has("tolerance"))
  {
    section.at("tolerance");
    section.missing("tolerance", "\"1 %\"");
  }
  tolerances.inductance =
      read_tolerance(section, "tolerance", of_inductance).value_or(ToleranceText{});
  for (const Loss loss : losses)
  {
    const std::string key = fmt::format("{}_tolerance", key_of(loss));
    const bool here = section.has(key);
    const auto read =
        read_tolerance(section, key, loss == Loss::resistance ? of_resistance : of_number);
    if (here && tolerances.loss != Loss::none)
    {
      section.fault_at(key, fmt::format("comes on top of {}_tolerance", key_of(tolerances.loss)),
                       "keep one of the two");
    }
    else if (here)
    {
      tolerances.loss = loss;
      tolerances.loss_value = read.value_or(ToleranceText{});
    }
  }
  tolerances.spread = read_spread(section);
  return tolerances;
}

std::optional<SeriesImpedance> read_impedance(Section& section, std::optional<double> frequency)
{
  AsRead as_read;
  as_read.circuit = read_circuit(section);
  const auto inductance = section.needed("inductance", read_inductance);
  as_read.loss = given_loss(section);
  const auto loss =
      as_read.loss == Loss::none
          ? std::optional(0.0)
          : section.needed(key_of(as_read.loss), wanted_of(as_read.loss, as_read.circuit));
  const ImpedanceTolerances tolerances = read_impedance_tolerances(section);
  if (as_read.circuit == Circuit::parallel && as_read.loss == Loss::none)
  {
    section.fault_at("circuit", "is \"parallel\", which alone says nothing of the series one",
                     "add resistance, quality_factor or dissipation_factor");
    return std::nullopt;
  }
  if (tolerances.loss != Loss::none && tolerances.loss != as_read.loss)
  {
    section.fault_at(fmt::format("{}_tolerance", key_of(tolerances.loss)),
                     fmt::format("has no {} to belong to", key_of(tolerances.loss)),
                     fmt::format("give {}, or leave the tolerance out", key_of(tolerances.loss)));
    return std::nullopt;
  }
  if (!inductance || !loss || !frequency)
  {
    return std::nullopt;
  }
  as_read.frequency = *frequency;
  as_read.inductance = {*inductance, tolerances.inductance.half_width(*inductance)};
  as_read.loss_value = {*loss, tolerances.loss_value.half_width(*loss)};
  return in_series(as_read, tolerances.spread.spread, tolerances.spread.coverage_factor);
}

LeadKeys read_leads(Section& section, std::optional<double> frequency, bool must)
{
  static constexpr Wanted lead_inductance{Kind::inductance, 0.0, 1.0,
                                          "lead inductances run from 0 to 1 H", "\"0.3 uH\""};
  static constexpr std::array of_inductance = {Kind::inductance};
  LeadKeys keys;
  section.at("bare_coil");
  section.at("lead_inductance");
  const auto tolerance = read_tolerance(section, "lead_tolerance", of_inductance);
  if (section.has("lead_tolerance") && !section.has("lead_inductance"))
  {
    section.fault_at("lead_tolerance", "has no lead_inductance to belong to",
                     "give lead_inductance, or leave the tolerance out");
  }
  if (section.has("lead_inductance"))
  {
    const auto value = section.value("lead_inductance", lead_inductance, 0.0).value_or(0.0);
    keys.lead = SeriesImpedance{};
    keys.lead->inductance = value;
    keys.lead->inductance_tolerance.value = tolerance.value_or(ToleranceText{}).half_width(value);
  }
  if (auto bare = section.table("bare_coil", "{ inductance = \"20.4 uH\", tolerance = \"1 %\" }"))
  {
    if (bare->has("frequency") || (must && !frequency))
    {
      frequency = bare->needed("frequency", read_frequency);
    }
    bare->at("frequency");
    keys.bare_coil = read_impedance(*bare, frequency);
    bare->finish("a bare coil's reading");
    if (section.has("lead_inductance"))
    {
      section.fault_at("bare_coil", "comes on top of lead_inductance",
                       "keep one of the two: a bare coil's reading holds the leads");
    }
  }
  return keys;
}

std::optional<std::string> read_word(Section& section, std::string_view key,
                                     std::string_view example, bool must)
{
  if (!section.has(key))
  {
    section.at(key);
    if (must)
    {
      section.missing(key, in_quotes(example));
    }
    return std::nullopt;
  }
  auto word = section.text(key, {});
  if (word && word->find_first_not_of(" \t") == std::string::npos)
  {
    section.fault_at(key, "is blank", fmt::format("write e.g. {} = {}", key, in_quotes(example)));
    return std::nullopt;
  }
  if (word && word->find_first_of("\n\r") != std::string::npos)
  {
    section.fault_at(key, fmt::format("must be one line, got {}", in_quotes(*word)));
    return std::nullopt;
  }
  if (word && holds_control(*word))
  {
    section.fault_at(key, fmt::format("has a control character, got {}", in_quotes(*word)));
    return std::nullopt;
  }
  return word;
}

} // namespace cases
