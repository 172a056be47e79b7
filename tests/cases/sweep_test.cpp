// `sweep` as a library: its points against `solve`, its pieces in any hands, its texts.
#include "cases/case_text.hpp"
#include "cases/fault.hpp"
#include "cases/pipeline.hpp"
#include "cases/sweep_model.hpp"
#include "cases/sweep_report.hpp"
#include "cases/sweep_run.hpp"
#include "folder.hpp"
#include "longest_line.hpp"
#include "post/json.hpp"

#include <catch2/catch.hpp>

#include <random>

namespace
{

using cases::Options;
using cases::SweepAsked;
using cases::SweepPlan;

/// A function, since the text it begins with may be initialised later.
std::string powder_case()
{
  return case_tests::changed(case_tests::sound_case, "permeability = 700",
                             "powder = { particle_permeability = 700, packing = 0.5 }");
}

/// A rod with loss in a coil of strands, at one frequency.
constexpr const char* lossy_rod = R"(
[materials.core]
permeability = { real = 300, imaginary = 20 }
[[parts]]
name = "core"
shape = "rod"
material = "core"
diameter = "8 mm"
length = "40 mm"
[[windings]]
name = "coil"
turns = 50
inner_diameter = "9 mm"
outer_diameter = "11 mm"
length = "20 mm"
wire = "0.1 mm"
[drive]
frequency = "100 kHz"
)";

/// A case file in a folder of its own.
struct Bench
{
  Folder folder;
  std::filesystem::path file = folder.path / "case.toml";

  explicit Bench(const std::string& text) { std::ofstream(file) << text; }
  SweepPlan plan(std::vector<std::string> vary, bool full = false, int threads = 1) const
  {
    SweepAsked asked;
    asked.vary = std::move(vary);
    asked.full = full;
    Options options;
    options.threads = threads;
    return cases::sweep_plan(file, asked, options);
  }
  std::string refusal(std::vector<std::string> vary) const
  {
    try
    {
      plan(std::move(vary));
    }
    catch (const cases::CaseError& error)
    {
      return error.what();
    }
    return "not refused";
  }
};

const cases::Ranks alone;

std::vector<std::string> records(const SweepPlan& plan, const cases::Share& share,
                                 const std::filesystem::path& folder)
{
  cases::Progress silent(false);
  cases::Team team(alone);
  return cases::records(plan, share, folder, silent, team);
}

std::vector<std::string> all_records(const SweepPlan& plan)
{
  return records(plan, {}, {});
}

std::vector<post::SweptPoint> all_points(const SweepPlan& plan)
{
  return cases::points(plan, all_records(plan)).points;
}

/// The windings of `solve --json` at a point, each on a line.
std::string solved(const SweepPlan& plan, std::size_t point)
{
  Options options = plan.options;
  options.sets = cases::overrides(plan, point);
  std::string lines;
  for (const cases::Solved& one : cases::solved({cases::read_with(plan.file, options)}, options))
  {
    for (const post::WindingResult& winding : one.result.windings)
    {
      lines += post::json(winding) + "\n";
    }
  }
  return lines;
}

std::string lines(const post::SweptPoint& point)
{
  std::string all;
  for (const post::WindingResult& winding : point.windings)
  {
    all += post::json(winding) + "\n";
  }
  return all;
}

cases::SweepReport report_of(const SweepPlan& plan)
{
  cases::SweepReport report;
  report.title = plan.title;
  report.show = plan.show;
  report.varied = plan.varied;
  report.accuracy_asked = plan.accuracy;
  report.swept = cases::points(plan, all_records(plan));
  return report;
}

} // namespace

TEST_CASE("a point of geometry has the numbers of solve to the last bit", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const SweepPlan plan = bench.plan(
      {"parts.core.length,windings.coil.length=30mm:50mm:2", "windings.coil.turns=40,80"});
  REQUIRE(plan.pieces.size() == 4);
  const auto points = all_points(plan);
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    CHECK(lines(points[i]) == solved(plan, i));
  }
  CHECK(points[0].windings[0].inductance.value != points[3].windings[0].inductance.value);
}

