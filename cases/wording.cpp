// Quoting, listing and nearest words.
#include "cases/wording.hpp"
#include "post/control.hpp"

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <vector>

namespace cases
{
namespace
{

char lower(char letter)
{
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

/// Optimal string alignment: like Levenshtein's distance, with a swap of neighbours as one step.
std::size_t edit_distance(std::string_view a, std::string_view b)
{
  std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j)
  {
    above[j] = j;
  }
  for (std::size_t i = 1; i <= a.size(); ++i)
  {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j)
    {
      const std::size_t change = lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + change});
      if (i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) &&
          lower(a[i - 2]) == lower(b[j - 1]))
      {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    std::swap(before, above);
    std::swap(above, row);
  }
  return above[b.size()];
}

/// Bytes of the UTF-8 character that starts at `at`, at least 1.
std::size_t character_length(std::string_view text, std::size_t at)
{
  std::size_t end = at + 1;
  while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80)
  {
    ++end;
  }
  return end - at;
}

} // namespace

bool holds_control(std::string_view text)
{
  for (std::size_t at = 0; at < text.size(); ++at)
  {
    if (post::control_at(text, at) > 0)
    {
      return true;
    }
  }
  return false;
}

std::string in_quotes(std::string_view text)
{
  constexpr int longest = 60;
  std::string out = "\"";
  int shown = 0;
  for (std::size_t at = 0; at < text.size(); ++shown)
  {
    if (shown == longest)
    {
      out += "...";
      break;
    }
    const std::size_t length = character_length(text, at);
    const auto code = static_cast<unsigned char>(text[at]);
    if (code == '\n')
    {
      out += "\\n";
    }
    else if (code < 0x20 || code == 0x7f)
    {
      out += fmt::format("\\x{:02x}", code);
    }
    else
    {
      out += text.substr(at, length);
    }
    at += length;
  }
  return out + "\"";
}

std::string written(double number)
{
  const std::string brief = fmt::format("{:g}", number); // 1e+12 rather than 1000000000000
  return std::strtod(brief.c_str(), nullptr) == number ? brief : fmt::format("{}", number);
}

bool same_letters(std::string_view a, std::string_view b)
{
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

std::string nearest(std::string_view word, std::span<const std::string> known)
{
  constexpr std::size_t longest = 64;
  if (word.empty() || word.size() > longest)
  {
    return {};
  }
  std::string best;
  // One slip in three letters: "cor" may mean "core", but "coil" does not mean "core".
  std::size_t least = word.size() / 3 + 1;
  for (const std::string& candidate : known)
  {
    const bool cut_short = word.size() > 2 && candidate.starts_with(word); // "diam"
    const std::size_t distance = cut_short ? 1 : edit_distance(word, candidate);
    if (distance < least && distance < candidate.size())
    {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

std::string did_you_mean(std::string_view word, std::span<const std::string> known,
                         std::string otherwise)
{
  const std::string meant = nearest(word, known);
  return meant.empty() ? std::move(otherwise) : fmt::format("did you mean \"{}\"?", meant);
}

std::string in_words(std::span<const std::string> words, std::string_view last_joint)
{
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
  {
    out += i == 0 ? "" : i + 1 == words.size() ? fmt::format(" {} ", last_joint) : ", ";
    out += words[i];
  }
  return out;
}

} // namespace cases
