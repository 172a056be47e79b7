// A reading file into readings and tolerances: table by table, all faults in one go.
#include "cases/reading.hpp"

#include "cases/bodies.hpp"
#include "cases/reading_keys.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace cases
{
namespace
{

/// A dotted key of the case, by its form alone.
std::optional<std::string> read_key(Section& section, const std::string& example)
{
  auto key = read_word(section, "key", example, true);
  const bool dotted = key && key->find('.') != std::string::npos && !key->starts_with('.') &&
                      !key->ends_with('.') && key->find("..") == std::string::npos;
  if (key && !dotted)
  {
    section.fault_at("key", fmt::format("names no value of a case, got {}", in_quotes(*key)),
                     fmt::format("write e.g. {}", in_quotes(example)));
    return std::nullopt;
  }
  return key;
}

void read_unknown(Readings& result, Section& top)
{
  auto unknown = top.table("unknown");
  if (!unknown)
  {
    if (!top.has("unknown"))
    {
      top.faults().push_back({{top.where().file},
                              "[unknown] is missing",
                              "say what is sought: [unknown] key = "
                              "\"materials.core.permeability\""});
    }
    return;
  }
  result.unknown = read_key(*unknown, "materials.core.permeability").value_or("");
  result.unknown_where = unknown->place("key");
  unknown->finish("[unknown]");
}

void read_one(Readings& result, Section& section)
{
  Reading reading;
  const auto winding = read_word(section, "winding", "coil", true);
  reading.sample = read_word(section, "sample", "tube 3", false).value_or("");
  const auto frequency = section.needed("frequency", read_frequency);
  const auto read = read_impedance(section, frequency);
  LeadKeys leads = read_leads(section, frequency);
  section.finish("a reading");
  if (winding && frequency && read)
  {
    reading.winding = *winding;
    reading.frequency = *frequency;
    reading.read = *read;
    reading.lead = leads.lead;
    reading.bare_coil = leads.bare_coil;
    reading.where = section.place("inductance");
    result.readings.push_back(std::move(reading));
  }
}

void read_case_tolerance(Readings& result, Section& section)
{
  static constexpr std::array kinds = {Kind::number,       Kind::length,      Kind::density,
                                       Kind::conductivity, Kind::temperature, Kind::current};
  const auto key = read_key(section, "parts.core.diameter");
  if (!section.has("tolerance"))
  {
    section.at("tolerance");
    section.missing("tolerance", "\"0.05 mm\"");
  }
  const auto tolerance = read_tolerance(section, "tolerance", kinds);
  const SpreadKeys spread = read_spread(section);
  section.finish("a tolerance");
  if (!key || !tolerance)
  {
    return;
  }
  if (key == result.unknown)
  {
    section.fault_at("key", fmt::format("{} is what is sought", in_quotes(*key)),
                     "leave this tolerance out");
    return;
  }
  const auto earlier = std::ranges::find(result.tolerances, *key, &CaseTolerance::key);
  if (earlier != result.tolerances.end())
  {
    section.fault_at(
        "key", fmt::format("{} has its tolerance{}", in_quotes(*key), at_line(earlier->where)),
        "add the two up in one list");
    return;
  }
  result.tolerances.push_back({*key, tolerance->relative, tolerance->absolute,
                               tolerance->absolute_kind.value_or(Kind::number), spread.spread,
                               spread.coverage_factor, section.place("key")});
}

/// Where one reading names its sample, all must.
void check_samples(const Readings& result, std::vector<Fault>& faults)
{
  const auto named =
      std::ranges::find_if(result.readings, [](const Reading& one) { return !one.sample.empty(); });
  if (named == result.readings.end())
  {
    return;
  }
  for (const Reading& reading : result.readings)
  {
    if (reading.sample.empty())
    {
      faults.push_back({reading.where, "this reading names no sample, others do",
                        fmt::format("add sample = {}", in_quotes(named->sample))});
    }
  }
}

/// Faults of the reading file from its top down, then those of the files it names.
void sort_by_place(std::vector<Fault>& faults, const std::string& file)
{
  const auto rank = [&](const Fault& fault)
  {
    return std::tuple(fault.where.file != file, fault.where.file, fault.where.line,
                      fault.where.column);
  };
  std::ranges::stable_sort(faults, {}, rank);
}

} // namespace

post::UncertainInput uncertain(std::string name, double estimate, const HalfWidth& tolerance)
{
  const bool normal = tolerance.spread == post::Spread::normal;
  return {std::move(name), estimate, tolerance.spread,
          normal ? tolerance.value / tolerance.coverage_factor : tolerance.value};
}

HalfWidth half_width(const CaseTolerance& tolerance, double value)
{
  return {tolerance.relative * std::abs(value) + tolerance.absolute, tolerance.spread,
          tolerance.coverage_factor};
}

Readings read_readings(const std::filesystem::path& path)
{
  const std::string file = path.string();
  const Node root = tree(read_text(path), file);
  Readings result;
  result.path = path;
  std::vector<Fault> faults;
  Section top(std::get<Entries>(root.value), {file}, "", faults);
  read_unknown(result, top);
  for (Section& section : sections(top, "readings"))
  {
    read_one(result, section);
  }
  for (Section& section : sections(top, "meter_files"))
  {
    const auto rows = read_meter_file(section, path);
    result.readings.insert(result.readings.end(), rows.begin(), rows.end());
  }
  for (Section& section : sections(top, "tolerances"))
  {
    read_case_tolerance(result, section);
  }
  top.finish("a reading file");
  check_samples(result, faults);
  if (result.readings.empty() && faults.empty())
  {
    faults.push_back({{file},
                      "the file holds no reading",
                      "add [[readings]], or [[meter_files]] for a meter's CSV file"});
  }
  if (!faults.empty())
  {
    sort_by_place(faults, file);
    throw CaseError(std::move(faults));
  }
  return result;
}

} // namespace cases
