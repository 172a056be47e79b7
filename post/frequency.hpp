// What windings show over frequency: impedance with its disc, and where the loss arises.
#pragma once

#include "post/axial.hpp"
#include "post/probe.hpp"
#include "solver/problem.hpp"

#include <complex>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace solver
{
struct Solution;
}

namespace post
{

/// @brief One winding driven alone at one frequency.
struct WindingImpedance
{
  std::string name;
  double resistance = 0.0;                             ///< Re Z, its own wire's included [ohm].
  double inductance = 0.0;                             ///< Im Z / omega [H]
  double disc = 0.0;                                   ///< Radius that holds the true Z [ohm].
  std::optional<double> wire_resistance;               ///< Dc, of fine wire, in `resistance`.
  std::optional<double> skin_resistance;               ///< What skin effect in strands adds [ohm].
  std::optional<double> proximity_resistance;          ///< What the field across them adds [ohm].
  std::vector<std::pair<std::string, double>> by_body; ///< Parts of `resistance` [ohm].
  double quality() const;                              ///< Im Z / Re Z; infinite without loss.
  double omega = 0.0;                                  ///< [1/s]
};

/// @brief A toroid at a frequency [Hz] as a winding; its own wire's resistance is left out.
WindingImpedance impedance(const ToroidResult& toroid, double frequency);

struct FrequencyResult;
/// @brief All that a circuit may be given: windings, pieces of straight wire, toroids. Wires and
///        toroids are exact where their disc is 0.
std::vector<WindingImpedance> one_ports(const FrequencyResult& at);

/// @brief Field at a point, all windings as driven, the background included.
struct ProbeAtFrequency
{
  std::string name;
  double r = 0.0; ///< [m]
  double z = 0.0;
  std::complex<double> B_r, B_z; ///< Peak [T].
  double magnitude = 0.0;        ///< sqrt(|B_r|^2 + |B_z|^2) [T]
  /// What the disc leaves of the field in air, its root: smaller fields are not to be trusted [T].
  double noise = 0.0;
  std::optional<double> attenuation; ///< Of the same sources in air over it, 20 log10 [dB].
};

struct FrequencyResult
{
  double frequency = 0.0; ///< [Hz]
  std::vector<WindingImpedance> windings;
  std::vector<std::vector<std::complex<double>>> impedance; ///< Whole matrix, wires included [ohm].
  std::vector<std::vector<double>> disc;                    ///< Radii of its entries [ohm].
  std::vector<std::pair<std::string, double>> losses; ///< By part, of the background alone [W].
  std::vector<ProbeAtFrequency> probes;
  std::vector<WireResult> wires;     ///< Straight wires of the case.
  std::vector<ToroidResult> toroids; ///< Toroids of the case.
  double accuracy_met = 0.0;         ///< Largest disc over |Z|.
  bool accuracy_reached = true;
  std::string limit; ///< Why it was not reached.
  int unknowns = 0;
};

/// @brief What a winding's own wire adds to the field's resistance, but for proximity: dc, and skin
///        effect in the strands of a plain section [ohm]; 0 where the wire is unknown or solved
///        for.
double own_resistance(const solver::Problem& problem, const mesh::Winding& winding,
                      double frequency);

/// @brief What a winding's wire loses, but for the part that the field around it decides.
struct OwnLoss
{
  std::optional<double> wire;    ///< Dc resistance [ohm]; none where unknown or solved for.
  std::optional<double> skin;    ///< What skin effect in its strands adds [ohm].
  double proximity_factor = 0.0; ///< Times int |H|^2 dV at 1 A over its section [ohm m^2].
};
OwnLoss own_loss(const solver::Problem& problem, const mesh::Winding& winding, double frequency);

/// @brief The problem at each of its frequencies; one mesh, refined at the highest, serves all.
/// @param air      The same windings with every material taken as air, for attenuations.
/// @param threads  Frequencies solved at once; the numbers do not depend on it.
std::vector<FrequencyResult> over_frequency(const solver::Problem& problem,
                                            std::span<const ProbePoint> probes,
                                            const solver::Solution& air, int threads);

/// @brief Columns of R, L, Q and disc of all one_ports(), units in the heading (CSV).
std::string impedance_table(const std::vector<FrequencyResult>& results);

/// @brief Scattering parameters, one port a winding, as a Touchstone 1.1 file; without windings, of
///        the only one of one_ports().
/// @param line  The resistance of every port [ohm].
/// @return The text, and the ending its name takes: ".s1p", ".s2p" ...
std::pair<std::string, std::string> touchstone(const std::vector<FrequencyResult>& results,
                                               double line = 50.0);

} // namespace post
