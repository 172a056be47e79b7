// American wire gauge: the number a person writes, and the diameter it stands for.
#include "cases/units.hpp"

#include <charconv>
#include <cmath>

namespace cases
{
namespace
{

/// `text` without the three letters AWG at its start or end and without spaces around the rest.
std::optional<std::string_view> without_letters(std::string_view text)
{
  const auto is_awg = [](std::string_view word)
  {
    return word.size() == 3 && (word[0] | 32) == 'a' && (word[1] | 32) == 'w' &&
           (word[2] | 32) == 'g';
  };
  const auto trim = [](std::string_view word)
  {
    const auto from = word.find_first_not_of(" \t");
    return from == std::string_view::npos
               ? std::string_view()
               : word.substr(from, word.find_last_not_of(" \t") - from + 1);
  };
  text = trim(text);
  if (text.size() < 4)
  {
    return std::nullopt;
  }
  if (is_awg(text.substr(text.size() - 3)))
  {
    return trim(text.substr(0, text.size() - 3));
  }
  if (is_awg(text.substr(0, 3)))
  {
    return trim(text.substr(3));
  }
  return std::nullopt;
}

std::optional<int> whole_number(std::string_view text)
{
  int number = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (status != std::errc() || end != text.data() + text.size())
  {
    return std::nullopt;
  }
  return number;
}

} // namespace

double wire_gauge_diameter(int gauge)
{
  return 0.005 * 0.0254 * std::pow(92.0, (36.0 - gauge) / 39.0);
}

std::optional<int> wire_gauge(std::string_view text)
{
  constexpr int finest = 56; // the end of the standard's table
  const auto number = without_letters(text);
  if (!number || number->empty())
  {
    return std::nullopt;
  }
  std::optional<int> gauge;
  if (number->find_first_not_of('0') == std::string_view::npos) // 0, 00, 000, 0000
  {
    gauge = 1 - static_cast<int>(number->size());
  }
  else if (number->size() > 2 && number->substr(number->size() - 2) == "/0") // 1/0 to 4/0
  {
    const auto zeros = whole_number(number->substr(0, number->size() - 2));
    gauge = zeros && *zeros >= 1 ? std::optional(1 - *zeros) : std::nullopt;
  }
  else
  {
    gauge = whole_number(*number);
    gauge = gauge && *gauge >= 0 ? gauge : std::nullopt;
  }
  return gauge && *gauge >= -3 && *gauge <= finest ? gauge : std::nullopt;
}

} // namespace cases
