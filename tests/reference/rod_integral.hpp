// Coils about a finite magnetic rod, by integral equations on the rod's surface.
//
// Shares nothing with the field solver: no mesh of space, no finite elements, no bracket. Two
// formulations, whose errors differ, over the same panels.
#pragma once

#include <vector>

namespace reference
{

/// @brief A solid cylinder about the axis, its middle at z = 0 [m].
struct Cylinder
{
  double radius = 0.0;
  double length = 0.0;
};

/// @brief Cylindrical current sheet outside the rod, or beyond its ends [m].
struct Sheet
{
  double radius = 0.0;
  double length = 0.0;
  double centre = 0.0;
  double turns = 1.0;
};

/// @brief What stands for the rod's magnetisation M on its surface.
enum class Bound
{
  charge, ///< M.n, with their sum held at zero.
  current ///< M x n, around the axis.
};

/// @brief Panels of `nodes` Gauss points, halved `levels` times towards the rod's edges.
struct Fineness
{
  int nodes = 12;
  int levels = 36;
};

/// @brief What the rod adds to the mutual inductance of two sheets [H], one value a permeability.
///
/// With H0 of the driven sheet at unit current and chi = mu - 1, on the surface,
/// @f[ (1/\chi + 1/2) \sigma - H_n[\sigma] = H_{0n}, \qquad
///     (1/\chi + 1/2) K - H_t[K] = H_{0t}, @f]
/// where H_n and H_t are the mean of both sides, tangent up the side. Then the other sheet, of
/// scalar potential phi and vector potential A at unit current, adds
/// @f[ \mu_0 \int M \cdot H \, dV = -\mu_0 \oint \sigma \phi \, dS = \oint K A \, dS . @f]
/// Even and odd parts in z apart. The sum of the charges is a near null vector of their equation
/// (eigenvalue 1/chi), which would amplify every error of quadrature: hence held at zero.
std::vector<double> rod_gain(const Cylinder& rod, const Sheet& driven, const Sheet& other,
                             const std::vector<double>& permeabilities, Bound bound,
                             const Fineness& fineness = {});

/// @brief Inductance of a sheet about the rod [H], one value a permeability.
std::vector<double> rod_coil(const Cylinder& rod, const Sheet& sheet,
                             const std::vector<double>& permeabilities, Bound bound,
                             const Fineness& fineness = {});

} // namespace reference
