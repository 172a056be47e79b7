// Pieces of a sweep worked out, and points read back from what was recorded of them.
//
// Piece -> record (one line of text, whoever worked it out) -> points. Everything after this
// station sees records only, so that threads, machines and interruptions cannot show.
#pragma once

#include "cases/sweep_plan.hpp"
#include "post/sweep.hpp"

#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief Solves a piece: a point in full, or the reduced model of a geometry.
///
/// What cannot be built or solved becomes a record that says why.
/// @param threads  As in solver::solve(); the record is the same for any.
std::string worked_out(const SweepPlan& plan, const SweepPiece& piece, int threads);

/// @brief A point with the same solutions and the same numbers as `solve`.
/// @param read  With no more than one frequency and one bias: see one_condition().
post::SweptPoint solved_in_full(const Case& read, int threads);

/// @brief The case without its frequencies, or its biases, where it has several.
Case one_condition(Case read);

/// @brief Points of a whole sweep, in order, and the models they came from, one a modelled piece.
struct SweptPoints
{
  std::vector<post::SweptPoint> points;
  std::vector<post::KeptModel> models;
};

/// @param records  One a piece.
SweptPoints points(const SweepPlan& plan, const std::vector<std::string>& records);

/// @brief Names of the hand formulas at a point that say what the plan shows; none where the case
///        is at fault.
std::vector<std::string> formulas_at(const SweepPlan& plan, std::size_t point);
/// @brief What those asked for say of a point, where they hold; not a number elsewhere.
std::vector<post::SweptQuantity> beside(const SweepPlan& plan, std::size_t index,
                                        const post::SweptPoint& point);

/// @brief "rod length 20 mm, powder packing 0.5": where a point lies.
/// @param materials  False leaves material keys out.
std::string place_text(const std::vector<Varied>& varied, std::size_t point, bool materials = true);

} // namespace cases
