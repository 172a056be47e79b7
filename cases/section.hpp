// One table of a case, read key by key: every key asked for is known, every fault is collected.
//
// A value that is missing or at fault comes back empty with its fault noted, so that reading goes
// on and a file's faults are reported in one go.
#pragma once

#include "cases/limits.hpp"
#include "cases/tree.hpp"

#include <span>

namespace cases
{

class Section
{
public:
  /// @param path    Name in messages and overrides ("parts.core").
  /// @param faults  Where faults go; outlives the section, as does `table`.
  Section(const Entries& table, SourcePlace where, std::string path, std::vector<Fault>& faults);

  const std::string& path() const { return _path; }
  const SourcePlace& where() const { return _where; }
  /// @brief "parts.core.length"
  std::string path(std::string_view key) const;

  /// @brief The value of that key, or null; the key is known from now on.
  const Node* at(std::string_view key);
  /// @brief Whether the key is there; does not make it known.
  bool has(std::string_view key) const { return find(_table, key) != nullptr; }
  /// @brief All keys, in the order of the file.
  std::vector<std::string> keys() const;
  /// @brief Place of the value, of the table where the key is absent.
  SourcePlace place(std::string_view key) const;
  /// @brief The value as written, for messages.
  std::string written(std::string_view key) const;

  /// @brief Notes that a key must be there; said in finish(), where no slip explains it.
  void missing(std::string_view key, std::string_view example);
  /// @brief A number or a quantity that must be there.
  std::optional<double> needed(std::string_view key, const Wanted& wanted);
  /// @brief The same with a value for its absence.
  std::optional<double> value(std::string_view key, const Wanted& wanted, double absent);
  /// @brief A text that must be there; `example` shows one where it is missing.
  std::optional<std::string> needed_text(std::string_view key, std::string_view example);
  std::optional<std::string> text(std::string_view key, const std::string& absent);
  /// @brief One of the words, of which the first is meant by absence unless `must`.
  std::optional<std::string> choice(std::string_view key, std::span<const std::string> words,
                                    bool must = false);
  /// @brief A table that may be there; `example` where it is written in braces.
  std::optional<Section> table(std::string_view key, std::string_view example = {});

  /// @brief Notes "KEY WHAT; CURE" at the value of the key.
  void fault_at(std::string_view key, const std::string& what, const std::string& cure = {});
  /// @brief Notes a fault of the table as a whole, at its place.
  void fault(const std::string& what, const std::string& cure = {});
  /// @brief A key that cannot stand here; where it is written, `why` follows its path.
  void misplaced(std::string_view key, const std::string& why, const std::string& cure);
  /// @brief Notes keys that nobody asked for and needed ones that are missing, unless one is a
  ///        slip for the other; the last call on a section. `owner` says whose ("a rod").
  void finish(std::string_view owner);

  std::vector<Fault>& faults() { return *_faults; }

private:
  const Entries& _table;
  SourcePlace _where;
  std::string _path;
  std::vector<Fault>* _faults;
  std::vector<std::string> _known;
  std::vector<std::string> _silenced;                        ///< Known, but not offered.
  std::vector<std::pair<std::string, std::string>> _missing; ///< Key and how to write it.
};

/// @brief The value of a node by what is wanted; faults are noted under `path`.
std::optional<double> checked(const Node& node, const std::string& path, const Wanted& wanted,
                              std::vector<Fault>& faults);

} // namespace cases
