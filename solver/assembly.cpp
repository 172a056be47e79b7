// Scatter of element matrices; the one assembly loop.
#include "solver/assembly.hpp"

#include <complex>

namespace solver
{

Unknowns unknowns(const Space& space, Weight weight)
{
  Unknowns made;
  made.position.assign(space.count, -1);
  for (int i = 0; i < space.count; ++i)
    if (weight == Weight::times_r || !space.on_axis[i])
      made.position[i] = made.count++;
  return made;
}

namespace
{

template <class Scalar>
void scatter(const Eigen::MatrixXd& K, const Gather& gather, const Unknowns& unknowns,
             Scalar coefficient, std::vector<Eigen::Triplet<Scalar>>& triplets)
{
  for (std::size_t j = 0; j < gather.index.size(); ++j)
  {
    const int column = unknowns.position[gather.index[j]];
    if (column < 0)
      continue;
    for (std::size_t i = 0; i < gather.index.size(); ++i)
    {
      const int row = unknowns.position[gather.index[i]];
      if (row >= column)
        triplets.emplace_back(row, column,
                              coefficient * (gather.sign[i] * gather.sign[j] * K(i, j)));
    }
  }
}

} // namespace

template <class Scalar>
Eigen::SparseMatrix<Scalar> stiffness(const Space& space, const Unknowns& unknowns, Weight weight,
                                      std::span<const Scalar> coefficient, Scalar outside)
{
  std::vector<Eigen::Triplet<Scalar>> triplets;
  for (int k = 0; k < static_cast<int>(space.mesh.triangles.size()); ++k)
    scatter(element_matrix(triangle_table(space, k, Care::solving), weight),
            triangle_gather(space, k), unknowns, coefficient[k], triplets);
  for (int x = 0; x < static_cast<int>(space.exteriors.size()); ++x)
    scatter(element_matrix(exterior_table(space, x, Care::solving), weight),
            exterior_gather(space, x), unknowns, outside, triplets);
  Eigen::SparseMatrix<Scalar> A(unknowns.count, unknowns.count);
  A.setFromTriplets(triplets.begin(), triplets.end());
  return A;
}

template Eigen::SparseMatrix<double> stiffness(const Space&, const Unknowns&, Weight,
                                               std::span<const double>, double);
template Eigen::SparseMatrix<std::complex<double>> stiffness(const Space&, const Unknowns&, Weight,
                                                             std::span<const std::complex<double>>,
                                                             std::complex<double>);

} // namespace solver
