// Assembly and elimination, for real and complex coefficients.
#include "solver/equation.hpp"

#include "solver/shapes.hpp"

#include <complex>

namespace solver
{

namespace
{

/// An element's functions, the inner ones last, and how many are not inner.
struct Order
{
  std::vector<int> functions;
  int outer = 0;
  bool moved = false; ///< Not as the element numbers them.
};

/// Inner functions of a ray element are those of degree >= 2 in both directions.
Order ray_order(const Space& space)
{
  Order order;
  std::vector<int> inner;
  for (int m = 0; m < space.ray_order; ++m)
    for (int k = 0; k <= space.order; ++k)
      (m > 0 && k > 1 ? inner : order.functions).push_back(m * (space.order + 1) + k);
  order.outer = static_cast<int>(order.functions.size());
  order.functions.insert(order.functions.end(), inner.begin(), inner.end());
  order.moved = true;
  return order;
}

/// In a triangle they come last already, but for a constant beyond them.
Order triangle_order(const Space& space, bool constant)
{
  const int count = triangle_shape_count(space.order);
  Order order;
  for (int i = 0; i < count; ++i)
  {
    if (constant && i == 3 * space.order)
      order.functions.push_back(count);
    order.functions.push_back(i);
  }
  order.outer = 3 * space.order + (constant ? 1 : 0);
  if (constant && static_cast<int>(order.functions.size()) == count)
    order.functions.push_back(count); // no inner functions at all
  order.moved = constant;
  return order;
}

Gather in_order(const Gather& gather, const Order& order)
{
  Gather made;
  for (const int i : order.functions)
  {
    made.index.push_back(gather.index[i]);
    made.sign.push_back(gather.sign[i]);
  }
  return made;
}

/// Inverse of an inner block by elimination without pivoting: its real part is positive definite
/// and its imaginary part of one sign, which keeps that stable [Higham 1998].
template <class Scalar>
Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>
symmetric_inverse(Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic> A)
{
  const Eigen::Index n = A.rows();
  for (Eigen::Index k = 0; k < n; ++k)
  {
    // Gauss-Jordan: the k-th unknown and right-hand side change places.
    const Scalar pivot = Scalar{1} / A(k, k);
    const Eigen::Matrix<Scalar, Eigen::Dynamic, 1> column = A.col(k);
    for (Eigen::Index j = 0; j < n; ++j)
    {
      if (j == k)
        continue;
      const Scalar factor = A(k, j) * pivot;
      A.col(j) -= factor * column;
      A(k, j) = factor;
    }
    A.col(k) = -pivot * column;
    A(k, k) = pivot;
  }
  return A;
}

/// How an element's functions are ordered.
Order order_of(const Space& space, int element, bool constant)
{
  return element < static_cast<int>(space.mesh.triangles.size()) ? triangle_order(space, constant)
                                                                 : ray_order(space);
}

} // namespace

template <class Scalar>
Condensed<Scalar> condensed(const Space& space, int element,
                            const Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>& given)
{
  using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
  const bool constant = element < static_cast<int>(space.mesh.triangles.size()) &&
                        given.rows() > triangle_shape_count(space.order);
  const Order order = order_of(space, element, constant);
  const Matrix moved = order.moved ? Matrix(given(order.functions, order.functions)) : Matrix();
  const Matrix& K = order.moved ? moved : given;
  const Eigen::Index outer = order.outer, inner = K.rows() - outer;
  Condensed<Scalar> made;
  made.outer = K.topLeftCorner(outer, outer);
  if (inner == 0)
    return made;
  // Small: Eigen's blocked products would pack more than they multiply.
  const Matrix coupling = K.bottomLeftCorner(inner, outer);
  made.inverse = symmetric_inverse<Scalar>(K.bottomRightCorner(inner, inner));
  made.follow.noalias() = made.inverse.lazyProduct(coupling);
  made.outer.noalias() -= coupling.transpose().lazyProduct(made.follow);
  return made;
}

template <class Scalar>
void Equation<Scalar>::add(const Condensed<Scalar>& element, const Gather& gather,
                           std::vector<Eigen::Triplet<Scalar>>& triplets)
{
  const Eigen::Index outer = element.outer.rows();
  Eliminated kept;
  kept.outer.assign(gather.index.begin(), gather.index.begin() + outer);
  kept.inner.assign(gather.index.begin() + outer, gather.index.end());
  kept.inverse = element.inverse;
  kept.follow = element.follow;
  for (Eigen::Index j = 0; j < kept.follow.cols(); ++j)
    kept.follow.col(j) *= gather.sign[j];
  for (Eigen::Index j = 0; j < outer; ++j)
  {
    const int column = _position[kept.outer[j]];
    for (Eigen::Index i = 0; i < outer && column >= 0; ++i)
      if (const int row = _position[kept.outer[i]]; row >= column)
        triplets.emplace_back(row, column, gather.sign[i] * gather.sign[j] * element.outer(i, j));
  }
  _elements.push_back(std::move(kept));
}

template <class Scalar>
ElementMatrices<Scalar> diffusion(const Space& space, Weight weight,
                                  std::span<const Scalar> coefficient, Scalar outside)
{
  return [&space, weight, coefficient, outside](int element)
  {
    using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
    const int triangles = static_cast<int>(space.mesh.triangles.size());
    if (element < triangles)
      return Matrix(coefficient[element] *
                    triangle_matrix(space, element, weight).template cast<Scalar>());
    return Matrix(outside *
                  exterior_matrix(space, element - triangles, weight).template cast<Scalar>());
  };
}

std::vector<bool> held_by_symmetry(const Space& space, Weight weight)
{
  return weight == Weight::over_r ? space.on_axis : space.on_mirror;
}

template <class Scalar>
Equation<Scalar>::Equation(const Space& space, Weight weight, std::span<const Scalar> coefficient,
                           Scalar outside)
    : Equation(space, held_by_symmetry(space, weight),
               diffusion(space, weight, coefficient, outside))
{
}

template <class Scalar>
std::vector<Gather> Equation<Scalar>::numbered(const Space& space, const std::vector<bool>& held,
                                               const Constants& constants)
{
  const int triangles = static_cast<int>(space.mesh.triangles.size());
  const int elements = triangles + static_cast<int>(space.exteriors.size());
  std::vector<Gather> gathers;
  gathers.reserve(elements);
  std::vector<bool> inner(space.count + constants.count, false);
  const Order ray = ray_order(space), plain = triangle_order(space, false),
              bordered = triangle_order(space, true);
  for (int k = 0; k < elements; ++k)
  {
    Gather gather =
        k < triangles ? triangle_gather(space, k) : exterior_gather(space, k - triangles);
    const int constant = k < triangles && constants.count > 0 ? constants.of_triangle[k] : -1;
    if (constant >= 0)
    {
      gather.index.push_back(space.count + constant);
      gather.sign.push_back(1.0);
    }
    const Order& order = k >= triangles ? ray : constant >= 0 ? bordered : plain;
    gathers.push_back(order.moved ? in_order(gather, order) : std::move(gather));
    for (std::size_t i = order.outer; i < gathers.back().index.size(); ++i)
      inner[gathers.back().index[i]] = true;
  }
  _position.assign(inner.size(), -1);
  int rows = 0;
  for (std::size_t i = 0; i < inner.size(); ++i)
  {
    if (i < held.size() && held[i])
      continue;
    ++_unknowns;
    if (!inner[i])
      _position[i] = rows++;
  }
  _matrix.resize(rows, rows);
  return gathers;
}

template <class Scalar>
Equation<Scalar>::Equation(const Space& space, const std::vector<bool>& held,
                           const ElementMatrices<Scalar>& matrices, const Constants& constants)
{
  const std::vector<Gather> gathers = numbered(space, held, constants);
  std::vector<Eigen::Triplet<Scalar>> triplets;
  for (std::size_t k = 0; k < gathers.size(); ++k)
  {
    const int element = static_cast<int>(k);
    add(condensed<Scalar>(space, element, matrices(element)), gathers[k], triplets);
  }
  _matrix.setFromTriplets(triplets.begin(), triplets.end());
}

template <class Scalar>
Equation<Scalar>::Equation(const Space& space, const std::vector<bool>& held,
                           const std::vector<Condensed<Scalar>>& elements,
                           const std::vector<Scalar>& coefficient)
{
  const std::vector<Gather> gathers = numbered(space, held, {});
  std::vector<Eigen::Triplet<Scalar>> triplets;
  Condensed<Scalar> scaled;
  for (std::size_t k = 0; k < gathers.size(); ++k)
  {
    scaled.outer = coefficient[k] * elements[k].outer;
    scaled.inverse = elements[k].inverse / coefficient[k];
    scaled.follow = elements[k].follow;
    add(scaled, gathers[k], triplets);
  }
  _matrix.setFromTriplets(triplets.begin(), triplets.end());
}

template <class Scalar>
typename Equation<Scalar>::Matrix Equation<Scalar>::reduced(const Matrix& loads) const
{
  Matrix part = Matrix::Zero(_matrix.rows(), loads.cols());
  for (Eigen::Index i = 0; i < loads.rows(); ++i)
    if (_position[i] >= 0)
      part.row(_position[i]) = loads.row(i);
  for (const Eliminated& element : _elements)
  {
    if (element.inner.empty())
      continue;
    const Matrix inner = loads(element.inner, Eigen::all);
    if (inner.isZero(0))
      continue;
    const Matrix moved = element.follow.transpose() * inner;
    for (std::size_t j = 0; j < element.outer.size(); ++j)
      if (const int row = _position[element.outer[j]]; row >= 0)
        part.row(row) -= moved.row(j);
  }
  return part;
}

template <class Scalar>
typename Equation<Scalar>::Matrix Equation<Scalar>::expanded(const Matrix& solution,
                                                             const Matrix& loads) const
{
  Matrix full = Matrix::Zero(loads.rows(), loads.cols());
  for (Eigen::Index i = 0; i < loads.rows(); ++i)
    if (_position[i] >= 0)
      full.row(i) = solution.row(_position[i]);
  for (const Eliminated& element : _elements)
  {
    if (element.inner.empty())
      continue;
    const Matrix outer = full(element.outer, Eigen::all);
    const Matrix inner = loads(element.inner, Eigen::all);
    const Matrix values = element.inverse * inner - element.follow * outer;
    for (std::size_t i = 0; i < element.inner.size(); ++i)
      full.row(element.inner[i]) = values.row(i);
  }
  return full;
}

template ElementMatrices<double> diffusion(const Space&, Weight, std::span<const double>, double);
template ElementMatrices<std::complex<double>>
diffusion(const Space&, Weight, std::span<const std::complex<double>>, std::complex<double>);
template Condensed<double> condensed(const Space&, int, const Eigen::MatrixXd&);
template Condensed<std::complex<double>> condensed(const Space&, int, const Eigen::MatrixXcd&);
template class Equation<double>;
template class Equation<std::complex<double>>;

} // namespace solver
