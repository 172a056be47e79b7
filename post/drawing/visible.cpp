// Bodies painted into cells of one point, later ones over earlier ones, and read off by column.
#include "post/drawing/visible.hpp"

#include <algorithm>
#include <utility>

namespace post::drawing
{

namespace
{

/// @brief Which body shows at each point of the box, in cells of 1 pt; -1: none.
struct Owners
{
  int width, height;
  std::vector<int> body;

  int at(int column, int row) const { return body[row * width + column]; }
};

bool holds(const Line& area, Spot at)
{
  bool inside = false;
  for (std::size_t i = 0, j = area.spots.size() - 1; i < area.spots.size(); j = i++)
  {
    const Spot a = area.spots[i], b = area.spots[j];
    if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y))
      inside = !inside;
  }
  return inside;
}

Owners owners_of(std::span<const Body> bodies, const Box& box)
{
  Owners owners{static_cast<int>(box.width), static_cast<int>(box.height), {}};
  owners.body.assign(static_cast<std::size_t>(owners.width) * owners.height, -1);
  for (std::size_t k = 0; k < bodies.size(); ++k)
    for (const Line& area : bodies[k].areas)
    {
      const Box around = box_around(area);
      const int left = std::max(0, static_cast<int>(around.x - box.x));
      const int top = std::max(0, static_cast<int>(around.y - box.y));
      const int right =
          std::min(owners.width, static_cast<int>(around.x + around.width - box.x) + 1);
      const int bottom =
          std::min(owners.height, static_cast<int>(around.y + around.height - box.y) + 1);
      for (int row = top; row < bottom; ++row)
        for (int column = left; column < right; ++column)
          if (holds(area, {box.x + column + 0.5, box.y + row + 0.5}))
            owners.body[row * owners.width + column] = static_cast<int>(k);
    }
  return owners;
}

/// @brief The columns a body is looked for in: all, or one half where none of it is between.
std::pair<int, int> columns_of(const Owners& owners, int body)
{
  const int middle = owners.width / 2;
  for (int row = 0; row < owners.height; ++row)
    for (int column = std::max(0, middle - 1); column < std::min(owners.width, middle + 2);
         ++column)
      if (owners.at(column, row) == body)
        return {0, owners.width};
  const auto shows = [&](int from, int to)
  {
    for (int row = 0; row < owners.height; ++row)
      for (int column = from; column < to; ++column)
        if (owners.at(column, row) == body)
          return true;
    return false;
  };
  const bool left = shows(0, middle), right = shows(middle, owners.width);
  if (left != right)
    return {0, owners.width};
  return body % 2 == 0 ? std::pair{middle, owners.width} : std::pair{0, middle};
}

} // namespace

std::vector<Visible> visible(std::span<const Body> bodies, const Box& box)
{
  const Owners owners = owners_of(bodies, box);
  const int count = static_cast<int>(bodies.size());
  std::vector<Visible> result;
  for (int k = 0; k < count; ++k)
  {
    Visible body{k, std::vector<int>(owners.width, -1), 0.0, double(owners.height)};
    int columns = 0;
    const auto [from, to] = columns_of(owners, k);
    for (int column = from; column < to; ++column)
    {
      int first = 0;
      while (first < owners.height && owners.at(column, first) != k)
        ++first;
      if (first == owners.height)
        continue;
      int last = first;
      while (last < owners.height && owners.at(column, last) == k)
        ++last;
      body.row[column] = bodies[k].winding ? first : (first + last) / 2; // clear of dots, crosses
      body.top = std::min(body.top, double(first));
      body.middle += column;
      ++columns;
    }
    if (columns == 0)
      continue;
    body.middle /= columns;
    result.push_back(std::move(body));
  }
  return result;
}

} // namespace post::drawing
