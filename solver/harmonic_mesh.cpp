// psi by one complex system, phi by one real one, element sums between and after.
#include "solver/harmonic_mesh.hpp"

#include "solver/circulation.hpp"
#include "solver/eddy_field.hpp"
#include "solver/equation.hpp"
#include "solver/factor.hpp"
#include "solver/section_field.hpp"
#include "solver/sides.hpp"
#include "solver/symmetric_factor.hpp"

#include <Eigen/LU>

#include <cmath>

namespace solver
{

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr Complex j_unit{0.0, 1.0};

/// Everything the passes over elements share.
class Passes
{
public:
  explicit Passes(const Harmonic& given)
      : _s(given), _space(given.space), _omega(two_pi * given.frequency),
        _triangles(static_cast<int>(given.space.mesh.triangles.size())),
        _elements(_triangles + static_cast<int>(given.space.exteriors.size())),
        _windings(static_cast<Eigen::Index>(given.problem.scene.windings.size())),
        _count(_windings + (given.problem.background ? 1 : 0))
  {
    find_solid_turns();
  }

  OnMesh run()
  {
    solve_flux();
    find_eddy_currents();
    collect_fields();
    solve_potential();
    sum_residuals();
    return std::move(_made);
  }

private:
  Complex mu(int element) const
  {
    return mu0 * (element < _triangles ? _s.permeability[_space.mesh.triangles[element].region]
                                       : Complex(1.0));
  }
  double sigma(int element) const
  {
    if (solid(element) >= 0)
      return material(_s.problem, "copper").conductivity;
    return element < _triangles ? _s.conductivity[_space.mesh.triangles[element].region] : 0.0;
  }
  /// Number of the solid turn an element belongs to, or -1.
  int solid(int element) const
  {
    const int conductor = element < _triangles ? _space.mesh.triangles[element].conductor : -1;
    return conductor < 0 ? -1 : _solid[conductor];
  }
  Gather gather(int element) const
  {
    return element < _triangles ? triangle_gather(_space, element)
                                : exterior_gather(_space, element - _triangles);
  }
  ElementTable table(int element) const
  {
    return element < _triangles ? triangle_table(_space, element, Care::bracketing)
                                : exterior_table(_space, element - _triangles, Care::bracketing);
  }
  /// An element's coefficients: real parts of all fields, then imaginary ones.
  Eigen::MatrixXd local(const Gather& at, const Eigen::MatrixXcd& global) const
  {
    Eigen::MatrixXd part(at.index.size(), 2 * _count);
    for (std::size_t i = 0; i < at.index.size(); ++i)
    {
      part.row(i).head(_count) = at.sign[i] * global.row(at.index[i]).real();
      part.row(i).tail(_count) = at.sign[i] * global.row(at.index[i]).imag();
    }
    return part;
  }

  /// Solid turns carry what currents the field makes them; all others a given density.
  void find_solid_turns()
  {
    const std::vector<mesh::Conductor>& conductors = _s.layout.conductors;
    for (const mesh::Conductor& one : conductors)
    {
      const auto* round = std::get_if<mesh::RoundSection>(&one.section);
      const bool is = round && round->strand == mesh::Strand::solid;
      _solid.push_back(is ? _turns++ : -1);
    }
    for (Eigen::Index w = 0; w < _windings; ++w)
    {
      Source source;
      for (std::size_t c = 0; c < conductors.size(); ++c)
        source.ampere_turns.push_back(
            conductors[c].winding == w && _solid[c] < 0 ? conductors[c].turns : 0.0);
      source.offset = current_offsets(_space, _s.layout, source.ampere_turns);
      _made.sources.push_back(std::move(source));
    }
    if (_count > _windings)
      _made.sources.push_back(background_source(_space, _s.layout, *_s.problem.background));
    _current = Eigen::MatrixXd::Zero(_turns, _count);
    for (std::size_t c = 0; c < conductors.size(); ++c)
      if (_solid[c] >= 0)
        _current(_solid[c], conductors[c].winding) = conductors[c].turns;
  }

