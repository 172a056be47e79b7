// Random numbers that are the same on every machine: a generator and transforms of our own.
//
// std::mt19937_64 is fixed by the standard; the library's distributions are not, and sine and
// logarithm may differ in the last bit with the processor. Here all is sums, products, quotients
// and square roots, which IEEE 754 fixes.
#pragma once

#include <cstdint>
#include <random>

namespace post
{

/// @brief Natural logarithm of a positive finite number, to a few units of the last place.
double reproducible_logarithm(double x);

/// @brief Quantile of the standard normal, AS 241's PPND16 [Wichura 1988]; 0 < p < 1.
double normal_quantile(double p);

/// @brief A stream of draws; one seed, one stream.
class Draws
{
public:
  explicit Draws(std::uint64_t seed) : _generator(seed) {}

  /// @brief Even in (0, 1), both ends left out.
  double uniform();
  /// @brief Standard normal, one number of the generator each.
  double normal();
  /// @brief Falling evenly from the middle to -1 and 1.
  double triangular();
  /// @brief cos of an even angle: between -1 and 1, most often near these.
  double arcsine();
  /// @brief Student's t; more than 2 degrees of freedom.
  double student(double degrees_of_freedom);

private:
  double gamma(double shape); ///< Scale 1; shape at least 1.

  std::mt19937_64 _generator;
};

} // namespace post
