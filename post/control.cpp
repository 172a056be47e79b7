// The few ranges, read from their bytes.
#include "post/control.hpp"

namespace post
{

std::size_t control_at(std::string_view text, std::size_t at)
{
  const auto byte = [&](std::size_t k) -> unsigned
  { return at + k < text.size() ? static_cast<unsigned char>(text[at + k]) : 0U; };
  if (byte(0) < 0x20 || byte(0) == 0x7f)
  {
    return 1;
  }
  if (byte(0) == 0xc2 && byte(1) >= 0x80 && byte(1) < 0xa0)
  {
    return 2;
  }
  const bool turns = byte(0) == 0xe2 && ((byte(1) == 0x80 && byte(2) >= 0xa8 && byte(2) <= 0xae) ||
                                         (byte(1) == 0x81 && byte(2) >= 0xa6 && byte(2) <= 0xa9));
  return turns ? 3 : 0;
}

} // namespace post
