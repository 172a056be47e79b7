// Files written whole or not at all; drawings come as bytes from a module opened on demand.
#include "post/files.hpp"
#include "post/drawing/drawn.hpp"
#include "post/drawing_module.hpp"
#include "post/pending_file.hpp"

namespace post
{

namespace
{

Drawn drawn_field(const Sample& sample, const mesh::Layout& layout, const Result& result,
                  bool only_svg)
{
  static auto* const draw =
      reinterpret_cast<DrawFunction*>(drawing_function("ferrule_drawing_draw"));
  Drawn drawn;
  drawn.only_svg = only_svg;
  draw(sample, layout, result, drawn);
  return drawn;
}

} // namespace

std::vector<std::string> write_field_files(const std::filesystem::path& folder,
                                           const Sample& sample, const mesh::Layout& layout,
                                           const Result& result)
{
  const Drawn drawn = drawn_field(sample, layout, result, false);
  return write_together(
      folder, {{"field.vtu", drawn.field}, {"picture.svg", drawn.svg}, {"picture.png", drawn.png}});
}

std::string field_svg(const Sample& sample, const mesh::Layout& layout, const Result& result)
{
  return drawn_field(sample, layout, result, true).svg;
}

void write_text(const std::filesystem::path& path, const std::string& text)
{
  PendingFile(path, text).commit();
}

} // namespace post
