// The benchmark peer: inductance of a coil on a rod by an adaptive program on deal.II.
//
// Shares nothing with ferrule but the physics: flux function psi = r A_phi in (s, z), s = r^2, on
// quadrilaterals, psi = 0 on a far wall. Certifies nothing. It is told the answer (--reference), so
// that it stops at the first step that meets it: nobody who needs a solver has that help.
#include "grid.hpp"
#include "task.hpp"

#include <deal.II/base/multithread_info.h>
#include <deal.II/base/quadrature_lib.h>
#include <deal.II/dofs/dof_handler.h>
#include <deal.II/dofs/dof_tools.h>
#include <deal.II/fe/fe_interface_values.h>
#include <deal.II/fe/fe_q.h>
#include <deal.II/fe/fe_values.h>
#include <deal.II/grid/grid_refinement.h>
#include <deal.II/grid/tria.h>
#include <deal.II/lac/affine_constraints.h>
#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/sparse_direct.h>
#include <deal.II/lac/sparse_matrix.h>
#include <deal.II/lac/vector.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numbers>
#include <vector>

namespace
{
using namespace dealii;
using Clock = std::chrono::steady_clock;
using Cell = DoFHandler<2>::active_cell_iterator;
constexpr double pi = std::numbers::pi;
constexpr double mu0 = 4e-7 * pi;

double seconds_since(Clock::time_point start)
{
  return std::chrono::duration<double>(Clock::now() - start).count();
}

class Peer
{
public:
  explicit Peer(const Task& task)
      : _task(task), _fe(int(task.order)), _dofs(_mesh), _rule(int(task.order) + 3)
  {
    draw(task, _mesh);
  }
  void run();

private:
  void number();
  void assemble();
  void solve();
  double jump(FEInterfaceValues<2>& sides, const Cell& cell, const Cell& other,
              unsigned face) const;
  Vector<float> jumps() const;
  double reluctivity(const Point<2>& p) const
  {
    const bool inside =
        p[0] < std::pow(_task.rod_diameter / 2, 2) && std::abs(p[1]) < _task.rod_length / 2;
    return 1.0 / (mu0 * (inside ? _task.permeability : 1.0));
  }
  bool in_coil(const Point<2>& p) const
  {
    return p[0] > std::pow(_task.coil_inner / 2, 2) && p[0] < std::pow(_task.coil_outer / 2, 2) &&
           std::abs(p[1]) < _task.coil_length / 2;
  }

