// One value against what is wanted: its type, its unit, its bounds.
#include "cases/section.hpp"

#include "cases/wording.hpp"

#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

/// The number of a node in SI, or what is wrong with how it is written.
std::variant<double, Misread> in_si(const Node& node, const Wanted& wanted)
{
  const auto* text = std::get_if<std::string>(&node.value);
  const auto* number = std::get_if<double>(&node.value);
  const std::string example = fmt::format("write e.g. {}", wanted.example);
  if (wanted.kind != Kind::number)
  {
    if (text)
    {
      return quantity(*text, wanted.kind);
    }
    if (number && std::isfinite(*number))
    {
      return bare_number(written(*number), written(*number), wanted.kind);
    }
    return Misread{fmt::format("must be {}, got {}", noun(wanted.kind), as_written(node)), example};
  }
  if (number && std::isfinite(*number))
  {
    return *number;
  }
  if (number)
  {
    return Misread{fmt::format("must be a finite number, got {}", written(*number)), example};
  }
  if (text)
  {
    const auto inside = quantity(*text, Kind::number);
    if (std::holds_alternative<double>(inside))
    {
      return Misread{fmt::format("must be a number without quotes, got {}", in_quotes(*text)),
                     fmt::format("write {}", *text)};
    }
  }
  return Misread{fmt::format("must be a number, got {}", as_written(node)), example};
}

/// Why a number is out of bounds; empty where it is not.
std::string out_of_bounds(double si, const Wanted& wanted)
{
  if (si <= 0.0 && wanted.low > 0.0)
  {
    return "must be positive";
  }
  if (si < 0.0 && wanted.low == 0.0)
  {
    return "must not be negative";
  }
  if (si < wanted.low)
  {
    return "is too small";
  }
  if (si > wanted.high)
  {
    return "is too large";
  }
  return wanted.whole && si != std::floor(si) ? "must be a whole number" : "";
}

} // namespace

std::optional<double> checked(const Node& node, const std::string& path, const Wanted& wanted,
                              std::vector<Fault>& faults)
{
  const auto reading = in_si(node, wanted);
  if (const auto* misread = std::get_if<Misread>(&reading))
  {
    faults.push_back({node.where, fmt::format("{} {}", path, misread->what), misread->cure});
    return std::nullopt;
  }
  const double si = std::get<double>(reading);
  const std::string why = out_of_bounds(si, wanted);
  if (!why.empty())
  {
    faults.push_back(
        {node.where, fmt::format("{} {}, got {}", path, why, as_written(node)), wanted.bounds});
    return std::nullopt;
  }
  return si;
}

} // namespace cases
