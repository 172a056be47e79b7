// Cases over frequency set against the first: R and L of what they share, fields at probes.
#pragma once

#include "post/result.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief A winding, a straight wire (per metre) or a toroid of one case at a common frequency.
struct ComparedImpedance
{
  std::size_t of_case = 0;
  std::string kind; ///< "winding", "wire" or "toroid".
  std::string name;
  double frequency = 0.0; ///< [Hz]
  Bounded resistance;     ///< [ohm], wires [ohm/m]
  Bounded inductance;     ///< [H], wires [H/m]
  double quality = 0.0;   ///< Infinite without loss.
  /// Over those of the first case's element of the same name, or of its only one of that kind;
  /// empty where there is none, or where a disc leaves its sign open.
  std::optional<Bounded> resistance_ratio, inductance_ratio;
};

/// @brief A probe that lies at the same place in the first case.
struct ComparedProbe
{
  std::size_t of_case = 0;
  std::string name;
  double r = 0.0; ///< [m]
  double z = 0.0;
  double frequency = 0.0; ///< [Hz]; 0: at rest, where no case has a frequency.
  double magnitude = 0.0; ///< |B|, peak, as driven [T].
  /// Field of the first case over this one, 20 log10 [dB]; above 0: weaker here.
  std::optional<double> weaker;
  double noise = 0.0;          ///< Below this its accuracy tells nothing [T].
  double relative_noise = 0.0; ///< Of both fields together.
  bool drowned = false;        ///< One of the two fields is too weak for its accuracy: not told.
};

struct FrequencyComparison
{
  std::vector<double> common;                ///< In every case that has any, the first included.
  std::vector<std::vector<double>> left_out; ///< The others, by case.
  std::vector<ComparedImpedance> impedances; ///< By frequency, then element, then case.
  std::vector<ComparedProbe> probes;         ///< By probe, frequency, case.
  bool probes_elsewhere = false;             ///< Some of the same name lie at other places.
  bool any() const { return !impedances.empty() || !probes.empty(); }
};

/// @brief Every case against the first; frequencies equal to 1e-9 are the same.
FrequencyComparison compared_over_frequency(std::span<const Result> results);

/// @brief The same as a JSON object.
std::string json(const FrequencyComparison& comparison);

} // namespace post
