// Text made safe to draw: Cairo stops drawing anything after one invalid byte.
#include "post/drawing/canvas.hpp"

#include <string>
#include <string_view>

namespace post::drawing
{

namespace
{

/// @brief Bytes of the UTF-8 sequence at the start of `rest`, 0 where it is not valid.
std::size_t sequence_length(std::string_view rest)
{
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(rest[i]); };
  const unsigned char lead = byte(0);
  if (lead < 0x80)
    return 1;
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || rest.size() < length)
    return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80)
      return 0;
  // Overlong forms, surrogates and what lies beyond the last code point.
  const unsigned char second = byte(1);
  if ((lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) ||
      (lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F))
    return 0;
  return length;
}

/// @brief Whether a valid sequence is one of the control characters U+0000..1F, U+007F..9F.
bool control(std::string_view sequence)
{
  const auto lead = static_cast<unsigned char>(sequence[0]);
  return lead < 0x20 || lead == 0x7F ||
         (lead == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0);
}

} // namespace

std::string printable(const std::string& words)
{
  std::string result;
  for (std::string_view rest = words; !rest.empty();)
  {
    const std::size_t length = sequence_length(rest);
    if (length == 0 || control(rest))
      result += "\xEF\xBF\xBD"; // U+FFFD
    else
      result += rest.substr(0, length);
    rest.remove_prefix(length == 0 ? 1 : length);
  }
  return result;
}

} // namespace post::drawing
