// Charts as files: written whole or not at all, refused in words where they cannot be drawn.
#include "folder.hpp"
#include "post/chart.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>

using namespace post;

namespace
{

namespace fs = std::filesystem;

Chart chart()
{
  Chart chart{"Inductance", "", {"length", "m"}, {"inductance", "H"}};
  chart.lines = {{"rod", {0.01, 0.02}, {1e-6, 2e-6}}};
  return chart;
}

/// @brief What is said of the chart after the change; nothing may have been written.
std::string refusal(const std::function<void(Chart&)>& change)
{
  const Folder folder;
  Chart changed = chart();
  change(changed);
  std::string words;
  try
  {
    write_chart(folder.path, "chart", changed);
  }
  catch (const std::invalid_argument& error)
  {
    words = error.what();
  }
  CHECK(folder.entries() == 0);
  const std::string start = "cannot draw the chart: ";
  return words.starts_with(start) ? words.substr(start.size()) : "not refused: " + words;
}

} // namespace

TEST_CASE("a chart becomes two files in a folder made for them", "[files]")
{
  const Folder folder;
  const fs::path results = folder.path / "a" / "b";
  CHECK(write_chart(results, "sweep", chart()) ==
        std::vector<std::string>{"sweep.svg", "sweep.png"});
  CHECK(text_of(results / "sweep.svg").substr(0, 5) == "<?xml");
  CHECK(text_of(results / "sweep.png").substr(1, 3) == "PNG");
  CHECK(std::distance(fs::directory_iterator(results), fs::directory_iterator()) == 2);
}

TEST_CASE("a chart's files are both there or none is", "[files]")
{
  const Folder folder;
  std::string fault;
  {
    const SmallDisk disk(100);
    CHECK_THROWS_WITH(write_chart(folder.path, "sweep", chart()),
                      "cannot write " + (folder.path / "sweep.svg").string() + ": File too large");
  }
  CHECK(folder.entries() == 0);
  const fs::path file = folder.path / "file";
  std::ofstream(file) << "x";
  CHECK_THROWS_WITH(write_chart(file, "sweep", chart()),
                    "cannot make the folder " + file.string() + ": Not a directory");
}

TEST_CASE("a chart without contents, or with numbers that have no place, is refused", "[files]")
{
  CHECK(refusal([](Chart& c) { c.lines.clear(); }) ==
        "it has neither bands nor lines nor points nor a map");
  CHECK(refusal([](Chart& c) { c.lines[0].y[1] = HUGE_VAL; }) == "y of the line \"rod\" holds inf");
  CHECK(refusal([](Chart& c) { c.lines[0].x[1] = NAN; }) == "x of the line \"rod\" holds nan");
  CHECK(refusal([](Chart& c) { c.lines[0].y = {NAN, NAN}; }) == "the line \"rod\" has no point");
  CHECK(refusal([](Chart& c) { c.lines[0].y = {}; }) == "the line \"rod\" has no point");
  CHECK(refusal([](Chart& c) { c.lines[0].y = {1.0}; }) ==
        "x of the line \"rod\" has 2 values where 1 are needed");
  CHECK(refusal([](Chart& c) { c.y.logarithmic = true, c.lines[0].y[0] = 0.0; }) ==
        "y of the line \"rod\" holds 0, but its axis is logarithmic");
  CHECK(refusal(
            [](Chart& c) {
              c.bands = {{"b", {0.0, 1.0}, {1.0, 1.0}, {2.0, 0.5}}};
            }) == "the band \"b\" has its lower end 1 above its upper end 0.5");
  CHECK(refusal(
            [](Chart& c) {
              c.bands = {{"b", {0.0, 1.0}, {1.0, 1.0}, {2.0, NAN}}};
            }) == "the upper end of the band \"b\" holds nan");
  CHECK(refusal(
            [](Chart& c) {
              c.points = {{"p", {1.0}, {2.0}, {1.0}, {}}};
            }) ==
        "the upper end of the y interval of the points \"p\" has 0 values where 1 are needed");
  CHECK(refusal([](Chart& c) { c.points = {{"p", {}, {}}}; }) == "the points \"p\" are none");
  CHECK(refusal([](Chart& c) { c.x.from = 2.0, c.x.to = 1.0; }) == "the x axis runs from 2 to 1");
}

TEST_CASE("a map must have a word for each class and a value for each place", "[files]")
{
  const ChartMap map{"", {1.0, 2.0}, {1.0, 2.0}, {1.0, 2.0, 3.0, NAN}, {2.0}, {"low", "high"}};
  const auto with = [&](const std::function<void(ChartMap&)>& change)
  {
    ChartMap changed = map;
    change(changed);
    return refusal([&](Chart& c) { c.map = changed; });
  };
  const Folder folder;
  Chart good = chart();
  good.map = map;
  CHECK(write_chart(folder.path, "map", good).size() == 2);
  CHECK(with([](ChartMap& m) { m.words.pop_back(); }) ==
        "the map has 1 limits and 1 words for its classes; one more is needed");
  CHECK(with([](ChartMap& m) { m.values.pop_back(); }) ==
        "the map has 3 values where 4 are needed");
  CHECK(with([](ChartMap& m) { m.values[0] = -HUGE_VAL; }) == "the map holds -inf");
  CHECK(with([](ChartMap& m) { m.x = {2.0, 2.0}; }) == "x of the map does not ascend");
  CHECK(with([](ChartMap& m) { m.y = {1.0}; }) ==
        "the map needs at least two values along each axis");
}
