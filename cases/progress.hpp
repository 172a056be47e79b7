// One line on standard error that says what is being done, wiped when it is over.
#pragma once

#include <string_view>

namespace cases
{

/// @brief Shows steps on a terminal only; the destructor wipes the line.
class Progress
{
public:
  /// @param wanted  False keeps it silent even on a terminal.
  explicit Progress(bool wanted);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// @brief Replaces the line by "ferrule: WHAT ...".
  void step(std::string_view what);
  /// @brief Clears the line, before anything else is printed.
  void wipe();

private:
  bool _shown = false;
};

} // namespace cases
