// Points and models to JSON and back, exactly: numbers are written so that they read back the same.
#include "post/sweep.hpp"

#include "post/json.hpp"
#include "post/version.hpp"

#include <limits>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;

constexpr const char* model_format = "ferrule reduced model 1";
constexpr const char* model_rule =
    "For permeabilities mu_1, mu_2 ... of the materials, at 1 A: F = flux[0] + sum flux[k] / mu_k, "
    "G = field[0] + sum field[k] * mu_k. lower = max over c of 2 load.c - c.F.c, that is at F c = "
    "load; upper = min over v of v.G.v with v[0] = 1. Both hold for any c and v.";

/// A number, or null where there is none.
double number(const Json& value)
{
  return value.is_null() ? std::numeric_limits<double>::quiet_NaN() : value.get<double>();
}

Bounded bounded(const Json& value)
{
  return {number(value.at("value")), number(value.at("lower")), number(value.at("upper"))};
}

Json document(const Bounded& bounded)
{
  return {{"value", bounded.value}, {"lower", bounded.lower}, {"upper", bounded.upper}};
}

/// As in the document of `solve`; a model tells shares by material.
Json document(const WindingResult& winding, bool modelled)
{
  Json one = Json::parse(json(winding));
  if (modelled)
  {
    one["material_energy_shares"] = one.at("energy_shares");
    one.erase("energy_shares");
  }
  return one;
}

WindingResult winding_result(const Json& one)
{
  WindingResult made;
  made.name = one.at("name").get<std::string>();
  made.turns = number(one.at("turns"));
  made.inductance = bounded(one.at("inductance_H"));
  made.air_inductance = bounded(one.at("air_inductance_H"));
  made.apparent_permeability = number(one.at("apparent_permeability"));
  made.inductance_per_turn_squared = number(one.at("inductance_per_turn_squared_H"));
  if (one.contains("wire_length_m"))
    made.wire_length = number(one.at("wire_length_m"));
  if (one.contains("dc_resistance_ohm"))
    made.dc_resistance = number(one.at("dc_resistance_ohm"));
  const char* key = one.contains("energy_shares") ? "energy_shares" : "material_energy_shares";
  for (const auto& [region, share] : one.at(key).items())
    made.shares.emplace_back(region, number(share));
  return made;
}

Json document(const Eigen::MatrixXd& matrix)
{
  Json rows = Json::array();
  for (Eigen::Index i = 0; i < matrix.rows(); ++i)
  {
    rows.push_back(Json::array());
    for (Eigen::Index j = 0; j < matrix.cols(); ++j)
      rows.back().push_back(matrix(i, j));
  }
  return rows;
}

/// A square matrix; one of another shape, or with a number missing, is refused.
Eigen::MatrixXd matrix(const Json& rows, Eigen::Index n)
{
  Eigen::MatrixXd made(n, n);
  if (static_cast<Eigen::Index>(rows.size()) != n)
    throw std::runtime_error("the matrices of a reduced model differ in size");
  for (Eigen::Index i = 0; i < n; ++i)
  {
    if (static_cast<Eigen::Index>(rows.at(i).size()) != n)
      throw std::runtime_error("a matrix of a reduced model is not square");
    for (Eigen::Index j = 0; j < n; ++j)
      made(i, j) = rows.at(i).at(j).get<double>();
  }
  return made;
}

Json document(const WindingResult& fixed, const solver::ReducedWinding& winding)
{
  Json one = {{"name", fixed.name},
              {"turns", fixed.turns},
              {"air_inductance_H", document(fixed.air_inductance)}};
  if (fixed.wire_length)
    one["wire_length_m"] = *fixed.wire_length;
  if (fixed.dc_resistance)
    one["dc_resistance_ohm"] = *fixed.dc_resistance;
  one["load_H"] = std::vector<double>(winding.load.begin(), winding.load.end());
  one["flux_H"] = Json::array();
  for (const Eigen::MatrixXd& part : winding.flux)
    one["flux_H"].push_back(document(part));
  one["field_H"] = Json::array();
  for (const Eigen::MatrixXd& part : winding.field)
    one["field_H"].push_back(document(part));
  return one;
}

