// Rounding rules of post/engineering: what is printed is what the bracket decides.
#include "post/engineering.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <string>

using post::Bounded;
using post::engineering;

TEST_CASE("an engineering number has one to three digits before the point and a prefix",
          "[engineering]")
{
  CHECK(engineering(8.1234e-4, "H") == "812 uH");
  CHECK(engineering(8.1234e-4, "H", 4) == "812.3 uH");
  CHECK(engineering(1.0e-3, "H", 4) == "1.000 mH");
  CHECK(engineering(9.9996e-4, "H", 4) == "1.000 mH"); // rounding carries into the next prefix
  CHECK(engineering(-2.5e-9, "H") == "-2.50 nH");
  CHECK(engineering(0.0, "T") == "0 T");
  CHECK(engineering(12.0, "T") == "12.0 T");
  CHECK(engineering(1.0e-18, "H") == "1.00e-18 H"); // below the smallest prefix
  CHECK(engineering(std::numeric_limits<double>::quiet_NaN(), "H") == "nan H");
}

TEST_CASE("too few digits to reach the point move to the next prefix", "[engineering]")
{
  CHECK(engineering(946e-6, "H", 2) == "0.95 mH");
  CHECK(engineering(94.6e-6, "H", 2) == "95 uH");
}

TEST_CASE("a half-width of a thousandth decides three digits and a ten-thousandth four",
          "[engineering]")
{
  for (double value = 1.0e-6; value < 1.0e-3; value *= 1.07)
  {
    CAPTURE(value);
    CHECK(post::decided_digits({value, value * (1 - 1e-3), value * (1 + 1e-3)}) >= 3);
    CHECK(post::decided_digits({value, value * (1 - 1e-4), value * (1 + 1e-4)}) == 4);
    CHECK(post::decided_digits({value, value * 0.8, value * 1.2}) == 2);
  }
}

TEST_CASE("the true value lies within one and a half units of the last digit shown",
          "[engineering]")
{
  // One unit from the bracket, half a unit from rounding.
  std::mt19937 random(7);
  std::uniform_real_distribution<double> mantissa(1.0, 10.0), width(1e-6, 9e-3);
  for (int i = 0; i < 500; ++i)
  {
    const double value = mantissa(random);
    const double half = value * width(random);
    const Bounded bounded{value, value - half, value + half};
    const std::string shown = engineering(bounded, "H");
    const double read = std::stod(shown);
    const double unit =
        std::pow(10.0, std::floor(std::log10(read)) - post::decided_digits(bounded) + 1);
    CAPTURE(shown, value, half);
    CHECK(std::abs(read - bounded.lower) <= 1.5 * unit * (1 + 1e-9));
    CHECK(std::abs(read - bounded.upper) <= 1.5 * unit * (1 + 1e-9));
  }
}

TEST_CASE("a bracket that holds zero is printed as zero", "[engineering]")
{
  CHECK(engineering(Bounded{1e-10, -2e-9, 2.2e-9}, "H") == "0 H");
}

TEST_CASE("the ends of a bracket are rounded outwards and differ", "[engineering]")
{
  const post::Ends ends = post::ends({45.321234e-6, 45.300123e-6, 45.342345e-6}, "H");
  CHECK(ends.lower == "45.300");
  CHECK(ends.upper == "45.343");
  CHECK(ends.unit == "uH");

  std::mt19937 random(11);
  std::uniform_real_distribution<double> exponent(-9.0, 0.0), width(-7.0, -2.0);
  for (int i = 0; i < 500; ++i)
  {
    const double value = std::pow(10.0, exponent(random));
    const double half = value * std::pow(10.0, width(random));
    const post::Ends printed = post::ends({value, value - half, value + half}, "H");
    const double scale = printed.unit == "nH"   ? 1e-9
                         : printed.unit == "uH" ? 1e-6
                         : printed.unit == "mH" ? 1e-3
                                                : 1.0;
    CAPTURE(value, half, printed.lower, printed.upper, printed.unit);
    // Reading the text back costs one rounding of a double.
    CHECK(std::stod(printed.lower) * scale <= (value - half) * (1 + 1e-15));
    CHECK(std::stod(printed.upper) * scale >= (value + half) * (1 - 1e-15));
    CHECK(printed.lower != printed.upper);
  }
}

TEST_CASE("ends without a unit carry no prefix", "[engineering]")
{
  const post::Ends ends = post::ends({0.0152, 0.015142, 0.015261}, "");
  CHECK(ends.lower == "0.01514");
  CHECK(ends.upper == "0.01527");
  CHECK(ends.unit.empty());
}

TEST_CASE("negative ends are rounded outwards too", "[engineering]")
{
  const post::Ends ends = post::ends({-45.321e-9, -45.3432e-9, -45.2999e-9}, "H");
  CHECK(ends.lower == "-45.344");
  CHECK(ends.upper == "-45.299");
  CHECK(ends.unit == "nH");
}

TEST_CASE("per cent never denies what is left over", "[engineering]")
{
  CHECK(post::percent(0.0) == "0 %");
  CHECK(post::percent(0.97) == "97 %");
  CHECK(post::percent(0.0342) == "3.4 %");
  CHECK(post::percent(0.99966) == "99.97 %");
  CHECK(post::percent(0.9999999) == "over 99.99 %");
  CHECK(post::percent(1.0) == "100 %");
  CHECK(post::percent(1.234) == "123 %");
  CHECK(post::percent(5e-5) == "less than 0.01 %");
  CHECK(post::fine_percent(4.2e-5) == "0.0042 %");
  CHECK(post::fine_percent(3e-8) == "3.0e-06 %");
}

TEST_CASE("plain numbers keep their significant digits", "[engineering]")
{
  CHECK(post::number(31.234) == "31.2");
  CHECK(post::number(1234.0) == "1230");
  CHECK(post::number(0.05) == "0.0500");
  CHECK(post::number(3.2e8) == "3.20e+08");
  CHECK(post::count(100.0) == "100");
  CHECK(post::count(12.5) == "12.5");
  CHECK(post::millimetres(0.06) == "60 mm");
  CHECK(post::millimetres(0.00025) == "0.25 mm");
}
