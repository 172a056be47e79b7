// A powder by every mixing rule: two of particle, packing and effective permeability are known, the
// third is found. Plain result, its JSON document and its charts.
//
// Numbers from solver/powder*.hpp; sentences are made in cases/.
#pragma once

#include "post/chart.hpp"
#include "solver/powder_complex.hpp"
#include "solver/powder_inverse.hpp"

#include <complex>
#include <optional>
#include <string>
#include <vector>

namespace post
{

/// @brief What is known: exactly two of the three. mu' - j mu'', so imaginary parts are <= 0.
struct MixtureQuestion
{
  std::optional<std::complex<double>> particle;
  std::optional<double> packing; ///< Above 0, at most 1.
  std::optional<std::complex<double>> effective;
  std::optional<solver::MixingRule> rule = {}; ///< Only this one; else all.
};

enum class MixtureSought
{
  effective,
  packing,
  particle
};

/// @brief The sought number by one rule.
struct MixtureByRule
{
  solver::RuleInfo rule;
  solver::Unmixed found;
  /// d ln found / d ln effective, where a particle or a packing is sought and none has loss: how
  /// many per cent an error of 1 % in the effective permeability makes.
  std::optional<double> sensitivity = {};
};

struct Mixture
{
  MixtureQuestion question;
  MixtureSought sought = MixtureSought::effective;
  bool lossy = false;
  std::vector<MixtureByRule> rules;
  /// Of the sought number, where nothing has loss and some arrangement exists.
  std::optional<solver::UnmixedBounds> bounds = {};
  std::optional<solver::ComplexBounds> corners = {}; ///< Of the effective, with loss.
};

/// @brief The third number by every rule asked for, and its bounds.
/// @throws std::invalid_argument unless exactly two are known; or when a packing is sought and one
///         of the others has loss, which would be one number too many.
Mixture mixture(const MixtureQuestion& question);

/// @brief The document of `mix --json`; ends in a newline.
std::string json(const Mixture& mixture, const std::vector<std::string>& files = {});

/// @brief Effective permeability over packing, or over the particle where that is sought, with the
///        bounds as bands; with loss a second chart for mu''. None for a lossy particle sought.
std::vector<Chart> charts(const Mixture& mixture);

} // namespace post
