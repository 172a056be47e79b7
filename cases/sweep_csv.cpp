// Points as lines of comma-separated values, for spreadsheets and scripts.
#include "cases/sweep_report.hpp"
#include "post/csv_cell.hpp"

#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace cases
{

namespace
{

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

void add(std::string& line, const std::string& text)
{
  line += (line.empty() ? "" : ",") + post::csv_cell(text);
}

void add(std::string& line, const post::Bounded& bounded)
{
  for (const double one : {bounded.value, bounded.lower, bounded.upper})
  {
    add(line, fmt::format("{}", one));
  }
}

std::string header(const SweepReport& report)
{
  std::string line;
  for (const Varied& one : report.varied)
  {
    add(line, keys_text(one) + (one.unit.empty() ? "" : " [" + one.unit + "]"));
  }
  add(line, "status");
  if (const post::SweptPoint* first = first_built(report))
  {
    for (const post::WindingResult& winding : first->windings)
    {
      for (const char* what :
           {"inductance [H]", "lower [H]", "upper [H]", "air inductance [H]", "air lower [H]",
            "air upper [H]", "apparent permeability", "inductance per turn squared [H]"})
      {
        add(line, winding.name + " " + what);
      }
    }
    for (std::size_t i = 0; i < first->mutual.size(); ++i)
    {
      for (std::size_t j = i + 1; j < first->mutual.size(); ++j)
      {
        const std::string pair = first->windings[i].name + " - " + first->windings[j].name;
        for (const char* what : {" mutual [H]", " mutual lower [H]", " mutual upper [H]"})
        {
          add(line, pair + what);
        }
      }
    }
  }
  for (const post::SweptQuantity& one : quantities_of(report.swept.points))
  {
    const std::string label = one.of + " " + quantity_of(one.word).label,
                      unit = one.unit.empty() ? "" : " [" + one.unit + "]";
    add(line, label + unit);
    for (const char* what : {" lower", " upper"})
    {
      if (one.standing == post::Standing::bounded)
      {
        add(line, fmt::format("{}{}{}", label, what, unit));
      }
    }
  }
  for (const std::string& name : report.beside)
  {
    add(line, "formula: " + name);
  }
  return line + "\n";
}

/// An empty cell where there is no number.
void add_number(std::string& line, double value)
{
  line += "," + (std::isfinite(value) ? fmt::format("{}", value) : "");
}

std::string status(const post::SweptPoint& point)
{
  return !point.fault.empty()     ? "not built: " + point.fault
         : point.accuracy_reached ? "ok"
                                  : "accuracy not reached";
}

/// A point without numbers has a short line padded with empty cells.
std::string line(const SweepReport& report, std::size_t i, std::size_t columns,
                 const std::vector<post::SweptQuantity>& quantities)
{
  const post::SweptPoint& point = report.swept.points[i];
  std::string line;
  const std::vector<std::size_t> at = indices(report.varied, i);
  for (std::size_t k = 0; k < at.size(); ++k)
  {
    const VariedValue& value = report.varied[k].values[at[k]];
    add(line, report.varied[k].numeric ? fmt::format("{}", value.shown) : value.text);
  }
  add(line, status(point));
  for (const post::WindingResult& winding : point.windings)
  {
    add(line, winding.inductance);
    add(line, winding.air_inductance);
    add(line, fmt::format("{}", winding.apparent_permeability));
    add(line, fmt::format("{}", winding.inductance_per_turn_squared));
  }
  for (std::size_t a = 0; a < point.mutual.size(); ++a)
  {
    for (std::size_t b = a + 1; b < point.mutual.size(); ++b)
    {
      add(line, point.mutual[a][b]);
    }
  }
  line += std::string(point.fault.empty() ? 0 : columns, ',');
  for (const post::SweptQuantity& one : quantities)
  {
    const auto found = shown(point, one.of, one.word);
    const post::Bounded value = found ? found->value : post::Bounded{nothing, nothing, nothing};
    add_number(line, value.value);
    if (one.standing == post::Standing::bounded)
    {
      const bool held = found && found->standing == post::Standing::bounded;
      add_number(line, held ? value.lower : nothing);
      add_number(line, held ? value.upper : nothing);
    }
  }
  for (std::size_t f = 0; f < report.beside.size(); ++f)
  {
    add_number(line, f < point.formulas.size() ? point.formulas[f].value.value : nothing);
  }
  return line + "\n";
}

} // namespace

std::string sweep_csv(const SweepReport& report)
{
  const post::SweptPoint* first = first_built(report);
  const std::size_t windings = first ? first->windings.size() : 0;
  const std::size_t pairs = first && !first->mutual.empty() ? windings * (windings - 1) / 2 : 0;
  const std::vector<post::SweptQuantity> quantities = quantities_of(report.swept.points);
  std::string out = header(report);
  for (std::size_t i = 0; i < report.swept.points.size(); ++i)
  {
    out += line(report, i, 8 * windings + 3 * pairs, quantities);
  }
  return out;
}

} // namespace cases