  /// sigma 2 pi int v / (2 s) ds dz over every solid turn, and the same of v = 1.
  void solid_loads(Eigen::MatrixXd& loads, Eigen::VectorXd& whole) const
  {
    for (int k = 0; k < _triangles; ++k)
    {
      const int turn = solid(k);
      if (turn < 0)
        continue;
      const ElementTable at = table(k);
      const Gather gathered = gather(k);
      for (std::size_t c = 0; c < at.points.size(); ++c)
      {
        const ElementPoint& x = at.points[c];
        const double weight = two_pi * x.weight * sigma(k) / (2.0 * x.s);
        whole[turn] += weight;
        for (std::size_t i = 0; i < gathered.index.size(); ++i)
          loads(gathered.index[i], turn) +=
              weight * gathered.sign[i] *
              at.shapes->value(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(c));
      }
    }
  }

  /// The constants w of solid turns, whose electric field is -j omega (psi - w) / r, and psi with
  /// them: psi = found(loads) + j omega found(turns) w, each turn carrying its current.
  void close_turns(const Eigen::MatrixXcd& loads, const Eigen::MatrixXd& turn_loads,
                   const Eigen::VectorXd& whole, const Eigen::VectorXcd& driven_turns,
                   const Eigen::MatrixXcd& found)
  {
    const Eigen::MatrixXcd free = found.leftCols(_count), by_turn = found.rightCols(_turns);
    _made.flux = free;
    _made.linkage = loads.transpose() * free;
    if (_turns == 0)
      return;
    const Eigen::MatrixXcd turns = turn_loads.cast<Complex>();
    const Complex j_omega = j_unit * _omega;
    Eigen::MatrixXcd A = -j_omega * (turns.transpose() * by_turn);
    A.diagonal() += whole.cast<Complex>();
    Eigen::MatrixXcd push = two_pi / j_omega * _current.cast<Complex>() + turns.transpose() * free;
    if (_count > _windings)
      push.col(_windings) += driven_turns;
    _constant = A.partialPivLu().solve(push);
    _made.flux += j_omega * by_turn * _constant;
    _made.linkage = loads.transpose() * _made.flux;
    _made.linkage += two_pi * _current.transpose() * _constant;
    if (_count > _windings)
      _made.linkage.row(_windings) += j_omega * driven_turns.transpose() * _constant;
  }

  /// What the background drives in the bodies: -int (nu - nu0) B0.B_v - j omega sigma psi0 v / r^2,
  /// psi0 = B0 s / 2; also what psi0 drives in solid turns.
  Eigen::VectorXcd background_load(double B0, Eigen::VectorXcd& turns) const
  {
    Eigen::VectorXcd load = Eigen::VectorXcd::Zero(_space.count);
    for (int k = 0; k < _triangles; ++k)
    {
      const Complex pull = (1.0 / mu(k) - 1.0 / mu0) * B0;
      if (pull == 0.0 && sigma(k) == 0.0)
        continue;
      const ElementTable at = table(k);
      const auto points = static_cast<Eigen::Index>(at.points.size());
      Eigen::VectorXd weight(points);
      for (Eigen::Index c = 0; c < points; ++c)
        weight[c] = -two_pi * at.points[static_cast<std::size_t>(c)].weight;
      const Eigen::VectorXd bent = at.tested(weight, Eigen::VectorXd::Zero(points));
      const Eigen::VectorXd plain = at.shapes->value * weight;
      const Complex eddy = j_unit * _omega * sigma(k) * 0.25 * B0;
      const Gather gathered = gather(k);
      for (std::size_t i = 0; i < gathered.index.size(); ++i)
      {
        const auto row = static_cast<Eigen::Index>(i);
        load[gathered.index[i]] += gathered.sign[i] * (pull * bent[row] + eddy * plain[row]);
      }
      if (solid(k) >= 0)
        turns[solid(k)] -= 0.25 * B0 * sigma(k) * weight.sum();
    }
    return load;
  }

