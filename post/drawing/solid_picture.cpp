// A buffer of depths; each triangle is laid over the pixels whose middle it covers.
#include "post/drawing/solid_picture.hpp"
#include "post/drawing/key.hpp"
#include "post/drawing/sheet.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <limits>

namespace post::drawing
{

namespace
{

using Place = Eigen::Vector3d;

/// Where things are seen: right and up on the sheet, and towards the viewer.
struct View
{
  Place right, up, near;
  double scale = 1.0;                    ///< Pixels a metre.
  double middle_x = 0.0, middle_y = 0.0; ///< Of the solids, along right and up [m].
  double x = 0.0, y = 0.0;               ///< Where that lies on the sheet [pixels].
};

View view(const Solids& solids, int width, int height)
{
  double radius = 0.0, low = std::numeric_limits<double>::max(), high = -low;
  for (const auto& [x, y, z] : solids.points)
  {
    radius = std::max(radius, std::hypot(x, y));
    low = std::min(low, z);
    high = std::max(high, z);
  }
  View made;
  made.near = Place(0.62, -0.62, 0.48).normalized(); // into the cut, x > 0 > y
  const Place axis = (Place::UnitZ() - made.near.z() * made.near).normalized();
  const bool lies = high - low > 2.4 * radius;
  made.right = lies ? axis : axis.cross(made.near);
  made.up = made.near.cross(made.right);
  Eigen::AlignedBox2d box;
  for (const auto& one : solids.points)
  {
    const Eigen::Map<const Place> at(one.data());
    box.extend(Eigen::Vector2d(made.right.dot(at), made.up.dot(at)));
  }
  constexpr double filled = 0.94; // of the frame
  made.scale = filled * std::min(width / box.sizes().x(), height / box.sizes().y());
  made.middle_x = box.center().x();
  made.middle_y = box.center().y();
  made.x = 0.5 * width;
  made.y = 0.5 * height;
  return made;
}

/// Pixels, and how near: x to the right, y down.
Place seen_at(const View& view, const std::array<double, 3>& point)
{
  const Eigen::Map<const Place> at(point.data());
  return {view.x + view.scale * (view.right.dot(at) - view.middle_x),
          view.y - view.scale * (view.up.dot(at) - view.middle_y), view.scale * view.near.dot(at)};
}

struct Nearest
{
  double depth = -std::numeric_limits<double>::infinity();
  int region = -1;
  Colour colour = {1.0, 1.0, 1.0};
};

struct Sheet
{
  int width = 0, height = 0;
  std::vector<Nearest> pixels;
};

/// Lays one triangle over the sheet.
void lay(Sheet& sheet, const std::array<Place, 3>& at, const std::array<double, 3>& strength,
         int region, double light, const Scale& scale, std::span<const Colour> colours)
{
  const auto cross = [](const Place& a, const Place& b, double x, double y)
  { return (b.x() - a.x()) * (y - a.y()) - (b.y() - a.y()) * (x - a.x()); };
  const double twice = cross(at[0], at[1], at[2].x(), at[2].y());
  if (std::abs(twice) < 1e-12) // seen from the side
    return;
  const auto [left, right] = std::minmax({at[0].x(), at[1].x(), at[2].x()});
  const auto [top, bottom] = std::minmax({at[0].y(), at[1].y(), at[2].y()});
  const int x_last = std::min(sheet.width - 1, static_cast<int>(right));
  const int y_last = std::min(sheet.height - 1, static_cast<int>(bottom));
  for (int y = std::max(0, static_cast<int>(top)); y <= y_last; ++y)
    for (int x = std::max(0, static_cast<int>(left)); x <= x_last; ++x)
    {
      const double a = cross(at[1], at[2], x + 0.5, y + 0.5) / twice;
      const double b = cross(at[2], at[0], x + 0.5, y + 0.5) / twice;
      const double c = 1.0 - a - b;
      const double depth = a * at[0].z() + b * at[1].z() + c * at[2].z();
      Nearest& pixel = sheet.pixels[static_cast<std::size_t>(y) * sheet.width + x];
      if (std::min({a, b, c}) < -1e-9 || depth <= pixel.depth)
        continue;
      const int band = scale.band(a * strength[0] + b * strength[1] + c * strength[2]);
      const Colour& colour = colours[static_cast<std::size_t>(band)];
      pixel = {depth, region, {light * colour.red, light * colour.green, light * colour.blue}};
    }
}

/// Dark where a body ends before another, or far before what is behind it: farther than its own
/// slope.
bool is_edge(const Sheet& sheet, int x, int y)
{
  constexpr double step = 6.0, slopes = 3.0; // pixels of depth
  const auto at = [&sheet](int u, int v) -> const Nearest*
  {
    const bool within = u >= 0 && v >= 0 && u < sheet.width && v < sheet.height;
    return within ? &sheet.pixels[static_cast<std::size_t>(v) * sheet.width + u] : nullptr;
  };
  const Nearest* const here = at(x, y);
  for (const auto& [dx, dy] : {std::pair{1, 0}, {0, 1}, {-1, 0}, {0, -1}})
  {
    const Nearest* const there = at(x + dx, y + dy);
    const Nearest* const before = at(x - dx, y - dy);
    if (here->region < 0 || !there || !before)
      continue;
    const double slope = before->region < 0 ? 0.0 : std::abs(here->depth - before->depth);
    if (there->region != here->region || here->depth - there->depth > step + slopes * slope)
      return true;
  }
  return false;
}

std::uint32_t bytes_of(const Colour& colour)
{
  const auto byte = [](double part)
  { return static_cast<std::uint32_t>(std::lround(255.0 * std::clamp(part, 0.0, 1.0))); };
  return byte(colour.red) << 16U | byte(colour.green) << 8U | byte(colour.blue);
}

} // namespace

Image solid_image(const Solids& solids, int width, int height, const Scale& scale,
                  std::span<const Colour> colours)
{
  const View seen = view(solids, width, height);
  const Place lamp = (seen.near + 0.7 * seen.up - 0.3 * seen.right).normalized();
  Sheet sheet{width, height, {}};
  sheet.pixels.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (const auto& [a, b, c] : solids.triangles)
  {
    const auto place = [&](int i) { return Eigen::Map<const Place>(solids.points[i].data()); };
    const Place normal = (place(b) - place(a)).cross(place(c) - place(a)).normalized();
    lay(sheet,
        {seen_at(seen, solids.points[a]), seen_at(seen, solids.points[b]),
         seen_at(seen, solids.points[c])},
        {solids.strength[a], solids.strength[b], solids.strength[c]}, solids.region[a],
        0.70 + 0.30 * std::abs(normal.dot(lamp)), scale, colours);
  }
  Image image{width, height, {}};
  image.pixels.reserve(sheet.pixels.size());
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
    {
      const Nearest& pixel = sheet.pixels[static_cast<std::size_t>(y) * width + x];
      image.pixels.push_back(bytes_of(is_edge(sheet, x, y) ? ink : pixel.colour));
    }
  return image;
}

std::string solid_picture(const Sample& sample, const Page& page)
{
  constexpr double height = 480.0, key_space = 58.0;
  const double top = margin - 8.0 + title_line * double(page.title.size()) +
                     headline_line * double(page.headline.size()) + 14.0;
  const Box box{margin, top, sheet_width - 2.0 * margin, height};
  Canvas measure(sheet_width, sheet_width, 1e-2);
  const std::vector<std::string> notes =
      lines_of({"Bodies and sections of windings as solids, a quarter cut out, in parallel "
                "projection. Colours as in the key, darker where a face turns away. Estimated."},
               note_font, 3, measure);
  Canvas canvas(sheet_width, top + height + key_space + note_line * double(notes.size()) + margin,
                pixels_per_point);
  const double below = column(canvas, margin - 8.0, page.title, title_font, title_line);
  column(canvas, below + 4.0, page.headline, headline_font, headline_line);
  canvas.image(box, solid_image(solids(sample), static_cast<int>(pixels_per_point * box.width),
                                static_cast<int>(pixels_per_point * box.height), page.scale,
                                page.colours));
  const double key_width = 340.0;
  draw_key(canvas, {box.x + box.width - key_width, top + height + 28.0, key_width, 9.0}, page.scale,
           page.colours);
  column(canvas, top + height + key_space, notes, note_font, note_line);
  return canvas.bytes();
}

} // namespace post::drawing
