// A single turn of round wire without a core.
#include "post/formula_families.hpp"

namespace post
{

std::vector<FormulaResult> ring_formulas(const FormulaScene& scene)
{
  if (scene.winding == nullptr || scene.round == nullptr || scene.coil.turns != 1.0)
  {
    return {};
  }
  const double a = scene.coil.diameter / 2.0;
  const double r = scene.round->wire_diameter / 2.0;
  const bool fine = scene.round->strand == mesh::Strand::fine;
  const Condition slender{r <= 0.2 * a, "for wire below a fifth of the loop's diameter"};
  const Condition uniform{fine, "for even current density; this turn is solid"};
  const Condition solid{!fine, "for a solid turn; this one is finely stranded"};
  const auto air = Estimates::air_inductance;
  return {formula({"ring, even current", "[Rayleigh & Niven 1881]",
                   "3 ppm for wire below a fifth of the loop", air},
                  ring_uniform(a, r), {uniform, slender}),
          formula({"ring, solid at dc", "derived here from [Maxwell 1873, art. 701]",
                   "2e-4 for wire below a fifth of the loop", air},
                  ring_solid(a, r), {solid, slender}),
          formula({"ring, thin wire", "[Kirchhoff 1864]",
                   "0.3 % for wire below a tenth of the loop", air},
                  ring_kirchhoff(a, r),
                  {{r <= 0.1 * a, "for wire below a tenth of the loop's diameter"}})};
}

} // namespace post
