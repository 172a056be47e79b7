// Paragraphs on a sheet.
#include "post/drawing/sheet.hpp"
#include "post/drawing/words.hpp"

namespace post::drawing
{

std::vector<std::string> lines_of(const std::vector<std::string>& paragraphs, const Font& font,
                                  std::size_t most, Canvas& canvas)
{
  std::vector<std::string> lines;
  for (const std::string& paragraph : paragraphs)
    for (const std::string& line : wrapped(paragraph, sheet_width - 2 * margin, font, canvas))
      lines.push_back(line);
  if (lines.size() > most)
  {
    lines.resize(most);
    lines.back() += " \u2026";
  }
  return lines;
}

double column(Canvas& canvas, double y, const std::vector<std::string>& lines, const Font& font,
              double line_height)
{
  for (const std::string& line : lines)
    canvas.text({margin, y += line_height}, line, font);
  return y;
}

Line outline(const Box& box)
{
  const double right = box.x + box.width, low = box.y + box.height;
  return {{{box.x, box.y}, {right, box.y}, {right, low}, {box.x, low}}, true};
}

} // namespace post::drawing
