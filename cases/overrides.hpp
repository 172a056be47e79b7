// `--set KEY=VALUE` put into the tree of a case before anything is checked.
#pragma once

#include "cases/case.hpp"
#include "cases/tree.hpp"

namespace cases
{

/// @brief Puts the overrides into the tree; bodies and probes are found by name.
///
/// A value is TOML where it reads as such, else text. Keys that are not there yet are added, to be
/// judged like any other; tables of bodies and materials are never added, lest a slip be lost.
/// @param faults  Where keys that lead nowhere are noted, at the place "--set KEY".
void apply(const std::vector<Override>& overrides, Node& root, std::vector<Fault>& faults);

/// @brief The value a key of the tree has; nothing, and a fault at `where`, where it has none.
std::optional<Node> value_of(const std::string& key, Node& root, const SourcePlace& where,
                             std::vector<Fault>& faults);

} // namespace cases