TEST_CASE("any number of threads makes the same records", "[sweep]")
{
  const Bench bench(powder_case());
  const std::vector<std::string> lengths = {"parts.core.length=30mm:50mm:3"};
  CHECK(all_records(bench.plan(lengths, false, 1)) == all_records(bench.plan(lengths, false, 3)));
  const std::vector<std::string> packings = {"materials.core.powder.packing=0.3:0.7:5"};
  const SweepPlan plan = bench.plan(packings, false, 1);
  REQUIRE(plan.pieces.size() == 1);
  CHECK(all_records(plan) == all_records(bench.plan(packings, false, 4)));
}

TEST_CASE("a reduced model's bracket meets that of solve at random points", "[sweep]")
{
  const Bench bench(powder_case() + "[materials.paste]\npermeability = 5\n");
  const std::vector<std::string> vary = {"materials.core.powder.packing=0.2:0.8:25",
                                         "parts.core.length=40mm,60mm"};
  const auto modelled = all_points(bench.plan(vary));
  const SweepPlan full = bench.plan(vary, true);
  std::mt19937 random(6);
  for (int draw = 0; draw < 8; ++draw)
  {
    const std::size_t i = random() % modelled.size();
    const post::SweptPoint solved = post::swept_point(cases::worked_out(full, full.pieces[i], 1));
    REQUIRE(modelled[i].modelled);
    REQUIRE_FALSE(solved.modelled);
    const post::Bounded &a = modelled[i].windings[0].inductance, &b = solved.windings[0].inductance;
    INFO("point " << i);
    CHECK(a.lower <= b.upper);
    CHECK(a.upper >= b.lower);
    CHECK(modelled[i].accuracy_reached);
    CHECK(modelled[i].accuracy_met <= 1e-3);
    const double share = modelled[i].windings[0].shares.front().second;
    CHECK(share == Approx(solved.windings[0].shares.front().second).margin(5e-3)); // 5 brackets
    CHECK(modelled[i].windings[0].apparent_permeability ==
          Approx(solved.windings[0].apparent_permeability).epsilon(4e-3)); // two brackets each
  }
}

TEST_CASE("records and kept models read back to the last bit", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const SweepPlan plan = bench.plan({"materials.core.permeability=2:2000:40:log"});
  const std::string record = all_records(plan).front();
  const post::KeptModel kept = post::kept_model(record);
  CHECK(post::json(kept) == record);
  const double mu = 37.0;
  const post::SweptPoint point = post::at(kept, {&mu, 1});
  CHECK(post::json(post::swept_point(post::json(point))) == post::json(point));
  CHECK_THROWS_WITH(post::kept_model("{}"),
                    "the reduced model cannot be read: key 'format' not found");
  CHECK_THROWS_WITH(post::kept_model("{"),
                    Catch::StartsWith("the reduced model cannot be read: parse error"));
  std::string torn = record;
  torn.replace(torn.find("\"load_H\":["), 10, "\"load_H\":[1,");
  CHECK_THROWS_WITH(post::kept_model(torn), "the matrices of a reduced model differ in size");
  for (const char* beyond : {"4e99", "-1"})
  {
    std::string counted = record;
    const std::size_t at = counted.find("\"snapshots\":") + 12;
    counted.replace(at, counted.find(',', at) - at, beyond);
    CHECK_THROWS_WITH(post::kept_model(counted),
                      "the reduced model cannot be read: a count must be 0 to 1e9");
  }
}

TEST_CASE("a kept model answers without its case as the sweep that wrote it did", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const std::string vary = "materials.core.permeability=2:2000:40:log";
  const SweepPlan plan = bench.plan({vary});
  const std::string record = all_records(plan).front();
  SweepAsked asked;
  asked.vary = {vary};
  asked.model = bench.folder.path / "model.json";
  std::ofstream(asked.model) << record << "\n";
  const cases::SweepReport report = cases::from_model(asked, {});
  const auto points = all_points(plan);
  REQUIRE(report.swept.points.size() == points.size());
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    CHECK(post::json(report.swept.points[i]) == post::json(points[i]));
  }
  asked.vary = {"materials.dust.permeability=1,2"};
  CHECK_THROWS_WITH(cases::from_model(asked, {}),
                    "--vary materials.dust.permeability: error: the model does not leave "
                    "materials.dust.permeability open; it leaves materials.core.permeability open");
  asked.vary.clear();
  CHECK_THROWS_WITH(cases::from_model(asked, {}),
                    "ferrule: error: the model leaves the permeability of core open; add --vary "
                    "materials.core.permeability=VALUE");
  asked.vary = {"materials.core.permeability=-1,2"};
  CHECK_THROWS_WITH(
      cases::from_model(asked, {}),
      "--vary materials.core.permeability: error: \"-1\" is no permeability; give the "
      "ratio to vacuum, from 1e-6 to 1e9");
}

