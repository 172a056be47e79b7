// Fields and impedances at every frequency from a few solved on one mesh, inside their discs.
#pragma once

#include "solver/factor_pool.hpp"
#include "solver/harmonic.hpp"
#include "solver/harmonic_span.hpp"

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
  /// @brief Solves at these states, at most `threads` at once, and joins them.
  void add(std::span<const HarmonicState> states, int threads);
  /// @brief The same at frequencies, of materials as the problem has them there [Hz].
  void add(std::span<const double> frequencies, int threads);
  /// @brief The fields joined for a frequency [Hz], with their own discs.
  /// @throws std::logic_error before anything was added.
  Harmonic at(double frequency) const;
  /// @brief at() without its flux function and potential.
  Harmonic numbers_at(double frequency) const;
  /// @brief What is known of all states without the mesh.
  const HarmonicSpan& span() const { return _span; }
  /// @brief Factors of its mesh: ordered once for each solution that was under way at once.
  FactorPool& factors() { return *_factors; }
  /// @brief Bytes that what is kept of one solution takes.
  static double bytes_kept(const Harmonic& base);

private:
  void join(std::size_t from, int threads);
  SpanProducts products(std::size_t group, std::size_t a, std::size_t b) const;
  void sum_losses(Harmonic& made, const SpanNumbers& by) const;
  void add_fields(Harmonic& made, const SpanNumbers& by) const;
  Harmonic joined(double frequency, bool fields) const;
  Harmonic _base;
  std::unique_ptr<FactorPool> _factors;
  std::vector<std::vector<int>> _elements; ///< Of each group.
  HarmonicSpan _span;
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
