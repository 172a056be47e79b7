// What is fed with any bytes: each reader of what people and disks hand over, and what it owes.
//
// Used twice: by a coverage-guided fuzzer (fuzzer.cpp, FERRULE_FUZZ), and by a test of the default
// suite that replays the kept inputs of corpus/.
#pragma once

#include <span>
#include <string_view>

namespace fuzz
{

struct Subject
{
  const char* name; ///< Also of its folder in corpus/.
  /// @throws std::logic_error where a reader breaks its word; what else it throws is a finding too.
  void (*feed)(std::string_view bytes);
};

/// @brief Case reader, units, CSV tables, readings, meter files, overrides, journal, record, model.
std::span<const Subject> subjects();

} // namespace fuzz
