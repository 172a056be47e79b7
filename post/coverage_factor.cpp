// Quantiles for coverage factors, by Boost.Math; the only file that knows it.
#include "post/uncertainty.hpp"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <stdexcept>

namespace post
{

double coverage_factor(double coverage, double degrees_of_freedom)
{
  if (!(coverage > 0.0 && coverage < 1.0))
  {
    throw std::invalid_argument("a coverage lies between 0 and 1, e.g. 0.95");
  }
  if (!(degrees_of_freedom >= 1.0))
  {
    throw std::invalid_argument("degrees of freedom are at least 1");
  }
  const double p = 0.5 * (1.0 + coverage);
  if (degrees_of_freedom == endless)
  {
    return boost::math::quantile(boost::math::normal_distribution<double>(), p);
  }
  return boost::math::quantile(boost::math::students_t_distribution<double>(degrees_of_freedom), p);
}

} // namespace post