  void solve_flux()
  {
    Eigen::MatrixXcd loads = Eigen::MatrixXcd::Zero(_space.count, _count);
    Eigen::VectorXcd driven_turns = Eigen::VectorXcd::Zero(_turns);
    const std::vector<double> ones(_s.permeability.size(), 1.0);
    for (Eigen::Index w = 0; w < _windings; ++w)
      loads.col(w) = flux_load(_space, _s.layout, _made.sources[w], ones).cast<Complex>();
    if (_count > _windings)
      loads.col(_windings) = background_load(*_s.problem.background, driven_turns);
    const Equation<Complex> equation(
        _space, held_on_axis(_space, Weight::over_r),
        [this](int k)
        {
          if (k >= _triangles)
            return Eigen::MatrixXcd(
                (1.0 / mu0) *
                exterior_matrix(_space, k - _triangles, Weight::over_r).cast<Complex>());
          Eigen::MatrixXcd K =
              (1.0 / mu(k)) * triangle_matrix(_space, k, Weight::over_r).cast<Complex>();
          if (sigma(k) > 0.0)
            K += j_unit * _omega * sigma(k) * triangle_reaction(_space, k).cast<Complex>();
          return K;
        });
    SymmetricFactor factor;
    factor.compute(equation.matrix());
    Eigen::MatrixXd turn_loads = Eigen::MatrixXd::Zero(_space.count, _turns);
    Eigen::VectorXd whole = Eigen::VectorXd::Zero(_turns);
    solid_loads(turn_loads, whole);
    Eigen::MatrixXcd all(_space.count, _count + _turns);
    all << loads, turn_loads.cast<Complex>();
    close_turns(loads, turn_loads, whole, driven_turns,
                equation.expanded(factor.solve(equation.reduced(all)), all));
    _made.unknowns = equation.unknowns();
  }

  /// psi - w in an element: w of a solid turn, 0 of every other conductor, a closed ring.
  Complex driven(const Eigen::MatrixXd& psi, Eigen::Index point, double s, Eigen::Index w,
                 int turn) const
  {
    Complex value(psi(point, w), psi(point, _count + w));
    if (w == _windings)
      value += 0.5 * *_s.problem.background * s;
    return turn >= 0 ? value - _constant(turn, w) : value;
  }

  /// Currents per ds dz, less their sign, at an element's points: j omega sigma (psi - w) / (2 s).
  Eigen::MatrixXcd densities(const ElementTable& at, const Eigen::MatrixXd& psi, double sigma,
                             int turn) const
  {
    const Eigen::MatrixXd values = at.shapes->value.transpose() * psi; // points by 2 fields
    Eigen::MatrixXcd q(values.rows(), _count);
    for (Eigen::Index c = 0; c < q.rows(); ++c)
    {
      const Complex scale = j_unit * _omega * sigma / (2.0 * at.points[c].s);
      for (Eigen::Index w = 0; w < _count; ++w)
        q(c, w) = scale * driven(values, c, at.points[c].s, w, turn);
    }
    return q;
  }

  /// Polynomial currents in every conducting triangle, and how they are carried to the axis.
  void find_eddy_currents()
  {
    _made.zeta = Eigen::MatrixXd::Zero(_elements, _count);
    _density.resize(_triangles);
    bool any = false;
    std::vector<std::vector<Eigen::Vector3cd>> own(
        _count, std::vector<Eigen::Vector3cd>(_triangles, Eigen::Vector3cd::Zero()));
    for (int k = 0; k < _triangles; ++k)
    {
      if (sigma(k) == 0.0)
        continue;
      any = true;
      const ElementTable at = table(k);
      const Eigen::MatrixXcd q = densities(at, local(gather(k), _made.flux), sigma(k), solid(k));
      Eigen::MatrixXcd by_area = q;
      for (Eigen::Index c = 0; c < q.rows(); ++c)
        by_area.row(c) /= at.points[c].gradient.determinant();
      _density[k] = density_coefficients(at, by_area);
      const Eigen::VectorXd& integral = eddy_table(at).integral;
      for (Eigen::Index w = 0; w < _count; ++w)
        own[w][k][1] = (integral.transpose() * _density[k].col(w)).value();
      const Eigen::MatrixXcd kept = at.shapes->value.transpose() * _density[k];
      for (Eigen::Index c = 0; c < q.rows(); ++c)
      {
        const ElementPoint& x = at.points[c];
        _made.zeta.row(k) += two_pi * x.weight * 2.0 * x.s / (_omega * sigma(k)) *
                             (kept.row(c) * x.gradient.determinant() - q.row(c)).cwiseAbs2();
      }
    }
    for (Eigen::Index w = 0; w < _count && any; ++w)
      _offset.push_back(eddy_offsets(_space, own[w]));
  }

