// The order on the sheet, from the top: title, inductances, names, picture, key, notes.
#include "post/drawing/page.hpp"
#include "post/drawing/colours.hpp"
#include "post/drawing/key.hpp"
#include "post/drawing/notes.hpp"
#include "post/drawing/sheet.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace post::drawing
{

namespace
{

constexpr double tallest = 590.0;    // picture, in points like all here
constexpr double label_space = 30.0; // names above the picture
constexpr double key_space = 58.0;   // scale bar and key below it

void draw_labels(Canvas& canvas, const Page& page)
{
  const double baseline = page.frame.box.y - label_space + 12.0;
  std::vector<Line> leaders;
  for (const Label& label : page.labels.row)
    leaders.push_back({{{label.x, baseline + 4.0}, label.target}, false});
  canvas.stroke(leaders, {{1.0, 1.0, 1.0, 0.85}, 2.4});
  canvas.stroke(leaders, {ink, 0.7});
  for (const Label& label : page.labels.row)
  {
    const auto [x, y] = label.target;
    const Line dot{{{x, y}, {x, y}}, false}; // of no length: its round caps are the dot
    canvas.stroke({&dot, 1}, {{1.0, 1.0, 1.0}, 5.4});
    canvas.stroke({&dot, 1}, {ink, 3.8});
    canvas.text({label.x, baseline}, label.words, label_font, Align::middle);
  }
}

void draw_picture(Canvas& canvas, const Page& page)
{
  const Box& box = page.frame.box;
  canvas.clip(box);
  canvas.image(box, page.field);
  canvas.stroke(page.flux.lines, {{0.10, 0.12, 0.20, 0.75}, 0.7});
  draw_bodies(canvas, page.bodies);
  canvas.unclip();
  const Line rim = outline(box);
  canvas.stroke({&rim, 1}, {rim_colour, 0.6});
  draw_axis(canvas, page.frame);
  canvas.clip(box);
  draw_currents(canvas, page.bodies, page.frame);
  canvas.unclip();
}

} // namespace

Page begun_page(const Sample& sample, const mesh::Layout& layout, const Result& result,
                const std::vector<std::string>& headline)
{
  Canvas measure(sheet_width, sheet_width, 1e-2);
  Page page;
  page.width = sheet_width;
  page.title = lines_of({result.title}, title_font, 2, measure);
  page.headline = lines_of(headline, headline_font, 8, measure);
  const double top = margin - 8.0 + title_line * double(page.title.size()) +
                     headline_line * double(page.headline.size()) + 14.0 + label_space;
  page.frame = frame(layout, sample, {margin, top, sheet_width - 2 * margin, tallest});
  page.bodies = bodies(layout, result, sample, page.frame);
  page.labels = labels(page.bodies, page.frame, measure, label_font);
  return page;
}

void close_page(Page& page, std::vector<std::string> notes)
{
  Canvas measure(sheet_width, sheet_width, 1e-2);
  if (!page.labels.legend.empty())
    notes.insert(notes.begin(), fmt::format("{}", fmt::join(page.labels.legend, "; ")));
  page.notes = lines_of(notes, note_font, 30, measure);
  page.height = page.frame.box.y + page.frame.box.height + key_space +
                note_line * double(page.notes.size()) + margin;
}

Page page(const Sample& sample, const mesh::Layout& layout, const Result& result)
{
  Page page = begun_page(sample, layout, result, headline(result));
  const Raster field = raster(sample, page.frame, pixels_per_point);
  page.flux = flux_picture(sample, page.frame, field);
  page.scale = scale(field);
  page.colours = colours(static_cast<int>(page.scale.edges.size()) + 1);
  page.field = coloured(field, page.scale, page.colours);
  close_page(page, notes(result, page.flux, page.scale, quantile(field, 1.0)));
  return page;
}

void draw(Canvas& canvas, const Page& page)
{
  const double below_title = column(canvas, margin - 8.0, page.title, title_font, title_line);
  column(canvas, below_title + 4.0, page.headline, headline_font, headline_line);
  draw_picture(canvas, page);
  draw_labels(canvas, page);
  const Box& box = page.frame.box;
  const double below = box.y + box.height;
  draw_scale_bar(canvas, {box.x, below + 34.0}, 0.25 * box.width, page.frame.points_per_metre);
  const double key_width = std::min(340.0, 0.6 * box.width);
  draw_key(canvas, {box.x + box.width - key_width, below + 28.0, key_width, 9.0}, page.scale,
           page.colours);
  column(canvas, below + key_space, page.notes, note_font, note_line);
}

} // namespace post::drawing
