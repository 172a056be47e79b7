// One table a geometry, then their differences.
#include "post/response.hpp"

#include "post/quantities.hpp"
#include "solver/at_once.hpp"
#include "solver/interpolation.hpp"
#include "solver/reduced_model.hpp"
#include "solver/solution.hpp"
#include "solver/solve.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <stdexcept>

namespace post
{

namespace
{

/// ln L and relative half-width, one row a winding.
struct Sheet
{
  std::vector<std::vector<double>> log_inductance, half_width;
  std::vector<double> log_air;
  std::exception_ptr failure; ///< Why the geometry could not be solved.
};

void note(Sheet& sheet, std::size_t winding, double lower, double upper)
{
  sheet.log_inductance.resize(std::max(sheet.log_inductance.size(), winding + 1));
  sheet.half_width.resize(sheet.log_inductance.size());
  sheet.log_inductance[winding].push_back(std::log(0.5 * (lower + upper)));
  sheet.half_width[winding].push_back((upper - lower) / (upper + lower));
}

void note(Sheet& sheet, const solver::Solution& solution)
{
  for (std::size_t w = 0; w < solution.sources.size(); ++w)
  {
    const auto j = static_cast<Eigen::Index>(w);
    const double lower = solution.bracket.lower[j];
    note(sheet, w, lower, lower + solution.bracket.gap(j, j));
  }
}

void by_reduced_model(Sheet& sheet, const FitQuestion& question, const solver::Problem& problem)
{
  std::vector<double> mu;
  for (const double u : question.nodes)
    mu.push_back(question.material->permeability(u));
  const solver::ReducedModel model =
      solver::reduced_model(problem, {{question.material->material, mu.front(), mu.back()}});
  for (std::size_t w = 0; w < model.windings.size(); ++w)
    for (const double one : mu)
    {
      const solver::ReducedInductance L = solver::inductance(model.windings[w], {&one, 1});
      note(sheet, w, L.lower, L.upper);
    }
}

/// One piece of work: a geometry at all nodes of a material, at one node, or in air.
struct Piece
{
  Moved moved;
  bool air = false;
  Sheet sheet;
};

void work_out(Piece& piece, const FitQuestion& question)
{
  try
  {
    const solver::Problem problem = question.problem(piece.moved);
    if (piece.air)
      note(piece.sheet, solver::solve(in_air(problem)));
    else if (question.material)
      by_reduced_model(piece.sheet, question, problem);
    else
      note(piece.sheet, solver::solve(problem));
  }
  catch (...)
  {
    piece.sheet.failure = std::current_exception();
  }
}

/// The pieces of one geometry.
std::vector<Piece> pieces(const FitQuestion& question, const Moved& moved,
                          const std::vector<double>& nodes, bool air)
{
  std::vector<Piece> list;
  if (question.material)
    list.push_back({moved, false, {}});
  else
    for (const double node : nodes)
      list.push_back({{node, moved.dimension, moved.value}, false, {}});
  if (air)
    list.push_back({moved, true, {}});
  return list;
}

/// The pieces of one geometry put together again.
Sheet joined(std::span<const Piece> pieces)
{
  Sheet whole;
  for (const Piece& piece : pieces)
  {
    if (piece.sheet.failure)
      whole.failure = piece.sheet.failure;
    for (std::size_t w = 0; w < piece.sheet.log_inductance.size(); ++w)
    {
      const std::vector<double>& y = piece.sheet.log_inductance[w];
      if (piece.air)
      {
        whole.log_air.push_back(y.front());
        continue;
      }
      whole.log_inductance.resize(std::max(whole.log_inductance.size(), w + 1));
      whole.half_width.resize(whole.log_inductance.size());
      whole.log_inductance[w].insert(whole.log_inductance[w].end(), y.begin(), y.end());
      const std::vector<double>& half = piece.sheet.half_width[w];
      whole.half_width[w].insert(whole.half_width[w].end(), half.begin(), half.end());
    }
  }
  return whole;
}

/// How far a dimension is moved to be solved: its step, or the next whole one.
double solved_step(const FitQuestion& question, std::size_t d)
{
  const double own = step(question.dimensions[d]);
  return !question.whole.empty() && question.whole[d] ? std::ceil(own) : own;
}

/// The geometries to solve: as described, then each dimension below and above.
std::vector<Moved> geometries(const FitQuestion& question)
{
  std::vector<Moved> list = {{}};
  for (std::size_t d = 0; d < question.dimensions.size(); ++d)
    for (const double side : {-1.0, 1.0})
      list.push_back({{}, d, question.dimensions[d].estimate + side * solved_step(question, d)});
  return list;
}

/// Linear and quadratic part of a change through its values at -1 and 1; one of them may be amiss.
std::pair<double, double> parts(const double* below, double middle, const double* above)
{
  if (!below)
    return {*above - middle, 0.0};
  if (!above)
    return {middle - *below, 0.0};
  return {0.5 * (*above - *below), 0.5 * (*above + *below) - middle};
}

std::vector<double> on(const std::vector<double>& from, const std::vector<double>& values,
                       const std::vector<double>& to)
{
  if (from == to)
    return values;
  std::vector<double> list;
  for (const double at : to)
    list.push_back(from.size() == 1 ? values.front() : solver::monotone_cubic(from, values, at));
  return list;
}

void add_dimension(std::vector<Response>& all, const FitQuestion& question, std::size_t d,
                   const Sheet& below, const Sheet& above, bool air)
{
  if (below.failure && above.failure)
  {
    try
    {
      std::rethrow_exception(above.failure);
    }
    catch (const std::exception& error)
    {
      throw std::runtime_error(question.dimensions[d].name +
                               " can be moved neither way by its tolerance: " + error.what());
    }
  }
  const std::vector<double>& near = question.near.empty() ? question.nodes : question.near;
  const double own = step(question.dimensions[d]) / solved_step(question, d);
  for (std::size_t w = 0; w < all.size(); ++w)
  {
    std::vector<double> linear, quadratic;
    for (std::size_t i = 0; i < near.size(); ++i)
    {
      const double middle =
          solver::monotone_cubic(all[w].unknown, all[w].log_inductance, near[i]); // exact at nodes
      const auto [a, b] = parts(below.failure ? nullptr : &below.log_inductance[w][i], middle,
                                above.failure ? nullptr : &above.log_inductance[w][i]);
      linear.push_back(own * a);
      quadratic.push_back(own * own * b);
    }
    all[w].linear.push_back(on(near, linear, all[w].unknown));
    all[w].quadratic.push_back(on(near, quadratic, all[w].unknown));
    if (!air)
      continue;
    const auto [a, b] = parts(below.failure ? nullptr : &below.log_air[w], all[w].log_air,
                              above.failure ? nullptr : &above.log_air[w]);
    all[w].air_linear.push_back(own * a);
    all[w].air_quadratic.push_back(own * own * b);
  }
}

/// Few solved nodes become many, so that a draw can be read between them.
void densify(Response& response)
{
  constexpr int count = 240;
  std::vector<double> fine;
  const double first = std::log(response.unknown.front()), last = std::log(response.unknown.back());
  for (int i = 0; i <= count; ++i)
    fine.push_back(std::exp(first + (last - first) * i / count));
  fine.front() = response.unknown.front();
  fine.back() = response.unknown.back();
  response.log_inductance = on(response.unknown, response.log_inductance, fine);
  response.half_width = on(response.unknown, response.half_width, fine);
  for (auto* parts : {&response.linear, &response.quadratic})
    for (std::vector<double>& one : *parts)
      one = on(response.unknown, one, fine);
  response.unknown = std::move(fine);
}

} // namespace

double step(const UncertainInput& dimension)
{
  return dimension.spread == Spread::normal ? 2.0 * dimension.width : dimension.width;
}

std::vector<Response> responses(const FitQuestion& question, bool air, int threads)
{
  if (question.nodes.size() < 4)
    throw std::invalid_argument("a response needs at least four values of the unknown");
  const std::vector<Moved> moves = geometries(question);
  const std::vector<double>& near = question.near.empty() ? question.nodes : question.near;
  std::vector<Piece> all_pieces;
  std::vector<std::size_t> ends = {0};
  for (std::size_t i = 0; i < moves.size(); ++i)
  {
    const std::vector<Piece> some = pieces(question, moves[i], i == 0 ? question.nodes : near, air);
    all_pieces.insert(all_pieces.end(), some.begin(), some.end());
    ends.push_back(all_pieces.size());
  }
  solver::at_once(all_pieces.size(), threads,
                  [&](std::size_t i) { work_out(all_pieces[i], question); });
  std::vector<Sheet> sheets;
  for (std::size_t i = 0; i < moves.size(); ++i)
    sheets.push_back(joined({all_pieces.data() + ends[i], ends[i + 1] - ends[i]}));
  if (sheets.front().failure)
    std::rethrow_exception(sheets.front().failure);
  const solver::Problem problem = question.problem({});
  std::vector<Response> all;
  for (std::size_t w = 0; w < problem.scene.windings.size(); ++w)
    all.push_back({problem.scene.windings[w].name,
                   question.nodes,
                   sheets.front().log_inductance.at(w),
                   sheets.front().half_width.at(w),
                   {},
                   {},
                   air ? sheets.front().log_air.at(w) : 0.0,
                   {},
                   {}});
  for (std::size_t d = 0; d < question.dimensions.size(); ++d)
    add_dimension(all, question, d, sheets[2 * d + 1], sheets[2 * d + 2], air);
  if (!question.material)
    for (Response& one : all)
      densify(one);
  return all;
}

} // namespace post
