// What a part in series takes from a matched line: insertion loss over frequency.
#pragma once

#include "post/result.hpp"

#include <complex>
#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief 20 log10 |1 + Z / (2 R)| [dB]: what an impedance in series takes from a source of
/// resistance R and an equal load, of which it lets through 2 R / (2 R + Z) [Pozar 2012,
/// table 4.1].
double insertion_loss(std::complex<double> impedance, double line);

/// @brief One part at one frequency.
struct Insertion
{
  std::string kind; ///< "winding", "wire" or "toroid".
  std::string name;
  double frequency = 0.0;         ///< [Hz]
  std::complex<double> impedance; ///< [ohm]
  double disc = 0.0;              ///< What is known of it no better; 0 where it is exact [ohm].
  double loss = 0.0;              ///< [dB]
};

/// @brief Windings, pieces of wire that have a length, toroids; frequency after frequency.
std::vector<Insertion> insertions(const Result& result);

/// @brief A row a frequency, |Z| and insertion loss of every part (CSV).
std::string insertion_table(std::span<const Insertion> all, double line);

/// @brief The same as a JSON list.
std::string json(std::span<const Insertion> all);

} // namespace post
