// The unknown of a fit: a material's, or a dimension of the case.
#pragma once

#include "cases/fit_case.hpp"
#include "cases/tree.hpp"

#include <optional>

namespace cases
{

/// @brief A value of the case that a fit can move: a pure number or a length.
struct Number
{
  double si = 0.0;
  Kind kind = Kind::number;
};
std::optional<Number> number(const Node& node);
/// @brief The number a key of the case holds; nothing, and a fault at `where`, where it is none.
std::optional<Number> number_at(const std::string& key, Node& root, const SourcePlace& where,
                                std::vector<Fault>& faults);

/// @brief Asks for a material's permeability, packing or particles; false where the key is another.
bool ask_material(FitCase& made, const std::string& key);
/// @brief Notes a material no body is made of: it leaves every inductance as it is.
void check_used(const FitCase& made, const Readings& readings, std::vector<Fault>& faults);
/// @brief Asks for a dimension; the question's problem() must be there.
void ask_dimension(FitCase& made, const Readings& readings, Node& root, std::vector<Fault>& faults);

} // namespace cases
