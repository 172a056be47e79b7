// Propagation of distributions by drawing [JCGM 101:2008], and how the first order compares.
//
// A draw may be infinite: an open end, where the input leaves the output without a bound.
#pragma once

#include "post/uncertainty.hpp"

#include <cstddef>
#include <cstdint>

namespace post
{

struct MonteCarlo
{
  std::size_t draws = 0;
  std::size_t minus_infinite = 0;             ///< Draws that gave -infinity.
  std::size_t plus_infinite = 0;              ///< Draws that gave +infinity.
  std::optional<double> mean;                 ///< Nothing where a draw was infinite.
  std::optional<double> standard_uncertainty; ///< Likewise.
  double median = 0.0;
  double coverage = 0.95;
  Interval symmetric;       ///< As much probability below as above [JCGM 101:2008, 7.7.2].
  Interval shortest;        ///< [7.7.4]; where all are endless, the one open to one side alone.
  Interval symmetric_error; ///< Standard error of either end, from neighbouring ranks.
};

/// @brief The model's value for each of `draws` random draws of the inputs.
///
/// The same seed gives the same numbers bit for bit; the generator and the transforms use no
/// function of the machine's mathematical library.
/// @throws std::invalid_argument for inputs that cannot be drawn.
/// @throws std::domain_error where the model returns NaN, with the inputs that led there.
std::vector<double> outputs(std::span<const UncertainInput> inputs, const Model& model,
                            std::size_t draws, std::uint64_t seed);
/// @brief What a run of outputs says; infinite values are ordered like others.
/// @throws std::invalid_argument for NaN, a coverage outside (0, 1), or too few to leave
///         a value outside on either side.
MonteCarlo summary(std::vector<double> outputs, double coverage = 0.95);

/// @brief Whether the first order's interval may stand for Monte Carlo's [JCGM 101:2008, 8.1].
struct Agreement
{
  double tolerance = 0.0; ///< delta: half a unit of the last significant digit of u.
  double lower_gap = 0.0; ///< d_low, distance of the lower ends.
  double upper_gap = 0.0; ///< d_high
  double noise = 0.0;     ///< Twice the larger standard error of Monte Carlo's ends.
  bool agree = false;     ///< Neither gap exceeds the tolerance.
  bool resolved = false;  ///< The noise is below the tolerance, else draw more.
};
/// @param digits  Significant digits of the first order's u that matter: 1 or 2.
Agreement agreement(const FirstOrder& first, const MonteCarlo& drawn, int digits = 1);

} // namespace post
