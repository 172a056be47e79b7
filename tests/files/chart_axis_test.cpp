// Axes of charts: ranges, ticks and their words.
#include "post/drawing/chart_page.hpp"
#include "post/drawing/sheet.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace post;
using namespace post::drawing;

namespace
{

std::vector<std::string> words(const std::vector<Tick>& ticks)
{
  std::vector<std::string> result;
  for (const Tick& tick : ticks)
    if (!tick.words.empty())
      result.push_back(tick.words);
  return result;
}

using Words = std::vector<std::string>;

} // namespace

TEST_CASE("ticks stand at round numbers and are written with the axis's prefix", "[files]")
{
  CHECK(words(even_ticks(0.0, 122e-6, 8, 1e-6)) ==
        Words{"0", "20", "40", "60", "80", "100", "120"});
  CHECK(words(even_ticks(-0.25, 0.25, 6, 1.0)) ==
        Words{"\u22120.2", "\u22120.1", "0", "0.1", "0.2"});
  CHECK(words(even_ticks(0.0, 30000.0, 3, 1.0)) ==
        Words{"0", "10\u2009000", "20\u2009000", "30\u2009000"});
  const ChartAxis inductance{"inductance", "H"};
  const Ruler ruler = post::drawing::ruler(inductance, {3e-6, 97e-6}, 400.0, 0.0, 8, true);
  CHECK(ruler.title == "inductance [\u00B5H]");
  CHECK(ruler.from == 0.0);
  CHECK(ruler.to == Approx(100e-6));
  CHECK(words(ruler.ticks) == Words{"0", "20", "40", "60", "80", "100"});
  CHECK(ruler.at(25e-6) == Approx(300.0));
  CHECK(ruler.value(300.0) == Approx(25e-6));
}

TEST_CASE("a logarithmic axis has its decades, and 2 and 5 where there is room", "[files]")
{
  CHECK(words(decade_ticks(1.0, 100.0, 8, 1.0, false)) ==
        Words{"1", "2", "5", "10", "20", "50", "100"});
  CHECK(words(decade_ticks(1e-3, 1e4, 8, 1.0, false)).size() == 8);
  CHECK(decade_ticks(1.0, 100.0, 4, 1.0, false).size() == 19); // fine ones at 2 to 9
  const Ruler frequency = ruler({"frequency", "Hz", true}, {1e3, 1e8}, 0.0, 500.0, 8, false);
  CHECK(frequency.title == "frequency [Hz]");
  CHECK(words(frequency.ticks) ==
        Words{"1\u00A0k", "10\u00A0k", "100\u00A0k", "1\u00A0M", "10\u00A0M", "100\u00A0M"});
  CHECK(frequency.at(1e4) == Approx(100.0)); // equal ratios, equal lengths
  CHECK(frequency.at(1e7) == Approx(400.0));
  CHECK(frequency.value(100.0) == Approx(1e4));
  // Less than three decades and their 2 and 5: round numbers.
  CHECK(words(ruler({"mu", "", true}, {3.0, 4.4}, 0.0, 500.0, 6, false).ticks).size() >= 3);
}

TEST_CASE("given ends of an axis are kept, chosen ones hold all that is drawn", "[files]")
{
  const ChartAxis open{"x", ""}, fixed{"x", "", false, 2.0, 5.0};
  for (const auto& [lower, upper] :
       {std::pair{3.0, 3.0}, {0.0, 0.0}, {-7.3, 12.1}, {999.0, 1001.0}})
  {
    const Ruler chosen = ruler(open, {lower, upper}, 0.0, 500.0, 8, true);
    CAPTURE(lower, upper);
    CHECK(chosen.from <= lower);
    CHECK(chosen.to >= upper);
    CHECK(chosen.from < chosen.to);
    CHECK(chosen.ticks.size() >= 3);
    const Ruler given = ruler(fixed, {lower, upper}, 0.0, 500.0, 8, true);
    CHECK(given.from == 2.0);
    CHECK(given.to == 5.0);
  }
  const Ruler decades = ruler({"y", "", true}, {1.3, 700.0}, 0.0, 500.0, 8, true);
  CHECK(decades.from == Approx(1.0)); // outwards to 1, 2, 5 of a decade
  CHECK(decades.to == Approx(1000.0));
  Range with_arrow;
  with_arrow.hold(4.0);
  with_arrow.hold(HUGE_VAL);
  const Ruler ruler_with_arrow = ruler(open, with_arrow, 0.0, 500.0, 8, true);
  CHECK(ruler_with_arrow.to > 4.0); // room for it
}

TEST_CASE("names along an axis are staggered rather than set over each other", "[files]")
{
  Chart chart{"Batch", "", {"tube", ""}, {"permeability", ""}};
  for (int k = 1; k <= 12; ++k)
  {
    chart.x.names.push_back("sample " + std::to_string(1000 + k));
    chart.points = {{"", {1.0}, {5.0}}};
  }
  const ChartPage page = chart_page(chart);
  Canvas measure(sheet_width, sheet_width, 1e-2);
  const double slot = page.x.at(2.0) - page.x.at(1.0);
  CHECK(page.name_rows == 2);
  CHECK(measure.text_width("sample 1012", {10.0, quiet}) < page.name_rows * slot);
  CHECK(words(page.x.ticks) == chart.x.names);
}
