// The report of two wishes.
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "cases/wish.hpp"
#include "post/engineering.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace cases
{

namespace
{

/// "1.70 cm3", "8.1 g", "12.4 mohm".
std::string amount(const Measured& measured, double value)
{
  return measured.aim == Aim::volume ? post::number(value * 1e6, 4) + " cm3"
         : measured.aim == Aim::mass ? post::engineering(value * 1e3, "g", 4)
                                     : post::engineering(value, unit_of(measured), 4);
}

std::string key_name(const SearchKey& key)
{
  return plain(fmt::format("{}", fmt::join(key.keys, ", ")));
}

/// Everything spoken of, each once, in the order of wishes and limits.
std::vector<Measured> spoken_of(const WishReport& report)
{
  std::vector<Measured> list;
  const auto add = [&](const Measured& one)
  {
    if (std::ranges::none_of(list, [&](const Measured& other)
                             { return other.aim == one.aim && other.winding == one.winding; }))
    {
      list.push_back(one);
    }
  };
  for (const Wish& wish : report.wishes)
  {
    add(wish.measured);
  }
  for (const Keep& keep : report.keeps)
  {
    add(keep.measured);
  }
  return list;
}

std::string wanted_text(const WishReport& report)
{
  std::string out = heading("Wanted");
  for (const Wish& wish : report.wishes)
  {
    out += wrapped(fmt::format("{} {}", plain(wish.measured.typed), wish.up ? "up" : "down"));
  }
  for (const Keep& keep : report.keeps)
  {
    out += wrapped(fmt::format("keep {} {} {}", plain(keep.measured.typed),
                               keep.below ? "below" : "above", amount(keep.measured, keep.limit)));
  }
  for (std::size_t k = 0; k < report.keys.size(); ++k)
  {
    const SearchKey& key = report.keys[k];
    out += wrapped(fmt::format("key {}: {} from {} to {}", k + 1, key_name(key),
                               post::count(key.from * key.scale, 5),
                               post::count(key.to * key.scale, 5) +
                                   (key.unit.empty() ? "" : " " + plain(key.unit))),
                   2, 4);
  }
  return out;
}

std::vector<std::string> headings(const WishReport& report, Table& table)
{
  std::vector<std::string> row;
  for (std::size_t k = 0; k < report.keys.size(); ++k)
  {
    const std::string& unit = report.keys[k].unit;
    row.push_back(fmt::format("key {}{}", k + 1, unit.empty() ? "" : " [" + plain(unit) + "]"));
  }
  for (const Measured& one : spoken_of(report))
  {
    std::string name = plain(one.typed);
    std::ranges::replace(name, '_', ' ');
    row.push_back(name);
    if (one.aim == Aim::inductance)
    {
      row.insert(row.end(), {"lower", "upper", ""});
      table.left.push_back(row.size() - 1);
    }
  }
  return row;
}

std::string table_text(const WishReport& report)
{
  Table table;
  table.left.clear();
  table.rows.push_back(headings(report, table));
  for (const Design& design : report.designs)
  {
    std::vector<std::string> row;
    for (std::size_t k = 0; k < report.keys.size(); ++k)
    {
      row.push_back(post::count(design.at[k] * report.keys[k].scale, 4));
    }
    for (const Measured& one : spoken_of(report))
    {
      const post::Bounded value = value_of(one, design);
      if (one.aim != Aim::inductance)
      {
        row.push_back(amount(one, value.value));
        continue;
      }
      const post::Ends ends = post::ends(value, "H");
      row.insert(row.end(), {post::engineering(value, "H"), ends.lower, ends.upper,
                             ends.unit + (design.accuracy_reached ? "" : " !")});
    }
    table.rows.push_back(std::move(row));
  }
  return text(table);
}

std::string trials_text(const WishReport& report)
{
  return wrapped(fmt::format(
             "A search over {} trials ({} of them no sound case), from a few starts, without "
             "derivatives: designs that can be had, and no proof that none is better. No design "
             "here is beaten by another in both wishes.",
             report.tried, report.impossible)) +
         wrapped("Volume and mass are those of parts and coatings, without copper; wire length and "
                 "resistance (copper at the temperature of the case) of the windings drawn turn by "
                 "turn.");
}

} // namespace

std::string wish_text(const WishReport& report)
{
  const std::string title = plain(report.searched.title);
  const std::string out =
      wrapped(title, 0, 0) +
      std::string(static_cast<std::size_t>(std::min(width(title), page_width)), '-') + "\n" +
      wanted_text(report);
  if (report.designs.empty())
  {
    return out + heading("Designs") +
           wrapped(fmt::format("None of {} trials keeps every limit ({} are no sound case). Loosen "
                               "a limit, or let further keys move.",
                               report.tried, report.impossible));
  }
  const bool reached = std::ranges::all_of(report.designs, &Design::accuracy_reached);
  return out +
         heading("Designs", "inductance bounded: the true value lies between lower and upper") +
         table_text(report) + trials_text(report) +
         (reached ? ""
                  : std::string(wrapped(
                        fmt::format("! The bracket holds, but is wider than the {} asked for.",
                                    post::fine_percent(report.accuracy_asked)))));
}

} // namespace cases
