// An impedance in words: resistance, inductance and Q with the digits their disc leaves.
#pragma once

#include "post/frequency.hpp"

#include <string>

namespace cases
{

/// @brief "12.3 mohm"; "< 0.4 mohm" where the disc holds zero.
std::string resistance_text(const post::WindingImpedance& one);
/// @brief "30.4 uH"; "not told" where the disc leaves its sign open.
std::string inductance_text(const post::WindingImpedance& one);
/// @brief Whether the disc leaves the inductance's sign open.
bool inductance_open(const post::WindingImpedance& one);
/// @brief "70.8"; "-" without loss, or where the disc leaves either open.
std::string quality_text(const post::WindingImpedance& one);
/// @brief "core 80 %, coil 20 %": the parts of a resistance, the largest first.
std::string loss_parts(const post::WindingImpedance& one);

} // namespace cases
