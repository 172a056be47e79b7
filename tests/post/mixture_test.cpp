// A powder with one number missing: by every rule, as a document, as charts.
#include "post/mixture.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

using namespace post;

namespace
{

using Json = nlohmann::json;
using Complex = std::complex<double>;

double value(const Json& document, const std::string& rule, const std::string& key)
{
  for (const Json& one : document.at("rules"))
    if (one.at("name") == rule)
      return one.at(key).get<double>();
  FAIL("no rule " << rule);
  return 0.0;
}

const MixtureQuestion forward{Complex(1000.0), 0.6, {}};

} // namespace

TEST_CASE("the document of a powder holds rules and bounds under their fixed names", "[powder]")
{
  const Json document = Json::parse(json(mixture(forward)));
  // Table of closed forms computed apart (see tests/solver/powder_test.cpp), to its digits.
  CHECK(value(document, "maxwell-garnett", "permeability") == Approx(5.4665).margin(5e-5));
  CHECK(value(document, "bruggeman", "permeability") == Approx(401.0).margin(0.5));
  CHECK(value(document, "bruggeman-differential", "permeability") == Approx(14.98).margin(5e-3));
  CHECK(value(document, "lichtenecker", "permeability") == Approx(63.1).margin(0.05));
  CHECK(value(document, "looyenga", "permeability") == Approx(std::pow(6.4, 3)));
  for (const Json& one : document.at("rules"))
    CHECK_FALSE(one.at("source").get<std::string>().empty());
  const Json& bounds = document.at("bounds");
  CHECK(bounds.at("wiener")[0].get<double>() == Approx(1.0 / (0.6 / 1000.0 + 0.4)));
  CHECK(bounds.at("wiener")[1].get<double>() == Approx(600.4));
  CHECK(bounds.at("hashin_shtrikman")[0].get<double>() == Approx(5.4665).margin(5e-5));
  CHECK(bounds.at("hashin_shtrikman")[1].get<double>() == Approx(501.0).margin(0.5));
}

TEST_CASE("with loss permeabilities are pairs of mu' and a positive mu''", "[powder]")
{
  const Mixture lossy = mixture({Complex(700.0, -40.0), 0.6, {}});
  const Json document = Json::parse(json(lossy, {"a/mix.svg"}));
  CHECK(document.at("particle_permeability").at("imaginary") == 40.0);
  CHECK(document.at("files")[0] == "a/mix.svg");
  for (const Json& one : document.at("rules"))
    CHECK(one.at("permeability").at("imaginary").get<double>() > 0.0);
  const Json& parallel = document.at("bounds").at("wiener")[1];
  CHECK(parallel.at("real").get<double>() == Approx(420.4)); // 0.4 + 0.6 mu
  CHECK(parallel.at("imaginary").get<double>() == Approx(24.0));
}

TEST_CASE("read backwards, a number that does not exist is null and its reach is told", "[powder]")
{
  const Mixture backwards = mixture({{}, 0.6, Complex(6.2)});
  const Json document = Json::parse(json(backwards));
  CHECK(document.at("sought") == "particle_permeability");
  const Json& apart = document.at("rules")[0];
  CHECK(apart.at("particle_permeability").is_null());
  CHECK(apart.at("reach")[1].get<double>() == Approx(5.5));
  CHECK(document.at("rules")[1].at("reach")[1].is_null()); // no limit
  CHECK(value(document, "lichtenecker", "particle_permeability") ==
        Approx(std::pow(6.2, 1.0 / 0.6)));
  CHECK(document.at("bounds").at("hashin_shtrikman")[1].is_null());
  const Json one =
      Json::parse(json(mixture({Complex(700.0), {}, Complex(5.4), solver::MixingRule::looyenga})));
  REQUIRE(one.at("rules").size() == 1);
  CHECK(value(one, "looyenga", "packing") ==
        Approx((std::cbrt(5.4) - 1.0) / (std::cbrt(700.0) - 1.0)));
}

TEST_CASE("the sensitivity of a number found is its logarithmic slope", "[powder]")
{
  // mu = m^(1/f): d ln mu / d ln m = 1/f.
  const Mixture particle = mixture({{}, 0.6, Complex(5.0), solver::MixingRule::lichtenecker});
  CHECK(*particle.rules[0].sensitivity == Approx(1.0 / 0.6).epsilon(1e-8));
  // f = ln m / ln mu: d ln f / d ln m = 1 / ln m.
  const Mixture packing =
      mixture({Complex(700.0), {}, Complex(5.0), solver::MixingRule::lichtenecker});
  CHECK(*packing.rules[0].sensitivity == Approx(1.0 / std::log(5.0)).epsilon(1e-8));
  CHECK_FALSE(mixture(forward).rules[0].sensitivity);
}

TEST_CASE("too few, too many or contradictory numbers are refused", "[powder]")
{
  CHECK_THROWS_AS(mixture({Complex(700.0), {}, {}}), std::invalid_argument);
  CHECK_THROWS_AS(mixture({Complex(700.0), 0.6, Complex(5.0)}), std::invalid_argument);
  CHECK_THROWS_AS(mixture({Complex(700.0), {}, Complex(5.0, -0.1)}), std::invalid_argument);
}

TEST_CASE("the charts hold every rule within its bands and marks what was asked", "[powder]")
{
  const std::vector<Chart> list = charts(mixture(forward));
  REQUIRE(list.size() == 1);
  const Chart& chart = list.front();
  REQUIRE(chart.lines.size() == 5);
  REQUIRE(chart.bands.size() == 2);
  CHECK(chart.y.logarithmic);
  for (const ChartLine& line : chart.lines)
    for (std::size_t k = 0; k < line.x.size(); ++k)
    {
      CHECK(line.y[k] >= chart.bands[0].lower[k] * (1.0 - 1e-12)); // Wiener's, up to round-off
      CHECK(line.y[k] <= chart.bands[0].upper[k] * (1.0 + 1e-12));
    }
  CHECK(chart.points[1].x[0] == 0.6);
  CHECK(chart.points[1].y[0] == mixture(forward).rules[1].found.value->real());

  const std::vector<Chart> particles = charts(mixture({{}, 0.6, Complex(6.2)}));
  REQUIRE(particles.size() == 1);
  CHECK(particles[0].x.logarithmic);
  CHECK(particles[0].points[0].x.empty()); // none by Maxwell Garnett
  CHECK(particles[0].points[3].y[0] == 6.2);
  CHECK(charts(mixture({Complex(700.0, -40.0), 0.6, {}})).size() == 2);
  CHECK(charts(mixture({{}, 0.6, Complex(4.0, -0.1)})).empty());
}
