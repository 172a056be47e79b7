// Circuits fitted to impedances: known ones recovered, skin effect followed, always passive.
#include "post/axial.hpp"
#include "post/ladder.hpp"
#include "post/nonnegative.hpp"
#include "reference/eddy_bodies.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <random>
#include <regex>
#include <set>
#include <sstream>

namespace
{

using Complex = std::complex<double>;
constexpr double two_pi = 2.0 * std::numbers::pi;

std::vector<double> even(double from, double to, int count)
{
  std::vector<double> list;
  for (int i = 0; i < count; ++i)
  {
    list.push_back(from * std::pow(to / from, i / (count - 1.0)));
  }
  return list;
}

std::vector<post::LadderPoint> points(const std::vector<double>& frequencies, const auto& impedance)
{
  std::vector<post::LadderPoint> list;
  for (const double frequency : frequencies)
  {
    list.push_back({frequency, impedance(frequency), 0.0});
  }
  return list;
}

/// Every element of a netlist by name, and its two nodes; checks that nothing else is in it.
struct Element
{
  std::string name, from, to;
  double value;
};
std::vector<std::vector<Element>> circuits(const std::string& text)
{
  static const std::regex opening("\\.subckt ([a-z][a-z0-9_]*) 1 2"),
      closing("\\.ends ([a-z0-9_]*)"), element("([RL][0-9]+) ([0-9]+) ([0-9]+) ([0-9.e+-]+)");
  std::vector<std::vector<Element>> list;
  std::istringstream lines(text);
  std::string open;
  for (std::string line; std::getline(lines, line);)
  {
    CAPTURE(line);
    std::smatch found;
    if (line.starts_with("*"))
    {
      CHECK(std::all_of(line.begin(), line.end(), [](char c) { return c >= ' ' && c <= '~'; }));
      CHECK(line.size() < 100);
    }
    else if (std::regex_match(line, found, opening))
    {
      CHECK(open.empty());
      open = found[1];
      list.emplace_back();
    }
    else if (std::regex_match(line, found, closing))
    {
      CHECK(open == found[1]);
      open.clear();
    }
    else
    {
      REQUIRE(std::regex_match(line, found, element));
      REQUIRE(!open.empty());
      list.back().push_back({found[1], found[2], found[3], std::stod(found[4])});
    }
  }
  CHECK(open.empty());
  return list;
}

/// Impedance between nodes 1 and 2 by nodal analysis, which knows no ladder.
Complex nodal(const std::vector<Element>& circuit, double frequency)
{
  Eigen::MatrixXcd Y = Eigen::MatrixXcd::Zero(40, 40);
  for (const Element& one : circuit)
  {
    const Complex y =
        one.name[0] == 'R' ? 1.0 / one.value : 1.0 / Complex(0.0, two_pi * frequency * one.value);
    const int a = std::stoi(one.from), b = std::stoi(one.to);
    Y(a, a) += y;
    Y(b, b) += y;
    Y(a, b) -= y;
    Y(b, a) -= y;
  }
  std::vector<int> live; // node 2 is ground
  for (int k = 0; k < 40; ++k)
  {
    if (k != 2 && Y(k, k) != 0.0)
    {
      live.push_back(k);
    }
  }
  const Eigen::MatrixXcd reduced = Y(live, live);
  Eigen::VectorXcd current = Eigen::VectorXcd::Zero(static_cast<Eigen::Index>(live.size()));
  REQUIRE(live.front() == 1);
  current[0] = 1.0;
  return reduced.partialPivLu().solve(current)[0];
}

void check_passive(const post::Ladder& ladder)
{
  CHECK(ladder.resistance >= 0.0);
  CHECK(ladder.inductance >= 0.0);
  for (const post::LadderCell& one : ladder.cells)
  {
    CHECK((one.resistance > 0.0 && std::isfinite(one.resistance)));
    CHECK((one.inductance > 0.0 && std::isfinite(one.inductance)));
  }
}

} // namespace

TEST_CASE("nonnegative least squares meets the conditions of the optimum", "[ladder]")
{
  // Kuhn-Tucker: x >= 0, A'(b - A x) <= 0, and 0 where x > 0.
  std::mt19937 random(7);
  std::normal_distribution<double> normal;
  for (int round = 0; round < 200; ++round)
  {
    const Eigen::Index m = 3 + round % 20, n = 1 + round % 13;
    const auto draw = [&](double) { return normal(random); };
    const Eigen::MatrixXd A = Eigen::MatrixXd::Zero(m, n).unaryExpr(draw);
    const Eigen::VectorXd b = Eigen::VectorXd::Zero(m).unaryExpr(draw);
    const Eigen::VectorXd x = post::nonnegative_least_squares(A, b);
    const Eigen::VectorXd pull = A.transpose() * (b - A * x);
    REQUIRE(x.minCoeff() >= 0.0);
    REQUIRE(pull.maxCoeff() < 1e-10);
    for (Eigen::Index j = 0; j < n; ++j)
    {
      REQUIRE(std::min(x[j], std::abs(pull[j])) < 1e-10);
    }
  }
}

