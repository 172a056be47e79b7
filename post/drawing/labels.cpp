// One row of names above the box; leaders go straight down where the body lies below its name.
#include "post/drawing/labels.hpp"
#include "post/drawing/visible.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

constexpr double gap = 14.0;           ///< Between labels [pt].
constexpr double longest_name = 180.0; ///< [pt]

/// @brief The body's place nearest to column `wanted`, but 24 pt from its ends; the middle of a
/// small one.
Spot target(const Visible& body, double wanted, const Box& box)
{
  const auto shows = [](int row) { return row >= 0; };
  const auto first = std::find_if(body.row.begin(), body.row.end(), shows) - body.row.begin();
  const auto last = body.row.rend() - std::find_if(body.row.rbegin(), body.row.rend(), shows) - 1;
  const double inset = std::min(24.0, 0.5 * double(last - first));
  const double aim = std::clamp(wanted - box.x, double(first) + inset, double(last) - inset);
  int best = static_cast<int>(first);
  for (int column = 0; column < static_cast<int>(body.row.size()); ++column)
    if (shows(body.row[column]) && std::abs(column - aim) < std::abs(best - aim))
      best = column;
  return {box.x + best + 0.5, box.y + body.row[best] + 0.5};
}

/// @brief The name, cut short with an ellipsis where it is too wide for a label.
std::string shortened(const std::string& name, Canvas& canvas, const Font& font)
{
  std::string words = printable(name);
  if (canvas.text_width(words, font) <= longest_name)
    return words;
  while (!words.empty() && canvas.text_width(words + "\u2026", font) > longest_name)
  {
    while (words.size() > 1 && (static_cast<unsigned char>(words.back()) & 0xC0) == 0x80)
      words.pop_back();
    words.pop_back();
  }
  return words + "\u2026";
}

} // namespace

std::vector<double> spread(std::span<const double> widths, std::span<const double> wanted,
                           double low, double high, double gap_between)
{
  // Without widths: x_k - (sum of what lies before it) is to be non-decreasing, so pool what is
  // out of order and take means (isotonic regression), then clamp to the room.
  const std::size_t count = widths.size();
  std::vector<double> before(count, 0.0);
  for (std::size_t k = 1; k < count; ++k)
    before[k] = before[k - 1] + 0.5 * (widths[k - 1] + widths[k]) + gap_between;
  if (count == 0 || before.back() + 0.5 * (widths.front() + widths.back()) > high - low)
    return {};
  struct Pool
  {
    double sum;
    int members;
    double mean() const { return sum / members; }
  };
  std::vector<Pool> pools;
  for (std::size_t k = 0; k < count; ++k)
  {
    pools.push_back({wanted[k] - before[k], 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean())
    {
      pools[pools.size() - 2].sum += pools.back().sum;
      pools[pools.size() - 2].members += pools.back().members;
      pools.pop_back();
    }
  }
  const double least = low + 0.5 * widths.front();
  const double greatest = high - 0.5 * widths.back() - before.back();
  std::vector<double> middles;
  for (const Pool& pool : pools)
    for (int member = 0; member < pool.members; ++member)
      middles.push_back(std::clamp(pool.mean(), least, greatest) + before[middles.size()]);
  return middles;
}

Labels labels(std::span<const Body> bodies, const Frame& frame, Canvas& canvas, const Font& font)
{
  std::vector<Visible> shown = visible(bodies, frame.box);
  std::stable_sort(shown.begin(), shown.end(),
                   [](const Visible& a, const Visible& b) {
                     return std::abs(a.middle - b.middle) > 4.0 ? a.middle < b.middle
                                                                : a.top > b.top;
                   });
  std::vector<std::string> words;
  std::vector<double> wanted;
  for (const Visible& body : shown)
  {
    words.push_back(shortened(bodies[body.body].name, canvas, font));
    wanted.push_back(frame.box.x + body.middle);
  }
  const auto middles_of = [&](double between)
  {
    std::vector<double> widths;
    for (const std::string& word : words)
      widths.push_back(canvas.text_width(word, font));
    return spread(widths, wanted, frame.box.x, frame.box.x + frame.box.width, between);
  };
  Labels result;
  std::vector<double> middles = middles_of(gap);
  if (middles.empty() && !words.empty())
  {
    for (std::size_t k = 0; k < words.size(); ++k)
    {
      std::string entry = fmt::format("{} = {}", k + 1, words[k]);
      for (auto at = entry.find(' '); at != std::string::npos; at = entry.find(' ', at))
        entry.replace(at, 1, "\u00A0"); // no line break inside
      result.legend.push_back(entry);
      words[k] = fmt::format("{}", k + 1);
    }
    middles = middles_of(0.3 * gap);
  }
  for (std::size_t k = 0; k < middles.size(); ++k)
    result.row.push_back({words[k], middles[k], target(shown[k], middles[k], frame.box)});
  if (middles.empty() && !words.empty())
    result.legend = {"Too many bodies to name them all."};
  return result;
}

} // namespace post::drawing
