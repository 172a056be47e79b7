// Rounding and line breaks.
#include "post/drawing/words.hpp"
#include "post/engineering.hpp"

#include <cmath>
#include <fmt/format.h>
#include <sstream>

namespace post::drawing
{

std::string with_micro_sign(std::string text, const std::string& unit)
{
  for (auto at = text.find(" u" + unit); at != std::string::npos; at = text.find(" u" + unit, at))
    text.replace(at, 2, " \u00B5");
  return text;
}

std::string bracketed(const Bounded& quantity, const std::string& unit)
{
  const Ends between = ends(quantity, unit);
  return with_micro_sign(fmt::format("{}, guaranteed {} to {} {}", engineering(quantity, unit),
                                     between.lower, between.upper, between.unit),
                         unit);
}

double round_step(double value)
{
  const double decade = std::pow(10.0, std::floor(std::log10(value) + 1e-12));
  const double part = value / decade * (1.0 + 1e-12);
  return decade * (part >= 5.0 ? 5.0 : part >= 2.0 ? 2.0 : 1.0);
}

std::vector<std::string> wrapped(const std::string& words, double width, const Font& font,
                                 Canvas& canvas)
{
  std::vector<std::string> lines;
  std::istringstream stream(printable(words));
  for (std::string word; stream >> word;)
    if (!lines.empty() && canvas.text_width(lines.back() + " " + word, font) <= width)
      lines.back() += " " + word;
    else
      lines.push_back(word);
  return lines;
}

} // namespace post::drawing
