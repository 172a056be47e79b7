// Nystrom's method on circles; sums of images.
#include "reference/charged_rings.hpp"

#include <Eigen/LU>

#include <cmath>
#include <numbers>

namespace reference
{

namespace
{

constexpr double pi = std::numbers::pi;

/// Weight of the node `steps` away in int ln(4 sin^2(t / 2)) f(t) dt over the whole circle.
double logarithm_weight(int steps, int points)
{
  const int half = points / 2;
  double sum = 0.0;
  for (int m = 1; m < half; ++m)
    sum += std::cos(m * pi * steps / half) / m;
  return -2.0 * pi / half * sum - pi / (half * half) * std::cos(pi * steps);
}

} // namespace

Eigen::MatrixXd ring_capacitances(const std::vector<ChargedRing>& rings, int points)
{
  struct Node
  {
    int ring;
    double angle, r, z;
  };
  std::vector<Node> nodes;
  for (std::size_t k = 0; k < rings.size(); ++k)
    for (int i = 0; i < points; ++i)
    {
      const ChargedRing& ring = rings[k];
      const double angle = 2.0 * pi * i / points;
      nodes.push_back({static_cast<int>(k), angle,
                       ring.loop_radius + ring.section_radius * std::cos(angle),
                       ring.z + ring.section_radius * std::sin(angle)});
    }
  const auto n = static_cast<Eigen::Index>(nodes.size()),
             count = static_cast<Eigen::Index>(rings.size());
  Eigen::MatrixXd A(n, n), one = Eigen::MatrixXd::Zero(n, count), total = one;
  for (Eigen::Index i = 0; i < n; ++i)
  {
    const Node& at = nodes[i];
    one(i, at.ring) = 1.0;
    // Charge per angle of the section, all round the axis.
    total(i, at.ring) = 2.0 * pi / points * 2.0 * pi * at.r;
    for (Eigen::Index j = 0; j < n; ++j)
    {
      const Node& from = nodes[j];
      const double D = std::hypot(at.r + from.r, at.z - from.z);
      const double d = std::hypot(at.r - from.r, at.z - from.z), k1 = d / D;
      const double scale = from.r / (pi * D), even = 2.0 * pi / points;
      if (at.ring != from.ring)
      {
        A(i, j) = scale * even * std::comp_ellint_1(std::sqrt((1.0 - k1) * (1.0 + k1)));
        continue;
      }
      // K = -K(k1) ln(q) / pi with the nome q of k1, so the logarithm's factor is -K(k1) / pi.
      const double factor = -std::comp_ellint_1(k1) / pi;
      const double sine = 2.0 * std::sin(0.5 * (at.angle - from.angle));
      const double smooth = i == j ? std::log(8.0 * at.r / rings[at.ring].section_radius)
                                   : std::comp_ellint_1(std::sqrt((1.0 - k1) * (1.0 + k1))) -
                                         factor * std::log(sine * sine);
      A(i, j) =
          scale * (factor * logarithm_weight(static_cast<int>(i - j), points) + even * smooth);
    }
  }
  const Eigen::MatrixXd density = A.partialPivLu().solve(one);
  return total.transpose() * density;
}

Eigen::Matrix2d ball_capacitances(double radius, double distance)
{
  // cosh mu = distance / (2 radius); the images' charges are sinh mu / sinh(n mu), odd n in the own
  // ball, even n, negative, in the other.
  const double mu = std::acosh(0.5 * distance / radius);
  double own = 0.0, other = 0.0;
  for (int n = 1; n < 2000 && n * mu < 600.0; ++n)
    (n % 2 == 1 ? own : other) += std::sinh(mu) / std::sinh(n * mu);
  Eigen::Matrix2d C;
  C << own, -other, -other, own;
  return 4.0 * pi * radius * C;
}

} // namespace reference
