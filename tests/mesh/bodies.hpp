// Short names for the bodies that the tests of layouts and clashes are about.
#pragma once

#include "mesh/layout.hpp"

#include <string>
#include <utility>

namespace bodies
{

using namespace mesh;

inline Part rod(std::string name, double diameter, double length, double centre = 0)
{
  return {std::move(name), Rod{diameter, length}, "core", centre};
}

inline Part tube(std::string name, double inner, double outer, double length, double centre = 0)
{
  return {std::move(name), Tube{inner, outer, length}, "dust", centre};
}

inline Part coated(Part part, double thickness)
{
  part.coating = Coating{"dust", thickness};
  return part;
}

inline Winding block(double inner, double outer, double length, double centre = 0)
{
  return {"coil", 100, Block{inner, outer, length}, centre};
}

inline Winding round(double turns, int layers, double inner, double pitch = 0, double coating = 0)
{
  RoundTurns build{0.5, inner, layers, pitch, 0.1};
  if (coating > 0)
    build.coating = Coating{"dust", coating};
  return {"coil", turns, build, 0.0};
}

inline Winding named(Winding winding, std::string name)
{
  winding.name = std::move(name);
  return winding;
}

inline bool clash_free(const Scene& scene)
{
  return clashes(scene).empty();
}

} // namespace bodies
