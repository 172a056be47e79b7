// One line a winding, piece of wire or toroid, in three charts that share the frequency axis; and
// what the next tool reads.
#include "cases/frequency_files.hpp"

#include "cases/table.hpp"
#include "post/files.hpp"
#include "post/insertion.hpp"

#include <functional>

namespace cases
{

namespace
{

struct Drawn
{
  const char* name;
  const char* what;
  const char* unit;
  bool logarithmic;
  std::function<double(const post::WindingImpedance&)> value;
};

post::Chart chart(const Drawn& drawn, const std::string& title,
                  const std::vector<post::FrequencyResult>& results)
{
  post::Chart made;
  made.title = plain(title);
  made.subtitle = std::string(drawn.what) + " over frequency";
  made.x = {"frequency", "Hz", true};
  made.y = {drawn.what, drawn.unit, drawn.logarithmic};
  for (const post::FrequencyResult& at : results)
  {
    const std::vector<post::WindingImpedance> all = post::one_ports(at);
    made.lines.resize(all.size());
    for (std::size_t i = 0; i < all.size(); ++i)
    {
      made.lines[i].label = plain(all[i].name);
      made.lines[i].x.push_back(at.frequency);
      made.lines[i].y.push_back(drawn.value(all[i]));
    }
  }
  return made;
}

/// A logarithmic axis needs positive values, any axis finite ones.
bool drawable(const post::Chart& chart)
{
  for (const post::ChartLine& line : chart.lines)
  {
    for (const double y : line.y)
    {
      if (!(y > 0.0 && y < 1e300))
      {
        return false;
      }
    }
  }
  return true;
}

} // namespace

std::vector<std::string> write_frequency_files(const std::filesystem::path& folder,
                                               const post::Result& result)
{
  const std::vector<post::FrequencyResult>& results = result.frequencies;
  const std::vector<post::Insertion> inserted = post::insertions(result);
  if (inserted.empty())
  {
    return {}; // a background alone has no impedance
  }
  std::vector<std::string> names = {"insertion.csv"};
  post::write_text(folder / names[0], post::insertion_table(inserted, result.line));
  names.emplace_back("impedance.csv");
  post::write_text(folder / names.back(), post::impedance_table(results));
  // How wires and toroids couple to others is not known: no ports for several.
  if (!results.front().windings.empty() || post::one_ports(results.front()).size() == 1)
  {
    const auto [ports, ending] = post::touchstone(results, result.line);
    names.push_back("impedance" + ending);
    post::write_text(folder / names.back(), ports);
  }
  if (results.size() < 2)
  {
    return names;
  }
  names.emplace_back("ladder.cir");
  post::write_text(folder / names.back(), post::netlist(result.ladders));
  for (const auto& [drawn, made] : frequency_charts(result))
  {
    for (const std::string& name : post::write_chart(folder, drawn, made))
    {
      names.push_back(name);
    }
  }
  return names;
}

std::vector<std::pair<std::string, post::Chart>> frequency_charts(const post::Result& result)
{
  const std::vector<post::FrequencyResult>& results = result.frequencies;
  std::vector<std::pair<std::string, post::Chart>> charts;
  if (results.size() < 2 || post::one_ports(results.front()).empty())
  {
    return charts;
  }
  const std::vector<Drawn> all = {
      {"resistance", "resistance", "ohm", true,
       [](const post::WindingImpedance& one) { return one.resistance; }},
      {"inductance", "inductance", "H", false,
       [](const post::WindingImpedance& one) { return one.inductance; }},
      {"quality", "quality factor", "", true,
       [](const post::WindingImpedance& one) { return one.quality(); }}};
  for (const Drawn& drawn : all)
  {
    post::Chart made = chart(drawn, result.title, results);
    if (drawable(made)) // without loss there is neither resistance nor Q to draw
    {
      charts.emplace_back(drawn.name, std::move(made));
    }
  }
  return charts;
}

} // namespace cases
