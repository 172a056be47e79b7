// A chart as plain data, and the two files it becomes: NAME.svg and NAME.png.
//
// Knows numbers and words, not where they come from. Drawn by the module in post/drawing/.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace post
{

/// @brief One axis. A missing end is chosen from what is drawn; beyond a given end all is cut off.
struct ChartAxis
{
  std::string label; ///< Without the unit: "inductance".
  std::string unit;  ///< Of the values: "H", "m" get a prefix here; "%", "deg", "" stay.
  bool logarithmic = false;
  std::optional<double> from = {};
  std::optional<double> to = {};
  std::vector<std::string> names = {}; ///< Stand at 1, 2, 3 ... instead of numbers.
};

/// @brief A curve through points in the given order, its label at its end; NaN in y breaks it.
struct ChartLine
{
  std::string label;
  std::vector<double> x, y;
  std::optional<std::size_t> beside = {}; ///< Drawn thin, in the colour of that line.
  int fine_dashes = 0;                    ///< 0 to 2, which thin lines it belongs to.
};

/// @brief Thin lines in words, by their dashes: "dotted", "dashed", "dash and dot".
inline constexpr const char* fine_dash_words[] = {"dotted", "dashed", "dash and dot"};

/// @brief A tint between two curves, lower <= upper; an infinite one reaches the frame.
struct ChartBand
{
  std::string label;
  std::vector<double> x, lower, upper;
};

/// @brief Marks with interval bars; an infinite end is drawn as an arrow. The k-th set has the
///        colour of the k-th line; one without points or label only keeps the count.
struct ChartPoints
{
  std::string label;
  std::vector<double> x, y;
  std::vector<double> lower = {}, upper = {};     ///< Of y: both empty, or one a point.
  std::vector<double> x_lower = {}, x_upper = {}; ///< Likewise of x.
};

/// @brief A value over a grid in classes, pale to dark; NaN is left white.
struct ChartMap
{
  std::string label;              ///< Above the key of classes.
  std::vector<double> x, y;       ///< Ascending, at least two each.
  std::vector<double> values;     ///< values[row of y * x.size() + column of x].
  std::vector<double> limits;     ///< Ascending; on a limit a value is in the class below it.
  std::vector<std::string> words; ///< Of the classes, one more than limits: "within 1 %" ...
  bool cells = false;             ///< A filled cell about each grid point, not contours between.
};

struct Chart
{
  std::string title;
  std::string subtitle;
  ChartAxis x;
  ChartAxis y;
  std::vector<ChartBand> bands = {};
  std::vector<ChartLine> lines = {};
  std::vector<ChartPoints> points = {};
  std::optional<ChartMap> map = {};
  std::vector<std::string> notes = {}; ///< Sentences below the chart.
};

/// @brief Writes NAME.svg and NAME.png, whole or not at all, into `folder`, made if missing.
/// @return The two file names, relative to the folder.
/// @throws std::invalid_argument saying what of the chart cannot be drawn.
/// @throws std::runtime_error naming the path, or the missing drawing module.
std::vector<std::string> write_chart(const std::filesystem::path& folder, const std::string& name,
                                     const Chart& chart);

/// @brief The bytes of NAME.svg alone, for a page to hold; throws likewise.
std::string chart_svg(const Chart& chart);

} // namespace post
