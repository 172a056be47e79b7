// What a fit means, in sentences the numbers support.
#include "cases/fit_report.hpp"
#include "cases/result_text.hpp"
#include "cases/table.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace cases
{

namespace
{

std::string verdict(const FitReport& report, std::size_t i)
{
  const post::FitResult& one = report.results[i];
  const post::Interval& range = one.unknown.interval;
  const std::string& noun = report.asked.noun;
  const Kind kind = report.asked.kind;
  const std::string which = report.results.size() > 1 ? name_of(report, i) + ": " : "";
  if (!std::isfinite(range.upper) && std::isfinite(range.lower))
  {
    return which + fmt::format("{} at least {}; this sample cannot tell more.", noun,
                               unknown_text(range.lower, kind, 3));
  }
  if (std::isfinite(range.upper) && !std::isfinite(range.lower))
  {
    return which + fmt::format("{} at most {}; this sample cannot tell it from {}.", noun,
                               unknown_text(range.upper, kind, 3),
                               report.asked.permeability ? "air" : "less");
  }
  if (!std::isfinite(range.upper))
  {
    return which + fmt::format("this sample cannot tell the {} at all.", noun);
  }
  const double s = one.sensitivity;
  return which + fmt::format("{} between {} and {}. One per cent of {} changes the inductance by "
                             "{} %: {}.",
                             noun, unknown_text(range.lower, kind, 3),
                             unknown_text(range.upper, kind, 3), noun, post::number(s, 2),
                             s >= 0.5   ? "a sharp sample"
                             : s >= 0.1 ? "a fair sample"
                                        : "a blunt sample, errors of the reading are magnified");
}

} // namespace

std::string meaning_text(const FitReport& report)
{
  std::string out = heading("What this means");
  bool disagree = false, apart = false;
  for (std::size_t i = 0; i < report.results.size(); ++i)
  {
    const post::FitResult& one = report.results[i];
    if (one.impossible)
    {
      continue;
    }
    std::string words = verdict(report, i);
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    out += wrapped(words);
    disagree = disagree || (one.unknown.agreement && one.unknown.agreement->resolved &&
                            !one.unknown.agreement->agree);
    double tolerance = 0.0;
    for (const post::FitReading& reading : report.asked.groups[i].readings)
    {
      tolerance += post::step(reading.inductance) / reading.inductance.estimate;
    }
    apart = apart || one.spread > tolerance + 2.0 * one.bracket;
  }
  if (disagree)
  {
    out += wrapped("WARNING: first order and Monte Carlo disagree: the answer bends over the "
                   "interval, so take the Monte Carlo interval and not +-.");
  }
  if (apart)
  {
    out += wrapped("WARNING: the readings of one sample contradict each other by more than their "
                   "tolerances; check turns and dimensions before using the value.");
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
