// From the coefficients of all to those of one element, and back, signs applied.
#pragma once

#include "solver/space.hpp"

#include <Eigen/Core>

namespace solver
{

/// @brief An element's rows of all: functions by columns.
template <class Dense> typename Dense::PlainObject gathered(const Gather& at, const Dense& all)
{
  typename Dense::PlainObject part(at.index.size(), all.cols());
  for (std::size_t i = 0; i < at.index.size(); ++i)
    part.row(static_cast<Eigen::Index>(i)) = at.sign[i] * all.row(at.index[i]);
  return part;
}

/// @brief Adds an element's rows to those of all.
template <class Part, class All>
void scatter(const Gather& at, const Eigen::MatrixBase<Part>& part, All&& all)
{
  const typename Part::PlainObject& rows = part.derived(); // an expression is evaluated once
  for (std::size_t i = 0; i < at.index.size(); ++i)
    all.row(at.index[i]) += at.sign[i] * rows.row(static_cast<Eigen::Index>(i));
}

} // namespace solver
