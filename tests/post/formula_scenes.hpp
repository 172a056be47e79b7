// Small scenes and look-ups that the tests of hand formulas share.
#pragma once

#include "post/formulas.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace formula_tests
{

inline constexpr double mm = 1e-3;
inline constexpr double nH = 1e-9;
inline constexpr double uH = 1e-6;

/// @brief Half a unit in the tenth digit, as the values computed apart are given to ten.
inline Approx ten_digits(double value)
{
  return Approx(value).epsilon(5e-10);
}

inline solver::Problem block_coil(double inner, double outer, double length, double turns)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", turns, mesh::Block{inner, outer, length}, 0.0}};
  return problem;
}

inline solver::Problem round_coil(const mesh::RoundTurns& turns, double count)
{
  solver::Problem problem;
  problem.scene.windings = {{"coil", count, turns, 0.0}};
  return problem;
}

inline void add_part(solver::Problem& problem, const std::string& name, const mesh::Shape& shape,
                     double permeability)
{
  problem.materials[name] = {.permeability = permeability};
  problem.scene.parts.push_back({name, shape, name, 0.0, std::nullopt});
}

/// @brief The formula of that name; fails the test where there is none.
inline post::FormulaResult named(const std::vector<post::FormulaResult>& list,
                                 const std::string& name)
{
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
  CAPTURE(name);
  REQUIRE(found != list.end());
  return *found;
}

inline double value(const solver::Problem& problem, const std::string& name)
{
  return named(post::formulas(problem), name).value;
}

/// @brief Whether a formula is listed at all.
inline bool lists(const solver::Problem& problem, const std::string& name)
{
  const auto list = post::formulas(problem);
  return std::any_of(list.begin(), list.end(), [&](const auto& one) { return one.name == name; });
}

/// @brief Largest deviation a formula may show where it says it holds; as its range states.
inline double claim(const std::string& why)
{
  if (why.starts_with("exact"))
  {
    return 1e-8;
  }
  const double number = std::stod(why);
  return why.find(" ppm") != std::string::npos ? number * 1e-6
         : why.find(" %") != std::string::npos ? number * 1e-2
                                               : number;
}

/// @brief Checks every listed formula that holds and estimates `what` against the truth.
inline int check_claims(const solver::Problem& problem, post::Estimates what, double truth)
{
  int checked = 0;
  for (const post::FormulaResult& one : post::formulas(problem))
  {
    if (one.holds && one.estimates == what && !one.why.starts_with("rough"))
    {
      CAPTURE(one.name, one.why, one.value, truth);
      CHECK(std::abs(one.value / truth - 1.0) <= claim(one.why));
      ++checked;
    }
  }
  return checked;
}

} // namespace formula_tests
