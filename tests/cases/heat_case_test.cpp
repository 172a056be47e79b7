// [heat] as a case says it: what is read, what is refused, and temperatures of whole cases.
#include "cases/case_text.hpp"
#include "cases/pipeline.hpp"
#include "cases/result_text.hpp"
#include "mesh/layout.hpp"
#include "post/heat.hpp"
#include "post/quantities.hpp"
#include "solver/heat.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using case_tests::case_of;
using case_tests::changed;
using case_tests::told;
using Catch::Contains;

namespace
{

const std::string bodies = R"case([materials.ferrite]
permeability = { real = 800, imaginary = 40 }
thermal_conductivity = "4 W/(m K)"
curie_temperature = "210 degC"
[[parts]]
name = "core"
shape = "rod"
material = "ferrite"
diameter = "8 mm"
length = "30 mm"
[[windings]]
name = "choke"
turns = 20
wire = "0.8 mm"
inner_diameter = "8 mm"
layers = 1
)case";
const std::string cooling = R"case([heat]
ambient = "40 degC"
convection = "10 W/(m2 K)"
winding_conductivity = "0.5 W/(m K)"
)case";

} // namespace

TEST_CASE("what carries heat away is read with its units", "[heat]")
{
  const cases::Case read = case_of(bodies + cooling + "emissivity = 0.9\n");
  REQUIRE(read.problem.cooling);
  CHECK(read.problem.cooling->ambient == Approx(313.15));
  CHECK(read.problem.cooling->convection == 10.0);
  CHECK(read.problem.cooling->emissivity == 0.9);
  CHECK(read.problem.cooling->winding_conductivity == 0.5);
  CHECK(read.problem.materials.at("ferrite").thermal_conductivity == 4.0);
  CHECK(read.problem.materials.at("ferrite").curie_temperature == Approx(483.15));
  for (const char* unit : {"10 W/m2/K", "10 W/(K m2)", "0.001 W/(cm2 K)"})
  {
    CAPTURE(unit);
    CHECK(case_of(bodies + changed(cooling, "10 W/(m2 K)", unit)).problem.cooling->convection ==
          Approx(10.0).epsilon(1e-12));
  }
  CHECK_FALSE(case_of(bodies).problem.cooling);
}

TEST_CASE("what a temperature needs and is not told is a fault", "[heat]")
{
  CHECK_THAT(told(bodies + changed(cooling, "convection = \"10 W/(m2 K)\"\n", "")),
             Contains("heat lets no surface give heat off; write e.g. convection"));
  CHECK_THAT(told(bodies + changed(cooling, "10 W/(m2 K)", "10 W/(m K)")),
             Contains("heat.convection must be a coefficient of heat transfer, got \"10 W/(m K)\" "
                      "(a thermal conductivity); use W/(m2 K)"));
  CHECK_THAT(told(bodies + changed(cooling, "winding_conductivity = \"0.5 W/(m K)\"\n", "")),
             Contains("heat does not say how windings conduct"));
  CHECK_THAT(
      told(changed(bodies, "thermal_conductivity = \"4 W/(m K)\"\n", "") + cooling),
      Contains("materials.ferrite has no thermal_conductivity, which [heat] needs; write e.g."));
  const std::string plain =
      changed(bodies, "wire = \"0.8 mm\"\ninner_diameter = \"8 mm\"\nlayers = 1",
              "inner_diameter = \"8 mm\"\nouter_diameter = \"9.6 mm\"\n"
              "length = \"16 mm\"");
  CHECK_THAT(told(plain + cooling),
             Contains("windings.choke names no wire, so [heat] does not know its loss"));
  CHECK_THAT(told(changed(plain, "9.6 mm", "8 mm") + cooling),
             Contains("windings.choke is a sheet without thickness, which [heat] cannot warm"));
  CHECK_THAT(told(bodies + cooling + "[drive]\nfrequency = \"10 kHz\"\nbackground = \"1 mT\"\n"),
             Contains("heat over frequency takes one winding or a background, got 2"));
  // A second winding between the turns of the first.
  CHECK_THAT(told(changed(bodies, "layers = 1", "layers = 1\npitch = \"2 mm\"") +
                  "[[windings]]\nname = \"other\"\nturns = 19\nwire = \"0.8 mm\"\n"
                  "inner_diameter = \"8 mm\"\nlayers = 1\npitch = \"2 mm\"\n" +
                  cooling),
             Contains("heat takes turns as the section they take up, and \"choke\" then overlaps"));
}

TEST_CASE("direct current warms the winding, and heat in is heat out", "[heat]")
{
  const cases::Case read = case_of(bodies + cooling + "[drive]\ncurrent = \"5 A\"\n");
  post::Result result; // direct current needs no field
  post::add_heat(read.problem, result, 1);
  REQUIRE(result.heat.points.size() == 1);
  const post::HeatPoint& at = result.heat.points.front();
  const double expected =
      25.0 * post::wire(read.problem, read.problem.scene.windings.front())->dc_resistance;
  CHECK(at.heat == Approx(expected).epsilon(1e-9));
  CHECK(at.convected == Approx(expected).epsilon(1e-9));
  CHECK(at.radiated == 0.0);
  REQUIRE(at.bodies.size() == 2);
  CHECK(at.bodies[0].name == "core");
  CHECK(at.bodies[0].heat == 0.0);
  CHECK(at.bodies[1].heat == Approx(expected).epsilon(1e-9));
  // The core touches the winding: warm without a loss of its own, but cooler.
  CHECK(at.bodies[0].mean_rise > 5.0);
  CHECK(at.bodies[0].mean_rise < at.bodies[1].mean_rise);
  // By the surface of both: heat over h A would warm them evenly. Their true mean lies within a
  // third of that, as the winding's own surface is most of it.
  const double a = 4e-3, b = 4.8e-3, half = 8e-3;
  const double area =
      2.0 * std::numbers::pi * (b * 2.0 * half + a * (30e-3 - 2.0 * half) + a * a + b * b - a * a);
  CHECK(at.bodies[1].mean_rise == Approx(expected / (10.0 * area)).epsilon(0.33));
  const std::string told = cases::heat_text(read.problem, result);
  CHECK_THAT(told, Contains("[estimated]") && Contains("5.00 A dc") &&
                       Contains("An estimate, no approval: parts get hot"));
}