TEST_CASE("a known ladder is recovered, element by element", "[ladder]")
{
  post::Ladder known;
  known.resistance = 0.12;
  known.inductance = 3e-6;
  known.cells = {{2.5, 9e-6}, {40.0, 4e-6}, {900.0, 2.5e-6}}; // corners 44 kHz, 1.6 MHz, 57 MHz
  const auto Z = [&](double f) { return known.impedance(f); };
  const post::Ladder found = post::fitted_ladder("coil", points(even(1e3, 1e9, 31), Z));
  REQUIRE(found.cells.size() == 3);
  CHECK(found.resistance == Approx(known.resistance).epsilon(1e-6));
  CHECK(found.inductance == Approx(known.inductance).epsilon(1e-6));
  for (std::size_t k = 0; k < 3; ++k)
  {
    CHECK(found.cells[k].resistance == Approx(known.cells[k].resistance).epsilon(1e-6));
    CHECK(found.cells[k].inductance == Approx(known.cells[k].inductance).epsilon(1e-6));
  }
  CHECK(found.of_resistance.largest < 1e-9);
  CHECK(!found.inductance_rises);
  CHECK(found.from == 1e3);
  CHECK(found.to == Approx(1e9));
}

TEST_CASE("the netlist of a ladder has its impedance, node by node", "[ladder]")
{
  post::Ladder one;
  one.winding = "coil";
  one.resistance = 0.12;
  one.inductance = 3e-6;
  one.cells = {{2.5, 9e-6}, {40.0, 4e-6}, {900.0, 2.5e-6}};
  std::vector<post::Ladder> all(5, one);
  all[1].resistance = 0.0;
  all[2].inductance = 0.0;
  all[3].cells.clear();
  all[4].resistance = all[4].inductance = 0.0;
  const auto read = circuits(post::netlist(all));
  REQUIRE(read.size() == all.size());
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    for (const double f : {10.0, 3e4, 1e6, 1e8})
    {
      const Complex expected = all[i].impedance(f); // nine digits are written
      CHECK(std::abs(nodal(read[i], f) - expected) < 1e-7 * std::abs(expected));
    }
  }
}

namespace
{

/// Fitted to 0.3 %, passive, and off by exactly what it tells.
void check_fit(const std::vector<double>& frequencies, const auto& impedance)
{
  const post::Ladder ladder = post::fitted_ladder("wire", points(frequencies, impedance));
  check_passive(ladder);
  CHECK(ladder.cells.size() <= 9);
  double largest_R = 0.0, largest_L = 0.0, sum_R = 0.0, sum_L = 0.0;
  for (const double f : frequencies)
  {
    const Complex Z = impedance(f), fitted = ladder.impedance(f);
    const double of_R = std::abs(fitted.real() / Z.real() - 1.0),
                 of_L = std::abs(fitted.imag() / Z.imag() - 1.0);
    largest_R = std::max(largest_R, of_R);
    largest_L = std::max(largest_L, of_L);
    sum_R += of_R * of_R;
    sum_L += of_L * of_L;
  }
  const auto count = static_cast<double>(frequencies.size());
  CHECK(ladder.of_resistance.largest == Approx(largest_R));
  CHECK(ladder.of_inductance.largest == Approx(largest_L));
  CHECK(ladder.of_resistance.rms == Approx(std::sqrt(sum_R / count)));
  CHECK(ladder.of_inductance.rms == Approx(std::sqrt(sum_L / count)));
  CHECK(std::max(largest_R, largest_L) < 3e-3);
}

} // namespace

TEST_CASE("a copper wire's skin effect over four decades is followed to 0.3 %", "[ladder]")
{
  check_fit(even(1e3, 1e7, 41),
            [](double f)
            {
              const post::WireResult at = post::wire_at({{0.5e-3, 1.0, 58e6}}, f);
              return Complex(at.resistance, two_pi * f * at.inductance);
            });
}

TEST_CASE("a coil about a conducting rod over three decades is followed to 0.3 %", "[ladder]")
{
  // [Dodd & Deeds 1968]; the coil's own wire with 1 ohm.
  const reference::Section coil{6e-3, 7e-3, -5e-3, 5e-3, 50.0};
  const double in_air = reference::thick_self(coil);
  check_fit(even(1e3, 1e6, 16),
            [&](double f)
            {
              const double omega = two_pi * f;
              const Complex gain = reference::endless_rod_gain({{5e-3, 1.0, 58e6}}, omega, coil);
              return 1.0 + Complex(0.0, omega) * (in_air + gain);
            });
}

