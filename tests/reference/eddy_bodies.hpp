// Coils about conducting rods, over conducting plates and beside conducting balls: exact.
//
// exp(j omega t), mu complex and relative. What each body adds to Z / (j omega), in henry.
#pragma once

#include "reference/thick_coils.hpp"

#include <complex>
#include <vector>

namespace reference
{

/// @brief One layer of an endless rod, from the inside out.
struct Layer
{
  double outer_radius = 0.0; ///< [m]
  std::complex<double> permeability = 1.0;
  double conductivity = 0.0; ///< [S/m]
};

/// @brief Of a coil about an endless rod of any number of layers [Dodd & Deeds 1968].
///
/// (2 mu0 N^2/l^2) int R(k) <r K1(kr)>^2 (2 sin(kl/2)/k)^2 dk with, at the outer radius c,
/// R = (k I0 - Y I1) / (k K0 + Y K1), Y = (1/(mu A)) (1/r) d(r A)/dr of the layers' field A, itself
/// of I1, K1 of r sqrt(k^2 + j omega mu0 mu sigma) in each.
std::complex<double> endless_rod_gain(const std::vector<Layer>& layers, double omega,
                                      const Section& coil);

/// @brief Of a coil above the plane z = 0 of a conducting half-space [Dodd & Deeds 1968].
///
/// pi mu0 N^2/(c l)^2 int P^2/k^4 R ((e^(-k z1) - e^(-k z2))/k)^2 dk, P as in thick_mutual(),
/// R = (mu k - a)/(mu k + a), a^2 = k^2 + j omega mu0 mu sigma.
std::complex<double> half_space_gain(std::complex<double> permeability, double conductivity,
                                     double omega, const Section& coil);

/// @brief Of a coil outside a ball about the origin: ball_gain() with
/// (n+1)(mu-1)/(n mu+n+1) -> (n + 1 - G)/(n + G), G = (1 + x i_n'(x)/i_n(x))/mu,
/// x^2 = j omega mu0 mu sigma a^2 and i_n the modified spherical Bessel function [Smythe 1950].
std::complex<double> ball_gain(double ball_radius, std::complex<double> permeability,
                               double conductivity, double omega, const Section& coil);

} // namespace reference
