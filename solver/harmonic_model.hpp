// Impedances at every frequency from fields solved at a few, on one mesh, inside their discs.
//
// The form is affine in each region's reluctivity and in omega. Flux functions joined by Galerkin's
// rule are admissible, and fields joined with weights of sum one carry the same currents, so the
// proof of the disc holds for any weights [DEVELOPERS.md, curves over frequency; reduced basis:
// Rozza-Huynh-Patera 2008].
#pragma once

#include "solver/factor_pool.hpp"
#include "solver/harmonic.hpp"
#include "solver/harmonic_mesh.hpp"

#include <Eigen/Core>

#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace solver
{

class HarmonicModel
{
public:
  /// @param base  A solution without a background field; its mesh carries all of them.
  explicit HarmonicModel(Harmonic base);
  /// @brief Solves at these frequencies [Hz], at most `threads` at once, and joins them.
  void add(std::span<const double> frequencies, int threads);
  /// @brief The fields joined for a frequency [Hz], with their own discs.
  /// @throws std::logic_error before anything was added.
  Harmonic at(double frequency) const;
  /// @brief at() without its flux function and potential.
  Harmonic numbers_at(double frequency) const;
  const std::vector<double>& frequencies() const { return _frequencies; }
  /// @brief Factors of its mesh: ordered once for each solution that was under way at once.
  FactorPool& factors() { return *_factors; }
  /// @brief Bytes that what is kept of one solution takes.
  static double bytes_kept(const Harmonic& base);

private:
  /// Inner products over one group of elements, in the order of columns that Kept has, snapshot
  /// after snapshot.
  struct Products
  {
    Eigen::MatrixXd magnetic, eddy;
  };
  /// Weights of one source's real and imaginary parts, snapshot after snapshot.
  struct Weights
  {
    Eigen::VectorXcd flux, field;
  };
  void join(std::size_t from, int threads);
  Products products(std::size_t group, std::size_t a, std::size_t b) const;
  enum class Side
  {
    flux,
    field
  };
  /// The columns of one source, one side, in the order of Weights.
  std::vector<Eigen::Index> columns(Side side, Eigen::Index source) const;
  /// a(u_i, u_j) of two sources' columns.
  Eigen::MatrixXcd form(const Harmonic& at, Eigen::Index i, Eigen::Index j) const;
  /// l_i of source j's columns [H].
  Eigen::VectorXd linkage(Eigen::Index i, Eigen::Index j) const;
  Eigen::VectorXcd flux_weights(const Harmonic& at, Eigen::Index source) const;
  /// Fields that least fall short of nu b and of its eddy currents, the weights' sum one.
  Eigen::VectorXcd field_weights(const Harmonic& at, Eigen::Index source,
                                 const Eigen::VectorXcd& flux) const;
  /// Squared norms of both residuals, round-off counted: eta^2, zeta^2.
  Eigen::Vector2d residuals(const Harmonic& at, Eigen::Index source, const Weights& by) const;
  void sum_losses(Harmonic& made, const std::vector<Weights>& by) const;
  void add_fields(Harmonic& made, const std::vector<Weights>& by) const;
  Harmonic joined(double frequency, bool fields) const;
  Harmonic _base;
  std::unique_ptr<FactorPool> _factors;
  Eigen::Index _count; ///< Sources.
  std::vector<Group> _groups;
  std::vector<std::vector<int>> _elements; ///< Of each group.
  std::vector<Products> _products;         ///< One a group.
  std::vector<double> _frequencies;
  std::vector<Kept> _kept;
  std::vector<Eigen::MatrixXcd> _flux, _field;
};

/// @brief Solves at all of a problem's frequencies (ascending): directly, or a few of them and the
///        others joined where the disc of that is as small as asked.
/// @param use  Called once a frequency, from at most `threads` threads at once.
/// @throws as solve_harmonic().
void solve_curve(const Problem& problem, int threads,
                 const std::function<void(std::size_t, const Harmonic&)>& use);

} // namespace solver
