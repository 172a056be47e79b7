// The report of a search.
#include "cases/result_text.hpp"
#include "cases/seek_report.hpp"
#include "cases/sheet.hpp"
#include "cases/sweep_report.hpp"
#include "cases/wording.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cases
{

namespace
{

/// The value with as many digits as keep what is printed within its interval, three at least.
std::string within(const post::Bounded& found)
{
  constexpr int most = 12;
  std::string text;
  for (int digits = 3; digits <= most; ++digits)
  {
    text = post::number(found.value, digits);
    const double read = std::strtod(text.c_str(), nullptr);
    if (read >= found.lower && read <= found.upper)
    {
      break;
    }
  }
  return text;
}

std::string with_unit(const std::string& number, const std::string& unit)
{
  return number + (unit.empty() ? "" : " " + unit);
}

/// A value of the key in the unit of the case, so many digits.
std::string value(const SeekReport& report, double si, int digits = 5)
{
  return with_unit(post::count(si * report.key.scale, digits), plain(report.key.unit));
}

std::string unit_of(const SeekReport& report)
{
  return quantity_of(report.show).unit;
}

std::string key_name(const SeekReport& report)
{
  return plain(fmt::format("{}", fmt::join(report.key.keys, ", ")));
}

std::string wish(const SeekReport& report)
{
  return fmt::format("{} of {} {}", quantity_of(report.show).label, plain(report.owner),
                     post::engineering(report.question.target, unit_of(report), 4));
}

/// Ends rounded outwards, with enough digits to tell them from the value.
std::string found_text(const SeekReport& report)
{
  const post::Sought& found = report.found;
  const double scale = report.key.scale;
  const post::Bounded shown = {*found.value * scale, found.lower.value_or(*found.value) * scale,
                               found.upper.value_or(*found.value) * scale};
  const bool sure = found.lower && found.upper;
  std::string out = heading("Found", report.key.whole ? "whole numbers bounded, between them "
                                                        "estimated"
                                     : sure ? "bounded: a value that meets it lies in the interval"
                                            : "estimated: the interval is open at an end");
  const std::string value =
      sure && !report.key.whole ? within(shown) : post::number(shown.value, 5);
  const post::Ends ends = post::ends(shown, "");
  std::string interval;
  if (sure)
  {
    interval = fmt::format(", between {} and {}", ends.lower, ends.upper);
  }
  else if (!report.key.whole)
  {
    interval = found.lower   ? fmt::format(", at least {}", ends.lower)
               : found.upper ? fmt::format(", at most {}", ends.upper)
                             : std::string(", no end of the interval found");
  }
  out += wrapped(fmt::format("{}: {}{}{}", key_name(report), value, interval,
                             report.key.unit.empty() ? "" : " " + plain(report.key.unit)),
                 2, 4);
  if (sure)
  {
    out += wrapped("At one end the quantity is surely below the target, at the other surely above; "
                   "it changes without jumps, so a value in between meets it.");
  }
  else if (!report.key.whole)
  {
    out += wrapped("Beyond the open end the bracket may still hold the target: the key says little "
                   "there. --accuracy asks for narrower brackets, --between for another range.");
  }
  return out;
}

std::vector<std::string> row(const SeekReport& report, const post::TriedValue& one)
{
  const std::string at = post::count(one.at * report.key.scale, 6);
  if (!one.fault.empty())
  {
    return {at, "none"};
  }
  const post::Ends ends = post::ends(one.quantity, unit_of(report));
  return {at, post::engineering(one.quantity, unit_of(report)), ends.lower, ends.upper,
          ends.unit + (one.accuracy_reached ? "" : " !")};
}

std::string table_text(const SeekReport& report, const std::vector<post::TriedValue>& values)
{
  Table table;
  const std::string key = report.key.keys.front();
  const std::string name = key.substr(key.find('.') + 1);
  table.rows.push_back({plain(report.key.unit.empty() ? name : name + " [" + report.key.unit + "]"),
                        quantity_of(report.show).label, "lower", "upper", ""});
  table.left = {4};
  for (const post::TriedValue& one : values)
  {
    table.rows.push_back(row(report, one));
  }
  return text(table);
}

/// The extremes found over the range.
std::string unmet_text(const SeekReport& report)
{
  const post::TriedValue *least = nullptr, *most = nullptr;
  for (const post::TriedValue& one : report.found.tried)
  {
    if (one.fault.empty())
    {
      least = !least || one.quantity.lower < least->quantity.lower ? &one : least;
      most = !most || one.quantity.upper > most->quantity.upper ? &one : most;
    }
  }
  std::string out = heading("Not met", "ends bounded, at the values tried");
  if (!least)
  {
    return out +
           wrapped("No value tried could be solved: " + plain(report.found.tried.front().fault));
  }
  const post::Ends low = post::ends(least->quantity, unit_of(report)),
                   high = post::ends(most->quantity, unit_of(report));
  return out +
         wrapped(fmt::format(
             "From {} to {} of {}, the {} of {} runs from {} (at {}) to {} (at {}); {} is not "
             "among it.",
             value(report, report.key.from), value(report, report.key.to), key_name(report),
             quantity_of(report.show).label, plain(report.owner), with_unit(low.lower, low.unit),
             value(report, least->at), with_unit(high.upper, high.unit), value(report, most->at),
             post::engineering(report.question.target, unit_of(report), 4))) +
         wrapped("Give another range with --between, or search by another key.");
}

/// Why the range ends where it does.
std::string range_text(const SeekReport& report)
{
  std::string out;
  if (!report.key.below.empty())
  {
    out += wrapped(
        fmt::format("Below {}: {}", value(report, report.key.from), plain(report.key.below)), 2, 4);
  }
  if (!report.key.above.empty())
  {
    out += wrapped(
        fmt::format("Above {}: {}", value(report, report.key.to), plain(report.key.above)), 2, 4);
  }
  return out;
}

std::string meaning_text(const SeekReport& report)
{
  std::string out;
  if (report.found.value && report.key.from > 0.0 && report.found.slope != 0.0)
  {
    out +=
        wrapped(fmt::format("There, 1 % more of {} changes the {} by {:+.2g} % [estimated].",
                            key_name(report), quantity_of(report.show).label, report.found.slope));
  }
  for (const auto& [a, b] : report.found.others)
  {
    out += wrapped(fmt::format("Another value that meets it lies between {} and {}.",
                               value(report, a), value(report, b)));
  }
  return out;
}

} // namespace

std::string seek_status(const SeekReport& report)
{
  if (!report.found.value)
  {
    return "not met";
  }
  const bool reached = std::ranges::all_of(report.found.tried, [](const post::TriedValue& one)
                                           { return !one.fault.empty() || one.accuracy_reached; });
  return reached ? "ok" : "accuracy not reached";
}

std::string seek_text(const SeekReport& report)
{
  const std::string title = plain(report.searched.title);
  std::string out = wrapped(title, 0, 0) +
                    std::string(static_cast<std::size_t>(std::min(width(title), page_width)), '-') +
                    "\n" + heading("Wanted") +
                    wrapped(wish(report) + ", by " + key_name(report), 2, 4) +
                    wrapped(fmt::format("looked for from {} to {}", value(report, report.key.from),
                                        value(report, report.key.to))) +
                    range_text(report);
  out += report.found.value ? found_text(report) : unmet_text(report);
  if (!report.found.neighbours.empty())
  {
    out +=
        heading("Nearest whole numbers", "bounded: the true value lies between lower and upper") +
        table_text(report, report.found.neighbours);
  }
  out += heading("Values tried", "bounded: the true value lies between lower and upper") +
         table_text(report, report.found.tried) + wrapped(report.method) + meaning_text(report);
  if (seek_status(report) == "accuracy not reached")
  {
    out += wrapped(fmt::format("! The bracket holds, but is wider than the {} asked for.",
                               post::fine_percent(report.accuracy_asked)));
  }
  return out;
}

} // namespace cases
