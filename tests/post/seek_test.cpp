// A search for the value that meets a target, on functions whose answer is known in closed form.
#include "post/seek.hpp"

#include <catch2/catch.hpp>

#include <atomic>
#include <cmath>

namespace
{

/// A bracket of half-width `share` about a value.
post::Bounded about(double value, double share)
{
  return {value, value * (1.0 - share), value * (1.0 + share)};
}

post::SeekQuestion question(std::function<double(double)> L, double target, double share = 1e-3)
{
  post::SeekQuestion made;
  made.target = target;
  made.from = 1.0;
  made.to = 100.0;
  made.own = 10.0;
  made.tried = [L = std::move(L), share](double at)
  {
    post::TriedValue one;
    one.at = at;
    one.quantity = about(L(at), share);
    return one;
  };
  return made;
}

} // namespace

TEST_CASE("a search finds the root of a power law, and ends that are surely past it", "[seek]")
{
  for (const double power : {0.3, 2.0, -1.5})
  {
    const double share = 1e-3, target = 7.0, root = std::pow(target / 3.0, 1.0 / power);
    CAPTURE(power, root);
    auto asked = question([=](double x) { return 3.0 * std::pow(x, power); }, target, share);
    if (power < 0.0)
    {
      asked.from = 0.01;
      asked.to = 10.0;
      asked.own = 1.0;
    }
    const post::Sought found = post::sought(asked, 2);
    REQUIRE(found.value);
    REQUIRE(found.lower);
    REQUIRE(found.upper);
    // The middle is met within a quarter of the half-width, or both neighbours leave it open.
    CHECK(std::abs(std::log(*found.value / root)) < share / std::abs(power));
    // The set of values whose bracket holds the target is root * (1 +- share)^(1/power).
    CHECK(*found.lower <= root * std::pow(1.0 + share, -1.0 / std::abs(power)));
    CHECK(*found.upper >= root * std::pow(1.0 - share, -1.0 / std::abs(power)));
    // Each end steps past the edge by what guesses leave: no more than once the set's own width.
    CHECK(std::log(*found.upper / *found.lower) < 4.0 * share / std::abs(power));
    CHECK(found.slope == Approx(power).epsilon(0.01)); // a secant of a straight line in logarithms
    CHECK(found.others.empty());
    CHECK(found.tried.size() < 16);
  }
}

TEST_CASE("a known slope is used, and told", "[seek]")
{
  // Saturating as a rod's inductance does with permeability; 1e-9 leaves no room for luck.
  const auto L = [](double x) { return x / (1.0 + x / 30.0); };
  auto asked = question(L, 12.3456789, 1e-9);
  asked.tried = [plain = asked.tried](double at)
  {
    post::TriedValue one = plain(at);
    one.slope = 1.0 / (1.0 + at / 30.0);
    return one;
  };
  const post::Sought found = post::sought(asked, 1);
  REQUIRE(found.value);
  CHECK(*found.value == Approx(12.3456789 / (1.0 - 12.3456789 / 30.0)).epsilon(1e-8));
  CHECK(found.slope == 1.0 / (1.0 + *found.value / 30.0));
  CHECK(found.tried.size() <= 14); // seven nodes, four steps of a quadratic rate, the ends
  // A slope that points past either end leaves bisection.
  asked.tried = [plain = asked.tried](double at)
  {
    post::TriedValue one = plain(at);
    one.slope = 1e-6;
    return one;
  };
  CHECK(*post::sought(asked, 1).value == Approx(*found.value).epsilon(1e-8));
}

TEST_CASE("of several values the nearest to the case's own is meant, the others are told", "[seek]")
{
  // A hill over ln x with its top at x = 20: 5 is met at 20 exp(+-sqrt(ln 2)).
  const auto hill = [](double x) { return 10.0 * std::exp(-std::pow(std::log(x / 20.0), 2)); };
  auto asked = question(hill, 5.0);
  const double low = 20.0 * std::exp(-std::sqrt(std::log(2.0))),
               high = 20.0 * std::exp(std::sqrt(std::log(2.0)));
  const post::Sought left = post::sought(asked, 1);
  REQUIRE(left.value);
  CHECK(*left.value == Approx(low).epsilon(2e-3));
  REQUIRE(left.others.size() == 1);
  CHECK(left.others[0].first < high);
  CHECK(left.others[0].second > high);
  asked.own = 60.0;
  CHECK(*post::sought(asked, 1).value == Approx(high).epsilon(2e-3));
  // Met only close about the top, between the values tried first.
  asked = question(hill, 9.99);
  const post::Sought top = post::sought(asked, 1);
  REQUIRE(top.value);
  CHECK(hill(*top.value) == Approx(9.99).epsilon(1e-3));
  CHECK_FALSE(post::sought(question(hill, 10.1), 1).value);
}

TEST_CASE("whole numbers: the two on either side, and where between them", "[seek]")
{
  std::atomic<int> parts = 0;
  auto asked = question([](double n) { return n * n; }, 1234.0);
  asked.whole = true;
  asked.tried = [&parts, plain = asked.tried](double at)
  {
    parts += at != std::round(at);
    return plain(at);
  };
  const post::Sought found = post::sought(asked, 1);
  REQUIRE(found.neighbours.size() == 2);
  CHECK(found.neighbours[0].at == 35.0);
  CHECK(found.neighbours[1].at == 36.0);
  CHECK(*found.value == Approx(std::sqrt(1234.0)).epsilon(1e-12)); // a power law, met by the line
  CHECK(parts == 0);
}

TEST_CASE("a target out of reach has no value, one at the end an open interval", "[seek]")
{
  const auto L = [](double x) { return 40.0 / (1.0 + 3.0 / x); };
  CHECK_FALSE(post::sought(question(L, 41.0), 1).value);
  CHECK(post::sought(question(L, 41.0), 1).tried.size() == 7); // the own value is a node
  // Met near the end, where the bracket cannot exclude it any more.
  const post::Sought open = post::sought(question(L, L(99.9)), 1);
  REQUIRE(open.value);
  CHECK(open.lower);
  CHECK_FALSE(open.upper);
  // Flat: every bracket holds it, no end is sure.
  const post::Sought flat = post::sought(question([](double) { return 5.0; }, 5.0), 1);
  REQUIRE(flat.value);
  CHECK_FALSE(flat.lower);
  CHECK_FALSE(flat.upper);
}

TEST_CASE("values that cannot be solved are passed over", "[seek]")
{
  auto asked = question([](double x) { return x; }, 50.0);
  asked.tried = [plain = asked.tried](double at)
  {
    post::TriedValue one = plain(at);
    one.fault = at < 4.0 ? "no room" : "";
    return one;
  };
  const post::Sought found = post::sought(asked, 1);
  REQUIRE(found.value);
  CHECK(*found.value == Approx(50.0).epsilon(2e-3));
}
