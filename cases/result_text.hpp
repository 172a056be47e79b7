// The sections of a report, each a heading and a table; empty where there is nothing to say.
//
// Every heading marks how its numbers are to be taken: bounded (a guaranteed bracket), estimated
// (close, no guarantee), or mesh-dependent (a corner's field, which has no finite peak).
#pragma once

#include "cases/case.hpp"
#include "cases/sheet.hpp"
#include "post/result.hpp"

#include <span>
#include <string>

namespace cases
{

/// @brief At most thirteen of so many rows, evenly taken, both ends among them.
std::vector<std::size_t> shown(std::size_t count);

/// @brief Turns, inductance with its bracket, apparent permeability, per turn squared; wire data.
Sheet winding_text(const post::Result& result);

/// @brief What turns in parallel mean for the numbers; empty where all are in series.
Sheet parallel_text(const solver::Problem& problem);

/// @brief Self-capacitance of windings drawn turn by turn, and the resonance to expect.
Sheet capacitance_text(const solver::Problem& problem, const post::Result& result);

/// @brief Mutual inductances and coupling of every pair of windings.
Sheet mutual_text(const post::Result& result);

/// @brief A temperature [K] in degC: "20 degC".
std::string degrees(double temperature);

/// @brief Which materials conduct alike at every temperature, where another than 20 degC is asked.
Sheet temperature_text(const solver::Problem& problem);

/// @brief Inductances of saturating materials over current, falls, energy, peaks; its caution.
Sheet bias_text(const post::Result& result);

/// @brief Temperature rises by body, what takes the heat, and the caution; empty without [heat].
Sheet heat_text(const solver::Problem& problem, const post::Result& result);
Sheet compare_heat_text(std::span<const post::Result> results, std::span<const std::string> names);

/// @brief Gaps across the axis: their fringing factor beside the published rules; empty for none.
Sheet gap_text(const post::Result& result);
Sheet compare_gap_text(std::span<const post::Result> results, std::span<const std::string> names);

/// @brief Where the first winding of each case loses its inductance; empty below two such cases.
Sheet compare_bias_text(std::span<const post::Result> results, std::span<const std::string> names);

/// @brief Resistance, inductance and Q of every winding over frequency, and where the loss arises.
Sheet frequency_text(const post::Result& result);

/// @brief R-L ladders fitted to the impedances, and how far each is off.
Sheet ladder_text(const post::Result& result);

/// @brief What every part takes from a matched line it is put in series with.
Sheet insertion_text(const post::Result& result);

/// @brief Straight wires and toroids, at rest and over frequency.
Sheet axial_text(const post::Result& result);

/// @brief A ratio of fields with the digits left by their relative noise: "22.7 dB", "about 20 dB".
std::string decibels(double value, double noise);

/// @brief Energy ledger, volume and peak flux density by region, as driven.
Sheet region_text(const solver::Problem& problem, const post::Result& result);

/// @brief Apparent permeability and demagnetising factors in a background field.
Sheet background_text(const post::Result& result);

/// @brief Hand formulas beside the bracket: inside it, off by how much, or outside their range.
/// @param beside  What the heading says they stand beside.
Sheet formula_text(std::span<const post::FormulaResult> formulas,
                   const std::string& beside = "the bracket");

/// @brief Field at the probes.
Sheet probe_text(const post::Result& result);

/// @brief What each powder of the scene was taken for, its bounds, and the caution that goes with
/// it.
Sheet powder_text(std::span<const Case> read);

/// @brief Accuracy asked and met, curved boundaries, and why it stopped where it did.
Sheet accuracy_text(const post::Result& result);

/// @brief What a computed field is not, and dust where powder is handled.
Sheet safety_text(std::span<const Case> read);

} // namespace cases
