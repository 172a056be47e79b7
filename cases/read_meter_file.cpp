// [[meter_files]]: the keys of one, and the file it names.
#include "cases/meter_file.hpp"

#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <fmt/format.h>

namespace cases
{
namespace
{

namespace fs = std::filesystem;

/// The text of the file named, or nothing with a fault.
std::optional<std::string> text_of(Section& section, const fs::path& path)
{
  constexpr std::uintmax_t most_bytes = 1 << 20;
  std::error_code error;
  if (!fs::exists(path, error))
  {
    std::vector<std::string> names;
    const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
    for (const fs::directory_entry& entry : fs::directory_iterator(folder, error))
    {
      if (entry.path().extension() == ".csv")
      {
        names.push_back(entry.path().filename().string());
      }
    }
    section.fault_at("file", fmt::format("is {}, which is not there", section.written("file")),
                     did_you_mean(path.filename().string(), names,
                                  "files are looked for beside the reading file"));
    return std::nullopt;
  }
  if (fs::is_regular_file(path, error) && fs::file_size(path, error) > most_bytes)
  {
    section.fault_at("file",
                     fmt::format("is {}, which is larger than 1 MiB", section.written("file")),
                     "cut it to the rows that count");
    return std::nullopt;
  }
  try
  {
    return read_text(path);
  }
  catch (const CaseError& fault)
  {
    section.faults().insert(section.faults().end(), fault.faults().begin(), fault.faults().end());
    return std::nullopt;
  }
}

} // namespace

std::vector<Reading> read_meter_file(Section& section, const fs::path& path)
{
  const auto name = read_word(section, "file", "batch.csv", true);
  MeterFile file;
  file.winding = read_word(section, "winding", "coil", true).value_or("");
  file.sample = read_word(section, "sample", "tube 3", false);
  for (const auto& [key, value] : {std::pair("frequency", &file.frequency), {"at", &file.at}})
  {
    section.at(key);
    *value = section.has(key) ? section.needed(key, read_frequency) : std::nullopt;
  }
  file.tolerances = read_impedance_tolerances(section);
  file.leads = read_leads(section, file.frequency ? file.frequency : file.at, true);
  for (const char* key : {"inductance", "resistance", "quality_factor", "dissipation_factor"})
  {
    section.misplaced(key, "stands in the file, one a row", "leave it out");
  }
  section.misplaced("circuit", "is told by the file's columns", "leave it out");
  section.finish("a meter's file");
  const auto text = name ? text_of(section, path.parent_path() / *name) : std::nullopt;
  if (!text)
  {
    return {};
  }
  const std::size_t before = section.faults().size();
  CsvTable table = csv_table(*text, (path.parent_path() / *name).string(), section.faults());
  if (table.header.empty())
  {
    return {};
  }
  if (table.rows.empty() && section.faults().size() == before)
  {
    section.faults().push_back(
        {{table.file}, "the file holds no rows below its header", "give it one a reading"});
    return {};
  }
  return readings(std::move(table), file, section);
}

} // namespace cases
