// Which numbers of a case a reading may settle, and over which values each is tabulated.
#include "cases/fit_unknown.hpp"

#include "cases/overrides.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// Permeabilities told apart: from that of air to one no core without a gap could show in the open.
constexpr double least_permeability = 1.0, most_permeability = 1e5;
std::vector<double> logarithmic(double from, double to, int count)
{
  std::vector<double> list;
  for (int i = 0; i < count; ++i)
  {
    list.push_back(from * std::pow(to / from, i / (count - 1.0)));
  }
  list.back() = to;
  return list;
}

/// "core" of "materials.core.permeability"; empty for keys of another form.
std::string material_of(const std::string& key, std::string_view ending)
{
  constexpr std::string_view head = "materials.";
  if (!key.starts_with(head) || !key.ends_with(ending) || key.size() <= head.size() + ending.size())
  {
    return {};
  }
  return key.substr(head.size(), key.size() - head.size() - ending.size());
}

/// Values about the case's own that make a sound case, an unbroken run of them.
std::vector<double> sound_nodes(const post::FitQuestion& question, double own)
{
  std::vector<double> list;
  for (const double side : {-1.0, 1.0})
  {
    for (int i = side < 0.0 ? 0 : 1; i <= 4; ++i)
    {
      const double at = own * std::pow(2.0, side * i);
      try
      {
        question.problem({at, {}, 0.0});
        list.push_back(at);
      }
      catch (const CaseError&)
      {
        break;
      }
    }
  }
  std::ranges::sort(list);
  return list;
}

} // namespace

std::optional<Number> number(const Node& node)
{
  if (const auto* bare = std::get_if<double>(&node.value))
  {
    return Number{*bare, Kind::number};
  }
  if (const auto* text = std::get_if<std::string>(&node.value))
  {
    for (const Kind kind : {Kind::length, Kind::wire})
    {
      const auto read = quantity(*text, kind);
      if (const double* si = std::get_if<double>(&read))
      {
        return Number{*si, Kind::length};
      }
    }
  }
  return std::nullopt;
}

std::optional<Number> number_at(const std::string& key, Node& root, const SourcePlace& where,
                                std::vector<Fault>& faults)
{
  const std::optional<Node> node = value_of(key, root, where, faults);
  if (!node)
  {
    return std::nullopt;
  }
  const std::optional<Number> found = number(*node);
  if (!found)
  {
    faults.push_back(
        {where, fmt::format("{} is {} in the case, no number or length", key, as_written(*node)),
         "name a key that holds one, e.g. parts.core.diameter"});
  }
  return found;
}

/// An unknown that is a material's; false where the key is another.
bool ask_material(FitCase& made, const std::string& key)
{
  post::FitQuestion& q = made.question;
  const auto& materials = made.read.problem.materials;
  const auto powder = [&](const std::string& name)
  { return materials.contains(name) ? materials.at(name).powder : std::nullopt; };
  if (const std::string name = material_of(key, ".permeability"); materials.contains(name))
  {
    made.permeability = true;
    q.material = {name, [](double u) { return u; }};
    q.nodes = logarithmic(least_permeability, most_permeability, 241);
    return true;
  }
  if (const std::string name = material_of(key, ".powder.packing"); powder(name))
  {
    q.material = {name, [base = *powder(name)](double u)
                  {
                    solver::Powder at = base;
                    at.packing = u;
                    return solver::effective_permeability(at);
                  }};
    q.nodes = logarithmic(0.01, 1.0, 241);
    return true;
  }
  if (const std::string name = material_of(key, ".powder.particle_permeability"); powder(name))
  {
    q.material = {name, [base = *powder(name)](double u)
                  {
                    solver::Powder at = base;
                    at.particle_permeability = u;
                    return solver::effective_permeability(at);
                  }};
    q.nodes = logarithmic(1.001, most_permeability, 241);
    return true;
  }
  return false;
}

/// A material no body is made of leaves every inductance as it is.
void check_used(const FitCase& made, const Readings& readings, std::vector<Fault>& faults)
{
  const std::string& name = made.question.material->material;
  const auto regions = mesh::layout(made.read.problem.scene).regions;
  if (std::ranges::none_of(regions, [&](const mesh::Region& one) { return one.material == name; }))
  {
    faults.push_back({readings.unknown_where, fmt::format("no body is made of {}", name),
                      "name the material of the sample"});
  }
}

/// The unknown as a dimension of the case.
void ask_dimension(FitCase& made, const Readings& readings, Node& root, std::vector<Fault>& faults)
{
  const auto found = number_at(readings.unknown, root, readings.unknown_where, faults);
  if (!found)
  {
    return;
  }
  made.kind = found->kind;
  if (!(found->si > 0.0))
  {
    faults.push_back({readings.unknown_where,
                      fmt::format("{} is not positive in the case", readings.unknown),
                      "write a first guess into the case; the fit looks from a sixteenth to "
                      "sixteen times of it"});
    return;
  }
  made.question.nodes = sound_nodes(made.question, found->si);
  if (made.question.nodes.size() < 4)
  {
    faults.push_back({readings.unknown_where,
                      fmt::format("{} has no room to vary in the case", readings.unknown),
                      "leave space around the body"});
  }
}

} // namespace cases
