// A model of impedances to JSON and back, exactly.
#include "post/kept_impedance.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;

constexpr const char* rule =
    "n windings, k snapshots; mu_r = mu0 times a region's permeability mu' - j mu'', omega = 2 pi "
    "f. "
    "Columns of magnetic and eddy, snapshot after snapshot: real parts, then imaginary ones, of "
    "the "
    "windings' flux densities b; the same of fields h that carry their currents (real parts the "
    "winding's, imaginary ones none). For winding i take weights c of its 2k columns b and d of "
    "its "
    "2k columns h, the d of real parts of sum one. Z_ij = j omega (c_j.l_i + c_i.l_j - c_i.F.c_j), "
    "F = "
    "sum over groups of magnetic / mu_r + j omega eddy, l_i the linkages' parts. With eta^2 = sum "
    "|mu_r| "
    "|d h - c b / mu_r|^2 and zeta^2 = sum |d h - j omega c b|^2 / omega (norms by magnetic, by "
    "eddy) the "
    "true Z_ii lies no further from it than omega times the largest x + y with sqrt(C^2 x^2 + y^2) "
    "<= eta "
    "sqrt x + zeta sqrt y, C the cosine of half the largest loss angle. It holds for any such "
    "weights; "
    "the best c solve F c = l, the best d make eta^2 + zeta^2 least.";

Json document(const std::complex<double>& number)
{
  return Json::array({number.real(), number.imag()});
}

std::complex<double> complex(const Json& number)
{
  return {number.at(0).get<double>(), number.at(1).get<double>()};
}

Json document(const Eigen::MatrixXd& matrix)
{
  Json rows = Json::array();
  for (Eigen::Index i = 0; i < matrix.rows(); ++i)
  {
    const Eigen::RowVectorXd row = matrix.row(i);
    rows.push_back(std::vector<double>(row.begin(), row.end()));
  }
  return rows;
}

Eigen::MatrixXd matrix(const Json& rows, std::size_t n)
{
  const auto size = static_cast<Eigen::Index>(n);
  Eigen::MatrixXd made(size, size);
  if (rows.size() != n)
    throw std::runtime_error("the matrices of a model of impedances differ in size");
  for (std::size_t i = 0; i < n; ++i)
  {
    const auto row = rows.at(i).get<std::vector<double>>();
    if (row.size() != n)
      throw std::runtime_error("a matrix of a model of impedances is not square");
    made.row(static_cast<Eigen::Index>(i)) = Eigen::Map<const Eigen::RowVectorXd>(row.data(), size);
  }
  return made;
}

std::vector<std::complex<double>> complex_list(const Json& list)
{
  std::vector<std::complex<double>> made;
  for (const Json& one : list)
    made.push_back(complex(one));
  return made;
}

Json document(const std::optional<double>& number)
{
  return number ? Json(*number) : Json(nullptr);
}

std::optional<double> optional(const Json& number)
{
  return number.is_null() ? std::nullopt : std::optional(number.get<double>());
}

void read_span(const Json& all, std::size_t sources, std::size_t regions, KeptImpedance& made)
{
  solver::HarmonicSpan& span = made.model.span;
  span.sources = static_cast<Eigen::Index>(sources);
  for (const Json& one : all.at("snapshots"))
  {
    solver::HarmonicState state{made.model.fixed.frequency, complex_list(one.at("permeability"))};
    if (state.permeability.size() != regions)
      throw std::runtime_error("a snapshot of a model of impedances has another number of regions");
    span.states.push_back(std::move(state));
    const auto flat = complex_list(one.at("linkage_H"));
    if (flat.size() != sources * sources)
      throw std::runtime_error("the matrices of a model of impedances differ in size");
    Eigen::MatrixXcd linkage(span.sources, span.sources);
    for (std::size_t i = 0; i < flat.size(); ++i)
      linkage(static_cast<Eigen::Index>(i / sources), static_cast<Eigen::Index>(i % sources)) =
          flat[i];
    span.linkage.push_back(std::move(linkage));
  }
  if (span.states.empty())
    throw std::runtime_error("a model of impedances has no snapshot");
  const std::size_t columns = 4 * sources * span.states.size();
  for (const Json& one : all.at("groups"))
  {
    solver::Group group;
    group.region = one.at("region").get<int>();
    group.winding = one.at("winding").get<int>();
    group.solid = one.at("solid").get<bool>();
    group.plain = one.at("plain").get<bool>();
    if (group.region < 0 || group.region >= static_cast<int>(regions))
      throw std::runtime_error("a group of a model of impedances lies in no region");
    span.groups.push_back(group);
    span.products.push_back({matrix(one.at("magnetic"), columns), matrix(one.at("eddy"), columns)});
  }
}

} // namespace

