// The module's one door.
#include "post/drawing/drawn.hpp"
#include "post/drawing/field_file.hpp"
#include "post/drawing/page.hpp"

const std::size_t ferrule_drawing_stamp = post::drawing_stamp;

void ferrule_drawing_draw(const post::Sample& sample, const mesh::Layout& layout,
                          const post::Result& result, post::Drawn& drawn)
{
  using namespace post::drawing;
  drawn.field = field_file(sample);
  const Page sheet = page(sample, layout, result);
  Canvas vectors(sheet.width, sheet.height);
  draw(vectors, sheet);
  drawn.svg = vectors.bytes();
  Canvas pixels(sheet.width, sheet.height, 2.0);
  draw(pixels, sheet);
  drawn.png = pixels.bytes();
}