void read_winding(const Json& one, KeptModel& made)
{
  WindingResult fixed;
  fixed.name = one.at("name").get<std::string>();
  fixed.turns = one.at("turns").get<double>();
  fixed.air_inductance = bounded(one.at("air_inductance_H"));
  if (one.contains("wire_length_m"))
    fixed.wire_length = one.at("wire_length_m").get<double>();
  if (one.contains("dc_resistance_ohm"))
    fixed.dc_resistance = one.at("dc_resistance_ohm").get<double>();
  solver::ReducedWinding winding;
  winding.name = fixed.name;
  const auto load = one.at("load_H").get<std::vector<double>>();
  winding.load =
      Eigen::Map<const Eigen::VectorXd>(load.data(), static_cast<Eigen::Index>(load.size()));
  for (const Json& part : one.at("flux_H"))
    winding.flux.push_back(matrix(part, winding.load.size()));
  for (const Json& part : one.at("field_H"))
    winding.field.push_back(
        matrix(part, static_cast<Eigen::Index>(one.at("field_H").at(0).size())));
  const std::size_t parts = made.model.varied.size() + 1;
  if (winding.flux.size() != parts || winding.field.size() != parts || load.empty())
    throw std::runtime_error("a reduced model needs one matrix more than materials");
  made.windings.push_back(std::move(fixed));
  made.model.windings.push_back(std::move(winding));
}

constexpr std::pair<Standing, const char*> standings[] = {
    {Standing::bounded, "bounded"}, {Standing::estimated, "estimated"}, {Standing::exact, "exact"}};

Json document(const SweptQuantity& quantity)
{
  Json one = {{"name", quantity.word}, {"of", quantity.of}, {"unit", quantity.unit}};
  for (const auto& [standing, word] : standings)
    if (quantity.standing == standing)
      one["standing"] = word;
  one["value"] = quantity.value.value;
  if (quantity.standing == Standing::bounded)
  {
    one["lower"] = quantity.value.lower;
    one["upper"] = quantity.value.upper;
  }
  return one;
}

SweptQuantity swept_quantity(const Json& one)
{
  SweptQuantity made{one.at("name").get<std::string>(),
                     one.at("of").get<std::string>(),
                     one.at("unit").get<std::string>(),
                     {},
                     Standing::estimated};
  for (const auto& [standing, word] : standings)
    if (one.at("standing") == word)
      made.standing = standing;
  const double value = number(one.at("value"));
  made.value = made.standing == Standing::bounded ? bounded(one) : Bounded{value, value, value};
  return made;
}

/// Runs a reader; what the JSON library throws becomes one plain sentence.
template <class Read> auto checked(const char* what, const Read& read)
{
  try
  {
    return read();
  }
  catch (const Json::exception& error)
  {
    const std::string words = error.what();
    throw std::runtime_error(
        std::string(what) + " cannot be read: " +
        words.substr(words.find("] ") == std::string::npos ? 0 : words.find("] ") + 2));
  }
}

std::string one_line(const Json& all)
{
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// The impedances of a model, of the same materials and windings.
void read_impedance(const std::string& text, KeptModel& made)
{
  made.impedance = kept_impedance(std::string_view(text));
  std::vector<std::string> materials, windings;
  for (const solver::VariedMaterial& one : made.model.varied)
    materials.push_back(one.material);
  for (const WindingResult& one : made.windings)
    windings.push_back(one.name);
  if (materials != made.impedance->model.varied || windings != made.impedance->windings)
    throw std::runtime_error(
        "the impedances of a reduced model are of other materials or windings");
}

/// A count that an int holds.
int count(const Json& number)
{
  const auto given = number.get<double>();
  if (!(given >= 0.0 && given <= 1e9))
    throw std::runtime_error("the reduced model cannot be read: a count must be 0 to 1e9");
  return static_cast<int>(given);
}

} // namespace

