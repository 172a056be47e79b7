// Parts of a tolerance, each a share or a quantity, added up.
#include "cases/tolerance.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr Wanted coverage_of_half_width{
    Kind::number, 0.5, 10.0, "it is half-width over standard uncertainty, from 0.5 to 10", "2"};

/// "1.5 %" as 0.015, "80 ppm" as 8e-5; nothing for other texts.
std::optional<double> share(std::string_view text)
{
  double number = 0.0;
  const auto [stop, status] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (status != std::errc())
  {
    return std::nullopt;
  }
  std::string_view unit(stop, static_cast<std::size_t>(text.data() + text.size() - stop));
  unit.remove_prefix(std::min(unit.find_first_not_of(' '), unit.size()));
  unit = unit.substr(0, unit.find_last_not_of(' ') + 1);
  return unit == "%"     ? std::optional(number / 100.0)
         : unit == "ppm" ? std::optional(number * 1e-6)
                         : std::nullopt;
}

/// One part as it is being read.
class PartReader
{
public:
  PartReader(const Node& node, std::string path, std::span<const Kind> kinds,
             std::vector<Fault>& faults)
      : _node(node), _path(std::move(path)), _kinds(kinds), _faults(faults)
  {
  }

  /// Adds the part to the sum; false where it is at fault.
  bool add_to(ToleranceText& sum)
  {
    const auto* text = std::get_if<std::string>(&_node.value);
    if (const auto relative = text ? share(*text) : std::nullopt)
    {
      return judged(*relative, relative <= 1.0, "shares run from 0 to 100 %") &&
             (sum.relative += *relative, true);
    }
    for (const Kind kind : _kinds)
    {
      const auto absolute = in_kind(kind);
      if (!absolute)
      {
        continue;
      }
      if (sum.absolute_kind && sum.absolute_kind != kind)
      {
        refuse(fmt::format("adds {} to {}", noun(kind), noun(*sum.absolute_kind)),
               "keep to one of the two");
        return false;
      }
      sum.absolute_kind = kind;
      return judged(*absolute, true, "a tolerance is a half-width, 0 or more") &&
             (sum.absolute += *absolute, true);
    }
    refuse_unread();
    return false;
  }

private:
  std::optional<double> in_kind(Kind kind) const
  {
    if (kind == Kind::number)
    {
      const auto* number = std::get_if<double>(&_node.value);
      return number && std::isfinite(*number) ? std::optional(*number) : std::nullopt;
    }
    const auto* text = std::get_if<std::string>(&_node.value);
    const auto read = text ? quantity(*text, kind) : Misread{};
    const auto* si = std::get_if<double>(&read);
    return si ? std::optional(*si) : std::nullopt;
  }

  bool judged(double value, bool bounded, const std::string& bounds)
  {
    if (value >= 0.0 && bounded)
    {
      return true;
    }
    refuse(fmt::format("{}, got {}", value < 0.0 ? "must not be negative" : "is too large",
                       as_written(_node)),
           bounds);
    return false;
  }

  /// With one kind its own words tell best what is wrong.
  void refuse_unread()
  {
    const auto* text = std::get_if<std::string>(&_node.value);
    if (_kinds.size() == 1 && _kinds[0] != Kind::number && text)
    {
      const auto read = quantity(*text, _kinds[0]);
      const auto& misread = std::get<Misread>(read);
      refuse(misread.what, misread.cure + ", or %");
      return;
    }
    refuse(fmt::format("must be a share or {}, got {}",
                       _kinds.size() == 1 ? std::string(noun(_kinds[0])) : "a quantity",
                       as_written(_node)),
           _kinds.size() == 1 && _kinds[0] == Kind::number ? "write e.g. \"1 %\", or 0.5"
           : _kinds.size() == 1
               ? fmt::format("write e.g. \"1 %\", or a quantity in {}", unit_list(_kinds[0]))
               : "write e.g. \"1 %\", \"0.05 mm\", or 0.5 turns as a bare number");
  }

  void refuse(const std::string& what, const std::string& cure)
  {
    _faults.push_back({_node.where, fmt::format("{} {}", _path, what), cure});
  }

  const Node& _node;
  std::string _path;
  std::span<const Kind> _kinds;
  std::vector<Fault>& _faults;
};

} // namespace

double ToleranceText::half_width(double value) const
{
  return relative * std::abs(value) + absolute;
}

std::optional<ToleranceText> read_tolerance(Section& section, std::string_view key,
                                            std::span<const Kind> kinds)
{
  const Node* node = section.at(key);
  if (node == nullptr)
  {
    return std::nullopt;
  }
  ToleranceText sum;
  const auto* list = std::get_if<List>(&node->value);
  if (!list)
  {
    return PartReader(*node, section.path(key), kinds, section.faults()).add_to(sum)
               ? std::optional(sum)
               : std::nullopt;
  }
  if (list->empty())
  {
    section.fault_at(key, "is an empty list", "write e.g. [\"1 %\", \"0.2 uH\"]");
    return std::nullopt;
  }
  bool sound = true;
  for (std::size_t i = 0; i < list->size(); ++i)
  {
    const std::string path = fmt::format("{}[{}]", section.path(key), i);
    sound = PartReader((*list)[i], path, kinds, section.faults()).add_to(sum) && sound;
  }
  return sound ? std::optional(sum) : std::nullopt;
}

SpreadKeys read_spread(Section& section)
{
  static const std::vector<std::string> distributions = {"uniform", "normal"};
  SpreadKeys keys;
  const auto distribution = section.choice("distribution", distributions);
  if (distribution == "normal")
  {
    keys.spread = post::Spread::normal;
    keys.coverage_factor =
        section.value("coverage_factor", coverage_of_half_width, 2.0).value_or(2.0);
    return keys;
  }
  if (!distribution) // at fault; what goes with it is not judged
  {
    section.at("coverage_factor");
    return keys;
  }
  section.misplaced("coverage_factor", "belongs to a normal distribution",
                    "add distribution = \"normal\", or leave it out");
  return keys;
}

} // namespace cases
