// The order on a chart's sheet, from the top: title, subtitle, y axis's title, frame with its
// ticks, x axis's title, key of the map, notes.
#include "post/drawing/chart_page.hpp"
#include "post/drawing/chart_map.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/style.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace post::drawing
{

namespace
{

constexpr double frame_height = 400.0; // [pt], as are all here
constexpr double axis_title = 26.0;    // between the lines above and the frame
constexpr double tick_line = 13.0;
const Font tick_font = {10.0, quiet};

struct Extent
{
  Range x, y;
};

Extent extent(const Chart& chart)
{
  Extent all;
  const auto hold = [](Range& range, const std::vector<double>& values)
  {
    for (const double value : values)
      range.hold(value);
  };
  // An end at or below zero on a logarithmic axis is open, as an infinite one is.
  const auto hold_ends = [](Range& range, const std::vector<double>& values, bool logarithmic)
  {
    for (const double value : values)
      range.hold(logarithmic && value <= 0.0 ? -HUGE_VAL : value);
  };
  for (const ChartBand& band : chart.bands)
  {
    hold(all.x, band.x);
    hold_ends(all.y, band.lower, chart.y.logarithmic);
    hold_ends(all.y, band.upper, chart.y.logarithmic);
  }
  for (const ChartLine& line : chart.lines)
  {
    hold(all.x, line.x);
    hold(all.y, line.y);
  }
  for (const ChartPoints& points : chart.points)
  {
    hold(all.x, points.x);
    hold(all.y, points.y);
    hold_ends(all.x, points.x_lower, chart.x.logarithmic);
    hold_ends(all.x, points.x_upper, chart.x.logarithmic);
    hold_ends(all.y, points.lower, chart.y.logarithmic);
    hold_ends(all.y, points.upper, chart.y.logarithmic);
  }
  if (chart.map)
  {
    const MapGrid grid = map_grid(*chart.map, chart.x.logarithmic, chart.y.logarithmic);
    hold(all.x, grid.x);
    hold(all.y, grid.y);
  }
  return all;
}

double widest(const std::vector<Tick>& ticks, Canvas& measure)
{
  double width = 0.0;
  for (const Tick& tick : ticks)
    width = std::max(width, measure.text_width(tick.words, tick_font));
  return width;
}

/// @brief The frame between what stands left and right of it, and both axes laid along it.
void place_frame(ChartPage& page, double top, Canvas& measure)
{
  const Chart& chart = page.chart;
  const Extent all = extent(chart);
  const bool scattered = chart.lines.empty() && chart.bands.empty() && !chart.map;
  page.y = ruler(chart.y, all.y, top + frame_height, top, 8, !chart.map);
  const double left = margin + widest(page.y.ticks, measure) + 8.0;
  const double right = sheet_width - margin - std::max(label_room(chart, measure), 8.0);
  page.frame = {left, top, right - left, frame_height};
  page.x = ruler(chart.x, all.x, left, right, static_cast<int>((right - left) / 75.0), scattered);
  if (chart.x.names.empty() || page.x.ticks.empty())
    return;
  const double slot = std::abs(page.x.at(2.0) - page.x.at(1.0));
  page.name_rows = static_cast<int>(
      std::clamp(std::ceil((widest(page.x.ticks, measure) + 8.0) / slot), 1.0, 3.0));
}

/// @brief Classes of the map in rows of the sheet's width; returns the last baseline.
double place_map_key(ChartPage& page, double y, Canvas& measure)
{
  if (!page.chart.map)
    return y;
  const ChartMap& map = *page.chart.map;
  page.map_label = {margin, y += 22.0};
  double x = margin;
  y += 17.0;
  for (std::size_t k = 0; k < map.words.size(); ++k)
  {
    const double width = 26.0 + measure.text_width(map.words[k], label_font);
    if (x > margin && x + width > sheet_width - margin)
    {
      x = margin;
      y += 17.0;
    }
    page.map_key.push_back({{x, y}, static_cast<int>(k), map.words[k]});
    x += width + 20.0;
  }
  return y;
}

void draw_axes(Canvas& canvas, const ChartPage& page)
{
  const Box& box = page.frame;
  const double low = box.y + box.height;
  std::vector<Line> ticks;
  for (const Tick& tick : page.x.ticks)
  {
    const double x = page.x.at(tick.value);
    const auto row = static_cast<int>(&tick - page.x.ticks.data()) % page.name_rows;
    ticks.push_back({{{x, low}, {x, low + (tick.words.empty() ? 2.5 : 5.0) + row * tick_line}}});
    canvas.text({x, low + 16.0 + row * tick_line}, tick.words, tick_font, Align::middle);
  }
  for (const Tick& tick : page.y.ticks)
  {
    const double y = page.y.at(tick.value);
    ticks.push_back({{{box.x - (tick.words.empty() ? 2.5 : 5.0), y}, {box.x, y}}});
    canvas.text({box.x - 8.0, y + 3.5}, tick.words, tick_font, Align::right);
  }
  canvas.stroke(ticks, {quiet, 0.6});
  const Line rim = outline(box);
  canvas.stroke({&rim, 1}, {rim_colour, 0.7});
  canvas.text({margin, box.y - 11.0}, page.y.title, label_font);
  canvas.text({box.x + box.width, low + 21.0 + page.name_rows * tick_line}, page.x.title,
              label_font, Align::right);
}

void draw_map_key(Canvas& canvas, const ChartPage& page)
{
  if (!page.chart.map)
    return;
  const std::vector<Colour> colours = map_colours(*page.chart.map);
  canvas.text(page.map_label, page.chart.map->label, label_font);
  for (const MapKeyEntry& entry : page.map_key)
  {
    const Line swatch = outline({entry.at.x, entry.at.y - 9.0, 20.0, 10.5});
    canvas.fill({&swatch, 1}, colours[entry.index]);
    canvas.stroke({&swatch, 1}, {quiet, 0.5});
    canvas.text({entry.at.x + 26.0, entry.at.y}, entry.words, label_font);
  }
}

double above_frame(const ChartPage& page)
{
  return margin - 8.0 + title_line * double(page.title.size()) +
         headline_line * double(page.subtitle.size()) + (page.subtitle.empty() ? 4.0 : 12.0) +
         axis_title;
}

/// @brief Baseline of the x axis's title.
double below_axis(const ChartPage& page)
{
  return page.frame.y + page.frame.height + 21.0 + page.name_rows * tick_line;
}

} // namespace

ChartPage chart_page(const Chart& chart)
{
  Canvas measure(sheet_width, sheet_width, 1e-2);
  ChartPage page;
  page.width = sheet_width;
  page.chart = chart;
  page.title = lines_of({chart.title}, title_font, 2, measure);
  page.subtitle = lines_of({chart.subtitle}, headline_font, 3, measure);
  place_frame(page, above_frame(page), measure);
  place_labels(page, measure);
  if (page.chart.map)
    page.map = map_image(*page.chart.map, page.x, page.y, page.frame, 2.0);
  const double key = place_map_key(page, below_axis(page), measure);
  std::vector<std::string> below = chart.notes;
  if (page.labels.empty() && label_room(chart, measure) > 0.0)
    below.push_back("Too many labels to name all that is drawn.");
  page.notes = lines_of(below, note_font, 20, measure);
  page.height = key + 8.0 + note_line * double(page.notes.size()) + margin - 6.0;
  return page;
}

void draw(Canvas& canvas, const ChartPage& page)
{
  const double below_title = column(canvas, margin - 8.0, page.title, title_font, title_line);
  column(canvas, below_title + 2.0, page.subtitle, headline_font, headline_line);
  draw_contents(canvas, page);
  draw_axes(canvas, page);
  draw_end_labels(canvas, page);
  draw_map_key(canvas, page);
  const double key = page.map_key.empty() ? below_axis(page) : page.map_key.back().at.y;
  column(canvas, key + 8.0, page.notes, note_font, note_line);
}

} // namespace post::drawing
