// Words for messages: quoting what was written, and finding what was meant.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace cases
{

/// @brief The text in double quotes on one line: control characters as \n or \x01, long ones cut.
std::string in_quotes(std::string_view text);

/// @brief Whether a terminal would obey part of the text: C0 and C1 controls, line ends too.
bool holds_control(std::string_view text);

/// @brief The number in the shortest decimal form that reads back the same.
std::string written(double number);

/// @brief Whether two words differ at most in capitals (ASCII).
bool same_letters(std::string_view a, std::string_view b);

/// @brief The known word nearest to `word` by insertions, deletions, changes and swaps of
///        neighbours; empty where none is near enough to be meant.
std::string nearest(std::string_view word, std::span<const std::string> known);

/// @brief `did you mean "core"?` for the nearest known word, else `otherwise`.
std::string did_you_mean(std::string_view word, std::span<const std::string> known,
                         std::string otherwise);

/// @brief "a, b, c and d".
std::string in_words(std::span<const std::string> words, std::string_view last_joint = "and");

} // namespace cases
