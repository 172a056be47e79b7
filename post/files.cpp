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
                  Drawn drawn)
{
  static auto* const draw =
      reinterpret_cast<DrawFunction*>(drawing_function("ferrule_drawing_draw"));
  draw(sample, layout, result, drawn);
  return drawn;
}

Drawn drawn_rises(const Sample& sample, const mesh::Layout& layout, const Result& result,
                  std::size_t point, Drawn drawn)
{
  static auto* const draw =
      reinterpret_cast<DrawWarmFunction*>(drawing_function("ferrule_drawing_warm"));
  draw(sample, layout, result, point, drawn);
  return drawn;
}

} // namespace

std::vector<std::string> write_field_files(const std::filesystem::path& folder,
                                           const Sample& sample, const mesh::Layout& layout,
                                           const Result& result, bool revolve)
{
  Drawn asked;
  asked.revolve = revolve;
  const Drawn drawn = drawn_field(sample, layout, result, asked);
  std::vector<NamedBytes> files = {
      {"field.vtu", drawn.field}, {"picture.svg", drawn.svg}, {"picture.png", drawn.png}};
  if (revolve)
  {
    files.push_back({"revolved.vtp", drawn.revolved});
    files.push_back({"revolved.png", drawn.solids});
  }
  return write_together(folder, files);
}

std::vector<std::string> write_warm_files(const std::filesystem::path& folder, const Sample& sample,
                                          const mesh::Layout& layout, const Result& result,
                                          std::size_t point)
{
  const Drawn drawn = drawn_rises(sample, layout, result, point, {});
  const std::vector<NamedBytes> files = {{"temperature.svg", drawn.svg},
                                         {"temperature.png", drawn.png}};
  return write_together(folder, files);
}

std::string warm_svg(const Sample& sample, const mesh::Layout& layout, const Result& result,
                     std::size_t point)
{
  Drawn asked;
  asked.only_svg = true;
  return drawn_rises(sample, layout, result, point, asked).svg;
}

std::string field_svg(const Sample& sample, const mesh::Layout& layout, const Result& result)
{
  Drawn asked;
  asked.only_svg = true;
  return drawn_field(sample, layout, result, asked).svg;
}

std::string field_vtu(const Sample& sample)
{
  Drawn asked;
  asked.only_field = true;
  return drawn_field(sample, {}, {}, asked).field;
}

void write_text(const std::filesystem::path& path, const std::string& text)
{
  PendingFile(path, text).commit();
}

} // namespace post
