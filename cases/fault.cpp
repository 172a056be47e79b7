// Faults as the lines that are printed.
#include "cases/fault.hpp"
#include "post/control.hpp"

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
  for (std::size_t at = 0; at < text.size();)
  {
    const std::size_t length = post::control_at(text, at);
    const auto code = [&](std::size_t k) { return static_cast<unsigned char>(text[at + k]); };
    out += length == 0 ? std::string(1, text[at])
           : length == 3
               ? fmt::format("\\u{:04x}", 0x2000 | (code(1) & 0x3f) << 6 | (code(2) & 0x3f))
               : fmt::format("\\x{:02x}", code(length - 1));
    at += length == 0 ? 1 : length;
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
