// What the engineer describes: parts, coatings and windings, in metres, about the z axis.
//
// Plain data, first station of the flow: Scene -> Layout -> Mesh -> Solution -> Result. Built by
// cases/ from a case file, or in code by a library user. Knows no permeability: a material is only
// a name here, looked up later by solver/.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace mesh
{

/// @brief A point of the half-plane, r >= 0 [m].
struct Point
{
  double r = 0.0;
  double z = 0.0;
};

/// @brief A solid cylinder on the axis [m].
struct Rod
{
  double diameter = 0.0;
  double length = 0.0;
};

/// @brief A hollow cylinder [m].
struct Tube
{
  double inner_diameter = 0.0;
  double outer_diameter = 0.0;
  double length = 0.0;
};

/// @brief A torus of round section [m]; `loop_diameter` is that of the circle through its middle.
struct Ring
{
  double loop_diameter = 0.0;
  double section_diameter = 0.0;
};

/// @brief A closed polygon in the half-plane [m]; z is relative to the part's centre.
struct Profile
{
  std::vector<Point> points;
};

using Shape = std::variant<Rod, Tube, Ring, Profile>;

/// @brief All points within `thickness` [m] of a body and outside it, corners rounded.
struct Coating
{
  std::string material;
  double thickness = 0.0;
};

/// @brief A body of revolution; its coating, if any, is the region `name.coating`.
struct Part
{
  std::string name;
  Shape shape;
  std::string material;
  double centre = 0.0; ///< Axial position of the middle [m].
  std::optional<Coating> coating = std::nullopt;
};

/// @brief A winding drawn as one section of uniform current density [m]; equal diameters make it
///        a current sheet.
struct Block
{
  double inner_diameter = 0.0;
  double outer_diameter = 0.0;
  double length = 0.0;
  double strand_diameter = 0.0; ///< Bare, of each round strand; 0: its loss is left out.
  int strands = 1;              ///< Strands of one turn, in parallel and transposed.
};

/// @brief How the current spreads over one turn of wire.
enum class Strand
{
  fine, ///< Uniform current density.
  solid ///< Density ~ 1/r, as in a solid turn at low frequency.
};

/// @brief A winding drawn turn by turn [m]; layers stack square, turns shared evenly.
///
/// The remainder of turns/layers lies in the outermost layer, centred.
struct RoundTurns
{
  double wire_diameter = 0.0;  ///< Bare wire.
  double inner_diameter = 0.0; ///< Of what it is wound on; insulation and coating lie outside it.
  int layers = 1;
  double pitch = 0.0;      ///< Centre to centre along the axis, >= full outer diameter.
  double insulation = 0.0; ///< Thickness, non-magnetic.
  std::optional<Coating> coating = std::nullopt;
  Strand strand = Strand::fine;
  bool parallel = false;                   ///< One voltage for all turns, which are solid then.
  std::string insulation_material = "air"; ///< Counts in electric fields only.
};

/// @brief A winding of `turns`, in series unless its build says otherwise.
struct Winding
{
  std::string name;
  double turns = 0.0;
  std::variant<Block, RoundTurns> build;
  double centre = 0.0; ///< Axial position of the middle [m].
};

/// @brief Everything that has a place; names are unique and have no dots.
struct Scene
{
  std::vector<Part> parts;
  std::vector<Winding> windings;
};

} // namespace mesh