TEST_CASE("losses over frequency warm the bodies they arise in; a curie point is told", "[heat]")
{
  const std::string text =
      changed(bodies, "layers = 1", "outer_diameter = \"10 mm\"\nlength = \"16 mm\"") + cooling +
      "[drive]\ncurrent = \"2 A\"\nfrequency = \"20 kHz\"\n";
  cases::Case read = case_of(text);
  post::Result result = std::move(cases::solved({read}, {}).front().result);
  REQUIRE(result.heat.points.size() == 1);
  const post::HeatPoint at = result.heat.points.front();
  const post::WindingImpedance& Z = result.frequencies.front().windings.front();
  // 2 A peak: 0.5 I^2 R, in all and by body; 1e-9: the parts are those the impedance is made of.
  CHECK(at.heat == Approx(0.5 * 4.0 * Z.resistance).epsilon(1e-6));
  CHECK(at.bodies[0].heat > 0.0);
  for (const auto& [name, resistance] : Z.by_body)
    if (name == "core")
      CHECK(at.bodies[0].heat == Approx(2.0 * resistance).epsilon(1e-9));
  CHECK_FALSE(at.bodies[0].above_curie);
  CHECK_THAT(std::string(cases::heat_text(read.problem, result)), !Contains("CAUTION"));
  // Ten times the current: a hundred times the rise, as nothing is radiated.
  read.problem.currents = {20.0};
  post::add_heat(read.problem, result, 1);
  const post::HeatPoint& hot = result.heat.points.front();
  CHECK(hot.bodies[0].mean_rise == Approx(100.0 * at.bodies[0].mean_rise).epsilon(1e-6));
  CHECK(hot.bodies[0].above_curie);
  CHECK_THAT(std::string(cases::heat_text(read.problem, result)),
             Contains("CAUTION: core would pass its Curie temperature"));
  post::Result mild = result;
  mild.heat.points = {at};
  const std::vector<post::Result> both = {mild, result};
  CHECK_THAT(std::string(cases::compare_heat_text(both, std::vector<std::string>{"mild", "hot"})),
             Contains("the warmest drive of each") && Contains("mild") && Contains("20.0 kHz"));
  CHECK(cases::compare_heat_text({both.data(), 1}, std::vector<std::string>{"mild"}).empty());
}

TEST_CASE("turns drawn one by one are warmed as the section they take up", "[heat]")
{
  const cases::Case read =
      case_of(changed(bodies, "layers = 1", "layers = 3\ninsulation = \"0.05 mm\""));
  const mesh::Scene made = post::with_envelopes(read.problem.scene);
  const auto& block = std::get<mesh::Block>(made.windings.front().build);
  CHECK(block.inner_diameter == 8e-3);
  CHECK(block.outer_diameter == Approx(8e-3 + 6.0 * 0.9e-3).epsilon(1e-12));
  CHECK(block.length == Approx(7.0 * 0.9e-3).epsilon(1e-12));
  CHECK(made.parts.size() == 1);
}

TEST_CASE("air a pot encloses conducts, open air takes the heat", "[heat]")
{
  const std::string pot = R"case([materials.ferrite]
permeability = 2000
thermal_conductivity = "4 W/(m K)"
[[parts]]
name = "core"
shape = "outline"
material = "ferrite"
points = [["0 mm","-9 mm"],["13 mm","-9 mm"],["13 mm","9 mm"],["0 mm","9 mm"],["0 mm","0.3 mm"],
 ["5 mm","0.3 mm"],["5 mm","6.5 mm"],["10.5 mm","6.5 mm"],["10.5 mm","-6.5 mm"],["5 mm","-6.5 mm"],
 ["5 mm","-0.3 mm"],["0 mm","-0.3 mm"]]
[[windings]]
name = "choke"
turns = 40
wire = "0.5 mm"
strands = 1
inner_diameter = "12 mm"
outer_diameter = "19 mm"
length = "11 mm"
)case";
  const cases::Case read = case_of(pot + cooling + "[drive]\ncurrent = \"2 A\"\n");
  post::Result result;
  post::add_heat(read.problem, result, 1);
  const solver::HeatField field = post::heat_field(read.problem, result, 0);
  const mesh::Mesh& mesh = field.space.mesh;
  for (std::size_t k = 0; k < mesh.triangles.size(); ++k)
  {
    double r = 0.0, z = 0.0;
    for (const int v : mesh.triangles[k].vertices)
    {
      r = std::max(r, mesh.vertices[v].r());
      z = std::max(z, std::abs(mesh.vertices[v].z));
    }
    if (mesh.triangles[k].region == 0)
      CHECK(field.open[k] == !(r < 10.6e-3 && z < 6.6e-3));
  }
  // The winding gives its heat through the pot alone.
  CHECK(result.heat.points.front().bodies[1].mean_rise >
        result.heat.points.front().bodies[0].hottest_rise);
  CHECK(result.heat.points.front().convected ==
        Approx(result.heat.points.front().heat).epsilon(1e-8));
}
