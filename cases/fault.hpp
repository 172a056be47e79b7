// What is wrong with a case file or a command line, said so that a person can act on it.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace cases
{

/// @brief A place in a text file; line and column count from 1, 0 where there is none.
struct SourcePlace
{
  std::string file;
  int line = 0;
  int column = 0;
};

/// @brief One fault: `file:line:column: error: what; cure`.
struct Fault
{
  SourcePlace where;
  std::string what; ///< What was read and why it cannot be.
  std::string cure; ///< What to write instead; may be empty.
};

/// @brief The fault as the one line that is printed, control characters shown as \x1b.
std::string line(const Fault& fault);

/// @brief Every fault of one input; what() is their lines joined by newlines. Exit status 2.
class CaseError : public std::runtime_error
{
public:
  explicit CaseError(std::vector<Fault> faults);
  const std::vector<Fault>& faults() const { return _faults; }

private:
  std::vector<Fault> _faults;
};

} // namespace cases
