// `mix`: what its options mean, what is refused and how, and the report word for word.
#include "cases/fault.hpp"
#include "cases/mix.hpp"
#include "longest_line.hpp"

#include <catch2/catch.hpp>

namespace
{

using Complex = std::complex<double>;
using cases::MixTyped;

std::string refusal(const MixTyped& typed)
{
  try
  {
    cases::mixture_question(typed);
  }
  catch (const cases::CaseError& error)
  {
    return error.what();
  }
  return "not refused";
}

double packing(MixTyped typed)
{
  typed["--particle"] = "700";
  return *cases::mixture_question(typed).packing;
}

std::string report(const MixTyped& typed)
{
  return cases::mix_text(post::mixture(cases::mixture_question(typed)));
}

} // namespace

TEST_CASE("a packing is a share, a percentage, two densities, or masses and a volume", "[mix]")
{
  CHECK(packing({{"--packing", "0.6"}}) == 0.6);
  CHECK(packing({{"--packing", "60 %"}}) == Approx(0.6).epsilon(1e-15));
  CHECK(packing({{"--tap-density", "2.88 g/cm3"}, {"--grain-density", "4800 kg/m3"}}) ==
        Approx(0.6));
  CHECK(packing({{"--mass", "28.8 g"}, {"--volume", "10 ml"}, {"--grain-density", "4.8 g/cm3"}}) ==
        Approx(0.6));
  CHECK(packing({{"--mass", "59.8 g"},
                 {"--tare", "31 g"},
                 {"--volume", "10 cm3"},
                 {"--grain-density", "4.8 g/cm3"}}) == Approx(0.6));
}

TEST_CASE("loss belongs to the one permeability that is given", "[mix]")
{
  const auto forward =
      cases::mixture_question({{"--particle", "700"}, {"--imaginary", "40"}, {"--packing", "0.6"}});
  CHECK(*forward.particle == Complex(700.0, -40.0));
  CHECK_FALSE(forward.effective);
  const auto backward =
      cases::mixture_question({{"--effective", "6"}, {"--imaginary", "0.1"}, {"--packing", "0.6"}});
  CHECK(*backward.effective == Complex(6.0, -0.1));
  CHECK_FALSE(backward.particle);
  CHECK(cases::mixture_question({{"--particle", "7"}, {"--packing", "1"}, {"--rule", "looyenga"}})
            .rule == solver::MixingRule::looyenga);
}

TEST_CASE("a command line of mix at fault is told in one line a fault", "[mix]")
{
  CHECK(refusal({}) ==
        "ferrule: error: mix needs two of --particle, --effective and a packing, got "
        "none; e.g. ferrule mix --particle 700 --packing 0.6");
  CHECK(refusal({{"--particle", "700"}}) ==
        "ferrule: error: mix needs two of --particle, --effective and a packing, got one; e.g. "
        "ferrule mix --particle 700 --packing 0.6");
  CHECK(
      refusal({{"--particle", "700"}, {"--packing", "1.2"}}) ==
      "ferrule: error: --packing is too large, got 1.2; packing is the filled share of the volume, "
      "above 0 and at most 1");
  CHECK(
      refusal({{"--particle", "-3"}, {"--packing", "60"}, {"--rule", "looyanga"}}) ==
      "ferrule: error: --packing is too large, got 60; packing is the filled share of the volume, "
      "above 0 and at most 1\n"
      "ferrule: error: --particle must be positive, got -3; give the ratio to vacuum, from 1e-6 "
      "to 1e9\n"
      "ferrule: error: --rule is \"looyanga\"; did you mean \"looyenga\"?");
  CHECK(refusal({{"--particle", "7 mm"}, {"--packing", "0.6"}}) ==
        "ferrule: error: --particle must be a plain number, got \"7 mm\" (a length); use no unit");
  CHECK(
      refusal({{"--particle", "7"}, {"--packing", "0.6"}, {"--tap-density", "2 g/cm3"}}) ==
      "ferrule: error: --packing and densities or masses both say how full it is; give one or the "
      "other");
  CHECK(
      refusal({{"--particle", "7"}, {"--packing", "0.6"}, {"--effective", "5"}}) ==
      "ferrule: error: --particle, --effective and a packing leave nothing to find; leave out the "
      "one you look for");
  CHECK(
      refusal({{"--particle", "7"}, {"--effective", "5"}, {"--imaginary", "1"}}) ==
      "ferrule: error: --imaginary cannot tell whether it belongs to --particle or to --effective; "
      "a packing is found from values without loss: leave it out");
}