  /// T - nu B at the points of one element, one pair of rows (s, z) a point, columns fields.
  Eigen::MatrixXcd field(int k, const ElementTable& at)
  {
    const auto points = static_cast<Eigen::Index>(at.points.size());
    const Gather gathered = gather(k);
    Eigen::MatrixXcd X(2 * points, _count);
    const ElementTable::Gradients psi = at.gradients(local(gathered, _made.flux));
    const Complex nu = 1.0 / mu(k);
    for (Eigen::Index c = 0; c < points; ++c)
      for (Eigen::Index w = 0; w < _count; ++w)
      {
        X(2 * c, w) = nu * Complex(psi.d_z(w, c), psi.d_z(_count + w, c)) / (2.0 * at.points[c].s);
        X(2 * c + 1, w) = -2.0 * nu * Complex(psi.d_s(w, c), psi.d_s(_count + w, c));
        if (w == _windings)
          X(2 * c + 1, w) += (1.0 / mu0 - nu) * *_s.problem.background;
      }
    if (k < _triangles)
      add_carried(k, at, X);
    return X;
  }

  /// T: offsets, the closed form in a conductor's section, the eddy currents' own field.
  void add_carried(int k, const ElementTable& at, Eigen::MatrixXcd& X) const
  {
    const auto points = static_cast<Eigen::Index>(at.points.size());
    Eigen::MatrixXd offset = Eigen::MatrixXd::Zero(at.shapes->value.rows(), 2 * _count);
    for (Eigen::Index w = 0; w < _count; ++w)
    {
      Eigen::Vector3cd sum = _made.sources[w].offset[k].cast<Complex>();
      if (!_offset.empty())
        sum += _offset[w][k];
      offset.col(w).head<3>() = sum.real();
      offset.col(_count + w).head<3>() = sum.imag();
    }
    const ElementTable::Gradients carried = at.gradients(offset);
    const int conductor = _space.mesh.triangles[k].conductor;
    const bool eddy = _density[k].size() > 0;
    const Eigen::MatrixXcd E_1 =
        eddy ? Eigen::MatrixXcd(eddy_table(at).E_1.transpose() * _density[k]) : Eigen::MatrixXcd();
    const Eigen::MatrixXcd E_2 =
        eddy ? Eigen::MatrixXcd(eddy_table(at).E_2.transpose() * _density[k]) : Eigen::MatrixXcd();
    for (Eigen::Index c = 0; c < points; ++c)
    {
      const ElementPoint& x = at.points[c];
      for (Eigen::Index w = 0; w < _count; ++w)
      {
        X(2 * c, w) -= Complex(carried.d_s(w, c), carried.d_s(_count + w, c));
        X(2 * c + 1, w) -= Complex(carried.d_z(w, c), carried.d_z(_count + w, c));
        if (eddy)
        {
          X(2 * c, w) += x.gradient(0, 0) * E_1(c, w) + x.gradient(0, 1) * E_2(c, w);
          X(2 * c + 1, w) += x.gradient(1, 0) * E_1(c, w) + x.gradient(1, 1) * E_2(c, w);
        }
        if (conductor < 0 || _made.sources[w].ampere_turns[conductor] == 0.0)
          continue;
        const Eigen::Vector2d h = section_field(_s.layout.conductors[conductor],
                                                _made.sources[w].ampere_turns[conductor], x.s, x.z);
        X(2 * c, w) += h[0];
        X(2 * c + 1, w) += h[1];
      }
    }
  }

