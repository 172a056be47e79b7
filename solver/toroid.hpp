// What lies inside a toroid's winding, over frequency: the current function i = r H_phi of its
// section, and the impedance of one turn with a disc that holds the true one.
//
// Between the turns i = N I / 2 pi all round. Inside, -div((rho / r) grad i) + j omega mu i / r = 0
// where it conducts, i constant in each body that does not [DEVELOPERS.md, toroids].
#pragma once

#include "mesh/layout.hpp"
#include "solver/problem.hpp"
#include "solver/space.hpp"

#include <Eigen/Core>

#include <complex>
#include <string>
#include <vector>

namespace solver
{

struct ToroidCore
{
  double frequency = 0.0;                         ///< [Hz]
  std::vector<std::complex<double>> permeability; ///< Relative, one a region.
  std::vector<double> conductivity;               ///< One a region [S/m].
  double accuracy = 0.0;                          ///< Asked, of the disc over |Z|.
  Space space;
  Eigen::VectorXcd share;                ///< i over N I / 2 pi, one a degree of freedom.
  std::complex<double> impedance;        ///< V / I of one turn [ohm]; N^2 times it for N.
  double disc = 0.0;                     ///< Radius around it that holds the true one [ohm].
  std::vector<double> region_resistance; ///< Parts of Re Z, one a region [ohm].
  int refinements = 0;
  int unknowns = 0;          ///< Of the current function (complex) and the potential (real).
  double accuracy_met = 0.0; ///< disc over |Z|
  bool accuracy_reached = false;
  std::string limit; ///< Why it was not reached, in plain words.
};

/// @brief Solves at one frequency, refining until the disc is as small as asked.
/// @param core    Materials, temperature and accuracy; its scene is not read.
/// @param layout  Of what lies inside the winding and touches no axis; region 0 around it, and in
///                hollows, which count.
/// @param coarse  A mesh of that layout to begin on.
/// @throws std::invalid_argument for a frequency that is not positive.
/// @throws std::runtime_error when a factorisation fails.
ToroidCore solve_toroid(const Problem& core, const mesh::Layout& layout, const mesh::Mesh& coarse,
                        double frequency);

} // namespace solver
