// What lies in the frame of a chart: tints below, then lines, then points with their bars.
#include "post/drawing/chart_page.hpp"
#include "post/drawing/clipping.hpp"
#include "post/drawing/sheet.hpp"
#include "post/drawing/style.hpp"

#include <algorithm>
#include <cmath>

namespace post::drawing
{

namespace
{

constexpr double cap = 3.5;        ///< Half the width of a bar's end [pt].
constexpr double arrow_head = 7.0; ///< [pt]

void draw_band(Canvas& canvas, const ChartPage& page, int k)
{
  const ChartBand& band = page.chart.bands[k];
  Line area{{}, true};
  for (std::size_t i = 0; i < band.x.size(); ++i)
    area.spots.push_back({page.x.at(band.x[i]), page.y.at(band.upper[i])});
  for (std::size_t i = band.x.size(); i-- > 0;)
    area.spots.push_back({page.x.at(band.x[i]), page.y.at(band.lower[i])});
  const Line shown = clipped_area(area, page.frame);
  canvas.fill({&shown, 1}, band_colour(k, static_cast<int>(page.chart.bands.size())));
}

void draw_lines(Canvas& canvas, const ChartPage& page)
{
  for (std::size_t k = 0; k < page.chart.lines.size(); ++k)
  {
    const std::vector<Line> line = pieces(page.chart.lines[k], page);
    const ChartLine& drawn = page.chart.lines[k];
    const Pen pen = drawn.beside ? fine_pen(static_cast<int>(*drawn.beside), drawn.fine_dashes)
                                 : series_pen(static_cast<int>(k));
    if (!drawn.beside) // a thin one may lie on the line it belongs to
      canvas.stroke(line, {{1.0, 1.0, 1.0, 0.75}, pen.width + 2.0});
    canvas.stroke(line, pen);
  }
}

/// @brief One end of a bar: a cap, an arrow at the frame for an open end, nothing outside it.
/// @param along  Unit vector from the mark to this end.
void draw_bar_end(Canvas& canvas, const ChartPage& page, Spot end, Spot along, bool open,
                  const Pen& pen)
{
  const Spot side{-along.y, along.x};
  const Box& box = page.frame;
  if (open)
  {
    const Spot tip{std::clamp(end.x, box.x, box.x + box.width),
                   std::clamp(end.y, box.y, box.y + box.height)};
    Line head{{tip}, true};
    for (const double sign : {-0.45, 0.45})
      head.spots.push_back({tip.x - arrow_head * (along.x + sign * side.x),
                            tip.y - arrow_head * (along.y + sign * side.y)});
    canvas.fill({&head, 1}, pen.colour);
    return;
  }
  const Spot from{end.x - cap * side.x, end.y - cap * side.y};
  const Spot to{end.x + cap * side.x, end.y + cap * side.y};
  canvas.stroke(clipped_line(std::vector<Spot>{from, to}, box), pen);
}

/// @brief Whether an end lies beyond all numbers of its axis.
bool open(double end, const Ruler& ruler)
{
  return std::isinf(end) || (ruler.logarithmic && end <= 0.0);
}

void draw_bars(Canvas& canvas, const ChartPage& page, const ChartPoints& points, std::size_t i,
               const Pen& pen)
{
  const Spot middle{page.x.at(points.x[i]), page.y.at(points.y[i])};
  const auto bar = [&](Spot end, Spot along, bool is_open)
  {
    canvas.stroke(clipped_line(std::vector<Spot>{middle, end}, page.frame), pen);
    draw_bar_end(canvas, page, end, along, is_open, pen);
  };
  if (!points.lower.empty())
  {
    bar({middle.x, page.y.at(points.lower[i])}, {0.0, 1.0}, open(points.lower[i], page.y));
    bar({middle.x, page.y.at(points.upper[i])}, {0.0, -1.0}, open(points.upper[i], page.y));
  }
  if (!points.x_lower.empty())
  {
    bar({page.x.at(points.x_lower[i]), middle.y}, {-1.0, 0.0}, open(points.x_lower[i], page.x));
    bar({page.x.at(points.x_upper[i]), middle.y}, {1.0, 0.0}, open(points.x_upper[i], page.x));
  }
}

bool holds(const Box& box, Spot spot)
{
  return spot.x >= box.x - 0.5 && spot.x <= box.x + box.width + 0.5 && spot.y >= box.y - 0.5 &&
         spot.y <= box.y + box.height + 0.5;
}

void draw_points(Canvas& canvas, const ChartPage& page)
{
  for (std::size_t k = 0; k < page.chart.points.size(); ++k)
  {
    const ChartPoints& points = page.chart.points[k];
    const int series = static_cast<int>(k);
    for (std::size_t i = 0; i < points.x.size(); ++i)
      draw_bars(canvas, page, points, i, {series_colour(series), 1.2});
    for (std::size_t i = 0; i < points.x.size(); ++i)
      if (const Spot spot{page.x.at(points.x[i]), page.y.at(points.y[i])}; holds(page.frame, spot))
        draw_mark(canvas, spot, series);
  }
}

void draw_grid(Canvas& canvas, const ChartPage& page)
{
  const Box& box = page.frame;
  std::vector<Line> grid;
  if (page.chart.x.names.empty())
    for (const Tick& tick : page.x.ticks)
      if (!tick.words.empty())
        grid.push_back(
            {{{page.x.at(tick.value), box.y}, {page.x.at(tick.value), box.y + box.height}}});
  if (page.chart.y.names.empty())
    for (const Tick& tick : page.y.ticks)
      if (!tick.words.empty())
        grid.push_back(
            {{{box.x, page.y.at(tick.value)}, {box.x + box.width, page.y.at(tick.value)}}});
  canvas.stroke(grid, {{0.35, 0.38, 0.45, 0.16}, 0.7});
}

} // namespace

std::vector<Line> pieces(const ChartLine& line, const ChartPage& page)
{
  std::vector<Line> result;
  std::vector<Spot> chain;
  const auto finish = [&]
  {
    for (Line& piece : clipped_line(chain, page.frame))
      result.push_back(std::move(piece));
    chain.clear();
  };
  for (std::size_t i = 0; i < line.x.size(); ++i)
    if (std::isnan(line.y[i]))
      finish();
    else
      chain.push_back({page.x.at(line.x[i]), page.y.at(line.y[i])});
  finish();
  return result;
}

void draw_contents(Canvas& canvas, const ChartPage& page)
{
  if (page.chart.map)
    canvas.image(page.frame, page.map);
  for (std::size_t k = 0; k < page.chart.bands.size(); ++k)
    draw_band(canvas, page, static_cast<int>(k));
  draw_grid(canvas, page);
  draw_lines(canvas, page);
  draw_points(canvas, page);
}

} // namespace post::drawing
