// Canvas over Cairo: image surface for PNG, SVG surface for vectors, both into memory.
#include "post/drawing/canvas.hpp"

#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace post::drawing
{

namespace
{

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length)
{
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check(cairo_status_t status)
{
  if (status != CAIRO_STATUS_SUCCESS)
    throw std::runtime_error(fmt::format("drawing failed: {}", cairo_status_to_string(status)));
}

void use(cairo_t* pen, const Colour& colour)
{
  cairo_set_source_rgba(pen, colour.red, colour.green, colour.blue, colour.alpha);
}

void use(cairo_t* pen, const Font& font)
{
  // Not "sans": which face that is differs from machine to machine, and this one has all signs.
  cairo_select_font_face(pen, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                         font.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_font_size(pen, font.size);
}

} // namespace

Canvas::Canvas(double width, double height, double pixels_per_point)
    : _pixels(pixels_per_point > 0.0),
      _surface(_pixels ? cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                    static_cast<int>(width * pixels_per_point),
                                                    static_cast<int>(height * pixels_per_point))
                       : cairo_svg_surface_create_for_stream(append, &_bytes, width, height)),
      _pen(cairo_create(_surface))
{
  if (_pixels)
    cairo_scale(_pen, pixels_per_point, pixels_per_point);
  cairo_set_line_cap(_pen, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_join(_pen, CAIRO_LINE_JOIN_ROUND);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF); // same widths in both files
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(_pen, options);
  cairo_font_options_destroy(options);
  use(_pen, Colour{1.0, 1.0, 1.0});
  cairo_paint(_pen);
}

Canvas::~Canvas()
{
  cairo_destroy(_pen);
  cairo_surface_destroy(_surface);
}

void Canvas::trace(std::span<const Line> lines)
{
  cairo_new_path(_pen);
  for (const Line& line : lines)
  {
    cairo_new_sub_path(_pen);
    for (const Spot& spot : line.spots)
      cairo_line_to(_pen, spot.x, spot.y);
    if (line.closed)
      cairo_close_path(_pen);
  }
}

void Canvas::stroke(std::span<const Line> lines, const Pen& pen)
{
  trace(lines);
  use(_pen, pen.colour);
  cairo_set_line_width(_pen, pen.width);
  cairo_set_dash(_pen, pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0.0);
  cairo_stroke(_pen);
}

void Canvas::fill(std::span<const Line> areas, const Colour& colour)
{
  trace(areas);
  use(_pen, colour);
  cairo_fill(_pen);
}

void Canvas::image(const Box& where, const Image& pixels)
{
  cairo_surface_t* copy =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels.width, pixels.height);
  check(cairo_surface_status(copy));
  unsigned char* data = cairo_image_surface_get_data(copy);
  const int stride = cairo_image_surface_get_stride(copy);
  for (int row = 0; row < pixels.height; ++row)
  {
    const auto first = pixels.pixels.begin() + static_cast<std::ptrdiff_t>(row) * pixels.width;
    std::copy(first, first + pixels.width,
              reinterpret_cast<std::uint32_t*>(data + static_cast<std::ptrdiff_t>(row) * stride));
  }
  cairo_surface_mark_dirty(copy);
  cairo_save(_pen);
  cairo_translate(_pen, where.x, where.y);
  cairo_scale(_pen, where.width / pixels.width, where.height / pixels.height);
  cairo_set_source_surface(_pen, copy, 0.0, 0.0);
  cairo_pattern_set_extend(cairo_get_source(_pen), CAIRO_EXTEND_PAD); // no pale rim
  cairo_rectangle(_pen, 0.0, 0.0, pixels.width, pixels.height);
  cairo_fill(_pen);
  cairo_restore(_pen);
  cairo_surface_destroy(copy);
}

double Canvas::text_width(const std::string& words, const Font& font)
{
  use(_pen, font);
  cairo_text_extents_t extents;
  cairo_text_extents(_pen, printable(words).c_str(), &extents);
  return extents.x_advance;
}

void Canvas::text(Spot at, const std::string& words, const Font& font, Align align)
{
  const double width = text_width(words, font);
  const double shift = align == Align::left ? 0.0 : align == Align::middle ? width / 2 : width;
  use(_pen, font.colour);
  cairo_move_to(_pen, at.x - shift, at.y);
  cairo_show_text(_pen, printable(words).c_str());
  cairo_new_path(_pen);
}

void Canvas::clip(const Box& box)
{
  cairo_save(_pen);
  cairo_rectangle(_pen, box.x, box.y, box.width, box.height);
  cairo_clip(_pen);
}

void Canvas::unclip()
{
  cairo_restore(_pen);
}

std::string Canvas::bytes()
{
  check(cairo_status(_pen));
  if (_pixels)
    check(cairo_surface_write_to_png_stream(_surface, append, &_bytes));
  cairo_surface_finish(_surface);
  check(cairo_surface_status(_surface));
  return _bytes;
}

} // namespace post::drawing
