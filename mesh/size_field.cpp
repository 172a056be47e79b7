// Rings of buckets around the point, outwards until nothing farther can be smaller.
#include "mesh/size_field.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace mesh
{

SizeField::SizeField(std::vector<Point> points, std::vector<double> sizes, double growth)
    : _points(std::move(points)), _sizes(std::move(sizes)), _growth(growth)
{
  Point high{0.0, -std::numeric_limits<double>::infinity()};
  _low = {0.0, std::numeric_limits<double>::infinity()};
  for (const Point& x : _points)
  {
    high = {std::max(high.r, x.r), std::max(high.z, x.z)};
    _low.z = std::min(_low.z, x.z);
  }
  const double area = std::max(high.r * (high.z - _low.z), std::numeric_limits<double>::min());
  _cell = std::sqrt(area / static_cast<double>(_points.size()));
  _columns = static_cast<int>(high.r / _cell) + 1;
  _rows = static_cast<int>((high.z - _low.z) / _cell) + 1;
  _buckets.resize(static_cast<std::size_t>(_columns) * _rows);
  for (std::size_t i = 0; i < _points.size(); ++i)
    _buckets[row(_points[i].z) * _columns + column(_points[i].r)].push_back(static_cast<int>(i));
}

int SizeField::column(double r) const
{
  return std::clamp(static_cast<int>(r / _cell), 0, _columns - 1);
}

int SizeField::row(double z) const
{
  return std::clamp(static_cast<int>((z - _low.z) / _cell), 0, _rows - 1);
}

double SizeField::at(Point x) const
{
  double least = std::numeric_limits<double>::infinity();
  const int c0 = column(x.r), r0 = row(x.z);
  for (int ring = 0; ring <= std::max(_columns, _rows); ++ring)
  {
    // Whatever lies in this ring is at least (ring - 1) cells away.
    if (_growth * (ring - 1) * _cell >= least)
      break;
    for (int i = std::max(0, r0 - ring); i <= std::min(_rows - 1, r0 + ring); ++i)
    {
      const bool edge_row = std::abs(i - r0) == ring;
      for (int j = std::max(0, c0 - ring); j <= std::min(_columns - 1, c0 + ring); ++j)
        if (edge_row || std::abs(j - c0) == ring)
          for (const int n : _buckets[static_cast<std::size_t>(i) * _columns + j])
            least = std::min(
                least, _sizes[n] + _growth * std::hypot(x.r - _points[n].r, x.z - _points[n].z));
    }
  }
  return least;
}

} // namespace mesh
