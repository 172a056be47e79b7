// The formula check as people read it.
#pragma once

#include "post/check_files.hpp"

#include <string>

namespace cases
{

/// @brief One table a family: claim, shares within 1, 5 and 20 %, the worst and where it is.
std::string check_text(const post::FormulaCheck& check);

} // namespace cases
