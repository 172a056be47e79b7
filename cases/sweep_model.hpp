// Points of a kept reduced model, without any case.
#pragma once

#include "cases/sweep_report.hpp"

namespace cases
{

/// @brief Reads the model and evaluates it; every material it leaves open must be given.
/// @throws CaseError for a file that is none, and for keys and values it cannot serve.
SweepReport from_model(const SweepAsked& asked, const Options& options);

/// @brief The options with files written only where a folder was named.
Options files_if_out(Options options);

} // namespace cases
