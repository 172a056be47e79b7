// A case and its readings put together: the question post::fit() answers.
#pragma once

#include "cases/commands.hpp"
#include "cases/reading.hpp"
#include "post/fit.hpp"

#include <string>
#include <vector>

namespace cases
{

/// @brief Readings that speak of one sample at one frequency.
struct FitGroup
{
  std::string sample; ///< Empty where none is named.
  double frequency = 0.0;
  std::vector<post::FitReading> readings;
  bool winding_loss_known = false; ///< Whether every resistance has a winding's to take off.
};

struct FitCase
{
  Case read;
  post::FitQuestion question;
  bool permeability = false; ///< The unknown is a permeability itself.
  Kind kind = Kind::number;  ///< Of the unknown: a number or a length.
  std::string noun;          ///< "permeability", "packing", "thickness" ...
  std::vector<FitGroup> groups;
  bool bare_coil = false; ///< Whether a reading has one to take off.
};

/// @brief The readings sorted by sample and frequency, in the order of the file.
/// @param faults  Where windings that the scene has not are noted.
std::vector<FitGroup> fit_groups(const Readings& readings, const solver::Problem& problem,
                                 std::vector<Fault>& faults);

/// @brief Checks that every key and winding of the readings is in the case, and asks the question.
/// @throws CaseError holding every fault of the case, or else of the readings against it.
FitCase fit_case(const std::filesystem::path& file, const Readings& readings,
                 const Options& options);

} // namespace cases
