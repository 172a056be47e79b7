// One line a winding of each case, over the frequencies the case itself has.
#include "cases/compare_sections.hpp"
#include "cases/table.hpp"
#include "post/chart.hpp"

namespace cases
{

namespace
{

post::Chart chart(std::span<const post::Result> results, std::span<const std::string> names,
                  bool resistance)
{
  post::Chart made;
  const std::string what = resistance ? "resistance" : "inductance";
  made.title = std::to_string(results.size()) + " cases side by side";
  made.subtitle = what + " of every winding over frequency";
  made.x = {"frequency", "Hz", true};
  made.y = {what, resistance ? "ohm" : "H", resistance};
  for (std::size_t i = 0; i < results.size(); ++i)
  {
    const auto& over = results[i].frequencies;
    for (std::size_t w = 0; over.size() > 1 && w < over.front().windings.size(); ++w)
    {
      const std::string& name = over.front().windings[w].name;
      post::ChartLine line;
      line.label = names[i] + (over.front().windings.size() > 1 ? ": " + plain(name) : "");
      for (const post::FrequencyResult& at : over)
      {
        const post::WindingImpedance& one = at.windings[w];
        const double y = resistance ? one.resistance : one.inductance;
        if (y > 0.0 && y < 1e300)
        {
          line.x.push_back(at.frequency);
          line.y.push_back(y);
        }
      }
      if (line.x.size() > 1)
      {
        made.lines.push_back(std::move(line));
      }
    }
  }
  return made;
}

} // namespace

std::vector<std::pair<std::string, post::Chart>>
comparison_charts(std::span<const post::Result> results, std::span<const std::string> names)
{
  std::vector<std::pair<std::string, post::Chart>> charts;
  for (const bool resistance : {true, false})
  {
    post::Chart made = chart(results, names, resistance);
    if (!made.lines.empty())
    {
      charts.emplace_back(resistance ? "comparison-resistance" : "comparison-inductance",
                          std::move(made));
    }
  }
  return charts;
}

std::vector<std::string> write_comparison_charts(const std::filesystem::path& folder,
                                                 std::span<const post::Result> results,
                                                 std::span<const std::string> names)
{
  std::vector<std::string> files;
  for (const auto& [name, made] : comparison_charts(results, names))
  {
    for (const std::string& file : post::write_chart(folder, name, made))
    {
      files.push_back(file);
    }
  }
  return files;
}

} // namespace cases
