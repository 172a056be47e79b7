// Impedance over frequency as files for the next tool: table and scattering parameters.
#include "post/frequency.hpp"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <sstream>

namespace
{

using Complex = std::complex<double>;

/// Reciprocal coils of that many ports at two frequencies: a few ohm to some thousand, little loss.
std::vector<post::FrequencyResult> coils(int ports)
{
  std::vector<post::FrequencyResult> all;
  for (const double frequency : {1234.5678, 2.5e6})
  {
    post::FrequencyResult at;
    at.frequency = frequency;
    const double omega = 2.0 * std::numbers::pi * frequency;
    for (int i = 0; i < ports; ++i)
    {
      at.impedance.emplace_back();
      at.disc.emplace_back();
      for (int j = 0; j < ports; ++j)
      {
        const double L = i == j ? 1e-4 * (i + 1) : 1e-5 * (i + j);
        at.impedance.back().push_back(Complex(1e-5 * omega * L * (i + j + 1), omega * L));
        at.disc.back().push_back(1e-6 * omega * L);
      }
      post::WindingImpedance one;
      one.name = "coil " + std::to_string(i + 1);
      one.omega = omega;
      one.resistance = at.impedance[i][i].real();
      one.inductance = at.impedance[i][i].imag() / omega;
      one.disc = at.disc[i][i];
      at.windings.push_back(one);
    }
    all.push_back(at);
  }
  return all;
}

/// A Touchstone 1.1 text as its rules say: comments from "!", one option line, numbers by count and
/// not by line; two ports come as 11 21 12 22, more row by row.
struct Ports
{
  std::string option;
  std::vector<double> frequency;
  std::vector<Eigen::MatrixXcd> S;
};

Ports read(const std::string& text, int n)
{
  Ports made;
  std::istringstream lines(text);
  std::vector<double> numbers;
  for (std::string line; std::getline(lines, line);)
  {
    line = line.substr(0, line.find('!'));
    if (line.starts_with("#"))
    {
      made.option = line;
      continue;
    }
    std::istringstream words(line);
    int pairs = -1;
    for (double x = 0.0; words >> x; ++pairs)
    {
      numbers.push_back(x);
    }
    CHECK(pairs <= 8); // four pairs at most, behind a frequency or without
  }
  const std::size_t each = 1 + 2 * static_cast<std::size_t>(n) * n;
  REQUIRE(numbers.size() % each == 0);
  for (std::size_t at = 0; at < numbers.size(); at += each)
  {
    made.frequency.push_back(numbers[at]);
    Eigen::MatrixXcd S(n, n);
    for (int k = 0; k < n * n; ++k)
    {
      const Complex s(numbers[at + 1 + 2 * k], numbers[at + 2 + 2 * k]);
      (n == 2 ? S(k % n, k / n) : S(k / n, k % n)) = s;
    }
    made.S.push_back(S);
  }
  return made;
}

} // namespace

TEST_CASE("scattering parameters of one to five ports read back to the impedance", "[frequency]")
{
  for (int n = 1; n <= 5; ++n)
  {
    CAPTURE(n);
    // An unsymmetric matrix, which no coil has, tells rows from columns.
    std::vector<post::FrequencyResult> all = coils(n);
    if (n > 1)
    {
      all[0].impedance[0][1] *= 1.5;
    }
    const auto [text, ending] = post::touchstone(all);
    CHECK(ending == ".s" + std::to_string(n) + "p");
    const Ports ports = read(text, n);
    CHECK(ports.option == "# HZ S RI R 50");
    REQUIRE(ports.S.size() == 2);
    for (std::size_t k = 0; k < 2; ++k)
    {
      CHECK(ports.frequency[k] == Approx(all[k].frequency).epsilon(1e-11));
      const Eigen::MatrixXcd one = Eigen::MatrixXcd::Identity(n, n);
      const Eigen::MatrixXcd Z = 50.0 * (one - ports.S[k]).inverse() * (one + ports.S[k]);
      for (int i = 0; i < n; ++i)
      {
        for (int j = 0; j < n; ++j)
        {
          // Loss of 1e-5 of Z and Z of 2000 ohm leave 16 digits of S eleven of Z.
          CHECK(std::abs(Z(i, j) - all[k].impedance[i][j]) <
                1e-10 * std::abs(all[k].impedance[i][i]));
        }
      }
    }
  }
}

TEST_CASE("ports are named in their order, line by line as version 1.1 wants", "[frequency]")
{
  const std::string two = post::touchstone(coils(2)).first;
  CHECK(two.starts_with("! scattering parameters of windings, coil 1, coil 2; ports in this "
                        "order\n# HZ S RI R 50\n1234.5678 "));
  const auto lines = [](const std::string& text)
  { return std::count(text.begin(), text.end(), '\n'); };
  CHECK(lines(post::touchstone(coils(1)).first) == 2 + 2);
  CHECK(lines(two) == 2 + 2);
  CHECK(lines(post::touchstone(coils(3)).first) == 2 + 2 * 3);
  CHECK(lines(post::touchstone(coils(5)).first) == 2 + 2 * 5 * 2); // five pairs: four and one
}

TEST_CASE("the table has a row a frequency and four columns a winding", "[frequency]")
{
  std::vector<post::FrequencyResult> all = coils(2);
  all[0].windings[0].resistance = 0.0; // without loss: no Q
  CHECK(post::impedance_table(all) ==
        "frequency [Hz],Rs coil 1 [ohm],Ls coil 1 [H],Q coil 1,disc coil 1 [ohm],"
        "Rs coil 2 [ohm],Ls coil 2 [H],Q coil 2,disc coil 2 [ohm]\n"
        "1234.5678,0,0.0001,,7.76e-07,4.65421096e-05,0.0002,33333.3,1.55e-06\n"
        "2500000,0.0157079633,0.0001,100000,0.00157,0.0942477796,0.0002,33333.3,0.00314\n");
}

TEST_CASE("names with commas and quotation marks stay one cell", "[frequency]")
{
  std::vector<post::FrequencyResult> all = coils(1);
  all[0].windings[0].name = "inner, \"left\"";
  CHECK(post::impedance_table(all).starts_with(
      "frequency [Hz],\"Rs inner, \"\"left\"\" [ohm]\",\"Ls inner, \"\"left\"\" [H]\","
      "\"Q inner, \"\"left\"\"\",\"disc inner, \"\"left\"\" [ohm]\"\n"));
}

TEST_CASE("quality is reactance over resistance, endless without loss", "[frequency]")
{
  post::WindingImpedance one;
  one.omega = 1e4;
  one.inductance = 2e-3;
  one.resistance = 0.5;
  CHECK(one.quality() == Approx(40.0).epsilon(1e-14));
  one.resistance = 0.0;
  CHECK(std::isinf(one.quality()));
}
