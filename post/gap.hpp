// A gap on the axis of a core: how much more flux it passes than its own section would, from the
// field, and what the published formulas say of that.
//
// F = (Phi / U) / (mu0 A / g): Phi the greatest flux through any section of the post, so that what
// enters beside the gap counts, U the magnetic potential difference between the faces.
#pragma once

#include <string>
#include <vector>

namespace solver
{
struct Solution;
}

namespace post
{

/// @brief A published rule for the fringing factor beside the field's.
struct FringingRule
{
  std::string name;
  double value = 1.0;
  bool holds = false; ///< Whether the gap is within its range.
  std::string range;
  std::string source;
};

/// @brief A flat gap across the axis, between two faces of one radius; weak fields, as driven.
struct GapResult
{
  std::string between;     ///< "core", or "lower and upper".
  std::string filled;      ///< Regions in it from below: "air", "filling and air".
  double length = 0.0;     ///< [m]
  double radius = 0.0;     ///< Of the faces [m].
  double equivalent = 0.0; ///< Air gap of the same reluctance without fringing, sum g_i / mu_i [m].
  double flux = 0.0;       ///< Phi [Wb]
  double potential = 0.0;  ///< U [A]
  double fringing = 0.0;   ///< F, of mu0 A over the equivalent length: estimated.
  std::vector<FringingRule> rules;
};

/// @brief Every such gap of a solved case, from below; none where nothing drives a flux through it.
std::vector<GapResult> gaps(const solver::Solution& solution);

/// @brief { "gaps": [...] }, SI, keys ending in their unit.
std::string json(const std::vector<GapResult>& gaps);

} // namespace post
