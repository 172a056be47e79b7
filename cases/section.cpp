// Reading keys of one table and noting what is wrong with them.
#include "cases/section.hpp"

#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{
namespace
{

/// Whether a key can stand in a message without quotes.
bool plain_key(std::string_view key)
{
  return !key.empty() &&
         std::ranges::none_of(key,
                              [](char letter)
                              {
                                const auto code = static_cast<unsigned char>(letter);
                                return code <= 0x20 || code == 0x7f || letter == '.';
                              });
}

} // namespace

Section::Section(const Entries& table, SourcePlace where, std::string path,
                 std::vector<Fault>& faults)
    : _table(table), _where(std::move(where)), _path(std::move(path)), _faults(&faults)
{
}

std::string Section::path(std::string_view key) const
{
  const std::string shown = plain_key(key) ? std::string(key) : in_quotes(key);
  return _path.empty() ? shown : fmt::format("{}.{}", _path, shown);
}

const Node* Section::at(std::string_view key)
{
  if (std::ranges::find(_known, key) == _known.end())
  {
    _known.emplace_back(key);
  }
  const Entry* entry = find(_table, key);
  return entry ? &entry->node : nullptr;
}

std::vector<std::string> Section::keys() const
{
  std::vector<std::string> names;
  for (const Entry& entry : _table)
  {
    names.push_back(entry.key);
  }
  return names;
}

SourcePlace Section::place(std::string_view key) const
{
  const Entry* entry = find(_table, key);
  return entry ? entry->node.where : _where;
}

std::string Section::written(std::string_view key) const
{
  const Entry* entry = find(_table, key);
  return entry ? as_written(entry->node) : "nothing";
}

std::optional<double> Section::needed(std::string_view key, const Wanted& wanted)
{
  if (const Node* node = at(key))
  {
    return checked(*node, path(key), wanted, *_faults);
  }
  missing(key, wanted.example);
  return std::nullopt;
}

std::optional<double> Section::value(std::string_view key, const Wanted& wanted, double absent)
{
  const Node* node = at(key);
  return node ? checked(*node, path(key), wanted, *_faults) : absent;
}

std::optional<std::string> Section::needed_text(std::string_view key, std::string_view example)
{
  if (at(key) == nullptr)
  {
    missing(key, in_quotes(example));
    return std::nullopt;
  }
  return text(key, {});
}

std::optional<std::string> Section::text(std::string_view key, const std::string& absent)
{
  const Node* node = at(key);
  if (node == nullptr)
  {
    return absent;
  }
  if (const auto* words = std::get_if<std::string>(&node->value))
  {
    return *words;
  }
  fault_at(key, fmt::format("must be a text, got {}", as_written(*node)),
           std::holds_alternative<double>(node->value)
               ? fmt::format("put it in quotes: \"{}\"", as_written(*node))
               : "write it in quotes");
  return std::nullopt;
}

std::optional<std::string> Section::choice(std::string_view key, std::span<const std::string> words,
                                           bool must)
{
  std::vector<std::string> shown;
  std::ranges::transform(words, std::back_inserter(shown), in_quotes);
  const std::string list = in_words(shown, "or");
  if (at(key) == nullptr)
  {
    if (!must)
    {
      return words.front();
    }
    missing(key, list);
    return std::nullopt;
  }
  auto word = text(key, {});
  if (!word || std::ranges::find(words, *word) != words.end())
  {
    return word;
  }
  fault_at(key, fmt::format("must be {}, got {}", list, in_quotes(*word)),
           did_you_mean(*word, words, "write one of these"));
  return std::nullopt;
}

std::optional<Section> Section::table(std::string_view key, std::string_view example)
{
  const Node* node = at(key);
  if (node == nullptr)
  {
    return std::nullopt;
  }
  if (const auto* entries = std::get_if<Entries>(&node->value))
  {
    return Section(*entries, node->where, path(key), *_faults);
  }
  std::string cure = fmt::format("write e.g. {} = {}", key, example);
  if (example.empty())
  {
    cure = fmt::format("write [{}] {}", path(key),
                       node->header ? "in single brackets, once" : "above its keys");
  }
  fault_at(key, fmt::format("must be a table, got {}", as_written(*node)), cure);
  return std::nullopt;
}

void Section::fault_at(std::string_view key, const std::string& what, const std::string& cure)
{
  _faults->push_back({place(key), fmt::format("{} {}", path(key), what), cure});
}

void Section::fault(const std::string& what, const std::string& cure)
{
  _faults->push_back({_where, fmt::format("{} {}", _path, what), cure});
}

void Section::misplaced(std::string_view key, const std::string& why, const std::string& cure)
{
  _silenced.emplace_back(key);
  if (const Entry* entry = find(_table, key))
  {
    _faults->push_back({entry->where, fmt::format("{} {}", path(key), why), cure});
  }
}

void Section::missing(std::string_view key, std::string_view example)
{
  _missing.emplace_back(key, fmt::format("write e.g. {} = {}", key, example));
}

void Section::finish(std::string_view owner)
{
  for (const Entry& entry : _table)
  {
    if (std::ranges::find(_known, entry.key) != _known.end() ||
        std::ranges::find(_silenced, entry.key) != _silenced.end())
    {
      continue;
    }
    const std::string keys = fmt::format(
        "{} {}", _known.size() == 1 ? "its only key is" : "its keys are", in_words(_known));
    _faults->push_back({entry.where, fmt::format("{} is no key of {}", path(entry.key), owner),
                        did_you_mean(entry.key, _known, keys)});
    const std::string meant = nearest(entry.key, _known);
    std::erase_if(_missing, [&](const auto& lack) { return lack.first == meant; });
  }
  for (const auto& [key, cure] : _missing)
  {
    fault(fmt::format("needs {}", key), cure);
  }
}

} // namespace cases
