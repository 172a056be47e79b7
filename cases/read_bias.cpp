// `[drive] bias`: one current, a list, or an even range of so many.
#include "cases/bodies.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr std::size_t most_points = 1000;
constexpr Wanted bias_points{
    Kind::number, 2.0, static_cast<double>(most_points), "a range has 2 to 1000 points",
    "21",         true};

std::vector<double> read_range(Section& drive)
{
  auto table = drive.table("bias");
  const auto from = table->needed("from", current);
  const auto to = table->needed("to", current);
  const auto count = table->needed("count", bias_points);
  table->finish("a range of currents");
  std::vector<double> list;
  for (int i = 0; from && to && count && i < static_cast<int>(*count); ++i)
  {
    list.push_back(*from + (*to - *from) * i / (*count - 1.0));
  }
  if (from && to && *from == *to)
  {
    table->fault_at("to", "equals from", "a range has two ends");
  }
  return list;
}

} // namespace

std::vector<double> read_bias(Section& drive)
{
  const Node* node = drive.at("bias");
  if (node == nullptr)
  {
    return {};
  }
  if (std::holds_alternative<Entries>(node->value))
  {
    return read_range(drive);
  }
  std::vector<double> list;
  const auto* nodes = std::get_if<List>(&node->value);
  if (!nodes)
  {
    const auto one = drive.needed("bias", current);
    return one ? std::vector{*one} : list;
  }
  if (nodes->empty() || nodes->size() > most_points)
  {
    drive.fault_at("bias", "must be 1 to 1000 currents", "write e.g. [\"1 A\", \"2 A\"]");
    return {};
  }
  for (std::size_t i = 0; i < nodes->size(); ++i)
  {
    if (const auto one = checked((*nodes)[i], fmt::format("{}[{}]", drive.path("bias"), i), current,
                                 drive.faults()))
    {
      list.push_back(*one);
    }
  }
  return list;
}

} // namespace cases
