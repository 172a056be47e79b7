// Rules, graded panels and singular weights of gauss_panels.hpp.
#include "reference/gauss_panels.hpp"

#include <boost/math/special_functions/legendre.hpp>

#include <algorithm>
#include <cmath>

namespace reference
{

GaussRule::GaussRule(int count)
    : node(count), weight(count), partial(Eigen::MatrixXd::Zero(count, count)), _barycentric(count)
{
  const std::vector<double> zeros = boost::math::legendre_p_zeros<double>(count); // x >= 0 only
  for (int i = 0; i < static_cast<int>(zeros.size()); ++i)
  {
    node[count / 2 + i] = zeros[i];
    node[count - 1 - count / 2 - i] = -zeros[i];
  }
  for (int i = 0; i < count; ++i)
  {
    const double slope = boost::math::legendre_p_prime(count, node[i]);
    const double rest = 1.0 - node[i] * node[i];
    weight[i] = 2.0 / (rest * slope * slope);
    _barycentric[i] = (i % 2 ? -1.0 : 1.0) * std::sqrt(rest * weight[i]);
  }
  for (int i = 0; i < count; ++i)
  {
    const double half = (node[i] + 1.0) / 2.0;
    for (int q = 0; q < count; ++q)
    {
      partial.row(i) += half * weight[q] * polynomials(-1.0 + half * (node[q] + 1.0));
    }
  }
}

Eigen::VectorXd GaussRule::polynomials(double x) const
{
  Eigen::VectorXd value(node.size());
  for (int j = 0; j < node.size(); ++j)
  {
    const double distance = x - node[j];
    if (distance == 0.0)
    {
      return Eigen::VectorXd::Unit(node.size(), j);
    }
    value[j] = _barycentric[j] / distance;
  }
  return value / value.sum();
}

std::vector<Stretch> graded(double length, int levels,
                            const std::function<bool(const Stretch&)>& too_long)
{
  std::vector<Stretch> done;
  std::vector<Stretch> open{{0.0, length}}; // the first to come is the last
  int halvings = 0;
  while (!open.empty())
  {
    const Stretch s = open.back();
    open.pop_back();
    const bool first = s.from == 0.0 && halvings < levels;
    if (first || too_long(s))
    {
      const double middle = (s.from + s.to) / 2.0;
      open.push_back({middle, s.to});
      open.push_back({s.from, middle});
      halvings += first;
    }
    else
    {
      done.push_back(s);
    }
  }
  return done;
}

Eigen::VectorXd singular_weights(const GaussRule& rule, const Stretch& stretch,
                                 const std::function<double(double)>& kernel)
{
  Eigen::VectorXd weights = Eigen::VectorXd::Zero(rule.node.size());
  const double smallest = (stretch.to - stretch.from) * std::ldexp(1.0, -46);
  const std::function<void(double, double)> add = [&](double from, double to)
  {
    const double half = (to - from) / 2.0;
    const double distance = std::max({0.0, from, -to});
    if (from < 0.0 && to > 0.0)
    {
      add(from, 0.0);
      add(0.0, to);
    }
    else if (2.0 * half > std::max(distance, smallest))
    {
      add(from, from + half);
      add(from + half, to);
    }
    else
    {
      for (int i = 0; i < rule.node.size(); ++i)
      {
        const double x = from + half * (1.0 + rule.node[i]);
        const double local = (2.0 * x - stretch.from - stretch.to) / (stretch.to - stretch.from);
        weights += half * rule.weight[i] * kernel(x) * rule.polynomials(local);
      }
    }
  };
  add(stretch.from, stretch.to);
  return weights;
}

} // namespace reference
