// Coils about a ball and about an endless rod, and spheroids in a uniform field: exact series.
#pragma once

#include "reference/loops.hpp"
#include "reference/thick_coils.hpp"

#include <vector>

namespace reference
{

/// @brief Added inductance [H] of a circle about a magnetic ball of radius a at the origin.
///
/// pi mu0 sin^2(th) r0 sum_n (n+1)(mu-1)/(n mu+n+1) / (n(n+1)) (a/r0)^(2n+1) P_n^1(cos th)^2,
/// r0 and th the circle's distance from the centre [m] and polar angle [rad]. The scattered part
/// of each multipole of the circle's field; derivable from [Smythe 1950], from memory.
double ball_gain(double ball_radius, double permeability, double r0, double th);
/// @brief The same for a rectangular section of uniform density outside the ball, of its turns.
///
/// The series is a square of one-circle factors, so the average is taken term by term.
double ball_gain(double ball_radius, double permeability, const Section& coil);
/// @brief ball_gain() of such a section, multipole by multipole, for a response of one each [H].
std::vector<double> ball_terms(double ball_radius, const Section& coil);
/// @brief The same for a round section of radius `wire` whose middle circle is (r, z) [m].
double ball_gain(double ball_radius, double permeability, double r, double z, double wire);

/// @brief Added inductance [H] of a coil about an endless magnetic rod; equal radii: a sheet.
///
/// Static limit of [Dodd & Deeds 1968], sigma -> 0: (2 mu0 N^2/l^2) int (mu-1) I0 I1 / (mu K0 I1 +
/// I0 K1) <r K1(kr)>^2 (2 sin(kl/2)/k)^2 dk, Bessel functions at k times the rod's radius.
double endless_rod_gain(double rod_radius, double permeability, const Section& coil);

/// @brief Axial demagnetising factor of a spheroid, length over diameter `aspect`.
///
/// By quadrature of (aspect/2) int_0^inf ds / ((s + aspect^2)^(3/2) (s + 1)) [Stoner 1945], so
/// that it does not repeat the closed form under test.
double spheroid_factor(double aspect);

} // namespace reference
