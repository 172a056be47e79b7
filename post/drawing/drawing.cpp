// The module's doors: a solved field's files, and a chart's.
#include "post/drawing/chart_page.hpp"
#include "post/drawing/drawn.hpp"
#include "post/drawing/field_file.hpp"
#include "post/drawing/page.hpp"
#include "post/drawing/revolved.hpp"
#include "post/drawing/solid_picture.hpp"
#include "post/drawing/warm_page.hpp"

const std::size_t ferrule_drawing_stamp = post::drawing_stamp;

namespace
{

/// @brief The sheet drawn twice: as SVG and, unless that is enough, as PNG.
void draw_both(const auto& sheet, auto& drawn)
{
  using namespace post::drawing;
  Canvas vectors(sheet.width, sheet.height);
  draw(vectors, sheet);
  drawn.svg = vectors.bytes();
  if (drawn.only_svg)
  {
    return;
  }
  Canvas pixels(sheet.width, sheet.height, 2.0);
  draw(pixels, sheet);
  drawn.png = pixels.bytes();
}

} // namespace

void ferrule_drawing_draw(const post::Sample& sample, const mesh::Layout& layout,
                          const post::Result& result, post::Drawn& drawn)
{
  if (!drawn.only_svg)
  {
    drawn.field = post::drawing::field_file(sample);
  }
  if (drawn.only_field)
  {
    return;
  }
  if (drawn.revolve)
  {
    drawn.revolved = post::drawing::revolved_file(sample);
  }
  const post::drawing::Page page = post::drawing::page(sample, layout, result);
  if (drawn.revolve)
  {
    drawn.solids = post::drawing::solid_picture(sample, page);
  }
  draw_both(page, drawn);
}

void ferrule_drawing_warm(const post::Sample& sample, const mesh::Layout& layout,
                          const post::Result& result, std::size_t point, post::Drawn& drawn)
{
  draw_both(post::drawing::warm_page(sample, layout, result, point), drawn);
}

void ferrule_drawing_chart(const post::Chart& chart, post::DrawnChart& drawn)
{
  draw_both(post::drawing::chart_page(chart), drawn);
}
