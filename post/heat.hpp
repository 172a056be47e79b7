// How warm bodies get: losses already worked out, spread evenly over each body, and steady
// conduction to their surfaces.
//
// Every temperature is an estimate: how surfaces are cooled is told by the user, not computed.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace mesh
{
struct Scene;
}
namespace solver
{
struct HeatField;
struct Problem;
} // namespace solver

namespace post
{

struct Result;

struct HeatBody
{
  std::string name;
  double heat = 0.0;         ///< Lost in it [W].
  double mean_rise = 0.0;    ///< Above the ambient air, over its volume [K].
  double hottest_rise = 0.0; ///< At the points looked at [K].
  bool above_curie = false;  ///< Its hottest point is; its inductance then is not as told.
};

/// @brief One way of driving the case: a frequency at the peak currents, or direct currents.
struct HeatPoint
{
  double frequency = 0.0; ///< [Hz]; 0 for direct current.
  double current = 0.0;   ///< Of direct current, as asked for [A].
  std::vector<HeatBody> bodies;
  double heat = 0.0;         ///< All of it [W].
  double convected = 0.0;    ///< Given to the air [W].
  double radiated = 0.0;     ///< [W]
  double accuracy_met = 0.0; ///< Change of the energy between two orders, relative: mesh-dependent.
  bool accuracy_reached = true;
  std::string limit; ///< Why it was not reached.
};

struct HeatResult
{
  std::vector<HeatPoint> points;
};

/// @brief The scene with every winding drawn turn by turn as the section its turns take up.
mesh::Scene with_envelopes(const mesh::Scene& scene);

/// @brief Index of the point with the hottest body.
std::size_t warmest(const HeatResult& heat);

/// @brief Heat at every frequency and bias of the problem, else at its currents taken as direct.
/// @param result   Holds the losses over frequency.
/// @param threads  Points solved at once; the numbers do not depend on it.
void add_heat(const solver::Problem& problem, Result& result, int threads);

/// @brief The temperature field of one point of `result.heat`, for a picture.
solver::HeatField heat_field(const solver::Problem& problem, const Result& result,
                             std::size_t point);

/// @brief { "heat": [...] }, SI, keys ending in their unit; rises estimated.
std::string json(const HeatResult& heat);

} // namespace post