  /// The fields kept, and the load they are to the potential: real parts, then imaginary ones.
  void collect_fields()
  {
    _load = Eigen::MatrixXd::Zero(_space.count, 2 * _count);
    _field.reserve(_elements);
    for (int k = 0; k < _elements; ++k)
    {
      const ElementTable at = table(k);
      _field.push_back(field(k, at));
      const Eigen::MatrixXcd& X = _field.back();
      const auto points = static_cast<Eigen::Index>(at.points.size());
      const Gather gathered = gather(k);
      Eigen::VectorXd a(points), b(points);
      for (Eigen::Index f = 0; f < 2 * _count; ++f)
      {
        for (Eigen::Index c = 0; c < points; ++c)
        {
          const ElementPoint& x = at.points[c];
          const Complex s = X(2 * c, f % _count), z = X(2 * c + 1, f % _count);
          const double weight = two_pi * std::abs(mu(k)) * x.weight;
          a[c] = weight * 2.0 * x.s * (f < _count ? s.real() : s.imag());
          b[c] = weight * 0.5 * (f < _count ? z.real() : z.imag());
        }
        const Eigen::VectorXd local = at.tested(a, b);
        for (std::size_t i = 0; i < gathered.index.size(); ++i)
          _load(gathered.index[i], f) += gathered.sign[i] * local[static_cast<Eigen::Index>(i)];
      }
    }
  }

  void solve_potential()
  {
    std::vector<double> weight;
    for (int k = 0; k < _triangles; ++k)
      weight.push_back(std::abs(mu(k)));
    const Equation<double> equation(_space, Weight::times_r, weight, mu0);
    const Factor factor(equation.matrix());
    const Eigen::MatrixXd found = equation.expanded(factor.solve(equation.reduced(_load)), _load);
    _made.field = found.leftCols(_count) + j_unit * found.rightCols(_count);
    _made.unknowns += equation.unknowns();
  }

  void sum_residuals()
  {
    _made.eta = Eigen::MatrixXd::Zero(_elements, _count);
    const std::size_t regions = _s.permeability.size();
    _made.region_energy.assign(regions, Eigen::VectorXcd::Zero(_count));
    _made.region_loss.assign(regions, Eigen::VectorXd::Zero(_count));
    _made.winding_loss = Eigen::MatrixXd::Zero(_count, _count);
    Eigen::MatrixXcd form = Eigen::MatrixXcd::Zero(_count, _count);
    for (const Complex& mu : _s.permeability)
      _made.cosine = std::min(_made.cosine, std::cos(0.5 * std::abs(std::arg(mu))));
    for (int k = 0; k < _elements; ++k)
    {
      const ElementTable at = table(k);
      const Gather gathered = gather(k);
      const ElementTable::Gradients phi = at.gradients(local(gathered, _made.field));
      const Eigen::MatrixXcd& X = _field[k];
      for (std::size_t c = 0; c < at.points.size(); ++c)
      {
        const ElementPoint& x = at.points[c];
        const auto row = static_cast<Eigen::Index>(c);
        for (Eigen::Index w = 0; w < _count; ++w)
        {
          const Complex s = X(2 * row, w) - Complex(phi.d_s(w, row), phi.d_s(_count + w, row));
          const Complex z = X(2 * row + 1, w) - Complex(phi.d_z(w, row), phi.d_z(_count + w, row));
          _made.eta(k, w) +=
              two_pi * std::abs(mu(k)) * x.weight * (2.0 * x.s * std::norm(s) + 0.5 * std::norm(z));
        }
      }
      sum_losses(k, at, local(gathered, _made.flux));
      sum_form(k, at, local(gathered, _made.flux), form);
    }
    // l(u) alone errs by the rounding of the solved matrix's integrals in the first order.
    const Eigen::MatrixXcd both = _made.linkage + _made.linkage.transpose();
    _made.linkage = both - form;
  }

