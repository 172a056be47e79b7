// What a fit means, in sentences the numbers support.
#include "cases/fit_report.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

/// What one per cent of the unknown does, from the bluntest sample to the sharpest.
std::string sharpness(const std::string& noun, double least, double most)
{
  const std::string from = post::number(least, 2), to = post::number(most, 2);
  return fmt::format(" per cent of {} changes the inductance by {} %: {}.", noun,
                     from == to ? from : from + " to " + to,
                     least >= 0.5   ? "sharp"
                     : least >= 0.1 ? "fair"
                                    : "blunt, errors of the reading are magnified");
}

std::string verdict(const FitReport& report, std::size_t i)
{
  const post::FitResult& one = report.results[i];
  const post::Interval& range = one.unknown.interval;
  const std::string& noun = report.asked.noun;
  const Kind kind = report.asked.kind;
  const std::string which = report.results.size() > 1 ? name_of(report, i) + ": " : "";
  const std::vector<double>& looked =
      report.responses[report.asked.groups[i].readings.front().winding].unknown;
  if (!std::isfinite(range.upper) && std::isfinite(range.lower))
  {
    return which + fmt::format("{} at least {}; this sample cannot tell more (looked up to {}).",
                               noun, unknown_text(range.lower, kind, 3),
                               unknown_text(looked.back(), kind, 3));
  }
  if (std::isfinite(range.upper) && !std::isfinite(range.lower))
  {
    return which + fmt::format("{} at most {}; this sample cannot tell it from {}{}.", noun,
                               unknown_text(range.upper, kind, 3),
                               report.asked.permeability ? "that of air, " : "",
                               unknown_text(looked.front(), kind, 3));
  }
  if (!is_closed(range))
  {
    return which + fmt::format("this sample cannot tell the {} between {} and {}.", noun,
                               unknown_text(looked.front(), kind, 3),
                               unknown_text(looked.back(), kind, 3));
  }
  return which + fmt::format("{} between {} and {}. One{}", noun,
                             unknown_text(range.lower, kind, 3), unknown_text(range.upper, kind, 3),
                             sharpness(noun, one.sensitivity, one.sensitivity));
}

/// Distance of first order's ends from Monte Carlo's over the interval's width; 0 where they agree.
double bend(const post::FitResult& one)
{
  const auto& agreement = one.unknown.agreement;
  if (!agreement)
  {
    return 0.0;
  }
  // However noisy the drawn ends are: a gap beyond tolerance and noise is one.
  const double gap = std::max(agreement->lower_gap, agreement->upper_gap);
  return gap > agreement->tolerance + agreement->noise
             ? gap / (one.unknown.interval.upper - one.unknown.interval.lower)
             : 0.0;
}

/// Where first order and Monte Carlo part, both intervals of the sample where they part most.
Sheet bend_text(const FitReport& report)
{
  constexpr double little = 0.05;
  const auto worst = std::ranges::max_element(report.results, {}, bend);
  const double apart = bend(*worst);
  if (apart == 0.0)
  {
    return {};
  }
  const auto i = static_cast<std::size_t>(worst - report.results.begin());
  const Kind kind = report.asked.kind;
  return wrapped(fmt::format(
      "{}: {}first order gives {}, Monte Carlo {}: apart by {} of the width. The result is not "
      "spread like a normal one, or bends over the interval{}.",
      apart < little ? "Note" : "WARNING",
      report.results.size() > 1 ? "most for " + name_of(report, i) + ", " : "",
      interval_text(worst->unknown.first->interval, kind, 4),
      interval_text(worst->unknown.interval, kind, 4), post::percent(apart),
      apart < little ? "; the interval is Monte Carlo's" : ": take Monte Carlo's and not +-"));
}

/// Whether readings of one sample contradict each other by more than their own tolerances.
bool contradictory(const post::FitResult& one, const FitGroup& group)
{
  double allowed = 2.0 * one.bracket;
  for (const post::FitReading& reading : group.readings)
  {
    double width = post::step(reading.inductance);
    width += reading.lead ? post::step(*reading.lead) : 0.0;
    width += reading.bare ? post::step(*reading.bare) : 0.0;
    allowed += width / reading.inductance.estimate;
  }
  return one.spread > allowed;
}

} // namespace

Sheet meaning_text(const FitReport& report)
{
  Sheet out = heading("What this means");
  std::string at_odds;
  double least = post::endless, most = 0.0;
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    if (one.impossible)
    {
      continue;
    }
    if (report.results.size() > 1 && is_closed(one.unknown.interval))
    {
      least = std::min(least, one.sensitivity); // its interval stands in the table
      most = std::max(most, one.sensitivity);
    }
    else
    {
      std::string words = verdict(report, i);
      words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
      out += wrapped(words);
    }
    if (contradictory(one, report.asked.groups[i]))
    {
      at_odds += (at_odds.empty() ? "" : ", ") + name_of(report, i);
    }
  }
  if (std::isfinite(least))
  {
    out += wrapped("Where an interval is closed, one" + sharpness(report.asked.noun, least, most));
  }
  out += bend_text(report);
  if (!at_odds.empty())
  {
    out += wrapped(fmt::format("WARNING: the readings of {} contradict each other by more than "
                               "their tolerances; check turns and dimensions before using the "
                               "value.",
                               report.results.size() > 1 ? at_odds : "the sample"));
  }
  return out;
}

std::string name_of(const FitReport& report, std::size_t i)
{
  const FitGroup& group = report.asked.groups[i];
  const std::string sample = group.sample.empty() ? std::string("sample") : plain(group.sample);
  return group.frequency > 0.0 ? sample + " at " + post::engineering(group.frequency, "Hz", 4)
                               : sample;
}

bool is_closed(const post::Interval& interval)
{
  return std::isfinite(interval.lower) && std::isfinite(interval.upper);
}

std::string interval_text(const post::Interval& interval, Kind kind, int shown)
{
  const bool below = std::isfinite(interval.lower), above = std::isfinite(interval.upper);
  const auto end = [&](double value) { return unknown_text(value, kind, shown); };
  return below && above ? end(interval.lower) + " to " + end(interval.upper)
         : below        ? "at least " + end(interval.lower)
         : above        ? "at most " + end(interval.upper)
                        : "open both ways";
}

bool tells_little(const post::FitResult& result)
{
  const post::Interval& range = result.unknown.interval;
  return !(std::isfinite(range.lower) && std::isfinite(range.upper) &&
           range.upper <= 1.5 * range.lower);
}

std::string unknown_text(double value, Kind kind, int digits)
{
  return kind == Kind::length ? post::engineering(value, "m", digits) : post::number(value, digits);
}

} // namespace cases