std::string json(const KeptImpedance& kept)
{
  const solver::ImpedanceModel& model = kept.model;
  Json all = {{"frequency_Hz", model.fixed.frequency},
              {"how_to_evaluate", rule},
              {"accuracy_met", model.accuracy_met},
              {"unknowns", model.unknowns},
              {"materials", model.varied}};
  all["windings"] = Json::array();
  for (std::size_t w = 0; w < kept.windings.size(); ++w)
    all["windings"].push_back({{"name", kept.windings[w]},
                               {"wire_resistance_ohm", document(kept.own[w].wire)},
                               {"skin_resistance_ohm", document(kept.own[w].skin)},
                               {"proximity_factor_ohm_m2", kept.own[w].proximity_factor}});
  all["regions"] = Json::array();
  for (std::size_t g = 0; g < model.region_material.size(); ++g)
    all["regions"].push_back({{"material", model.region_material[g]},
                              {"permeability", document(model.fixed.permeability[g])}});
  all["snapshots"] = Json::array();
  for (std::size_t k = 0; k < model.span.states.size(); ++k)
  {
    Json mu = Json::array(), linkage = Json::array();
    for (const std::complex<double>& one : model.span.states[k].permeability)
      mu.push_back(document(one));
    const Eigen::MatrixXcd& l = model.span.linkage[k];
    for (Eigen::Index i = 0; i < l.rows(); ++i)
      for (Eigen::Index j = 0; j < l.cols(); ++j)
        linkage.push_back(document(l(i, j)));
    all["snapshots"].push_back({{"permeability", mu}, {"linkage_H", linkage}});
  }
  all["groups"] = Json::array();
  for (std::size_t g = 0; g < model.span.groups.size(); ++g)
    all["groups"].push_back({{"region", model.span.groups[g].region},
                             {"winding", model.span.groups[g].winding},
                             {"solid", model.span.groups[g].solid},
                             {"plain", model.span.groups[g].plain},
                             {"magnetic", document(model.span.products[g].magnetic)},
                             {"eddy", document(model.span.products[g].eddy)}});
  return all.dump(-1, ' ', false, Json::error_handler_t::replace);
}

KeptImpedance kept_impedance(std::string_view text)
try
{
  const Json all = Json::parse(text);
  KeptImpedance made;
  solver::ImpedanceModel& model = made.model;
  model.fixed.frequency = all.at("frequency_Hz").get<double>();
  if (!(model.fixed.frequency > 0.0))
    throw std::runtime_error("a model of impedances needs a frequency");
  model.accuracy_met = all.at("accuracy_met").get<double>();
  model.unknowns = static_cast<int>(std::min(1e9, std::max(0.0, all.at("unknowns").get<double>())));
  model.varied = all.at("materials").get<std::vector<std::string>>();
  for (const Json& one : all.at("windings"))
  {
    made.windings.push_back(one.at("name").get<std::string>());
    made.own.push_back({optional(one.at("wire_resistance_ohm")),
                        optional(one.at("skin_resistance_ohm")),
                        one.at("proximity_factor_ohm_m2").get<double>()});
  }
  for (const Json& one : all.at("regions"))
  {
    model.region_material.push_back(one.at("material").get<std::string>());
    model.fixed.permeability.push_back(complex(one.at("permeability")));
  }
  read_span(all, made.windings.size(), model.region_material.size(), made);
  return made;
}
catch (const Json::exception& error)
{
  const std::string words = error.what();
  const std::size_t from = words.find("] ");
  throw std::runtime_error("the model of impedances cannot be read: " +
                           words.substr(from == std::string::npos ? 0 : from + 2));
}

} // namespace post
