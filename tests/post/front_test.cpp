// Two wishes on functions whose front is known in closed form.
#include "post/front.hpp"

#include <catch2/catch.hpp>

#include <cmath>

namespace
{

/// Wish 1: x large. Wish 2: x + 4 (y - 0.5)^2 small. The front is y = 0.5, where they are equal.
post::FrontQuestion question()
{
  post::FrontQuestion made;
  made.own = {0.3, 0.8};
  made.steps = 40;
  made.numbers = [](const std::vector<double>& at) {
    return std::optional(std::vector{-at[0], at[0] + 4.0 * std::pow(at[1] - 0.5, 2)});
  };
  return made;
}

} // namespace

TEST_CASE("a front is met at every level, and none of its points beats another", "[front]")
{
  const post::Front found = post::front(question(), 2);
  REQUIRE(found.points.size() >= 8); // of ten levels; the search may meet two in one point
  CHECK(found.impossible == 0);
  double before = 1e9;
  for (const post::FrontPoint& one : found.points)
  {
    CAPTURE(one.at[0], one.at[1]);
    // In both wishes to within what steps of 2e-3 and forty trials leave.
    CHECK(one.numbers[0] + one.numbers[1] < 0.02);
    CHECK(one.numbers[0] < before);
    before = one.numbers[0];
  }
  CHECK(found.points.back().at[0] > 0.98);
  CHECK(found.points.front().at[0] < 0.02);
}

TEST_CASE("limits are kept, places without a design are passed over", "[front]")
{
  post::FrontQuestion asked = question();
  asked.numbers = [plain = asked.numbers](const std::vector<double>& at)
  {
    auto numbers = plain(at);
    numbers->push_back(at[0] - 0.7);
    return at[1] > 0.9 ? std::nullopt : numbers;
  };
  const post::Front found = post::front(asked, 1);
  CHECK(found.impossible > 0);
  REQUIRE_FALSE(found.points.empty());
  for (const post::FrontPoint& one : found.points)
  {
    CHECK(one.at[0] <= 0.7);
    CHECK(one.at[1] <= 0.9);
  }
  CHECK(found.points.back().at[0] > 0.68);
  asked.numbers = [](const std::vector<double>&) {
    return std::optional(std::vector{1.0, 1.0, 1.0});
  };
  CHECK(post::front(asked, 1).points.empty());
}

TEST_CASE("any number of threads finds the same front", "[front]")
{
  const post::Front one = post::front(question(), 1), three = post::front(question(), 3);
  REQUIRE(one.points.size() == three.points.size());
  CHECK(one.tried == three.tried);
  for (std::size_t i = 0; i < one.points.size(); ++i)
    CHECK(one.points[i].at == three.points[i].at);
}
