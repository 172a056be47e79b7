// Faults as the lines that are printed.
#include "cases/fault.hpp"

#include <fmt/format.h>

namespace cases
{
namespace
{

std::string lines(const std::vector<Fault>& faults)
{
  std::string text;
  for (const Fault& fault : faults)
  {
    text += (text.empty() ? "" : "\n") + line(fault);
  }
  return text;
}

/// What a terminal would obey instead of show, written as \x1b: a line stays a line.
std::string shown(std::string_view text)
{
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at)
  {
    const auto code = static_cast<unsigned char>(text[at]);
    const bool wide = code == 0xc2 && at + 1 < text.size() && // U+0080 to U+009F
                      static_cast<unsigned char>(text[at + 1]) < 0xa0;
    if (wide)
    {
      out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[++at]));
    }
    else if (code < 0x20 || code == 0x7f)
    {
      out += fmt::format("\\x{:02x}", code);
    }
    else
    {
      out += text[at];
    }
  }
  return out;
}

} // namespace

std::string line(const Fault& fault)
{
  std::string text = fault.where.file;
  if (fault.where.line > 0)
  {
    text += fmt::format(":{}", fault.where.line);
  }
  if (fault.where.line > 0 && fault.where.column > 0)
  {
    text += fmt::format(":{}", fault.where.column);
  }
  text += fmt::format("{}error: {}", text.empty() ? "" : ": ", fault.what);
  return shown(fault.cure.empty() ? text : fmt::format("{}; {}", text, fault.cure));
}

CaseError::CaseError(std::vector<Fault> faults)
    : std::runtime_error(lines(faults)), _faults(std::move(faults))
{
}

} // namespace cases
