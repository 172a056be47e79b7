// The sheet of a chart: all of it is placed once, then drawn alike as vectors and as pixels.
#pragma once

#include "post/chart.hpp"
#include "post/drawing/canvas.hpp"
#include "post/drawing/ruler.hpp"

#include <optional>
#include <string>
#include <vector>

namespace post::drawing
{

/// @brief A label beside the frame with a sample of what it names.
struct EndLabel
{
  enum class Kind
  {
    band,
    line,
    points
  };
  Kind kind = Kind::line;
  int index = 0;                  ///< Of its kind.
  std::vector<std::string> words; ///< Lines of text.
  double y = 0.0;                 ///< Middle of its height [pt].
  std::optional<Spot> end = {};   ///< Last spot of a line in the frame [pt].
};

/// @brief One line of the sheet with classes of a map.
struct MapKeyEntry
{
  Spot at; ///< Left end of its sample [pt].
  int index = 0;
  std::string words;
};

struct ChartPage
{
  double width = 0.0; ///< [pt]
  double height = 0.0;
  Chart chart;
  std::vector<std::string> title, subtitle, notes; ///< Lines.
  Box frame;
  Ruler x, y;
  int name_rows = 1; ///< Over how many rows the names below the x axis are staggered.
  std::vector<EndLabel> labels;
  std::vector<MapKeyEntry> map_key;
  Spot map_label; ///< [pt]
  Image map;
};

/// @brief Everything placed.
ChartPage chart_page(const Chart& chart);

void draw(Canvas& canvas, const ChartPage& page);

/// @brief Bands, lines, points and map, cut at the frame.
void draw_contents(Canvas& canvas, const ChartPage& page);

/// @brief The pieces of a line in the frame, broken where y is NaN.
std::vector<Line> pieces(const ChartLine& line, const ChartPage& page);

/// @brief Labels with their heights spread so that none covers another; sets page.labels.
void place_labels(ChartPage& page, Canvas& measure);
/// @brief Width of the widest label with its sample and leader [pt]; 0 where there is none.
double label_room(const Chart& chart, Canvas& measure);
void draw_end_labels(Canvas& canvas, const ChartPage& page);

} // namespace post::drawing
