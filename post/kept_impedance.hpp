// A model of impedances kept with what the windings' own wires add to the field's.
#pragma once

#include "post/frequency.hpp"
#include "solver/impedance_model.hpp"

#include <complex>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace post
{

struct KeptImpedance
{
  solver::ImpedanceModel model;
  std::vector<std::string> windings;
  std::vector<OwnLoss> own; ///< One a winding.
};

/// @param points  Permeabilities mu' - j mu'' asked for, one a varied material.
/// @throws as solver::impedance_model().
KeptImpedance kept_impedance(const solver::Problem& problem, std::vector<std::string> varied,
                             const std::vector<std::vector<std::complex<double>>>& points,
                             int threads);

/// @brief Impedances at one permeability mu' - j mu'' a varied material; losses by body are left
///        out.
FrequencyResult at(const KeptImpedance& kept, std::span<const std::complex<double>> permeability);

/// @brief One line, read back to the last bit; how to evaluate it stands in it.
std::string json(const KeptImpedance& kept);
/// @throws std::runtime_error saying what is wrong with the text.
KeptImpedance kept_impedance(std::string_view text);

} // namespace post
