// Plain sentences computed from the numbers: what limits a design, what a change would gain, why
// two cases differ.
//
// No sentence the numbers do not support: a difference smaller than the brackets is called
// undecided, a small effect is called small.
#pragma once

#include "post/comparison.hpp"
#include "post/result.hpp"

#include <span>
#include <string>

namespace cases
{

/// @brief A change that was solved, in words, and its result.
struct Tried
{
  std::string what;
  post::Result result;
};

/// @brief Share of the first winding's energy outside everything magnetic: air, copper, formers.
double air_share(const post::Result& result);

/// @brief What limits the design, from the ledger of its first winding or its demagnetising factor.
std::string limit_sentence(const post::Result& result);

/// @brief What each change would gain, as the interval the brackets leave; empty without changes.
std::string gain_sentence(const post::Result& result, std::span<const Tried> tried);

/// @brief Why a case's inductance differs from the yardstick's, and the turns that would match it.
/// @param label  How the report calls the case.
std::string difference_sentences(const std::string& label, const post::Result& yardstick,
                                 const post::Result& result, const post::Compared& first,
                                 const post::Compared& compared);

} // namespace cases
