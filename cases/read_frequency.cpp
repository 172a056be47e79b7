// `[drive] frequency`: one value, a list, or a range with so many points a decade; and the files
// that tables of materials are in.
#include "cases/bodies.hpp"
#include "cases/csv.hpp"
#include "cases/reading_keys.hpp"
#include "cases/text_file.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr Wanted points_a_decade{Kind::number, 1.0, 1000.0, "give 1 to 1000 points a decade",
                                 "10",         true};
constexpr std::size_t most_frequencies = 10000;

std::vector<double> range(double from, double to, double per_decade)
{
  // Logarithmically even, both ends among them, at least so many a decade.
  const double steps = std::max(1.0, std::ceil(std::log10(to / from) * per_decade - 1e-9));
  std::vector<double> list;
  for (int i = 0; i <= static_cast<int>(steps); ++i)
  {
    list.push_back(from * std::pow(to / from, i / steps));
  }
  list.back() = to;
  return list;
}

std::vector<double> read_range(Section& drive)
{
  auto table = drive.table("frequency");
  const auto from = table->needed("from", read_frequency);
  const auto to = table->needed("to", read_frequency);
  const auto per_decade = table->value("per_decade", points_a_decade, 10.0);
  table->finish("a range of frequencies");
  if (!from || !to || !per_decade)
  {
    return {};
  }
  if (!(*to > *from))
  {
    table->fault_at("to", fmt::format("must be above from, got {}", table->written("to")),
                    "a range runs upwards");
    return {};
  }
  std::vector<double> list = range(*from, *to, *per_decade);
  if (list.size() > most_frequencies)
  {
    table->fault("has more than 10000 points", "ask for fewer a decade");
    return {};
  }
  return list;
}

std::vector<double> read_list(Section& drive, const List& nodes)
{
  std::vector<double> list;
  for (std::size_t i = 0; i < nodes.size(); ++i)
  {
    const auto one = checked(nodes[i], fmt::format("{}[{}]", drive.path("frequency"), i),
                             read_frequency, drive.faults());
    if (one)
    {
      list.push_back(*one);
    }
  }
  if (nodes.empty())
  {
    drive.fault_at("frequency", "is an empty list", "write e.g. \"10 kHz\"");
  }
  std::ranges::sort(list);
  list.erase(std::unique(list.begin(), list.end()), list.end());
  return list;
}

} // namespace

std::vector<double> read_frequencies(Section& drive)
{
  const Node* node = drive.at("frequency");
  if (node == nullptr)
  {
    return {};
  }
  if (std::holds_alternative<Entries>(node->value))
  {
    return read_range(drive);
  }
  if (const auto* nodes = std::get_if<List>(&node->value))
  {
    return read_list(drive, *nodes);
  }
  const auto one = drive.needed("frequency", read_frequency);
  return one ? std::vector{*one} : std::vector<double>{};
}

std::optional<CsvTable> file_table(Section& section, std::string_view key, std::string_view example,
                                   const std::filesystem::path& case_file)
{
  const auto name = section.needed_text(key, example);
  if (!name)
  {
    return std::nullopt;
  }
  const std::filesystem::path path = case_file.parent_path() / *name;
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error))
  {
    section.fault_at(key, fmt::format("is {}, which is not there", section.written(key)),
                     "files are looked for beside the case file");
    return std::nullopt;
  }
  const std::size_t before = section.faults().size();
  CsvTable table = csv_table(read_text(path), path.string(), section.faults());
  return section.faults().size() > before ? std::nullopt : std::optional(std::move(table));
}

} // namespace cases