TEST_CASE("at a frequency a sweep of complex permeabilities is read from one model", "[sweep]")
{
  const Bench bench(lossy_rod);
  const std::vector<std::string> vary = {"materials.core.permeability.real=5:500:6:log",
                                         "materials.core.permeability.imaginary=0,10,200"};
  const SweepPlan plan = bench.plan(vary), full = bench.plan(vary, true);
  REQUIRE(plan.pieces.size() == 1);
  const std::string record = all_records(plan).front();
  const auto modelled = all_points(plan);
  for (const std::size_t i : {std::size_t{0}, std::size_t{4}, std::size_t{11}, std::size_t{17}})
  {
    CAPTURE(i);
    const post::SweptPoint solved = post::swept_point(cases::worked_out(full, full.pieces[i], 1));
    REQUIRE(solved.fault.empty());
    REQUIRE(modelled[i].quantities.size() == solved.quantities.size());
    CHECK(modelled[i].accuracy_reached);
    for (std::size_t q = 0; q < solved.quantities.size(); ++q)
    {
      const post::SweptQuantity &a = modelled[i].quantities[q], &b = solved.quantities[q];
      CAPTURE(a.word);
      CHECK(a.word == b.word);
      CHECK(a.standing == b.standing); // strands: resistance and quality are estimated
      if (a.standing == post::Standing::bounded)
      {
        CHECK(a.value.lower <= b.value.upper);
        CHECK(a.value.upper >= b.value.lower);
      }
    }
    // Proximity in strands, estimated alike: far closer than the disc of both, 1e-3 of |Z|.
    const post::SweptQuantity &L = solved.quantities[0], &a = modelled[i].quantities[1],
                              &b = solved.quantities[1];
    CHECK(std::abs(a.value.value - b.value.value) <=
          2e-3 * 2.0 * std::numbers::pi * 1e5 * L.value.value);
  }
  const post::KeptModel kept = post::kept_model(record);
  REQUIRE(kept.impedance);
  CHECK(post::json(kept) == record);
  SweepAsked asked;
  asked.vary = vary;
  asked.model = bench.folder.path / "model.json";
  std::ofstream(asked.model) << record << "\n";
  const cases::SweepReport report = cases::from_model(asked, {});
  CHECK(report.show == "inductance_at_frequency");
  REQUIRE(report.swept.points.size() == modelled.size());
  for (std::size_t i = 0; i < modelled.size(); ++i)
  {
    CHECK(post::json(report.swept.points[i]) == post::json(modelled[i]));
  }
  asked.vary = {"materials.core.permeability=5", "materials.core.permeability.imaginary=-1"};
  CHECK_THROWS_WITH(cases::from_model(asked, {}), Catch::Contains("\"-1\" is no permeability"));
  std::string torn = record;
  torn.replace(torn.find("\"magnetic\":[["), 13, "\"magnetic\":[[1,");
  CHECK_THROWS_WITH(post::kept_model(torn), "a matrix of a model of impedances is not square");
  torn = record;
  torn.replace(torn.find("\"region\":"), 10, "\"region\":7");
  CHECK_THROWS_WITH(post::kept_model(torn), "a group of a model of impedances lies in no region");
  torn = record;
  const std::size_t last = torn.rfind("\"materials\":[\"core\"]");
  torn.replace(last, 20, "\"materials\":[\"cure\"]");
  CHECK_THROWS_WITH(post::kept_model(torn),
                    "the impedances of a reduced model are of other materials or windings");
  torn = record;
  torn.replace(torn.find("\"linkage_H\""), 11, "\"linkage_X\"");
  CHECK_THROWS_WITH(post::kept_model(torn), Catch::StartsWith("the model of impedances cannot be "
                                                              "read: key 'linkage_H' not found"));
}

