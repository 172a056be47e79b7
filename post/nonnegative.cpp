// Unknowns enter where the residual falls fastest and leave where they would turn negative.
#include "post/nonnegative.hpp"

#include <Eigen/QR>

#include <limits>
#include <vector>

namespace post
{

namespace
{

/// Plain least squares over the chosen columns; zero elsewhere.
Eigen::VectorXd over_chosen(const Eigen::MatrixXd& A, const Eigen::VectorXd& b,
                            const std::vector<bool>& chosen)
{
  std::vector<Eigen::Index> columns;
  for (Eigen::Index j = 0; j < A.cols(); ++j)
    if (chosen[static_cast<std::size_t>(j)])
      columns.push_back(j);
  Eigen::VectorXd x = Eigen::VectorXd::Zero(A.cols());
  if (columns.empty())
    return x;
  const Eigen::MatrixXd part = A(Eigen::all, columns);
  const Eigen::VectorXd found = part.colPivHouseholderQr().solve(b);
  for (std::size_t k = 0; k < columns.size(); ++k)
    x[columns[k]] = found[static_cast<Eigen::Index>(k)];
  return x;
}

/// On the way from x to the wish the first to turn negative; -1 where none does.
Eigen::Index leaving(const Eigen::VectorXd& x, const Eigen::VectorXd& wish,
                     const std::vector<bool>& chosen)
{
  Eigen::Index first = -1;
  double shortest = 1.0;
  for (Eigen::Index j = 0; j < x.size(); ++j)
  {
    if (!chosen[static_cast<std::size_t>(j)] || wish[j] >= 0.0)
      continue;
    const double step = x[j] / (x[j] - wish[j]);
    if (step < shortest)
    {
      shortest = step;
      first = j;
    }
  }
  return first;
}

} // namespace

Eigen::VectorXd nonnegative_least_squares(const Eigen::MatrixXd& A, const Eigen::VectorXd& b)
{
  Eigen::VectorXd x = Eigen::VectorXd::Zero(A.cols());
  std::vector<bool> chosen(static_cast<std::size_t>(A.cols()), false);
  const double enough = 1e-13 * A.norm() * b.norm();
  for (Eigen::Index round = 0; round < 3 * A.cols(); ++round)
  {
    Eigen::VectorXd pull = A.transpose() * (b - A * x);
    for (Eigen::Index j = 0; j < A.cols(); ++j)
      if (chosen[static_cast<std::size_t>(j)])
        pull[j] = -std::numeric_limits<double>::infinity();
    Eigen::Index next = 0;
    if (A.cols() == 0 || !(pull.maxCoeff(&next) > enough))
      break;
    chosen[static_cast<std::size_t>(next)] = true;
    Eigen::VectorXd wish = over_chosen(A, b, chosen);
    // A column that round-off alone let in does not get a say.
    if (!(wish[next] > 0.0))
      break;
    for (Eigen::Index leaves = leaving(x, wish, chosen); leaves >= 0;
         leaves = leaving(x, wish, chosen))
    {
      x += x[leaves] / (x[leaves] - wish[leaves]) * (wish - x);
      x[leaves] = 0.0;
      chosen[static_cast<std::size_t>(leaves)] = false;
      wish = over_chosen(A, b, chosen);
    }
    x = wish;
  }
  return x.cwiseMax(0.0);
}

} // namespace post
