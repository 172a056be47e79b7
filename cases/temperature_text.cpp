// Temperatures and ratios of fields as people read them, and what does not follow temperature.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/wording.hpp"
#include "post/engineering.hpp"

#include <cmath>
#include <fmt/format.h>

namespace cases
{

std::string degrees(double temperature)
{
  // To a hundredth, so that 273.15 and its like leave no digits of round-off.
  return fmt::format("{:.7g} degC", std::round(100.0 * (temperature - 273.15)) / 100.0 + 0.0);
}

std::string decibels(double value, double noise)
{
  const double open = 20.0 * std::log10(1.0 + noise);
  return fmt::format("{}{:.{}f} dB", open < 0.5 ? "" : "about ", value + 0.0,
                     open < 0.05  ? 2
                     : open < 0.5 ? 1
                                  : 0);
}

Sheet temperature_text(const solver::Problem& problem)
{
  std::vector<std::string> alike, follow;
  for (const auto& [name, material] : problem.materials)
  {
    if (material.conductivity > 0.0 && material.temperature_coefficient == 0.0)
    {
      alike.push_back(plain(name));
    }
    if (material.follows_temperature)
    {
      follow.push_back(plain(name));
    }
  }
  if (problem.temperature == solver::room_temperature && follow.empty())
  {
    return {};
  }
  const std::string laws =
      follow.empty() ? " goes into conductivities alone; permeabilities are as given"
                     : fmt::format(" goes into conductivities and into the table{} of {}; other "
                                   "permeabilities are as given",
                                   follow.size() == 1 ? "" : "s", in_words(follow));
  return wrapped(fmt::format(
      "The temperature of {}{}{}.", degrees(problem.temperature), laws,
      alike.empty()
          ? ""
          : fmt::format(", and without a temperature_coefficient {} conduct{} alike at all",
                        in_words(alike), alike.size() == 1 ? "s" : "")));
}

} // namespace cases