TEST_CASE("whatever it is fitted to, a ladder is passive and says how far it is off", "[ladder]")
{
  std::mt19937 random(11);
  std::uniform_real_distribution<double> even_draw(-1.0, 1.0);
  for (int round = 0; round < 60; ++round)
  {
    const auto frequencies = even(1e3, 1e3 * std::pow(10.0, 1 + round % 5), 2 + round % 17);
    std::vector<post::LadderPoint> given;
    for (const double f : frequencies)
    {
      const double R = std::pow(10.0, 3.0 * even_draw(random)),
                   L = 1e-5 * (1.0 + 0.5 * even_draw(random));
      given.push_back({f, {round % 7 == 0 ? 0.0 : R, two_pi * f * L}, 1e-6 * R});
    }
    const post::Ladder ladder = post::fitted_ladder("noise", given);
    check_passive(ladder);
    double largest = 0.0;
    for (const post::LadderPoint& at : given)
    {
      const Complex off = ladder.impedance(at.frequency) - at.impedance;
      largest = std::max(largest, std::abs(off.imag()) / at.impedance.imag());
    }
    CHECK(ladder.of_inductance.largest == Approx(largest));
    CHECK(ladder.cells.size() + 1 <= given.size());
  }
}

TEST_CASE("an inductance that rises with frequency is told", "[ladder]")
{
  const auto rising = [](double f) { return Complex(1.0, two_pi * f * 1e-6 * (1.0 + f / 1e6)); };
  const post::Ladder ladder = post::fitted_ladder("coil", points(even(1e4, 1e6, 9), rising));
  CHECK(ladder.inductance_rises);
  CHECK(ladder.of_inductance.largest > 0.1);
  check_passive(ladder);
  CHECK_THAT(post::netlist(std::vector{ladder}),
             Catch::Contains("rises with frequency: no ladder of R and L follows that"));
  // Within the discs nothing rises for certain.
  auto vague = points(even(1e4, 1e6, 9), rising);
  for (post::LadderPoint& at : vague)
  {
    at.disc = std::abs(at.impedance);
  }
  CHECK(!post::fitted_ladder("coil", vague).inductance_rises);
}

TEST_CASE("no name of a winding breaks the netlist", "[ladder]")
{
  std::vector<post::Ladder> all;
  for (const char* name : {"coil", "Coil", "coil\n.ends coil\nVx 1 0 1e9", "", "1st",
                           "\xc3\xa4\xff", "a b;c $d", "* x", "coil_2", "+1", "winding_"})
  {
    post::Ladder one;
    one.winding = name;
    one.inductance = 1e-6;
    all.push_back(one);
  }
  post::Ladder& longest = all.emplace_back();
  longest.winding = std::string(5000, 'x');
  longest.resistance = 1.0;
  all.emplace_back(); // no element at all
  const std::string text = post::netlist(all);
  CHECK(circuits(text).size() == all.size());
  std::set<std::string> names;
  const std::regex opening("\\.subckt (\\S+)");
  for (auto at = std::sregex_iterator(text.begin(), text.end(), opening);
       at != std::sregex_iterator(); ++at)
  {
    names.insert((*at)[1]);
  }
  CHECK(names.size() == all.size());
}

TEST_CASE("one frequency makes no ladder, two make one a winding", "[ladder]")
{
  std::vector<post::FrequencyResult> results;
  for (const double f : {1e4, 1e5})
  {
    post::FrequencyResult at;
    at.frequency = f;
    for (const double size : {1.0, 2.0})
    {
      post::WindingImpedance one;
      one.name = size > 1.0 ? "other" : "one";
      one.resistance = size;
      one.inductance = size * 1e-6;
      one.disc = 1e-9;
      one.omega = two_pi * f;
      at.windings.push_back(one);
    }
    at.toroids = {{"choke", 5.0, 7.0, 4e-6}};
    at.wires = {{"endless", 1.0, 1e-6, {}, {}}, {"lead", 1.0, 1e-6, 3.0, {}}};
    results.push_back(at);
  }
  CHECK(post::ladders(std::span(results).first(1)).empty());
  const auto both = post::ladders(results);
  REQUIRE(both.size() == 4); // an endless wire is no circuit
  CHECK(both[2].winding == "lead");
  CHECK(both[2].resistance == Approx(3.0));
  CHECK(both[3].winding == "choke");
  CHECK(both[3].inductance == Approx(4e-6));
  CHECK(both[1].winding == "other");
  CHECK(both[1].resistance == Approx(2.0));
  CHECK(both[1].inductance == Approx(2e-6));
  CHECK(both[1].cells.empty());
}
