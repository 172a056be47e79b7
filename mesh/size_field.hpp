// Wanted triangle size anywhere, from the sizes wanted at points.
#pragma once

#include "mesh/scene.hpp"

#include <vector>

namespace mesh
{

/// @brief The least of size + growth * distance over all given points, found by a grid of buckets.
class SizeField
{
public:
  /// @param growth  How fast triangles may grow, size per distance; > 0.
  SizeField(std::vector<Point> points, std::vector<double> sizes, double growth);
  double at(Point x) const;

private:
  std::vector<Point> _points;
  std::vector<double> _sizes;
  double _growth;
  Point _low;
  double _cell = 1.0;
  int _columns = 1, _rows = 1;
  std::vector<std::vector<int>> _buckets;
  int column(double r) const;
  int row(double z) const;
};

} // namespace mesh
