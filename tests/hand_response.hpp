// Responses written down in closed form, as if fields had been solved.
#pragma once

#include "post/fit.hpp"

#include <cmath>
#include <functional>
#include <string>
#include <vector>

namespace post_tests
{

/// @brief `count` values from `from` to `to`, evenly spaced by ratio.
inline std::vector<double> logarithmic(double from, double to, int count)
{
  std::vector<double> list;
  for (int i = 0; i < count; ++i)
    list.push_back(from * std::pow(to / from, i / (count - 1.0)));
  return list;
}

/// @brief A winding whose inductance [H] is that function of the unknown; no dimension, no bracket.
inline post::Response response(const std::vector<double>& nodes,
                               const std::function<double(double)>& inductance,
                               const std::string& winding = "coil")
{
  post::Response made;
  made.winding = winding;
  made.unknown = nodes;
  for (const double u : nodes)
  {
    made.log_inductance.push_back(std::log(inductance(u)));
    made.half_width.push_back(0.0);
  }
  return made;
}

/// @brief Adds a dimension: ln L changes by linear * xi + quadratic * xi^2, alike at every node.
inline void add_dimension(post::Response& made, double linear, double quadratic)
{
  made.linear.emplace_back(made.unknown.size(), linear);
  made.quadratic.emplace_back(made.unknown.size(), quadratic);
}

inline post::FitReading reading(double inductance, double relative,
                                post::Spread spread = post::Spread::uniform)
{
  post::FitReading made;
  made.inductance = {"reading", inductance, spread, relative * inductance};
  return made;
}

/// @brief A question of an unknown "u" with these dimensions; its problem is never asked for.
inline post::FitQuestion question(std::vector<post::UncertainInput> dimensions = {})
{
  post::FitQuestion made;
  made.key = "u";
  made.dimensions = std::move(dimensions);
  return made;
}

} // namespace post_tests