std::string json(const SweptPoint& point)
{
  if (!point.fault.empty())
    return one_line({{"status", "not built"}, {"fault", point.fault}});
  Json all = {{"status", point.accuracy_reached ? "ok" : "accuracy not reached"},
              {"method", point.modelled ? "reduced model" : "full solution"},
              {"accuracy_met", point.accuracy_met},
              {"geometry", point.geometry_error}};
  all["windings"] = Json::array();
  for (const WindingResult& winding : point.windings)
    all["windings"].push_back(document(winding, point.modelled));
  for (const auto& row : point.mutual)
  {
    Json list = Json::array();
    for (const Bounded& one : row)
      list.push_back(document(one));
    all["mutual_inductance_H"].push_back(std::move(list));
  }
  for (const SweptQuantity& quantity : point.quantities)
    all["quantities"].push_back(document(quantity));
  for (const SweptQuantity& formula : point.formulas)
    all["formulas"].push_back(document(formula));
  return one_line(all);
}

SweptPoint swept_point(std::string_view text)
{
  return checked("a point of a sweep",
                 [&]
                 {
                   const Json all = Json::parse(text);
                   SweptPoint made;
                   if (all.contains("fault"))
                   {
                     made.fault = all.at("fault").get<std::string>();
                     return made;
                   }
                   made.accuracy_reached = all.at("status") == "ok";
                   made.modelled = all.at("method") == "reduced model";
                   made.accuracy_met = number(all.at("accuracy_met"));
                   made.geometry_error = number(all.at("geometry"));
                   for (const Json& winding : all.at("windings"))
                     made.windings.push_back(winding_result(winding));
                   if (all.contains("mutual_inductance_H"))
                     for (const Json& row : all.at("mutual_inductance_H"))
                     {
                       made.mutual.emplace_back();
                       for (const Json& one : row)
                         made.mutual.back().push_back(bounded(one));
                     }
                   if (all.contains("quantities"))
                     for (const Json& one : all.at("quantities"))
                       made.quantities.push_back(swept_quantity(one));
                   return made;
                 });
}

std::string json(const KeptModel& kept)
{
  const solver::ReducedModel& model = kept.model;
  Json all = {{"format", model_format},
              {"tool", "ferrule"},
              {"version", version()},
              {"title", kept.title},
              {"how_to_evaluate", model_rule},
              {"accuracy",
               {{"asked", kept.accuracy_asked},
                {"met", model.accuracy_met},
                {"geometry", model.geometry_error}}},
              {"snapshots", model.snapshots},
              {"unknowns", model.unknowns}};
  all["materials"] = Json::array();
  for (const solver::VariedMaterial& one : model.varied)
    all["materials"].push_back({{"name", one.material}, {"from", one.from}, {"to", one.to}});
  all["windings"] = Json::array();
  for (std::size_t w = 0; w < kept.windings.size(); ++w)
    all["windings"].push_back(document(kept.windings[w], model.windings[w]));
  if (kept.impedance)
    all["impedance"] = Json::parse(json(*kept.impedance));
  return one_line(all);
}

KeptModel kept_model(std::string_view text)
{
  return checked("the reduced model",
                 [&]
                 {
                   const Json all = Json::parse(text);
                   if (all.at("format") != model_format)
                     throw std::runtime_error("this is no reduced model of this version");
                   KeptModel made;
                   made.title = all.at("title").get<std::string>();
                   made.accuracy_asked = all.at("accuracy").at("asked").get<double>();
                   made.model.accuracy_met = all.at("accuracy").at("met").get<double>();
                   made.model.geometry_error = all.at("accuracy").at("geometry").get<double>();
                   made.model.snapshots = count(all.at("snapshots"));
                   made.model.unknowns = count(all.at("unknowns"));
                   for (const Json& one : all.at("materials"))
                     made.model.varied.push_back({one.at("name").get<std::string>(),
                                                  one.at("from").get<double>(),
                                                  one.at("to").get<double>()});
                   for (const Json& one : all.at("windings"))
                     read_winding(one, made);
                   if (all.contains("impedance"))
                     read_impedance(all.at("impedance").dump(), made);
                   made.model.accuracy_reached =
                       made.model.accuracy_met + made.model.geometry_error <= made.accuracy_asked;
                   return made;
                 });
}

} // namespace post
