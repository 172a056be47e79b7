// One pass over all elements of a saturating field: gap, energies, linkages.
#pragma once

#include "solver/saturation.hpp"

namespace solver
{

/// @brief Fills bounds, gap, energies, linkages and incremental inductances of a field.
/// @param field_response  Change of phi by 1 A more, one column a winding.
void sum_up(Saturated& s, const Eigen::MatrixXd& field_response);

} // namespace solver
