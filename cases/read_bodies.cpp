// What parts and windings have in common: a name, a place, a material, a coating.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::size_t most_bodies = 500;

/// "parts.core", or "parts[2]" for a table without a name of its own.
std::string body_path(std::string_view list, std::size_t index, const Entries& table)
{
  const Entry* name = find(table, "name");
  const auto* text = name ? std::get_if<std::string>(&name->node.value) : nullptr;
  const bool usable =
      text && !text->empty() && text->find('.') == std::string::npos && !holds_control(*text);
  return usable ? fmt::format("{}.{}", list, *text) : fmt::format("{}[{}]", list, index);
}

} // namespace

std::string at_line(const SourcePlace& where)
{
  return where.line > 0 ? fmt::format(" at line {}", where.line) : std::string();
}

std::vector<Section> sections(Section& top, std::string_view key)
{
  std::vector<Section> found;
  const Node* node = top.at(key);
  const auto* list = node ? std::get_if<List>(&node->value) : nullptr;
  if (node && !list)
  {
    top.fault_at(key, fmt::format("must be a list of tables, got {}", as_written(*node)),
                 fmt::format("write [[{}]] above each", key));
    return found;
  }
  for (std::size_t i = 0; list && i < list->size(); ++i)
  {
    const Node& element = (*list)[i];
    if (i == most_bodies)
    {
      top.faults().push_back({element.where, fmt::format("{} are {}", key, list->size()),
                              fmt::format("this version takes at most {}", most_bodies)});
      break;
    }
    if (const auto* table = std::get_if<Entries>(&element.value))
    {
      found.emplace_back(*table, element.where, body_path(key, i, *table), top.faults());
      continue;
    }
    top.faults().push_back(
        {element.where, fmt::format("{}[{}] must be a table, got {}", key, i, as_written(element)),
         fmt::format("write [[{}]] above each", key)});
  }
  return found;
}

std::string checked_name(Section& section, std::string_view example)
{
  const auto name = section.needed_text("name", example);
  if (!name)
  {
    return {};
  }
  const auto wrong = [&](std::string_view why, const std::string& cure)
  {
    section.fault_at("name", std::string(why), cure);
    return std::string();
  };
  if (name->find_first_not_of(" \t") == std::string::npos)
  {
    return wrong("is empty", fmt::format("write e.g. name = {}", in_quotes(example)));
  }
  if (name->find('.') != std::string::npos)
  {
    std::string without = *name;
    std::ranges::replace(without, '.', '-');
    return wrong(fmt::format("has a dot, got {}", in_quotes(*name)),
                 fmt::format("dots join keys; write e.g. {}", in_quotes(without)));
  }
  if (holds_control(*name))
  {
    return wrong(fmt::format("has a control character, got {}", in_quotes(*name)),
                 "use letters, digits, - and _");
  }
  if (*name == "air")
  {
    return wrong("is \"air\", which means the open space", "choose another name");
  }
  return *name;
}

Body* enter(Draft& draft, Section& section, const std::string& name)
{
  if (name.empty())
  {
    return nullptr;
  }
  const auto [entry, fresh] = draft.bodies.try_emplace(name, Body{section.path(), section.where()});
  if (fresh)
  {
    return &entry->second;
  }
  section.faults().push_back(
      {section.place("name"),
       fmt::format("{} {} is taken by {}{}", section.path("name"), in_quotes(name),
                   entry->second.path, at_line(entry->second.where)),
       "names are unique among parts and windings"});
  return nullptr;
}

std::optional<double> read_centre(Section& section, Body* body)
{
  const Node* node = section.at("centre");
  if (node == nullptr || !std::holds_alternative<Entries>(node->value))
  {
    return section.value("centre", axial_position, 0.0);
  }
  Section centre = *section.table("centre");
  const bool above = centre.at("above") != nullptr;
  const bool below = centre.at("below") != nullptr;
  const auto gap = centre.value("gap", gap_or_thickness, 0.0);
  centre.finish("a centre");
  if (above == below)
  {
    centre.fault(above ? "has both above and below" : "names no neighbour",
                 above ? "keep one of them" : "write e.g. { above = \"core\", gap = \"0.5 mm\" }");
    return std::nullopt;
  }
  const auto name = centre.text(above ? "above" : "below", {});
  if (!name || !gap)
  {
    return std::nullopt;
  }
  if (body)
  {
    body->neighbour = Neighbour{*name, above, *gap, centre.place(above ? "above" : "below")};
  }
  return 0.0;
}

std::optional<std::string> read_material(const Draft& draft, Section& section)
{
  const auto own = std::ranges::find_if(draft.materials, [](const std::string& material)
                                        { return material != "air" && material != "copper"; });
  auto name = section.needed_text("material", own == draft.materials.end() ? "copper" : *own);
  if (!name || draft.materials.contains(*name))
  {
    return name;
  }
  const std::vector<std::string> known(draft.materials.begin(), draft.materials.end());
  section.fault_at("material",
                   fmt::format("names no material of this case, got {}", in_quotes(*name)),
                   did_you_mean(*name, known,
                                fmt::format("add a table [materials.{}], or use {}", *name,
                                            in_words(known, "or"))));
  return std::nullopt;
}

std::optional<mesh::Coating> read_coating(const Draft& draft, Section& section, bool& sound)
{
  const bool given = section.has("coating");
  auto coating = section.table("coating", "{ material = \"copper\", thickness = \"0.5 mm\" }");
  if (!coating)
  {
    sound = sound && !given;
    return std::nullopt;
  }
  const auto material = read_material(draft, *coating);
  const auto thickness = coating->needed("thickness", coating_thickness);
  coating->finish("a coating");
  if (!material || !thickness)
  {
    sound = false;
    return std::nullopt;
  }
  return mesh::Coating{*material, *thickness};
}

} // namespace cases