TEST_CASE("a loss that moves alone is read from a model too", "[sweep]")
{
  using case_tests::changed;
  const std::string shorter =
      changed(changed(changed(lossy_rod, "40 mm", "20 mm"), "length = \"20 mm\"\nwire = \"0.1 mm\"",
                      "length = \"10 mm\""),
              "real = 300, imaginary = 20", "real = 100, imaginary = 5");
  const Bench bench(shorter); // no wire: resistances are bounded
  const SweepPlan plan = bench.plan({"materials.core.permeability.imaginary=1:100:9:log"});
  const auto points = all_points(plan);
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    CHECK(points[i].modelled);
    CHECK(points[i].accuracy_reached);
    CHECK(
        (i == 0 || points[i].quantities[1].value.lower > points[i - 1].quantities[1].value.value));
  }
}

TEST_CASE("far outside its range a kept model still brackets, and says how widely", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const std::string record =
      all_records(bench.plan({"materials.core.permeability=500:600:9"})).front();
  const post::KeptModel kept = post::kept_model(record);
  const double mu = 1.5;
  const post::SweptPoint point = post::at(kept, {&mu, 1});
  const SweepPlan full = bench.plan({"materials.core.permeability=1.5,500"}, true);
  const post::SweptPoint solved = post::swept_point(cases::worked_out(full, full.pieces[0], 1));
  CHECK(point.windings[0].inductance.lower <= solved.windings[0].inductance.upper);
  CHECK(point.windings[0].inductance.upper >= solved.windings[0].inductance.lower);
  CHECK_FALSE(point.accuracy_reached);
}

TEST_CASE("two windings and two materials in one model", "[sweep]")
{
  const Bench bench(case_tests::sound_case + R"([materials.dust]
permeability = 8
[[parts]]
name = "sleeve"
shape = "tube"
material = "dust"
inner_diameter = "10 mm"
outer_diameter = "14 mm"
length = "40 mm"
[[windings]]
name = "pickup"
turns = 10
inner_diameter = "16 mm"
outer_diameter = "16 mm"
length = "8 mm"
)");
  const std::vector<std::string> vary = {"materials.core.permeability=100,200,400",
                                         "materials.dust.permeability=2,4,8"};
  const SweepPlan plan = bench.plan(vary);
  REQUIRE(plan.pieces.size() == 1);
  const auto points = all_points(plan);
  const SweepPlan full = bench.plan(vary, true);
  const post::SweptPoint solved = post::swept_point(cases::worked_out(full, full.pieces[5], 1));
  REQUIRE(points[5].windings.size() == 2);
  for (std::size_t w = 0; w < 2; ++w)
  {
    const post::Bounded &a = points[5].windings[w].inductance, &b = solved.windings[w].inductance;
    CHECK(a.lower <= b.upper);
    CHECK(a.upper >= b.lower);
  }
  CHECK(solved.mutual.size() == 2); // a full solution tells it, a model does not
  CHECK(points[5].mutual.empty());
}

TEST_CASE("points that cannot be built are kept with their reason", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const cases::SweepReport report = report_of(bench.plan({"parts.core.diameter=6mm,8.5mm"}));
  CHECK(report.swept.points[0].fault.empty());
  CHECK(report.swept.points[1].fault ==
        "windings.coil overlaps parts.core; bodies may touch or lie wholly one inside another; "
        "change a diameter, a length or a centre");
  CHECK(cases::sweep_csv(report).find(
            "8.5,\"not built: windings.coil overlaps parts.core; bodies may touch or lie wholly "
            "one inside another; change a diameter, a length or a centre\",,,,,,,,\n") !=
        std::string::npos);
  CHECK(cases::sweep_document(report).find("{\"values\":[0.0085],\"status\":\"not built\",") !=
        std::string::npos);
}

