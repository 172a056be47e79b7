// A case file as a tree of plain values, each with its place, and from text to that tree.
//
// Knows the file's grammar (TOML 1.0) but no key of ferrule's: meaning is read from it in the
// read_*.cpp files. No type of the TOML library leaves tree.cpp.
#pragma once

#include "cases/fault.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace cases
{

struct Node;
struct Entry;
using List = std::vector<Node>;
using Entries = std::vector<Entry>; ///< A table, in the order of its keys in the file.

/// @brief A date or a time; no key takes one.
struct Moment
{
};

struct Node
{
  std::variant<std::string, double, bool, Moment, List, Entries> value;
  SourcePlace where;
  bool header = false; ///< A table opened by [name] or [[name]], not by braces.
};

struct Entry
{
  std::string key;
  SourcePlace where; ///< Of the key.
  Node node;
};

/// @brief The tree of a text; its root is a table.
/// @param file  Name printed in messages.
/// @throws CaseError with the one fault where the text stops being TOML.
Node tree(std::string_view text, const std::string& file);

/// @brief One value as written right of the equals sign; nothing where it is none by itself.
std::optional<Node> value(std::string_view text, const SourcePlace& where);

/// @brief The entry of that key, or null.
Entry* find(Entries& table, std::string_view key);
const Entry* find(const Entries& table, std::string_view key);

/// @brief The fault of a text that is no TOML, from what the parser found at a place.
/// @param found  The parser's words.
Fault syntax_fault(std::string_view text, const SourcePlace& where, std::string_view found);

/// @brief The value for a message: "-3 mm" in quotes, 700, true, a list, a table.
std::string as_written(const Node& node);

} // namespace cases