TEST_CASE("weights and densities that make no packing are told what they lack", "[mix]")
{
  const auto told = [](MixTyped typed)
  {
    typed["--particle"] = "700";
    return refusal(typed);
  };
  CHECK(told({{"--tap-density", "2.9"}, {"--grain-density", "4.8 g/cm3"}}) ==
        "ferrule: error: --tap-density needs a unit, got \"2.9\"; write e.g. \"2.9 g/cm3\"");
  CHECK(told({{"--tap-density", "2.9 g/cm3"}}) ==
        "ferrule: error: --tap-density needs --grain-density beside it; e.g. --mass \"29 g\" "
        "--volume \"10 cm3\" --grain-density \"4.8 g/cm3\"");
  CHECK(told({{"--grain-density", "4.8 g/cm3"}}) ==
        "ferrule: error: --grain-density says nothing of the packing by itself; add --tap-density, "
        "or --mass and --volume");
  CHECK(told({{"--tap-density", "5 g/cm3"}, {"--grain-density", "4.8 g/cm3"}}) ==
        "ferrule: error: the powder would be denser than its grains, a packing of 1.042; check the "
        "densities, and that --mass is without its vessel or has its --tare");
  CHECK(told({{"--mass", "20 g"},
              {"--tare", "31 g"},
              {"--volume", "10 cm3"},
              {"--grain-density", "4.8 g/cm3"}}) ==
        "ferrule: error: --tare leaves no powder; --mass is that of the vessel with the powder");
}

TEST_CASE("the report of mix tells values, bounds, what they leave, and two cautions", "[mix]")
{
  const std::string text = report({{"--particle", "700"}, {"--packing", "0.6"}});
  const std::string start = R"(Particles of permeability 700 filling 60 % of the space
-------------------------------------------------------

Effective permeability by rule [estimated]
  maxwell-garnett         5.452  on the lower bound
  bruggeman               281.3  inside the bounds
  bruggeman-differential  14.72  inside the bounds
  lichtenecker            50.94  inside the bounds
  looyenga                187.9  inside the bounds

Bounds [bounded, for the permeabilities given]
  isotropic arrangements (Hashin-Shtrikman)  5.45 to 351
  any arrangement (Wiener)                   2.49 to 420

What this means
  The bounds leave a factor of 64 between least and most: what of it is reached
  depends on how the grains lie and touch, which no rule knows. Insulated grains
  usually lie between maxwell-garnett and bruggeman-differential, 5.45 to 14.7
  (common practice, no source).
  The lower bounds are no guaranteed minimum: milled grains may have far less
  permeability than the sintered body. Measure a sample before relying on it.
)";
  CHECK(text.substr(0, start.size()) == start);
  CHECK(text.find("dust harms lungs and eyes") != std::string::npos);
  CHECK(report({{"--particle", "2"}, {"--packing", "0.5"}}).find("below Hashin-Shtrikman's") !=
        std::string::npos); // Lichtenecker's 1.414 under 1.429
}

TEST_CASE("read backwards, the report says what has no solution and how sharp the rest is", "[mix]")
{
  const std::string particle = report({{"--effective", "6.2"}, {"--packing", "0.6"}});
  CHECK(particle.find("maxwell-garnett             -        -  none: it stays below 5.50\n") !=
        std::string::npos);
  CHECK(particle.find("11.2 or more, without limit") != std::string::npos);
  CHECK(particle.find("20.6 or more") != std::string::npos);
  const std::string packing = report({{"--effective", "9"}, {"--particle", "5"}});
  CHECK(packing.find("none: any packing gives 1.00 to 5.00\n") != std::string::npos);
  CHECK(packing.find("No packing of such particles makes this powder") != std::string::npos);
  CHECK(packing.find("Per 1 %") == std::string::npos);
}

TEST_CASE("no report of mix is wider than the page", "[mix]")
{
  for (const char* mu : {"1e-6", "0.5", "1", "2", "700", "1e9"})
    for (const char* share : {"1e-12", "0.333333333", "0.6", "1"})
    {
      CAPTURE(mu, share);
      CHECK(longest_line(report({{"--particle", mu}, {"--packing", share}})) <= 80);
      CHECK(longest_line(report({{"--effective", mu}, {"--packing", share}})) <= 80);
      CHECK(longest_line(report({{"--particle", mu}, {"--effective", "5"}})) <= 80);
      CHECK(longest_line(report(
                {{"--particle", mu}, {"--imaginary", "123456789"}, {"--packing", share}})) <= 80);
      CHECK(longest_line(report(
                {{"--effective", mu}, {"--imaginary", "0.001"}, {"--packing", share}})) <= 80);
    }
}
