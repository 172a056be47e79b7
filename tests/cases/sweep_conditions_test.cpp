// Points of a sweep at a frequency, under a bias, in a background, of wires: against `solve`.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/pipeline.hpp"
#include "cases/sweep_report.hpp"
#include "folder.hpp"
#include "longest_line.hpp"

#include <catch2/catch.hpp>

#include <fstream>

namespace
{

/// A short coil on a rod that saturates, conducts and lies in a field: all there is at once.
const std::string all_at_once = R"(title = "All at once"
[materials.core]
permeability = { real = 300, imaginary = 300 }
conductivity = "1 S/m"
[materials.soft]
magnetisation = { law = "froehlich-kennelly", saturation = "0.4 T", permeability = 200 }
[[parts]]
name = "rod"
shape = "rod"
material = "core"
diameter = "8 mm"
length = "24 mm"
[[windings]]
name = "coil"
turns = 20
inner_diameter = "10 mm"
outer_diameter = "12 mm"
length = "20 mm"
[[wires]]
name = "lead"
material = "copper"
diameter = "1 mm"
[accuracy]
inductance = 1e-2
)";

struct Swept
{
  Folder folder;
  std::filesystem::path file = folder.path / "case.toml";
  cases::SweepPlan plan;
  cases::SweepReport report;

  Swept(const std::string& text, std::vector<std::string> vary, const std::string& show = "")
  {
    std::ofstream(file) << text;
    cases::SweepAsked asked;
    asked.vary = std::move(vary);
    asked.show = show;
    plan = cases::sweep_plan(file, asked, {});
    std::vector<std::string> records;
    for (const cases::SweepPiece& piece : plan.pieces)
    {
      records.push_back(cases::worked_out(plan, piece, 1));
    }
    report = cases::sweep_report(plan, records);
  }
  post::Result solved(std::size_t point, std::optional<double> accuracy = {}) const
  {
    cases::Options options;
    options.accuracy = accuracy;
    options.sets = cases::overrides(plan, point);
    return cases::solved({cases::read_with(file, options)}, options).front().result;
  }
  post::Bounded shown(std::size_t point, const char* of, const char* word) const
  {
    const auto found = cases::shown(report.swept.points[point], of, word);
    REQUIRE(found);
    return found->value;
  }
};

std::string text_of(const cases::SweepReport& report)
{
  return printed(cases::sweep_text(report));
}

} // namespace

TEST_CASE("a point at a frequency has the impedance of solve, within its disc", "[sweep]")
{
  const Swept swept(all_at_once, {"drive.frequency=10kHz,1MHz"});
  CHECK(swept.report.show == "inductance_at_frequency");
  REQUIRE(swept.plan.pieces.size() == 2);
  for (std::size_t i = 0; i < 2; ++i)
  {
    const post::FrequencyResult at = swept.solved(i).frequencies.at(0);
    const post::WindingImpedance& coil = at.windings.at(0);
    const post::Bounded R = swept.shown(i, "coil", "resistance"),
                        L = swept.shown(i, "coil", "inductance_at_frequency"),
                        Q = swept.shown(i, "coil", "quality");
    CHECK(R.value == coil.resistance);
    CHECK(R.upper == coil.resistance + coil.disc);
    CHECK(L.value == coil.inductance);
    CHECK(L.lower == coil.inductance - coil.disc / coil.omega);
    CHECK(Q.value == coil.quality());
    CHECK(Q.lower < Q.value);
    CHECK(Q.upper > Q.value);
    CHECK(swept.shown(i, "lead", "resistance_per_metre").value == at.wires.at(0).resistance);
  }
  const std::string text = text_of(swept.report);
  CHECK(text.find("Inductances at rest are in sweep.csv") != std::string::npos);
  CHECK(text.find("lead [exact]") != std::string::npos);
  CHECK(longest_line(text) <= 80);
  const std::string csv = cases::sweep_csv(swept.report);
  CHECK(csv.find(",coil resistance [ohm],coil resistance lower [ohm],") != std::string::npos);
  CHECK(csv.find(",lead inductance per metre [H/m],lead resistance per metre [ohm/m]\n") !=
        std::string::npos);
  CHECK(cases::sweep_chart(swept.report)->subtitle.starts_with("guaranteed to within "));
}

