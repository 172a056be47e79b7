// Turns to electrodes, brackets to capacitances and resonances.
#include "post/capacitance.hpp"

#include "mesh/layout.hpp"
#include "mesh/mesher.hpp"
#include "post/csv_cell.hpp"
#include "post/quantities.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <utility>

namespace post
{

namespace
{

/// Half-width asked: the even voltage is an idealisation good to a few per cent at best.
constexpr double asked = 1e-2;

bool drawn(const mesh::Winding& winding)
{
  return std::holds_alternative<mesh::RoundTurns>(winding.build);
}

/// Whether a voltage can rise along its turns.
bool rises(const mesh::Winding& winding)
{
  return drawn(winding) && winding.turns >= 2.0 && !in_parallel(winding);
}

bool is_earthed(const solver::Problem& problem, const std::string& part)
{
  const auto& list = problem.electrostatics->earthed;
  return std::ranges::find(list, part) != list.end();
}

/// What each electrode is, while they are collected.
struct Body
{
  std::string name;
  int winding = -1;   ///< Of a turn, whose name is that and its number.
  double share = 0.0; ///< Of the winding's voltage, from -1/2 to 1/2.
  bool earthed = false;
};

/// Number of each turn along the wire, which is wound to and fro: every other layer runs back.
std::vector<int> along_wire(const mesh::Winding& winding)
{
  const std::vector<mesh::Point> centres = mesh::turn_centres(winding);
  std::vector<int> number(centres.size());
  for (std::size_t begin = 0, end = 0, layer = 0; begin < centres.size(); begin = end, ++layer)
  {
    while (end < centres.size() && centres[end].r == centres[begin].r)
      ++end;
    for (std::size_t i = begin; i < end; ++i)
      number[i] = static_cast<int>(layer % 2 == 0 ? i : begin + end - 1 - i);
  }
  return number;
}

/// Turns by winding, then the regions that conduct.
std::vector<Body> bodies(const solver::Problem& problem, const mesh::Layout& layout,
                         solver::ElectricProblem& made)
{
  std::vector<Body> list;
  std::vector<std::vector<int>> number(problem.scene.windings.size());
  std::vector<std::size_t> so_far(problem.scene.windings.size(), 0);
  for (std::size_t w = 0; w < number.size(); ++w)
    if (drawn(problem.scene.windings[w]))
      number[w] = along_wire(problem.scene.windings[w]);
  for (const mesh::Conductor& conductor : layout.conductors)
  {
    const mesh::Winding& winding = problem.scene.windings[conductor.winding];
    made.section_electrode.push_back(drawn(winding) ? static_cast<int>(list.size()) : -1);
    if (!drawn(winding))
      continue;
    const int turn = number[conductor.winding][so_far[conductor.winding]++];
    list.push_back({winding.name + " " + std::to_string(turn + 1), conductor.winding,
                    (turn + 0.5) / winding.turns - 0.5, false});
  }
  for (const mesh::Region& region : layout.regions)
  {
    const solver::Material& of = solver::material(problem, region.material);
    made.permittivity.push_back(of.permittivity);
    const bool conducts = of.conductivity > 0.0;
    made.region_electrode.push_back(conducts ? static_cast<int>(list.size()) : -1);
    if (conducts)
      list.push_back({region.name, -1, 0.0, is_earthed(problem, region.name)});
  }
  return list;
}

/// Bodies that conduct and touch are one electrode; a turn may touch nothing that conducts.
/// @return What touches although it must not, or nothing.
std::string join_contacts(const mesh::Scene& scene, std::vector<Body>& list,
                          solver::ElectricProblem& made)
{
  for (auto touching = solver::contacts(made.mesh, made); !touching.empty();
       touching = solver::contacts(made.mesh, made))
  {
    const auto [kept, dropped] = touching.front();
    if (list[kept].winding >= 0)
    {
      const std::string& winding = scene.windings[list[kept].winding].name;
      const int other = list[dropped].winding;
      return other == list[kept].winding
                 ? "turns of " + winding + " touch bare"
                 : "a turn of " + winding + " touches " +
                       (other >= 0 ? scene.windings[other].name : list[dropped].name);
    }
    list[kept].earthed = list[kept].earthed || list[dropped].earthed;
    for (int& electrode : made.region_electrode)
    {
      electrode = electrode == dropped ? kept : electrode;
      electrode -= electrode > dropped ? 1 : 0;
    }
    list.erase(list.begin() + dropped);
  }
  return {};
}

/// Voltage of 1 V along one winding; what is neither it nor earthed floats, and so does the winding
/// as a whole unless its first turn's end is earthed.
solver::ElectricCase one_case(const std::vector<Body>& list, int winding, bool end_earthed)
{
  const auto count = static_cast<Eigen::Index>(list.size());
  solver::ElectricCase made{Eigen::VectorXd::Zero(count), Eigen::MatrixXd::Zero(count, 0)};
  std::vector<Eigen::VectorXd> groups;
  std::vector<int> group_winding;
  for (Eigen::Index e = 0; e < count; ++e)
  {
    const Body& body = list[e];
    if (body.winding == winding)
      made.held[e] = body.share + (end_earthed ? 0.5 : 0.0);
    if (body.earthed || (body.winding == winding && end_earthed))
      continue;
    const auto known = std::ranges::find(group_winding, body.winding);
    if (body.winding >= 0 && known != group_winding.end())
    {
      groups[known - group_winding.begin()][e] = 1.0;
      continue;
    }
    groups.push_back(Eigen::VectorXd::Unit(count, e));
    group_winding.push_back(body.winding);
  }
  made.floating.resize(count, static_cast<Eigen::Index>(groups.size()));
  for (std::size_t i = 0; i < groups.size(); ++i)
    made.floating.col(static_cast<Eigen::Index>(i)) = groups[i];
  return made;
}

std::string why_none(const mesh::Winding& winding)
{
  return !drawn(winding)        ? "its turns are not drawn one by one"
         : winding.turns < 2.0  ? "it has one turn only"
         : in_parallel(winding) ? "its turns are in parallel"
                                : "";
}

double resonance(double inductance, double capacitance)
{
  return 1.0 / (2.0 * std::numbers::pi * std::sqrt(inductance * capacitance));
}

} // namespace

TurnElectrodes turn_electrodes(const solver::Problem& problem, double accuracy)
{
  TurnElectrodes made;
  for (const mesh::Winding& winding : problem.scene.windings)
    if (const auto* turns = std::get_if<mesh::RoundTurns>(&winding.build))
      if (turns->coating && solver::material(problem, turns->coating->material).conductivity > 0.0)
        made.contact = "the coating of " + winding.name + " conducts";
  if (!made.contact.empty())
    return made;
  const mesh::Layout layout = mesh::insulated_layout(problem.scene);
  made.problem.accuracy = accuracy;
  made.problem.mesh = mesh::coarse_mesh(layout);
  std::vector<Body> list = bodies(problem, layout, made.problem);
  made.contact = join_contacts(problem.scene, list, made.problem);
  if (!made.contact.empty())
    return made;
  for (const Body& body : list)
    made.names.push_back(body.name);
  for (std::size_t w = 0; w < problem.scene.windings.size(); ++w)
  {
    if (!rises(problem.scene.windings[w]))
      continue;
    made.windings.push_back(static_cast<int>(w));
    made.problem.cases.push_back(one_case(list, static_cast<int>(w), false));
    made.problem.cases.push_back(one_case(list, static_cast<int>(w), true));
  }
  return made;
}

CapacitanceMatrix capacitance_matrix(const TurnElectrodes& electrodes, const mesh::Mesh& coarse)
{
  solver::ElectricProblem each = electrodes.problem;
  const auto count = static_cast<Eigen::Index>(electrodes.names.size());
  each.mesh = coarse;
  each.cases.clear();
  for (Eigen::Index e = 0; e < count; ++e)
    each.cases.push_back({Eigen::VectorXd::Unit(count, e), Eigen::MatrixXd::Zero(count, 0)});
  const solver::Electric found = solver::solve_electric(each);
  CapacitanceMatrix made{electrodes.names, {}, {}};
  const Eigen::VectorXd gap = found.upper - found.lower;
  for (Eigen::Index i = 0; i < count; ++i)
  {
    made.values.emplace_back();
    made.radii.emplace_back();
    for (Eigen::Index j = 0; j < count; ++j)
    {
      // Off by int eps e_i.e_j, and each int eps |e_i|^2 is a part of its gap.
      made.values.back().push_back(0.5 * (found.charge(i, j) + found.charge(j, i)));
      made.radii.back().push_back(std::sqrt(gap[i] * gap[j]));
    }
  }
  return made;
}

std::string capacitance_table(const CapacitanceMatrix& matrix)
{
  std::string text = "charge per volt [F]";
  for (const std::string& name : matrix.electrodes)
    text += "," + csv_cell(name);
  const auto add = [&](const char* word, const std::vector<std::vector<double>>& rows)
  {
    for (std::size_t i = 0; i < rows.size(); ++i)
    {
      text += "\n" + csv_cell(word + matrix.electrodes[i]);
      for (const double value : rows[i])
        text += fmt::format(",{:.9g}", value);
    }
  };
  add("", matrix.values);
  add("true within, ", matrix.radii);
  return text + "\n";
}

void add_capacitances(const solver::Problem& problem, Result& result)
{
  if (!problem.electrostatics)
    return;
  for (std::size_t w = 0; w < result.windings.size(); ++w)
    result.windings[w].no_capacitance = why_none(problem.scene.windings[w]);
  if (std::ranges::none_of(problem.scene.windings, rises))
    return;
  const TurnElectrodes electrodes = turn_electrodes(problem, asked);
  if (!electrodes.contact.empty())
  {
    for (std::size_t w = 0; w < result.windings.size(); ++w)
      if (rises(problem.scene.windings[w]))
        result.windings[w].no_capacitance = electrodes.contact;
    return;
  }
  const solver::Electric found = solver::solve_electric(electrodes.problem);
  for (std::size_t i = 0; i < electrodes.windings.size(); ++i)
  {
    WindingResult& winding = result.windings[electrodes.windings[i]];
    const auto bounded = [&](std::size_t c)
    {
      const auto at = static_cast<Eigen::Index>(c);
      return Bounded{0.5 * (found.lower[at] + found.upper[at]), found.lower[at], found.upper[at]};
    };
    SelfCapacitance made{bounded(2 * i), bounded(2 * i + 1)};
    made.floating_resonance = resonance(winding.inductance.value, made.floating.value);
    made.earthed_resonance = resonance(winding.inductance.value, made.earthed.value);
    made.accuracy_reached = found.accuracy_reached;
    winding.capacitance = made;
    winding.no_capacitance.clear();
  }
  if (electrodes.names.size() <= most_electrodes)
    result.capacitances = capacitance_matrix(electrodes, found.space.mesh);
}

} // namespace post
