// Propagation of uncertainty: from what is known of the inputs to an interval of the output.
//
// To first order [JCGM 100:2008]; by drawing: monte_carlo.hpp. Knows nothing of fields: the model
// is any function of numbers. Inputs are taken as independent of each other.
#pragma once

#include <functional>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace post
{

inline constexpr double endless = std::numeric_limits<double>::infinity();

/// @brief How an input's values lie about its estimate, symmetric all.
enum class Spread
{
  uniform,    ///< Even within the half-width a; u = a / sqrt 3.
  normal,     ///< u itself; with finite degrees of freedom Monte Carlo draws Student's t, scale u.
  triangular, ///< Falling evenly to zero at the half-width a; u = a / sqrt 6.
  arcsine     ///< A cycle of amplitude a, caught at any time; u = a / sqrt 2.
};

struct UncertainInput
{
  std::string name;
  double estimate = 0.0;
  Spread spread = Spread::uniform;
  double width = 0.0; ///< Half-width a, or the standard uncertainty where normal; 0: exact.
  double degrees_of_freedom = endless; ///< At least 1; Monte Carlo needs more than 2 of a normal.
};

/// @brief u of an input, as in the comments of Spread.
/// @throws std::invalid_argument for a width or degrees of freedom that cannot be.
double standard_uncertainty(const UncertainInput& input);

/// @brief The output for one value of each input; may be infinite (an open end), never NaN.
using Model = std::function<double(std::span<const double>)>;

struct Interval
{
  double lower = 0.0;
  double upper = 0.0;
};

/// @brief k of a symmetric interval of that coverage: quantile (1 + coverage) / 2 of Student's t,
/// of
///        the normal where the degrees of freedom are endless.
/// @throws std::invalid_argument for a coverage outside (0, 1) or degrees of freedom below 1.
double coverage_factor(double coverage, double degrees_of_freedom = endless);

/// @brief One row of an uncertainty budget.
struct Contribution
{
  std::string input;
  double standard_uncertainty = 0.0; ///< u of the input, in its unit.
  double sensitivity = 0.0;          ///< c = d output / d input; 0 where it is exact.
  double contribution = 0.0;         ///< |c| u, in the unit of the output.
  double share = 0.0;                ///< (c u)^2 over the output's variance; they add up to 1.
  double degrees_of_freedom = endless;
};

struct FirstOrder
{
  double value = 0.0;
  double standard_uncertainty = 0.0;
  double degrees_of_freedom = endless; ///< Effective, Welch-Satterthwaite.
  double coverage = 0.95;
  double coverage_factor = 0.0;     ///< Of the normal, or of t with the next lower whole degrees.
  Interval interval;                ///< value +- coverage_factor * standard_uncertainty
  std::vector<Contribution> budget; ///< In the order of the inputs.
};

/// @brief First-order propagation: u^2 = sum (c u)^2 [JCGM 100:2008, 5.1.2, G.4.1].
///
/// Sensitivities by central differences of a tenth of u; by one-sided ones where the model is not
/// finite on one side.
/// @return Nothing where the model is not finite at the estimates, or on both sides of an input.
/// @throws std::invalid_argument for inputs that cannot be, or a coverage outside (0, 1).
/// @throws std::domain_error where the model returns NaN.
std::optional<FirstOrder> first_order(std::span<const UncertainInput> inputs, const Model& model,
                                      double coverage = 0.95);
/// @brief The same with the value and one sensitivity an input given.
FirstOrder first_order(std::span<const UncertainInput> inputs, double value,
                       std::span<const double> sensitivities, double coverage = 0.95);

} // namespace post
