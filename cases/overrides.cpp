// Finding the place a dotted key names, and putting the value there.
#include "cases/overrides.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace cases
{
namespace
{

constexpr std::array<std::string_view, 3> lists = {"parts", "windings", "probes"};

std::vector<std::string> pieces(std::string_view key)
{
  std::vector<std::string> found;
  for (std::size_t at = 0; at <= key.size();)
  {
    const std::size_t dot = std::min(key.find('.', at), key.size());
    found.emplace_back(key.substr(at, dot - at));
    at = dot + 1;
  }
  return found;
}

/// The key that leads nowhere, and why.
struct Astray
{
  std::string what;
  std::string cure;
};

std::string name_of(const Node& element)
{
  const auto* table = std::get_if<Entries>(&element.value);
  const Entry* name = table ? find(*table, "name") : nullptr;
  const auto* text = name ? std::get_if<std::string>(&name->node.value) : nullptr;
  return text ? *text : std::string();
}

/// "part" for "parts"
std::string_view one_of(std::string_view list)
{
  return list.substr(0, list.size() - 1);
}

Node& named_in_list(Node& list, const std::string& kind, const std::string& name)
{
  std::vector<std::string> names;
  if (auto* elements = std::get_if<List>(&list.value))
  {
    for (Node& element : *elements)
    {
      if (name_of(element) == name)
      {
        return element;
      }
      names.push_back(name_of(element));
    }
  }
  throw Astray{fmt::format("the case has no {} {}", one_of(kind), in_quotes(name)),
               did_you_mean(name, names,
                            names.empty() ? fmt::format("it has no {}", kind)
                                          : fmt::format("it has {}", in_words(names)))};
}

/// Of a body or a material that is not in the case.
Astray no_such(const Entries& table, const std::vector<std::string>& path, bool named_list)
{
  const std::string what = fmt::format(
      "the case has no {} {}", named_list ? one_of(path[0]) : "material", in_quotes(path[1]));
  if (named_list)
  {
    return {what, fmt::format("it has no {}", path[0])};
  }
  std::vector<std::string> names;
  for (const Entry& other : table)
  {
    names.push_back(other.key);
  }
  return {what, did_you_mean(path[1], names, fmt::format("it has {}", in_words(names)))};
}

/// The table a key's pieces but the last lead to; inner tables are added on the way.
Node& owner(Node& root, const std::vector<std::string>& path, const SourcePlace& where)
{
  Node* node = &root;
  for (std::size_t i = 0; i + 1 < path.size(); ++i)
  {
    auto* table = std::get_if<Entries>(&node->value);
    if (!table)
    {
      throw Astray{
          fmt::format("{} is {}, which has no keys", in_quotes(path[i - 1]), as_written(*node)),
          "set it as a whole"};
    }
    Entry* entry = find(*table, path[i]);
    const bool named_list = i == 0 && std::ranges::find(lists, path[0]) != lists.end();
    const bool material = i == 1 && path[0] == "materials" && path[1] != "copper";
    if (!entry && (named_list || material))
    {
      throw no_such(*table, path, named_list);
    }
    if (!entry)
    {
      table->push_back({path[i], where, Node{Entries{}, where}});
      entry = &table->back();
    }
    node = &entry->node;
    if (named_list)
    {
      node = &named_in_list(*node, path[0], path[1]);
      ++i;
    }
  }
  return *node;
}

/// The value as TOML, or as the text it is where it is none or where a text stood before.
Node node_of(const std::string& text, const SourcePlace& where, const Node* before)
{
  const auto read = value(text, where);
  const bool was_text = before && std::holds_alternative<std::string>(before->value);
  const bool plain = read && (std::holds_alternative<double>(read->value) ||
                              std::holds_alternative<bool>(read->value) ||
                              std::holds_alternative<Moment>(read->value));
  return read && !(was_text && plain) ? *read : Node{text, where};
}

/// The pieces of a key that can name a single value.
std::vector<std::string> checked_pieces(const std::string& key)
{
  std::vector<std::string> path = pieces(key);
  if (std::ranges::any_of(path, &std::string::empty))
  {
    throw Astray{fmt::format("{} is no key", in_quotes(key)), "write e.g. parts.core.length"};
  }
  const bool in_list = std::ranges::find(lists, path[0]) != lists.end();
  if (path.size() < 2 + (in_list || path[0] == "materials" ? 1u : 0u) && path[0] != "title" &&
      path[0] != "notes")
  {
    throw Astray{fmt::format("{} names no single value", in_quotes(key)),
                 in_list ? fmt::format("write {}.NAME.KEY", path[0])
                 : path[0] == "materials"
                     ? std::string("write materials.NAME.KEY")
                     : std::string("write e.g. drive.current or parts.core.length")};
  }
  return path;
}

void apply_one(const Override& change, Node& root, const SourcePlace& where)
{
  const std::vector<std::string> path = checked_pieces(change.key);
  auto* table = std::get_if<Entries>(&owner(root, path, where).value);
  if (!table)
  {
    throw Astray{fmt::format("{} has no keys", in_quotes(path[path.size() - 2])),
                 "set it as a whole"};
  }
  Entry* entry = find(*table, path.back());
  if (!entry)
  {
    const bool words = path.size() == 1; // title and notes
    table->push_back({path.back(), where,
                      words ? Node{change.value, where} : node_of(change.value, where, nullptr)});
    return;
  }
  entry->node = node_of(change.value, where, &entry->node);
  entry->where = where;
}

} // namespace

void apply(const std::vector<Override>& overrides, Node& root, std::vector<Fault>& faults)
{
  for (const Override& change : overrides)
  {
    const SourcePlace where{"--set " + change.key};
    try
    {
      apply_one(change, root, where);
    }
    catch (const Astray& astray)
    {
      faults.push_back({where, astray.what, astray.cure});
    }
  }
}

std::optional<Node> value_of(const std::string& key, Node& root, const SourcePlace& where,
                             std::vector<Fault>& faults)
{
  try
  {
    const std::vector<std::string> path = checked_pieces(key);
    const auto* table = std::get_if<Entries>(&owner(root, path, where).value);
    const Entry* entry = table ? find(*table, path.back()) : nullptr;
    if (entry)
    {
      return entry->node;
    }
    std::vector<std::string> names;
    for (const Entry& other : table ? *table : Entries{})
    {
      names.push_back(other.key);
    }
    faults.push_back({where, fmt::format("the case does not give {}", key),
                      did_you_mean(path.back(), names,
                                   "write it into the case first, or name a key that is there")});
  }
  catch (const Astray& astray)
  {
    faults.push_back({where, astray.what, astray.cure});
  }
  return std::nullopt;
}

} // namespace cases
