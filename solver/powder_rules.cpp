// What is known of each mixing rule, as data: name, source, range, bounds.
#include "solver/powder.hpp"

namespace solver
{

std::array<RuleInfo, 5> mixing_rules()
{
  return {
      {{MixingRule::maxwell_garnett, "maxwell-garnett",
        "Maxwell Garnett, Phil. Trans. R. Soc. A 203 (1904)",
        "separate round grains in air, up to a packing of about 0.3; beyond that the least a "
        "pack of such grains can show",
        "is itself a bound of Hashin and Shtrikman (1962), the lower one for grains above 1"},
       {MixingRule::bruggeman, "bruggeman", "Bruggeman, Ann. Phys. 416 (1935), symmetric",
        "grains and air as equals, grains in contact; above a packing of 1/3 they form chains, "
        "which insulated grains do not: far too high for those",
        "keeps both bounds: an arrangement that has this value exists (Milton 1985)"},
       {MixingRule::bruggeman_differential, "bruggeman-differential",
        "Bruggeman, Ann. Phys. 416 (1935), differential",
        "round grains of widely different sizes that never touch; insulated powder lies between "
        "Maxwell Garnett and this in practice (common practice, no source)",
        "keeps both bounds: an arrangement that has this value exists (Norris 1985)"},
       {MixingRule::lichtenecker, "lichtenecker", "Lichtenecker, Phys. Z. 27 (1926)",
        "no arrangement behind it: a curve through measured points, for use between them",
        "keeps Wiener's, as a geometric mean; can leave those of Hashin and Shtrikman: grains "
        "of 2 at a packing of 0.5 give 1.414, below 1.429",
        false},
       {MixingRule::looyenga, "looyenga", "Looyenga, Physica 31 (1965)",
        "derived for grains that differ little from air; far too high for insulated grains of "
        "high permeability",
        "keeps Wiener's, as a mean of powers 1/3; those of Hashin and Shtrikman at every point "
        "tried, grains of 1e-4 to 1e6, without a proof"}}};
}

} // namespace solver
