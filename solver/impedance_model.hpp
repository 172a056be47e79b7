// Impedances at one frequency for every value of a few complex permeabilities, each in its disc,
// from a few solutions on one mesh.
#pragma once

#include "solver/harmonic_span.hpp"
#include "solver/problem.hpp"

#include <complex>
#include <span>
#include <string>
#include <vector>

namespace solver
{

struct ImpedanceModel
{
  std::vector<std::string> varied;          ///< Materials left open.
  HarmonicState fixed;                      ///< Frequency; permeabilities of regions that are not.
  std::vector<std::string> region_material; ///< One a region.
  HarmonicSpan span;
  double accuracy_met = 0.0; ///< Largest disc over |Z_ii| at the permeabilities asked for.
  bool accuracy_reached = false;
  int unknowns = 0; ///< Of one snapshot.
};

/// @brief The state at one permeability mu' - j mu'' a varied material.
/// @throws std::invalid_argument where there are not as many.
HarmonicState state(const ImpedanceModel& model,
                    std::span<const std::complex<double>> permeability);

/// @brief Builds the model; every impedance at the points is to have the problem's accuracy.
///
/// Snapshots are chosen where the disc is widest; where a snapshot's own disc is too wide, the mesh
/// is refined for its permeability.
/// @param problem  With windings, one frequency, no background.
/// @param points   Permeabilities mu' - j mu'' asked for, one a varied material.
/// @param threads  More than 1: so many snapshots at once; the numbers are the same.
/// @throws std::invalid_argument for a problem of another kind, or without points.
ImpedanceModel impedance_model(const Problem& problem, std::vector<std::string> varied,
                               const std::vector<std::vector<std::complex<double>>>& points,
                               int threads = 1);

} // namespace solver
