// One block of a page as HTML; put together by page.cpp.
#pragma once

#include "post/page.hpp"

#include <string>

namespace post
{

/// @brief A number's unit as print sets it: "uH" is "µH", "ohm" is "Ω", "cm3" is "cm³"; escaped.
///
/// Only after a number, or where the unit is all there is: a part may be named "ohm".
std::string typeset(std::string_view words);

std::string block_html(const PageText& text);
std::string block_html(const PageTable& table);
std::string block_html(const PageList& list);
std::string block_html(const PageBars& bars);
std::string block_html(const PagePicture& picture);
std::string block_html(const PageParts& parts);
std::string block_html(const PageFile& file);
std::string block_html(const PageWhatIf& what_if);

/// @brief Bytes in base 64 [RFC 4648].
std::string base64(std::string_view bytes);

} // namespace post
