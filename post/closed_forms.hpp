// Closed forms and published fits as plain functions of numbers, all families at once.
//
// post/formula_*.cpp choose among them for a case and say where each holds.
#pragma once

#include "post/coil_forms.hpp" // IWYU pragma: export
#include "post/core_forms.hpp" // IWYU pragma: export
#include "post/rod_forms.hpp"  // IWYU pragma: export
#include "post/turn_forms.hpp" // IWYU pragma: export
