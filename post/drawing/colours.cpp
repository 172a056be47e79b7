// A straight fall in lightness and a turn in hue, cut into pieces of equal length.
#include "post/drawing/colours.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace post::drawing
{

namespace
{

double encoded(double linear) // IEC 61966-2-1
{
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1.0 / 2.4) - 0.055;
}

double distance(const Seen& a, const Seen& b)
{
  return std::hypot(a.lightness - b.lightness, a.green_red - b.green_red,
                    a.blue_yellow - b.blue_yellow);
}

} // namespace

Colour shown(const Seen& seen)
{
  const auto [L, a, b] = seen;
  const double l = std::pow(L + 0.3963377774 * a + 0.2158037573 * b, 3);
  const double m = std::pow(L - 0.1055613458 * a - 0.0638541728 * b, 3);
  const double s = std::pow(L - 0.0894841775 * a - 1.2914855480 * b, 3);
  return {encoded(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          encoded(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          encoded(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

Seen seen(double t)
{
  // Lightness stops at 0.48, where black lines and text still stand out.
  const double lightness = 0.975 - 0.495 * t;
  const double hue = (95.0 + 185.0 * t) * std::numbers::pi / 180.0;
  const double chroma = 0.020 + 0.095 * std::sin(0.5 * std::numbers::pi * t);
  return {lightness, chroma * std::cos(hue), chroma * std::sin(hue)};
}

std::vector<Colour> colours(int count)
{
  constexpr int pieces = 2000;
  std::vector<double> length(pieces + 1, 0.0); // along the path, from its weak end
  for (int i = 1; i <= pieces; ++i)
    length[i] = length[i - 1] + distance(seen(double(i - 1) / pieces), seen(double(i) / pieces));
  std::vector<Colour> result;
  for (int k = 0; k < count; ++k)
  {
    const double wanted = length.back() * (count > 1 ? double(k) / (count - 1) : 0.0);
    const auto place = std::lower_bound(length.begin(), length.end(), wanted);
    result.push_back(shown(seen(double(place - length.begin()) / pieces)));
  }
  return result;
}

} // namespace post::drawing
