// What readings of a wound sample say of one unknown of its case, and how surely.
//
// Readings, dimensions and the field's own bracket are inputs of one propagation of uncertainty
// (uncertainty.hpp, monte_carlo.hpp), whose model is the response (response.hpp) turned round. An
// unknown the sample cannot tell has an open end: infinite here, null in documents.
#pragma once

#include "post/monte_carlo.hpp"
#include "post/response.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace post
{

/// @brief One reading as a series circuit; the coil's inductance is `inductance` less the lead's,
///        or less the bare coil's plus the bare coil's computed one.
struct FitReading
{
  std::size_t winding = 0;                    ///< Index into the responses.
  UncertainInput inductance;                  ///< [H]
  std::optional<UncertainInput> lead;         ///< In series with the coil [H].
  std::optional<UncertainInput> bare;         ///< Reading of the same winding and leads in air [H].
  double frequency = 0.0;                     ///< [Hz]
  std::optional<UncertainInput> loss;         ///< Series resistance read [ohm].
  std::optional<UncertainInput> winding_loss; ///< To be taken off it [ohm].
};

/// @brief A reading no value of the unknown explains: the whole interval lies beyond the table.
struct Impossible
{
  std::size_t reading = 0;
  bool below = false;   ///< Below the least the geometry allows, else above the most.
  double reached = 0.0; ///< Inductance the coil is taken to have [H].
  double limit = 0.0;   ///< The least or the most [H].
  double at = 0.0;      ///< The unknown there.
};

/// @brief A number, its interval, and what the interval is made of.
struct Fitted
{
  std::optional<double> value; ///< Nothing where the readings alone leave it open.
  Interval interval;           ///< Monte Carlo's, symmetric; ends may be infinite.
  MonteCarlo drawn;
  std::optional<FirstOrder> first;    ///< Nothing where an end is open at first order.
  std::optional<Agreement> agreement; ///< Of the two, where both exist.
};

struct FitResult
{
  Fitted unknown;
  std::optional<Fitted> imaginary;      ///< mu'' of the material, to first order in the loss.
  std::optional<Impossible> impossible; ///< Then nothing else is filled.
  /// What the uncertainty comes from: of the unknown, or of ln L where its interval is open.
  std::vector<Contribution> budget;
  double sensitivity = 0.0; ///< |d ln L / d ln unknown| of the first reading.
  double bracket = 0.0;     ///< Relative half-width of L taken into the interval.
  double spread = 0.0;      ///< Largest distance between readings' ln L, of several.
};

struct FitOptions
{
  double coverage = 0.95;
  std::size_t draws = 100000;
  std::uint64_t seed = 1;
};

/// @brief Fits one unknown to readings of one sample.
///
/// Several readings are weighted by how sharply each tells the unknown: sum w (ln L - ln reading) =
/// 0 with w = slope / u^2 at the best value (Gauss-Newton's normal equation).
/// @param loss  Whether the unknown is a permeability whose imaginary part may be worked out.
/// @throws std::domain_error where the inductance does not change steadily with the unknown.
/// @throws std::invalid_argument for no readings, or a reading of no winding.
FitResult fit(const FitQuestion& question, std::span<const Response> responses,
              std::span<const FitReading> readings, bool loss, const FitOptions& options = {});

} // namespace post
