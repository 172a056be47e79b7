// The mean of coaxial_circles() over all pairs of points of one rectangle. Internal to post/.
#pragma once

namespace post
{

/// @brief L [H] of one turn spread evenly over a section c x l at mean radius a [m], c <= 2a.
double thick_mean(double a, double c, double l);

} // namespace post