  Task _task;
  Triangulation<2> _mesh;
  FE_Q<2> _fe;
  DoFHandler<2> _dofs;
  QGauss<2> _rule;
  AffineConstraints<double> _constraints;
  SparsityPattern _pattern;
  SparseMatrix<double> _matrix;
  Vector<double> _source, _psi;
};

void Peer::number()
{
  _dofs.distribute_dofs(_fe);
  _constraints.clear();
  DoFTools::make_hanging_node_constraints(_dofs, _constraints);
  for (const unsigned side : {0u, 1u, 2u, 3u})
    if (side != 2 || _task.half == 0) // B crosses the middle plane straight: nothing to impose
      DoFTools::make_zero_boundary_constraints(_dofs, side, _constraints);
  _constraints.close();
  DynamicSparsityPattern pattern(_dofs.n_dofs());
  DoFTools::make_sparsity_pattern(_dofs, pattern, _constraints, false);
  _matrix.clear();
  _pattern.copy_from(pattern);
  _matrix.reinit(_pattern);
  _source.reinit(_dofs.n_dofs());
}

/// @brief a(psi, v) = 2 pi int nu (2 psi_s v_s + psi_z v_z / (2 s)), l(v) = 2 pi int J v / (2 sqrt
/// s).
void Peer::assemble()
{
  FEValues<2> values(
      _fe, _rule, update_values | update_gradients | update_JxW_values | update_quadrature_points);
  const unsigned n = _fe.n_dofs_per_cell();
  const double J = _task.turns / ((_task.coil_outer - _task.coil_inner) / 2 * _task.coil_length);
  FullMatrix<double> K(n, n);
  Vector<double> f(n);
  std::vector<types::global_dof_index> index(n);
  std::vector<double> vs(n), vz(n);
  for (const auto& cell : _dofs.active_cell_iterators())
  {
    values.reinit(cell);
    K = 0;
    f = 0;
    const double nu = reluctivity(cell->center());
    const double source = in_coil(cell->center()) ? J : 0.0;
    for (const unsigned q : values.quadrature_point_indices())
    {
      const double s = values.quadrature_point(q)[0];
      const double dx = 2 * pi * values.JxW(q);
      const double ws = std::sqrt(2 * nu * dx), wz = std::sqrt(nu / (2 * s) * dx);
      const double load = source / (2 * std::sqrt(s)) * dx;
      for (unsigned i = 0; i < n; ++i)
      {
        const Tensor<1, 2> gradient = values.shape_grad(i, q);
        vs[i] = ws * gradient[0];
        vz[i] = wz * gradient[1];
        f(i) += load * values.shape_value(i, q);
      }
      for (unsigned i = 0; i < n; ++i)
      {
        double* const row = &K(i, 0);
        for (unsigned j = 0; j < n; ++j)
          row[j] += vs[i] * vs[j] + vz[i] * vz[j];
      }
    }
    cell->get_dof_indices(index);
    _constraints.distribute_local_to_global(K, f, index, _matrix, _source);
  }
}

/// @brief Weighted square of the flux jump over one face, times the cell size across it.
///
/// Both coefficients are used: the library's own estimator takes one a face, wrong where mu jumps.
double Peer::jump(FEInterfaceValues<2>& sides, const Cell& cell, const Cell& other,
                  unsigned face) const
{
  std::vector<Tensor<1, 2>> here(sides.n_quadrature_points), there(here.size());
  sides.get_fe_face_values(0).get_function_gradients(_psi, here);
  sides.get_fe_face_values(1).get_function_gradients(_psi, there);
  const double nu = reluctivity(cell->center()), nu_other = reluctivity(other->center());
  double sum = 0;
  for (unsigned q = 0; q < here.size(); ++q)
  {
    const Tensor<1, 2> n = sides.normal(q);
    const double s = sides.get_quadrature_points()[q][0];
    const double weight = n[0] * n[0] * 2 + n[1] * n[1] / (2 * s);
    const double flux = (nu * here[q] - nu_other * there[q]) * n;
    sum += weight * flux * flux * sides.JxW(q);
  }
  const double across =
      std::min(cell->extent_in_direction(face / 2), other->extent_in_direction(face / 2));
  return sum * across / (nu + nu_other);
}

/// @brief Each cell's share of the flux jumps, as the estimated error.
Vector<float> Peer::jumps() const
{
  constexpr unsigned whole = numbers::invalid_unsigned_int;
  FEInterfaceValues<2> sides(_fe, QGauss<1>(int(_task.order) + 1),
                             update_gradients | update_JxW_values | update_normal_vectors |
                                 update_quadrature_points);
  Vector<float> error(_mesh.n_active_cells());
  for (const Cell& cell : _dofs.active_cell_iterators())
    for (const unsigned face : cell->face_indices())
    {
      if (cell->at_boundary(face) || cell->neighbor(face)->has_children())
        continue; // the finer side visits the face
      const Cell other = cell->neighbor(face);
      if (cell->neighbor_is_coarser(face))
      {
        const auto [back, part] = cell->neighbor_of_coarser_neighbor(face);
        sides.reinit(cell, face, whole, other, back, part);
      }
      else if (cell->active_cell_index() < other->active_cell_index())
        sides.reinit(cell, face, whole, other, cell->neighbor_of_neighbor(face), whole);
      else
        continue;
      const double part = jump(sides, cell, other, face);
      error(cell->active_cell_index()) += part;
      error(other->active_cell_index()) += part;
    }
  for (float& e : error)
    e = std::sqrt(e);
  return error;
}

void Peer::solve()
{
  SparseDirectUMFPACK factors; // faster here than conjugate gradients with ILU or SSOR
  factors.factorize(_matrix);
  _psi = _source;
  factors.solve(_psi);
  _constraints.distribute(_psi);
}

void Peer::run()
{
  const auto start = Clock::now();
  for (int step = 0; step < _task.steps; ++step)
  {
    number();
    assemble();
    solve();
    const double L = (_task.half == 0 ? 1 : 2) * (_psi * _source);
    std::printf("step %d unknowns %u L %.12e seconds %.4f\n", step, unsigned(_dofs.n_dofs()), L,
                seconds_since(start));
    if (_task.reference > 0 && std::abs(L / _task.reference - 1) <= _task.tolerance)
      return;
    GridRefinement::refine_and_coarsen_fixed_fraction(_mesh, jumps(), _task.share, 0.0);
    _mesh.execute_coarsening_and_refinement();
  }
}

} // namespace

int main(int argc, char** argv)
{
  try
  {
    dealii::MultithreadInfo::set_thread_limit(1);
    Peer(task(argc, argv)).run();
  }
  catch (const std::exception& error)
  {
    std::fprintf(stderr, "peer: %s\n", error.what());
    return 1;
  }
}
