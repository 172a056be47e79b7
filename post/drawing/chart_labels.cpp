// Labels to the right of the frame, each as near as can be to the end of what it names.
#include "post/drawing/chart_page.hpp"
#include "post/drawing/labels.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/style.hpp"
#include "post/drawing/words.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace post::drawing
{

namespace
{

constexpr double leader = 16.0, sample = 22.0, space = 6.0, widest_words = 150.0; // [pt]
constexpr double line_height = 12.5;                                              // [pt]

EndLabel label_of(EndLabel::Kind kind, std::size_t index, const std::string& words, Canvas& measure)
{
  EndLabel label{kind, static_cast<int>(index), wrapped(words, widest_words, label_font, measure)};
  if (label.words.size() > 3)
  {
    label.words.resize(3);
    label.words.back() += " \u2026";
  }
  return label;
}

/// @brief Everything with a label, in no order yet, heights not set.
std::vector<EndLabel> all_labels(const Chart& chart, Canvas& measure)
{
  std::vector<EndLabel> labels;
  const auto add = [&](EndLabel::Kind kind, const auto& list)
  {
    for (std::size_t k = 0; k < list.size(); ++k)
      if (!list[k].label.empty())
        labels.push_back(label_of(kind, k, list[k].label, measure));
  };
  add(EndLabel::Kind::band, chart.bands);
  add(EndLabel::Kind::line, chart.lines);
  add(EndLabel::Kind::points, chart.points);
  return labels;
}

/// @brief Where the label would stand if it were alone; sets the end of a line.
double wanted_height(EndLabel& label, const ChartPage& page)
{
  const Box& box = page.frame;
  const auto inside = [&](double y) { return std::clamp(y, box.y, box.y + box.height); };
  if (label.kind == EndLabel::Kind::band)
  {
    const ChartBand& band = page.chart.bands[label.index];
    return 0.5 * (inside(page.y.at(band.lower.back())) + inside(page.y.at(band.upper.back())));
  }
  if (label.kind == EndLabel::Kind::points)
  {
    const std::vector<double>& y = page.chart.points[label.index].y;
    double sum = 0.0;
    for (const double value : y)
      sum += inside(page.y.at(value));
    return sum / static_cast<double>(y.size());
  }
  // The rightmost end, so that a line drawn from right to left is named there too.
  for (const Line& piece : pieces(page.chart.lines[label.index], page))
    for (const Spot& end : {piece.spots.front(), piece.spots.back()})
      if (!label.end || end.x >= label.end->x)
        label.end = end;
  return label.end ? label.end->y : box.y + box.height;
}

double height(const EndLabel& label)
{
  return line_height * static_cast<double>(label.words.size());
}

void draw_sample(Canvas& canvas, const EndLabel& label, double x)
{
  const double y = label.y;
  if (label.kind == EndLabel::Kind::band)
    return; // drawn with its page: the tint depends on how many there are
  if (label.kind == EndLabel::Kind::points)
    draw_mark(canvas, {x + 0.5 * sample, y}, label.index);
  else
    canvas.stroke(std::vector<Line>{{{{x, y}, {x + sample, y}}}}, series_pen(label.index));
}

} // namespace

double label_room(const Chart& chart, Canvas& measure)
{
  double words = 0.0;
  for (const EndLabel& label : all_labels(chart, measure))
    for (const std::string& line : label.words)
      words = std::max(words, measure.text_width(line, label_font));
  return words > 0.0 ? leader + sample + space + words : 0.0;
}

void place_labels(ChartPage& page, Canvas& measure)
{
  std::vector<EndLabel> labels = all_labels(page.chart, measure);
  std::vector<double> wanted;
  for (EndLabel& label : labels)
    wanted.push_back(wanted_height(label, page));
  std::vector<std::size_t> order(labels.size());
  std::iota(order.begin(), order.end(), 0u);
  // Lines that meet but for round-off keep their order.
  const auto height_class = [&](std::size_t k) { return std::lround(4.0 * wanted[k]); };
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return height_class(a) < height_class(b); });
  std::vector<double> heights, sorted;
  for (const std::size_t k : order)
  {
    heights.push_back(height(labels[k]));
    sorted.push_back(wanted[k]);
  }
  const Box& box = page.frame;
  const std::vector<double> middles =
      spread(heights, sorted, box.y - 8.0, box.y + box.height + 8.0, 3.0);
  for (std::size_t k = 0; k < middles.size(); ++k)
  {
    page.labels.push_back(labels[order[k]]);
    page.labels.back().y = middles[k];
  }
}

void draw_end_labels(Canvas& canvas, const ChartPage& page)
{
  const double right = page.frame.x + page.frame.width, x = right + leader;
  for (const EndLabel& label : page.labels)
  {
    if (label.end)
    {
      const bool at_frame = label.end->x > right - 1.0;
      const Pen thin = {at_frame ? series_colour(label.index) : rim_colour, 0.7};
      canvas.stroke(std::vector<Line>{{{*label.end, {x - 2.0, label.y}}}}, thin);
    }
    if (label.kind == EndLabel::Kind::band)
    {
      const Line swatch = outline({x, label.y - 4.5, sample, 9.0});
      canvas.fill({&swatch, 1},
                  band_colour(label.index, static_cast<int>(page.chart.bands.size())));
      canvas.stroke({&swatch, 1}, {rim_colour, 0.5});
    }
    draw_sample(canvas, label, x);
    double baseline = label.y - 0.5 * height(label) - 2.6;
    for (const std::string& line : label.words)
      canvas.text({x + sample + space, baseline += line_height}, line, label_font);
  }
}

} // namespace post::drawing
