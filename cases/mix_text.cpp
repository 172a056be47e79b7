// The report of `mix`: its tables, and what they leave, in sentences.
#include "cases/mix.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

using Complex = std::complex<double>;
using post::Mixture;
using post::MixtureByRule;
using post::MixtureSought;

std::string permeability(Complex mu)
{
  return mu.imag() == 0.0
             ? post::count(mu.real())
             : fmt::format("{} - j {}", post::count(mu.real()), post::count(-mu.imag()));
}

std::string title_text(const Mixture& mixture)
{
  const post::MixtureQuestion& known = mixture.question;
  const std::string particle = known.particle ? permeability(*known.particle) : "";
  const std::string effective = known.effective ? permeability(*known.effective) : "";
  const std::string packing = known.packing ? post::count(100.0 * *known.packing, 4) + " %" : "";
  const std::string title =
      mixture.sought == MixtureSought::effective
          ? fmt::format("Particles of permeability {} filling {} of the space", particle, packing)
      : mixture.sought == MixtureSought::packing
          ? fmt::format("A powder of {} from particles of permeability {}", effective, particle)
          : fmt::format("A powder of {} whose particles fill {} of the space", effective, packing);
  return title + "\n" + std::string(static_cast<std::size_t>(width(title)), '-') + "\n";
}

/// What the bounds leave open, for values without loss.
std::string left_by_bounds(const Mixture& mixture)
{
  if (!mixture.bounds)
  {
    return "";
  }
  const auto [lower, upper] = mixture.bounds->hashin_shtrikman;
  if (!std::isfinite(upper))
  {
    return fmt::format("The bounds leave the upper end open: the particles have at least {}, and "
                       "this powder cannot tell how much more. ",
                       post::number(lower));
  }
  return upper < 1.1 * lower
             ? "The bounds nearly meet: how the grains lie hardly matters. "
             : fmt::format("The bounds leave a factor of {} between least and most: what of it is "
                           "reached depends on how the grains lie and touch, which no rule knows. ",
                           post::number(upper / lower, 2));
}

const MixtureByRule* found(const Mixture& mixture, solver::MixingRule rule)
{
  const auto at = std::find_if(mixture.rules.begin(), mixture.rules.end(),
                               [&](const MixtureByRule& one) { return one.rule.rule == rule; });
  return at == mixture.rules.end() ? nullptr : &*at;
}

/// Between which two rules insulated powder usually lies, where both were asked for.
std::string usual(const Mixture& mixture)
{
  const MixtureByRule* apart = found(mixture, solver::MixingRule::maxwell_garnett);
  const MixtureByRule* graded = found(mixture, solver::MixingRule::bruggeman_differential);
  const bool above_air = mixture.question.particle ? mixture.question.particle->real() > 1.0
                                                   : mixture.question.effective->real() > 1.0;
  if (mixture.lossy || !above_air || !apart || !graded || !graded->found.value)
  {
    return "";
  }
  const double one = graded->found.value->real();
  const double other = apart->found.value ? apart->found.value->real() : one;
  return fmt::format("Insulated grains usually lie between maxwell-garnett and "
                     "bruggeman-differential, {} {} (common practice, no source). ",
                     post::number(std::min(one, other)),
                     apart->found.value ? "to " + post::number(std::max(one, other))
                                        : std::string("or more"));
}

/// Where nothing was found: what sets the limits, and what to look at again.
std::string no_such_powder(const Mixture& mixture)
{
  const bool any =
      std::any_of(mixture.rules.begin(), mixture.rules.end(),
                  [](const MixtureByRule& one) { return one.found.value.has_value(); });
  if (any)
  {
    return "";
  }
  return mixture.sought == MixtureSought::packing
             ? "No packing of such particles makes this powder: it lies between air and its "
               "particles. Look again at the reading, and at what the particles are taken for. "
             : "No rule asked for knows particles that make this powder at this packing. Look "
               "again "
               "at the reading and the packing: packed closer, less is needed of the particles. ";
}

std::string caution(const Mixture& mixture)
{
  switch (mixture.sought)
  {
  case MixtureSought::effective:
    return mixture.lossy
               ? "No value here is a guaranteed minimum: milled grains may have far less "
                 "permeability than the sintered body. Measure a sample before relying on "
                 "it."
               : "The lower bounds are no guaranteed minimum: milled grains may have far "
                 "less permeability than the sintered body. Measure a sample before "
                 "relying on it.";
  case MixtureSought::packing:
    return "This holds for grains of just this permeability: milled, they may have far less than "
           "the sintered body, and the powder is then fuller than it seems.";
  case MixtureSought::particle:
    break;
  }
  return "This is the permeability of the grains as they lie there: milled, it may be far less "
         "than "
         "that of the sintered body.";
}

} // namespace

std::string mix_text(const Mixture& mixture)
{
  const std::string left = no_such_powder(mixture) + left_by_bounds(mixture) + usual(mixture);
  return title_text(mixture) + mix_rule_text(mixture) + mix_bounds_text(mixture) +
         heading("What this means") + (left.empty() ? Sheet() : wrapped(left)) +
         wrapped(caution(mixture)) + mix_sources_text(mixture) + "\n" +
         wrapped("Ferrite and metal dust harms lungs and eyes and may catch fire: follow the "
                 "supplier's safety data sheet and your local rules.",
                 0, 0);
}

} // namespace cases
