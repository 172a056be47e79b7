// [sweep]: what `ferrule sweep` varies where its command line does not say; solve passes it over.
#include "cases/bodies.hpp"

#include "cases/sweep_report.hpp"
#include "cases/wording.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr Wanted value_count{Kind::number, 2.0, most_values, "a range has 2 to 100000 values",
                             "10",         true};

constexpr std::size_t most_beside = 3; ///< As many as a chart tells apart.

/// A value as --set would take it; nothing where it is neither text nor number.
std::optional<std::string> as_text(const Node& node)
{
  if (const auto* text = std::get_if<std::string>(&node.value))
  {
    return *text;
  }
  if (const auto* number = std::get_if<double>(&node.value))
  {
    return written(*number);
  }
  return std::nullopt;
}

std::optional<std::string> end_of_range(Section& table, std::string_view key)
{
  const Node* node = table.at(key);
  if (node == nullptr)
  {
    table.missing(key, "\"20 mm\"");
    return std::nullopt;
  }
  std::optional<std::string> text = as_text(*node);
  if (!text)
  {
    table.fault_at(key, fmt::format("must be a number or a quantity, got {}", as_written(*node)),
                   "write e.g. \"20 mm\"");
  }
  return text;
}

std::optional<std::vector<std::string>> texts(Section& table, std::string_view key,
                                              const std::string& example)
{
  std::vector<std::string> list;
  const auto* nodes = std::get_if<List>(&table.at(key)->value);
  for (std::size_t i = 0; nodes && i < nodes->size(); ++i)
  {
    if (const auto text = as_text((*nodes)[i]))
    {
      list.push_back(*text);
    }
  }
  if (!nodes || nodes->empty() || list.size() != nodes->size())
  {
    table.fault_at(key,
                   fmt::format("must be a list of one or more values, got {}",
                               nodes && nodes->empty() ? "none" : table.written(key)),
                   fmt::format("write e.g. {} = {}", key, example));
    return std::nullopt;
  }
  return list;
}

/// Names of hand formulas; whether they fit the case, its points tell.
void read_beside(Draft& draft, Section& sweep)
{
  const Node* node = sweep.at("beside");
  const auto* list = node ? std::get_if<List>(&node->value) : nullptr;
  for (std::size_t i = 0; list && i < list->size(); ++i)
  {
    if (const auto* name = std::get_if<std::string>(&(*list)[i].value))
    {
      draft.result.beside.push_back(*name);
    }
  }
  const std::size_t count = draft.result.beside.size();
  if (node && (!list || count != list->size() || count == 0 || count > most_beside))
  {
    sweep.fault_at("beside", fmt::format("must be a list of 1 to {} hand formulas", most_beside),
                   "write e.g. beside = [\"rod, short coil\"]; ferrule formulas lists them");
  }
}

/// `key`, or `keys` that move alike.
std::vector<std::string> keys_of(Section& table)
{
  if (table.has("keys"))
  {
    table.misplaced("key", "and keys are both given", "keep one of them");
    return texts(table, "keys", "[\"parts.core.length\", \"windings.coil.length\"]")
        .value_or(std::vector<std::string>{});
  }
  const auto key = table.needed_text("key", "parts.core.length");
  return key ? std::vector<std::string>{*key} : std::vector<std::string>{};
}

void read_one(Draft& draft, Section table)
{
  const std::size_t before = table.faults().size();
  std::vector<std::string> keys = keys_of(table);
  const bool listed = table.has("values");
  std::vector<std::string> values;
  Range range;
  if (listed)
  {
    values = texts(table, "values", "[\"20 mm\", \"40 mm\"]").value_or(values);
    for (const char* key : {"from", "to", "count", "spacing"})
    {
      table.misplaced(key, "stands beside a list of values", "keep the list or the range");
    }
  }
  else
  {
    range.from = end_of_range(table, "from").value_or("");
    range.to = end_of_range(table, "to").value_or("");
    range.count = static_cast<int>(table.needed("count", value_count).value_or(0.0));
    const std::vector<std::string> spacings = {"linear", "logarithmic"};
    range.logarithmic = table.choice("spacing", spacings) == spacings[1];
  }
  table.finish("a varied key");
  if (table.faults().size() != before)
  {
    return;
  }
  try
  {
    draft.result.varied.push_back(listed ? over_list(std::move(keys), values, table.where())
                                         : over_range(std::move(keys), range, table.where()));
  }
  catch (const CaseError& error)
  {
    draft.faults.insert(draft.faults.end(), error.faults().begin(), error.faults().end());
  }
}

} // namespace

void read_sweep(Draft& draft, Section& top)
{
  auto sweep = top.table("sweep");
  if (!sweep)
  {
    return;
  }
  if (const Node* node = sweep->at("vary"))
  {
    const auto* list = std::get_if<List>(&node->value);
    if (!list || list->empty())
    {
      sweep->fault_at("vary", fmt::format("must be a list of tables, got {}", as_written(*node)),
                      "write [[sweep.vary]] above key, from, to and count");
    }
    for (std::size_t i = 0; list && i < list->size(); ++i)
    {
      const std::string path = fmt::format("sweep.vary[{}]", i + 1);
      if (const auto* entries = std::get_if<Entries>(&(*list)[i].value))
      {
        read_one(draft, Section(*entries, (*list)[i].where, path, draft.faults));
        continue;
      }
      draft.faults.push_back(
          {(*list)[i].where,
           fmt::format("{} must be a table, got {}", path, as_written((*list)[i])),
           "write { key = \"parts.core.length\", from = \"20 mm\", to = \"200 mm\", count = 10 }"});
    }
  }
  else
  {
    sweep->missing("vary", "[ { key = \"parts.core.length\", values = [\"20 mm\", \"40 mm\"] } ]");
  }
  draft.result.show = sweep->has("show") ? sweep->choice("show", shown_words()).value_or("") : "";
  read_beside(draft, *sweep);
  sweep->finish("[sweep]");
}

} // namespace cases
