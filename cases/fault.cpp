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
  return fault.cure.empty() ? text : fmt::format("{}; {}", text, fault.cure);
}

CaseError::CaseError(std::vector<Fault> faults)
    : std::runtime_error(lines(faults)), _faults(std::move(faults))
{
}

} // namespace cases
