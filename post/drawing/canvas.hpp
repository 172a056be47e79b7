// A sheet to draw on, in points with y down; pixels or vectors, as bytes of a file at the end.
//
// All of Cairo lies behind it. Knows lines, areas, images and text, and nothing of fields.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

struct _cairo;
struct _cairo_surface;

namespace post::drawing
{

/// @brief A place on the sheet [pt].
struct Spot
{
  double x = 0.0;
  double y = 0.0;
};
/// @brief A rectangle on the sheet [pt].
struct Box
{
  double x = 0.0;
  double y = 0.0;
  double width = 0.0;
  double height = 0.0;
};
/// @brief A chain of straight pieces; `closed` joins its ends.
struct Line
{
  std::vector<Spot> spots;
  bool closed = false;
};
/// @brief sRGB, each 0 to 1.
struct Colour
{
  double red = 0.0;
  double green = 0.0;
  double blue = 0.0;
  double alpha = 1.0;
};
struct Pen
{
  Colour colour;
  double width = 1.0;
  std::vector<double> dashes = {};
};
struct Font
{
  double size = 10.0;
  Colour colour = {};
  bool bold = false;
};
/// @brief Which end of the text lies at the given spot.
enum class Align
{
  left,
  middle,
  right
};
/// @brief Opaque pixels 0x00RRGGBB, row by row from the top.
struct Image
{
  int width = 0;
  int height = 0;
  std::vector<std::uint32_t> pixels;
};

/// @brief One sheet. Text may hold anything: what is no UTF-8 or no printable character is
///        replaced, never passed on.
class Canvas
{
public:
  /// @brief A sheet that becomes an SVG, or a PNG of `pixels_per_point` where that is above 0.
  Canvas(double width, double height, double pixels_per_point = 0.0);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  void stroke(std::span<const Line> lines, const Pen& pen);
  void fill(std::span<const Line> areas, const Colour& colour);
  void image(const Box& where, const Image& pixels);
  void text(Spot at, const std::string& words, const Font& font, Align align = Align::left);
  double text_width(const std::string& words, const Font& font);
  void clip(const Box& box);
  void unclip();
  /// @brief Ends the sheet and returns the file. @throws std::runtime_error when Cairo failed.
  std::string bytes();

private:
  void trace(std::span<const Line> lines);

  bool _pixels;
  std::string _bytes;
  _cairo_surface* _surface;
  _cairo* _pen;
};

/// @brief Valid UTF-8 without control characters; each offence becomes one replacement sign.
std::string printable(const std::string& words);

} // namespace post::drawing
