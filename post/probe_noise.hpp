// How small a field over frequency may be and still be told.
#pragma once

#include "post/result.hpp"

namespace post
{

/// @brief Raises the noise of every probe over frequency to what its disc leaves of the field at
/// rest, which a core may make many times that of its winding in air.
///
/// The disc bounds an energy relative to the whole; a field errs by about its root.
void tell_noise(Result& result);

} // namespace post
