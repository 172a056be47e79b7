// What `ferrule mix` is told on its command line, and what it tells.
#pragma once

#include "post/mixture.hpp"

#include <map>
#include <span>
#include <string>
#include <string_view>

namespace cases
{

/// @brief An option of `mix` that takes a value.
struct MixOption
{
  const char* name; ///< "--packing"
  std::string_view value;
  std::string_view meaning; ///< For the help, on one line.
};
std::span<const MixOption> mix_options();

/// @brief Values as typed, by option; empty where not given.
using MixTyped = std::map<std::string, std::string>;

/// @brief What is known of the powder.
/// @throws CaseError with every fault of the command line.
post::MixtureQuestion mixture_question(const MixTyped& typed);

// Sections of the report, each a heading and a table; empty where there is nothing to say.
std::string mix_rule_text(const post::Mixture& mixture);
std::string mix_bounds_text(const post::Mixture& mixture);
std::string mix_sources_text(const post::Mixture& mixture);

/// @brief The report: the sought number by rule, its bounds, what they leave, the cautions.
std::string mix_text(const post::Mixture& mixture);

} // namespace cases