TEST_CASE("faults of what is varied come together, in the words of --vary", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  CHECK(bench.refusal({}) == "ferrule: error: sweep needs to know what to vary; write e.g. --vary "
                             "parts.core.length=20mm:200mm:10, or a [sweep] table into the case");
  CHECK(bench.refusal(
            {"parts.cor.length=1mm,2mm", "windings.coil.turns=5,6", "windings.coil.turns=7,8"}) ==
        "--vary parts.cor.length: error: the case has no part \"cor\"; did you mean \"core\"?\n"
        "--vary windings.coil.turns: error: windings.coil.turns is varied twice; to move keys "
        "alike, write KEY,KEY=VALUES");
  CHECK(bench.refusal({"accuracy.inductance=1e-3,1e-4"}) ==
        "--vary accuracy.inductance: error: accuracy.inductance is nothing to vary; vary what the "
        "field depends on, e.g. parts.core.length");
  CHECK(bench.refusal({"parts.core.length=1mm:2mm:100000", "windings.coil.turns=1:20:20"}) ==
        "--vary windings.coil.turns: error: the sweep has more than 1000000 points; vary fewer "
        "values");
}

TEST_CASE("what the journal calls the work changes with all that the points depend on", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const std::string work = bench.plan({"windings.coil.turns=5,6"}).work;
  CHECK(bench.plan({"windings.coil.turns=5,6"}, false, 3).work == work);
  CHECK(bench.plan({"windings.coil.turns=5,7"}).work != work);
  CHECK(bench.plan({"windings.coil.turns=5,6"}, true).work != work);
  SweepAsked asked;
  asked.vary = {"windings.coil.turns=5,6"};
  Options finer;
  finer.accuracy = 1e-4;
  CHECK(cases::sweep_plan(bench.file, asked, finer).work != work);
  Options other;
  other.sets = {{"parts.core.length", "50mm"}};
  CHECK(cases::sweep_plan(bench.file, asked, other).work != work);
  std::ofstream(bench.file, std::ios::app) << "# one word more\n";
  CHECK(bench.plan({"windings.coil.turns=5,6"}).work != work);
}

TEST_CASE("shares joined are the whole, and what is missing is named", "[sweep]")
{
  const Bench bench(case_tests::sound_case);
  const SweepPlan plan = bench.plan({"windings.coil.turns=20:60:5"});
  const std::filesystem::path folder = bench.folder.path / "out";
  const auto missing = [&]
  {
    try
    {
      cases::joined(plan, folder);
    }
    catch (const cases::CaseError& error)
    {
      return std::string(error.what());
    }
    return std::string("nothing");
  };
  CHECK(missing() == "ferrule: error: there is no share of this sweep in " + folder.string() +
                         "; run it with --share 1/2 and --share 2/2 first, and join with the same "
                         "words");
  records(plan, cases::share("1/3"), folder);
  records(plan, cases::share("3/3"), folder);
  CHECK(missing() == "ferrule: error: 2 of 5 solutions are missing in " + folder.string() +
                         ": share 2/3; run what is missing, then join again");
  records(plan, cases::share("2/3"), folder);
  CHECK(cases::joined(plan, folder) == all_records(plan));
  for (const char* typed : {"0/3", "4/3", "3", "a/3", "1/3x", "1/"})
  {
    CHECK_THROWS_WITH(cases::share(typed), "ferrule: error: --share is \"" + std::string(typed) +
                                               "\"; write e.g. --share 3/20 for the third of 20");
  }
}

namespace
{

/// A report filled by hand: three lengths, the last not built.
cases::SweepReport by_hand()
{
  cases::SweepReport report;
  report.title = "Float coil";
  report.show = "inductance";
  report.varied = {cases::varied("parts.core.length=20mm:40mm:3")};
  for (const double value : {1e-4, 2e-4})
  {
    post::WindingResult winding;
    winding.name = "coil";
    winding.turns = 10.0;
    winding.inductance = {value, value * 0.9995, value * 1.0005};
    winding.air_inductance = {5e-5, 4.999e-5, 5.001e-5};
    winding.apparent_permeability = value / 5e-5;
    winding.inductance_per_turn_squared = value / 100.0;
    post::SweptPoint point;
    point.accuracy_reached = value < 1.5e-4;
    point.accuracy_met = 5e-4;
    point.windings = {winding};
    report.swept.points.push_back(point);
  }
  report.swept.points.emplace_back().fault = "core and coil partly overlap";
  return report;
}

} // namespace

