// The passes of one harmonic problem over the elements of one mesh, in the order of run().
//
// Shared by the files that hold them: harmonic_flux.cpp, harmonic_field.cpp, harmonic_mesh.cpp.
#pragma once

#include "solver/harmonic_mesh.hpp"

#include "solver/form.hpp"

namespace solver
{

/// @brief One run over the elements of a harmonic problem; used once.
class Passes
{
public:
  explicit Passes(const Harmonic& given, Kept* kept = nullptr, HarmonicFactors* factors = nullptr);
  OnMesh run();
  Eigen::MatrixXcd impedance_under_bias(const std::vector<Eigen::MatrixXd>& tangent);

private:
  std::complex<double> mu(int element) const;
  double sigma(int element) const;
  /// Number of the constant an element belongs to, a solid turn's or a coating's, or -1.
  int solid(int element) const;
  bool solid_wire(int element) const;
  Gather gather(int element) const;
  ElementTable table(int element) const;
  /// An element's coefficients: real parts of all fields, then imaginary ones.
  Eigen::MatrixXd local(const Gather& at, const Eigen::MatrixXcd& global) const;
  /// Solid turns carry what currents the field makes them; all others a given density.
  void find_solid_turns();
  bool parallel(int winding) const;
  /// Triangles of solid turns and of conducting coatings of turns (harmonic_coating.cpp).
  void find_turns();
  void find_coating(int region, Eigen::Index winding, bool insulated);
  /// What the background drives in the bodies: -int (nu - nu0) B0.B_v - j omega sigma psi0 v / r^2,
  /// psi0 = B0 s / 2; then, of the same, what psi0 drives in solid turns.
  Eigen::VectorXcd background_load(double B0) const;
  /// One element's a(u, v) for psi, and for the constant w of its solid turn, whose electric field
  /// is -j omega (psi - w) / r.
  Eigen::MatrixXcd flux_matrix(int k) const;
  void solve_flux();
  /// psi - w in an element: w of a solid turn, 0 of every other conductor, a closed ring.
  std::complex<double> driven(const Eigen::MatrixXd& psi, Eigen::Index point, double s,
                              Eigen::Index w, int turn) const;
  /// Currents per ds dz, less their sign, at an element's points: j omega sigma (psi - w) / (2 s).
  Eigen::MatrixXcd densities(const ElementTable& at, const Eigen::MatrixXd& psi, double sigma,
                             int turn) const;
  /// Polynomial currents in every conducting triangle, and how they are carried to the axis.
  void find_eddy_currents();
  /// T - nu B at the points of one element, one pair of rows (s, z) a point, columns fields.
  Eigen::MatrixXcd field(int k, const ElementTable& at);
  /// T: offsets, the closed form in a conductor's section, the eddy currents' own field.
  void add_carried(int k, const ElementTable& at, Eigen::MatrixXcd& X) const;
  /// The fields kept, and the load they are to the potential: real parts, then imaginary ones.
  void collect_fields();
  void solve_potential();
  void sum_residuals();
  /// 2 pi int of one element, real parts of all fields, then imaginary ones, by the same.
  struct Products
  {
    Eigen::MatrixXd gradients; ///< 2 u_s v_s + u_z v_z / (2 s).
    Eigen::MatrixXd values;    ///< Of psi - w over 2 s; empty where nothing conducts.
  };
  /// @param by          Gradients of psi at its points.
  /// @param values      psi there: points by fields.
  /// @param background  Of which the last field is what the bodies change; 0: left out [T].
  Products products(int k, const ElementTable& at, ElementTable::Gradients by,
                    Eigen::MatrixXd values, double background) const;
  /// a(u_i, u_j) of one element.
  void sum_form(int k, const Products& of, Eigen::MatrixXcd& form) const;
  /// int H_i conj(H_j) over a triangle of a plain section with strands (harmonic_strands.cpp).
  void sum_strands(int k, const ElementTable& at, const ElementTable::Gradients& by);
  /// What a reduced model keeps of one element (harmonic_record.cpp).
  /// @param phi  Gradients of the potential.
  void record(int k, const ElementTable& at, const ElementTable::Gradients& by,
              const Eigen::MatrixXd& values, const ElementTable::Gradients& phi);
  /// int nu B.B and the mean loss at 1 A peak of one element.
  void sum_losses(int k, const Products& of);
  const Harmonic& _s;
  const Space& _space;
  double _omega;
  int _triangles, _elements;
  Eigen::Index _windings;
  Eigen::Index _count;        ///< Windings, then the background if there is one.
  std::vector<int> _solid;    ///< Number of a conductor's constant, -1 where it is not solid.
  int _turns = 0;             ///< Constants: of solid turns, of coatings that have their own.
  std::vector<int> _turn;     ///< Number of a triangle's constant, -1 where it has none.
  Eigen::MatrixXd _current;   ///< Ampere-turns of solid turns by windings.
  Eigen::MatrixXcd _constant; ///< w of solid turns, one column a winding [Wb / 2 pi].
  std::vector<Eigen::MatrixXcd> _density;             ///< Coefficients, one a triangle.
  std::vector<std::vector<Eigen::Vector3cd>> _offset; ///< Of eddy currents, windings by triangles.
  std::vector<Eigen::MatrixXcd> _field;               ///< T - nu B at the points, one an element.
  Eigen::MatrixXd _load;
  OnMesh _made;
  Kept* _kept;                                            ///< Null: nothing is kept.
  HarmonicFactors* _factors;                              ///< Null: none of this mesh yet.
  const std::vector<Eigen::MatrixXd>* _tangent = nullptr; ///< Null: no bias.
};

} // namespace solver