  /// a(u_i, u_j) of one element.
  void sum_form(int k, const ElementTable& at, const Eigen::MatrixXd& psi,
                Eigen::MatrixXcd& form) const
  {
    const ElementTable::Gradients by = at.gradients(psi);
    const Eigen::MatrixXd values = at.shapes->value.transpose() * psi;
    const Complex nu = 1.0 / mu(k), eddy = j_unit * _omega * sigma(k);
    const int turn = solid(k);
    for (std::size_t i = 0; i < at.points.size(); ++i)
    {
      const ElementPoint& x = at.points[i];
      const auto c = static_cast<Eigen::Index>(i);
      Eigen::VectorXcd s(_count), z(_count), value(_count);
      for (Eigen::Index w = 0; w < _count; ++w)
      {
        s[w] = {by.d_s(w, c), by.d_s(_count + w, c)};
        z[w] = {by.d_z(w, c), by.d_z(_count + w, c)};
        value[w] = {values(c, w), values(c, _count + w)};
        value[w] -= turn >= 0 ? _constant(turn, w) : 0.0;
      }
      const double weight = two_pi * x.weight;
      form += weight * nu * (2.0 * s * s.transpose() + z * z.transpose() / (2.0 * x.s));
      form += weight * eddy / (2.0 * x.s) * value * value.transpose();
    }
  }

  /// int nu B.B and the mean loss at 1 A peak of one element.
  void sum_losses(int k, const ElementTable& at, const Eigen::MatrixXd& psi)
  {
    const std::size_t region = k < _triangles ? _space.mesh.triangles[k].region : 0;
    const ElementTable::Gradients by = at.gradients(psi);
    const Eigen::MatrixXd values = at.shapes->value.transpose() * psi;
    const Complex nu = 1.0 / mu(k);
    for (std::size_t i = 0; i < at.points.size(); ++i)
    {
      const ElementPoint& x = at.points[i];
      const auto c = static_cast<Eigen::Index>(i);
      for (Eigen::Index w = 0; w < _count; ++w)
      {
        const double uniform = w == _windings ? 0.5 * *_s.problem.background : 0.0;
        const Complex s = Complex(by.d_s(w, c), by.d_s(_count + w, c)) + uniform,
                      z(by.d_z(w, c), by.d_z(_count + w, c)),
                      value = driven(values, c, x.s, w, solid(k));
        const double weight = two_pi * x.weight;
        _made.region_energy[region][w] += weight * nu * (2.0 * s * s + z * z / (2.0 * x.s));
        const double loss = 0.5 * _omega * weight *
                            (nu.imag() * (2.0 * std::norm(s) + std::norm(z) / (2.0 * x.s)) +
                             _omega * sigma(k) * std::norm(value) / (2.0 * x.s));
        if (solid(k) >= 0)
          _made.winding_loss(_s.layout.conductors[_space.mesh.triangles[k].conductor].winding, w) +=
              loss;
        else
          _made.region_loss[region][w] += loss;
      }
    }
  }

  const Harmonic& _s;
  const Space& _space;
  double _omega;
  int _triangles, _elements;
  Eigen::Index _windings;
  Eigen::Index _count;        ///< Windings, then the background if there is one.
  std::vector<int> _solid;    ///< Number of a conductor's solid turn, -1 where it is none.
  int _turns = 0;             ///< Solid turns.
  Eigen::MatrixXd _current;   ///< Ampere-turns of solid turns by windings.
  Eigen::MatrixXcd _constant; ///< w of solid turns, one column a winding [Wb / 2 pi].
  std::vector<Eigen::MatrixXcd> _density;             ///< Coefficients, one a triangle.
  std::vector<std::vector<Eigen::Vector3cd>> _offset; ///< Of eddy currents, windings by triangles.
  std::vector<Eigen::MatrixXcd> _field;               ///< T - nu B at the points, one an element.
  Eigen::MatrixXd _load;
  OnMesh _made;
};

} // namespace

OnMesh on_mesh(const Harmonic& given)
{
  return Passes(given).run();
}

} // namespace solver
