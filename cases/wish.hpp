// Two wishes and what must be kept, and the designs found for them.
#pragma once

#include "cases/search_key.hpp"
#include "post/chart.hpp"
#include "post/front.hpp"
#include "post/result.hpp"

#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief What a wish or a limit speaks of.
enum class Aim
{
  inductance,
  volume,       ///< Of all parts and coatings.
  mass,         ///< Of the same; each material needs its density.
  wire_length,  ///< Of a winding drawn turn by turn, as the next.
  dc_resistance ///< Copper at the temperature of the case; copper loss at a given current goes with
                ///< it.
};

struct Measured
{
  Aim aim = Aim::inductance;
  std::string typed; ///< "coil.inductance"
  std::size_t winding = 0;
};

struct Wish
{
  Measured measured;
  bool up = true;
};

struct Keep
{
  Measured measured;
  bool below = true; ///< Else above.
  double limit = 0.0;
};

/// @brief One design solved: all a wish can speak of.
struct Design
{
  std::vector<double> at; ///< Of the keys [SI].
  std::vector<post::WindingResult> windings;
  double volume = 0.0; ///< [m^3]
  double mass = 0.0;   ///< Of what has a density [kg].
  bool accuracy_reached = true;
};

struct WishReport
{
  SearchCase searched;
  std::vector<SearchKey> keys;
  std::vector<Wish> wishes; ///< Two.
  std::vector<Keep> keeps;
  std::vector<Design> designs; ///< By the second wish.
  std::size_t tried = 0, impossible = 0;
  double accuracy_asked = 1e-3;
  std::vector<std::string> files;
};

/// @brief "inductance=up". @throws CaseError.
Wish read_wish(const std::string& typed, const solver::Problem& problem);
/// @brief "mass<20g". @throws CaseError.
Keep read_keep(const std::string& typed, const solver::Problem& problem);
/// @brief The value with what bounds it; ends equal where nothing is left open.
post::Bounded value_of(const Measured& measured, const Design& design);
std::string unit_of(const Measured& measured);

std::string wish_text(const WishReport& report);
std::string wish_csv(const WishReport& report);
/// @brief The document of `sweep --wish --json` and wish.json; ends in a newline.
std::string wish_document(const WishReport& report);
std::optional<post::Chart> wish_chart(const WishReport& report);

} // namespace cases