TEST_CASE("the report of a sweep reads so", "[sweep]")
{
  CHECK(cases::sweep_text(by_hand()) == R"(Float coil
----------

Sweep of 3 points
  parts.core.length, 3 values: 20 to 40 mm

Inductance of coil [bounded: the true value lies between lower and upper]
  core length [mm]  inductance   lower   upper        mu_app
                20    100.0 uH   99.95  100.06  uH      2.00
                30    200.0 uH  199.90  200.11  uH !    4.00
                40      no (1)
  Every point is solved in full; each bracket is guaranteed.
  ! The bracket holds, but is wider than the 0.10 % asked for.

Not built: 1 of 3 points
  (1) core and coil partly overlap
)");
}

TEST_CASE("a report says what the table leaves out", "[sweep]")
{
  cases::SweepReport report = by_hand();
  const auto says = [&](const char* words)
  { return printed(cases::sweep_text(report)).find(words) != std::string::npos; };
  CHECK_FALSE(says("at rest"));
  CHECK_FALSE(says("Mutual"));
  report.left_out = {true, true};
  CHECK(says("A point has one frequency: those of the case are left out"));
  CHECK(says("A point has one bias: those of the case are left out."));
  for (std::size_t i = 0; i < 2; ++i)
  {
    report.swept.points[i].windings.push_back(report.swept.points[i].windings.front());
  }
  CHECK(says("Mutual inductances are not in the reduced model; --full tells them."));
  report.swept.points[0].mutual = {{{}, {}}, {{}, {}}};
  CHECK(says("Mutual inductances are in sweep.csv and with --json."));
}

TEST_CASE("a long sweep is shortened in the middle and stays within the page", "[sweep]")
{
  cases::SweepReport report = by_hand();
  report.varied = {cases::varied("parts.some_long_name.outer_diameter=20mm:40mm:10"),
                   cases::varied("windings.another_long_name.length=20mm:40mm:10")};
  report.swept.points.resize(100, report.swept.points.front());
  report.files = {"out/sweep.csv"};
  const std::string text = cases::sweep_text(report);
  CHECK(longest_line(text) <= 80);
  CHECK(text.find("key 1 [mm]  key 2 [mm]  inductance") != std::string::npos);
  CHECK(text.find("24 of 100 points shown; all are in out/sweep.csv.") != std::string::npos);
  CHECK(std::count(text.begin(), text.end(), '\n') < 45);
}

TEST_CASE("a chart over one key has lines, over two few lines or contours", "[sweep]")
{
  cases::SweepReport report = by_hand();
  const auto one = cases::sweep_chart(report);
  REQUIRE(one);
  REQUIRE(one->lines.size() == 1);
  CHECK(one->lines[0].y[1] == 2e-4);
  CHECK(std::isnan(one->lines[0].y[2])); // a gap, not a guess
  CHECK(one->x.unit == "m");
  CHECK(one->bands.empty()); // too thin to see

  report.show = "apparent_permeability";
  report.varied.push_back(cases::varied("windings.coil.turns=1:4:4"));
  report.swept.points.resize(12, report.swept.points.front());
  const auto few = cases::sweep_chart(report);
  REQUIRE(few);
  CHECK(few->lines.size() == 3); // the key with more values runs along the axis
  CHECK(few->lines[2].label == "40 mm");

  report.varied = {cases::varied("parts.core.length=20mm:40mm:9"),
                   cases::varied("windings.coil.turns=1:9:9")};
  report.swept.points.assign(81, report.swept.points.front());
  CHECK_FALSE(cases::sweep_chart(report)); // one value everywhere has no contours
  report.swept.points[8].windings[0].apparent_permeability = 9.0;
  const auto map = cases::sweep_chart(report);
  REQUIRE(map);
  REQUIRE(map->map);
  CHECK(map->map->x.size() == 9);
  CHECK(map->map->values[8 * 9] == 9.0); // first length, last count of turns
  CHECK(map->map->limits == std::vector<double>{3.0, 4.0, 5.0, 6.0, 7.0, 8.0});
}
