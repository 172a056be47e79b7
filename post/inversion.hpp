// Responses turned round: from what was read and measured to the unknown.
#pragma once

#include "post/fit.hpp"

namespace post
{

/// @brief The model of a propagation: inputs in the order of inputs(), the unknown out.
class Inversion
{
public:
  /// @throws std::domain_error where the inductance does not change steadily with the unknown.
  Inversion(const FitQuestion& question, std::span<const Response> responses,
            std::span<const FitReading> readings);

  /// @brief Readings with their leads and losses, then dimensions, then the bracket.
  const std::vector<UncertainInput>& inputs() const { return _inputs; }
  /// @brief The unknown; infinite beyond what the table holds.
  double unknown(std::span<const double> inputs) const;
  /// @brief mu'' of the first reading with a resistance; the unknown must be finite.
  double imaginary(std::span<const double> inputs) const;
  /// @brief Half-width of the bracket at a value, the largest of the readings' windings.
  double bracket(double unknown) const;
  /// @brief d ln L / d ln unknown of a reading at a value, dimensions as given.
  double slope(std::size_t reading, double unknown) const;
  /// @brief The coil's inductance of a reading for these inputs [H]; not positive: impossible.
  double coil(std::size_t reading, std::span<const double> inputs) const;
  /// @brief d (ln L read less ln L of the field) / d input, one an input, where the unknown is
  /// open.
  std::vector<double> log_sensitivities() const;
  /// @brief Least and most the geometry allows for a reading's winding, inputs at estimates [H].
  Interval reach(std::size_t reading) const;
  /// @brief The unknown at which the least and the most lie.
  Interval reach_at() const;

private:
  void add_inputs(const FitQuestion& question);
  void weigh();
  double mismatch(std::size_t node, std::span<const double> inputs,
                  std::span<const double> targets) const;

  /// Where a reading's numbers stand among the inputs; -1: none.
  struct Place
  {
    int inductance = 0, lead = -1, bare = -1, loss = -1, winding_loss = -1;
  };
  std::span<const Response> _responses;
  std::span<const FitReading> _readings;
  std::vector<Place> _places;
  std::vector<UncertainInput> _inputs;
  std::vector<double> _steps;
  std::size_t _first_dimension = 0;
  std::vector<double> _weights; ///< One a reading, sum 1.
  bool _falling = false;        ///< The inductance falls with the unknown.
};

} // namespace post
