// The document of `mix --json`: for particles without loss, plain numbers.
#include "post/mixture.hpp"
#include "post/version.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;
using Complex = std::complex<double>;

/// @brief A number, or null where it is not finite: JSON has no infinity.
Json number(double value)
{
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

/// @brief mu' - j mu'' as {"real": mu', "imaginary": mu''}; without loss a number.
Json permeability(Complex value)
{
  if (value.imag() == 0.0)
    return number(value.real());
  return {{"real", number(value.real())}, {"imaginary", number(-value.imag())}};
}

Json known(const std::optional<Complex>& value)
{
  return value ? permeability(*value) : Json(nullptr);
}

const char* key(MixtureSought sought)
{
  return sought == MixtureSought::packing    ? "packing"
         : sought == MixtureSought::particle ? "particle_permeability"
                                             : "permeability";
}

Json document(const MixtureByRule& one, MixtureSought sought)
{
  Json rule = {{"name", one.rule.name},
               {key(sought), known(one.found.value)},
               {"source", one.rule.source},
               {"range", one.rule.range},
               {"bounds", one.rule.bounds}};
  if (sought != MixtureSought::effective)
  {
    rule["sensitivity"] = one.sensitivity ? number(*one.sensitivity) : Json(nullptr);
    rule["reach"] = {number(one.found.least), number(one.found.most)};
  }
  return rule;
}

Json document(const solver::UnmixedRange& range)
{
  return {number(range.lower), number(range.upper)};
}

Json corners(const Complex (&pair)[2])
{
  return {permeability(pair[0]), permeability(pair[1])};
}

} // namespace

std::string json(const Mixture& mixture, const std::vector<std::string>& files)
{
  const MixtureQuestion& question = mixture.question;
  Json all = {{"tool", "ferrule"},
              {"version", version()},
              {"sought", mixture.sought == MixtureSought::effective ? "effective_permeability"
                                                                    : key(mixture.sought)},
              {"particle_permeability", known(question.particle)},
              {"packing", question.packing ? number(*question.packing) : Json(nullptr)},
              {"effective_permeability", known(question.effective)}};
  all["rules"] = Json::array();
  for (const MixtureByRule& one : mixture.rules)
    all["rules"].push_back(document(one, mixture.sought));
  all["bounds"] = nullptr;
  if (mixture.bounds)
    all["bounds"] = {{"wiener", document(mixture.bounds->wiener)},
                     {"hashin_shtrikman", document(mixture.bounds->hashin_shtrikman)}};
  if (mixture.corners)
    all["bounds"] = {{"wiener", corners(mixture.corners->wiener)},
                     {"hashin_shtrikman", corners(mixture.corners->hashin_shtrikman)}};
  all["files"] = files;
  return all.dump(2) + "\n";
}

} // namespace post
