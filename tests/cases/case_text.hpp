// Cases written in a test, read as a person's file would be.
#pragma once

#include "cases/case.hpp"

#include <string>
#include <vector>

namespace case_tests
{

/// @brief The case of a text, by way of a file that is gone afterwards.
cases::Case case_of(const std::string& text, const std::vector<cases::Override>& overrides = {});

/// @brief What a person is told of a text: its lines without the file's name, "" where it is sound.
std::string told(const std::string& text, const std::vector<cases::Override>& overrides = {});

/// @brief A rod and a coil without fault.
extern const std::string sound_case;

/// @brief The text with the first `from` made into `to`; throws where there is none.
std::string changed(std::string text, const std::string& from, const std::string& to);

} // namespace case_tests
