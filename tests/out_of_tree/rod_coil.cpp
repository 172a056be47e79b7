// A scene built in code, solved, and its inductance printed with the bracket.
#include <ferrule/post/quantities.hpp>
#include <ferrule/solver/solution.hpp>
#include <ferrule/solver/solve.hpp>

#include <cstdio>

int main()
{
  solver::Problem problem;
  problem.scene.parts = {{"core", mesh::Rod{10e-3, 50e-3}, "ferrite"}};
  problem.scene.windings = {{"coil", 100, mesh::Block{11e-3, 11e-3, 25e-3}}};
  problem.materials["ferrite"].permeability = 10;
  const solver::Solution field = solver::solve(problem);
  const post::Bounded L = post::result(field, field, {}).windings.front().inductance;
  std::printf("%.7e H, between %.7e and %.7e H\n", L.value, L.lower, L.upper);
}