TEST_CASE("a varied bias has the linkages of solve, a varied length those of the case's one bias",
          "[sweep]")
{
  const std::string soft =
      case_tests::changed(all_at_once, "material = \"core\"", "material = \"soft\"");
  const Swept swept(soft, {"drive.bias=0A,2A"});
  CHECK(swept.report.show == "incremental_inductance");
  CHECK(swept.shown(0, "coil", "flux_linkage").value == 0.0);
  CHECK(swept.shown(0, "coil", "secant_inductance").value >
        swept.shown(1, "coil", "secant_inductance").value);
  const post::BiasWinding coil = swept.solved(1).bias.points.at(0).windings.at(0);
  CHECK(swept.shown(1, "coil", "flux_linkage").lower == coil.flux_linkage.lower);
  CHECK(swept.shown(1, "coil", "secant_inductance").upper == coil.secant_inductance.upper);
  CHECK(swept.shown(1, "coil", "incremental_inductance").value == coil.incremental_inductance);
  CHECK(cases::sweep_chart(swept.report)->subtitle == "estimated");
  CHECK(longest_line(text_of(swept.report)) <= 80);
  const Swept length(soft + "[drive]\nbias = \"2 A\"\n", {"parts.rod.length=24mm,30mm"});
  CHECK(length.shown(0, "coil", "flux_linkage").lower == coil.flux_linkage.lower);
  const Swept several(soft + "[drive]\nbias = [\"1 A\", \"2 A\"]\n", {"parts.rod.length=24mm"},
                      "inductance");
  CHECK(several.report.left_out.biases);
  CHECK(text_of(several.report).find("A point has one bias") != std::string::npos);
}

TEST_CASE("a part in a background needs no winding, and its mean is bounded", "[sweep]")
{
  std::string text = all_at_once;
  text.erase(text.find("[[windings]]"), text.find("[[wires]]") - text.find("[[windings]]"));
  const Swept swept(text + "[drive]\nbackground = \"1 mT\"\n",
                    {"parts.rod.length=16mm,24mm", "materials.core.permeability=2,300"});
  CHECK(swept.report.show == "apparent_permeability_middle");
  REQUIRE(swept.plan.pieces.size() == 4); // no reduced model speaks of a background
  for (std::size_t i = 0; i < 4; ++i)
  {
    const post::Demagnetisation rod = *swept.solved(i).regions.at(0).demagnetisation;
    CHECK(swept.shown(i, "rod", "apparent_permeability_middle").value ==
          rod.apparent_permeability_middle);
    const post::Bounded N = swept.shown(i, "rod", "magnetometric_factor"),
                        mean = swept.shown(i, "rod", "apparent_permeability_volume");
    CHECK(N.lower == rod.magnetometric->lower);
    CHECK(N.upper == rod.magnetometric->upper);
    CHECK(mean.lower < mean.value);
    CHECK(mean.upper > mean.value);
    // Demagnetised least in the middle: B there is above its mean.
    CHECK(rod.apparent_permeability_middle > mean.upper);
  }
  const auto chart = cases::sweep_chart(swept.report);
  REQUIRE(chart);
  CHECK(chart->lines.size() == 2);
  CHECK(longest_line(text_of(swept.report)) <= 80);
}

TEST_CASE("what a point has reads back to the last bit, missing numbers as missing", "[sweep]")
{
  post::SweptPoint point;
  const double none = std::numeric_limits<double>::quiet_NaN();
  point.quantities = {
      {"resistance", "coil", "ohm", {0.1, 0.3 - 0.2000001, 0.1000001}, post::Standing::bounded},
      {"secant_inductance", "coil", "H", {none, none, none}, post::Standing::bounded},
      {"quality", "coil", "", {7.0, 7.0, 7.0}, post::Standing::estimated},
      {"inductance", "ring", "H", {1e-6, 1e-6, 1e-6}, post::Standing::exact}};
  const std::string text = post::json(point);
  const post::SweptPoint back = post::swept_point(text);
  REQUIRE(back.quantities.size() == 4);
  for (std::size_t i = 0; i < 4; ++i)
  {
    CHECK(back.quantities[i].word == point.quantities[i].word);
    CHECK(back.quantities[i].of == point.quantities[i].of);
    CHECK(back.quantities[i].unit == point.quantities[i].unit);
    CHECK(back.quantities[i].standing == point.quantities[i].standing);
  }
  CHECK(back.quantities[0].value.lower == point.quantities[0].value.lower);
  CHECK(std::isnan(back.quantities[1].value.upper));
  CHECK(back.quantities[2].value.upper == 7.0);
  CHECK(post::json(back) == text);
}

TEST_CASE("a chart of what the points do not have is refused", "[sweep]")
{
  CHECK_THROWS_WITH(Swept(all_at_once, {"windings.coil.turns=20,30"}, "resistance"),
                    "ferrule: error: there is no resistance to show at the points of this case; "
                    "they have inductance, apparent_permeability, inductance_per_turn_squared, "
                    "inductance_per_metre and resistance_per_metre");
}

