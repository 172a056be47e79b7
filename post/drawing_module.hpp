// The drawing module, opened on demand: VTK and Cairo are loaded by runs that draw, by no others.
#pragma once

namespace post
{

/// @brief Address of a function of the module, which stays open till the program ends.
/// @throws std::runtime_error when the module is missing or of another version.
void* drawing_function(const char* name);

} // namespace post
