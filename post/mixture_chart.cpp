// Every rule as a line between its bounds, with a mark where the question lies.
#include "post/engineering.hpp"
#include "post/mixture.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace post
{

namespace
{

using Complex = std::complex<double>;

const char* const caution =
    "The lower bounds are no guaranteed minimum: milled grains may have far less permeability than "
    "the sintered body.";

/// @brief 0 to 1, closer at the ends, where the rules turn steeply.
std::vector<double> packings()
{
  constexpr int steps = 160;
  std::vector<double> list;
  for (int k = 0; k <= steps; ++k)
    list.push_back(0.5 - 0.5 * std::cos(M_PI * k / steps));
  return list;
}

/// @brief Particles over equal ratios from air to well beyond all that was found.
std::vector<double> particles(const Mixture& mixture)
{
  const bool above = mixture.question.effective->real() >= 1.0;
  double end = above ? 1e3 : 1e-3;
  for (const MixtureByRule& one : mixture.rules)
    if (one.found.value && std::abs(std::log10(one.found.value->real())) < 7.0)
      end = above ? std::max(end, 3.0 * one.found.value->real())
                  : std::min(end, one.found.value->real() / 3.0);
  constexpr int steps = 160;
  std::vector<double> list;
  for (int k = 0; k <= steps; ++k)
    list.push_back(std::pow(end, above ? double(k) / steps : 1.0 - double(k) / steps));
  return list;
}

/// @brief Effective permeability along the x axis.
Complex along(const Mixture& mixture, double x, solver::MixingRule rule)
{
  const MixtureQuestion& known = mixture.question;
  return mixture.sought == MixtureSought::particle
             ? solver::effective_permeability(Complex(x), *known.packing, rule)
             : solver::effective_permeability(*known.particle, x, rule);
}

solver::PowderBounds bounds_along(const Mixture& mixture, double x)
{
  const MixtureQuestion& known = mixture.question;
  return mixture.sought == MixtureSought::particle
             ? solver::powder_bounds({x, *known.packing})
             : solver::powder_bounds({known.particle->real(), x});
}

void add_bands(Chart& chart, const Mixture& mixture, const std::vector<double>& x)
{
  ChartBand any{"any arrangement (Wiener)", x, {}, {}};
  ChartBand isotropic{"isotropic ones (Hashin-Shtrikman)", x, {}, {}};
  for (const double at : x)
  {
    const solver::PowderBounds bounds = bounds_along(mixture, at);
    any.lower.push_back(bounds.wiener_lower);
    any.upper.push_back(bounds.wiener_upper);
    isotropic.lower.push_back(bounds.hashin_shtrikman_lower);
    isotropic.upper.push_back(bounds.hashin_shtrikman_upper);
  }
  chart.bands = {any, isotropic};
}

/// @brief Marks at the question's place, each of the colour of its rule's line; an empty one where
/// the rule has none.
void add_marks(Chart& chart, const Mixture& mixture, double (*part)(Complex))
{
  const MixtureQuestion& known = mixture.question;
  for (const MixtureByRule& one : mixture.rules)
  {
    ChartPoints mark; // no braces: GCC 12 warns wrongly of uninitialised members
    const bool effective = mixture.sought == MixtureSought::effective;
    if (one.found.value)
    {
      mark.x = {effective ? *known.packing : one.found.value->real()};
      mark.y = {effective ? part(*one.found.value) : part(*known.effective)};
    }
    chart.points.push_back(mark);
  }
}

std::string words(Complex mu)
{
  return mu.imag() == 0.0 ? count(mu.real())
                          : fmt::format("{} - j {}", count(mu.real()), count(-mu.imag()));
}

/// @brief A logarithmic y axis where values span more than a decade, over six decades at most.
void scale_logarithmically(Chart& chart)
{
  double least = HUGE_VAL, most = 0.0;
  for (const ChartLine& line : chart.lines)
    for (const double value : line.y)
    {
      least = value > 0.0 ? std::min(least, value) : least;
      most = std::max(most, value);
    }
  chart.y.logarithmic = most > 10.0 * least;
  if (!chart.y.logarithmic)
    return;
  if (least < 1e-6 * most)
    chart.y.from = std::pow(10.0, std::round(std::log10(most)) - 6.0);
  for (ChartLine& line : chart.lines)
    std::replace_if(
        line.y.begin(), line.y.end(), [](double value) { return value <= 0.0; }, NAN);
}

Chart chart_of(const Mixture& mixture, double (*part)(Complex), const std::string& y_label)
{
  const bool over_particles = mixture.sought == MixtureSought::particle;
  const std::vector<double> x = over_particles ? particles(mixture) : packings();
  Chart chart;
  chart.title = over_particles
                    ? fmt::format("Powder with a packing of {}", count(*mixture.question.packing))
                    : fmt::format("Powder of particles of permeability {}",
                                  words(*mixture.question.particle));
  chart.x = {over_particles ? "permeability of the particles" : "packing", "", over_particles};
  chart.y = {y_label, ""};
  for (const MixtureByRule& one : mixture.rules)
  {
    ChartLine line{std::string(one.rule.name), x, {}};
    for (const double at : x)
      line.y.push_back(part(along(mixture, at, one.rule.rule)));
    chart.lines.push_back(line);
  }
  if (!mixture.lossy)
    add_bands(chart, mixture, x);
  add_marks(chart, mixture, part);
  scale_logarithmically(chart);
  chart.subtitle = mixture.question.effective
                       ? fmt::format("Marks: a powder of {}", words(*mixture.question.effective))
                       : fmt::format("Marks: a packing of {}", count(*mixture.question.packing));
  if (!mixture.lossy)
    chart.notes = {caution};
  return chart;
}

} // namespace

std::vector<Chart> charts(const Mixture& mixture)
{
  if (mixture.lossy && mixture.sought == MixtureSought::particle)
    return {};
  const auto real = [](Complex value) { return value.real(); };
  const auto loss = [](Complex value) { return -value.imag(); };
  std::vector<Chart> list = {
      chart_of(mixture, real, mixture.lossy ? "effective mu'" : "effective permeability")};
  if (mixture.lossy)
    list.push_back(chart_of(mixture, loss, "effective mu''"));
  return list;
}

} // namespace post