TEST_CASE("hand formulas beside a sweep are those of solve, where they hold", "[sweep]")
{
  std::string text = all_at_once;
  text.erase(text.find("[[windings]]"), text.find("[[wires]]") - text.find("[[windings]]"));
  text += "[drive]\nbackground = \"1 mT\"\n[sweep]\nbeside = [\"rod middle, fitted factor\"]\n"
          "[[sweep.vary]]\nkey = \"parts.rod.length\"\nvalues = [\"8 mm\", \"40 mm\"]\n";
  const Swept swept(text, {"parts.rod.length=8mm,40mm", "materials.core.permeability=150,300"});
  REQUIRE(swept.report.beside.size() == 1);
  for (std::size_t i = 0; i < 4; ++i)
  {
    const std::vector<post::FormulaResult> all = swept.solved(i).formulas;
    const auto own = std::ranges::find(all, swept.report.beside[0], &post::FormulaResult::name);
    const double said = swept.report.swept.points[i].formulas.at(0).value.value;
    REQUIRE(own != all.end());
    CHECK(own->holds == (i >= 2)); // l/D 1 and 5; quoted from 2 on
    CHECK((own->holds ? said == own->value : std::isnan(said)));
  }
  const auto chart = cases::sweep_chart(swept.report);
  REQUIRE(chart->lines.size() == 4); // the field's first, so that their colours stay
  CHECK_FALSE(chart->lines[1].beside);
  CHECK(chart->lines[3].beside == 1);
  CHECK(chart->lines[3].y[1] == swept.report.swept.points[3].formulas[0].value.value);
  CHECK(chart->notes.back().find("dotted \"rod middle, fitted factor\"") != std::string::npos);
  CHECK(cases::sweep_csv(swept.report).find(",\"formula: rod middle, fitted factor\"\n") !=
        std::string::npos);
}

TEST_CASE("a hand formula that no point has is refused with those there are", "[sweep]")
{
  const std::string sweep = "[sweep]\nbeside = [\"rod, endles\"]\n[[sweep.vary]]\nkey = "
                            "\"windings.coil.turns\"\nvalues = [20, 30]\n";
  CHECK_THROWS_WITH(Swept(all_at_once + sweep, {}),
                    Catch::Contains("sweep.beside names \"rod, endles\", which no point of the "
                                    "sweep has; they have rod, spheroid factor, rod, endless,"));
}

TEST_CASE("the bounded mean of a formula's factor stands beside the field's", "[sweep]")
{
  std::string text = all_at_once;
  text.erase(text.find("[[windings]]"), text.find("[[wires]]") - text.find("[[windings]]"));
  const Swept swept(text + "[drive]\nbackground = \"1 mT\"\n[sweep]\nshow = "
                           "\"apparent_permeability_volume\"\nbeside = [\"rod volume, table of "
                           "cylinders\"]\n[[sweep.vary]]\nkey = \"parts.rod.length\"\nvalues = "
                           "[\"24 mm\", \"40 mm\"]\n",
                    {});
  for (std::size_t i = 0; i < 2; ++i)
  {
    const double field = swept.shown(i, "rod", "apparent_permeability_volume").value;
    // The table's own claim is 1 %.
    CHECK(swept.report.swept.points[i].formulas.at(0).value.value == Approx(field).epsilon(0.01));
  }
}

TEST_CASE("three varied materials in one model bracket what fine full solutions hold", "[sweep]")
{
  std::string text = all_at_once;
  text.erase(text.find("[[wires]]"), text.find("[accuracy]") - text.find("[[wires]]"));
  text += R"([materials.outer]
permeability = 5
[materials.end]
permeability = 50
[[parts]]
name = "sleeve"
shape = "tube"
material = "outer"
inner_diameter = "13 mm"
outer_diameter = "15 mm"
length = "24 mm"
[[parts]]
name = "cap"
shape = "rod"
material = "end"
diameter = "14 mm"
length = "2 mm"
centre = "14 mm"
)";
  const Swept swept(text,
                    {"materials.core.permeability=2,40,900", "materials.outer.permeability=2,9",
                     "materials.end.permeability=3,20,400"});
  REQUIRE(swept.report.swept.models.size() == 1);
  CHECK(swept.report.swept.models[0].model.varied.size() == 3);
  for (const std::size_t i : {1U, 8U, 10U, 17U})
  {
    const post::Bounded model = swept.shown(i, "coil", "inductance"),
                        full = swept.solved(i, 1e-5).windings.at(0).inductance;
    // Both hold the true value, and so one another.
    CHECK(model.lower <= full.upper);
    CHECK(full.lower <= model.upper);
    CHECK(model.upper - model.lower <= 0.02 * model.value);
  }
}
