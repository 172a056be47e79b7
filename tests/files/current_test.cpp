// Which way a winding's current is drawn.
#include "post/drawing/bodies.hpp"
#include "sphere_sample.hpp"

#include <catch2/catch.hpp>

using namespace post::drawing;

namespace
{

/// @brief Two windings that pass through triangles of the sphere's sample outside the sphere.
mesh::Layout two_blocks()
{
  mesh::Layout layout = sphere::layout();
  layout.conductors = {{0, 10.0, mesh::BlockSection{0.02, 0.03, -0.005, 0.005}},
                       {1, 10.0, mesh::BlockSection{0.02, 0.03, 0.010, 0.020}}};
  return layout;
}

post::Sample with_density(double low, double high)
{
  post::Sample sample = sphere::sample();
  for (std::size_t t = 0; t < sample.triangles.size(); ++t)
  {
    const mesh::Point at = sample.points[sample.triangles[t][0]];
    if (at.r > 0.022 && at.r < 0.028)
      sample.current_density[t] = std::abs(at.z) < 0.003         ? low
                                  : at.z > 0.012 && at.z < 0.018 ? high
                                                                 : 0.0;
  }
  return sample;
}

} // namespace

TEST_CASE("a block's current is read from its density", "[files]")
{
  CHECK(current_signs(two_blocks(), with_density(1e6, -1e6)) == std::vector<int>{1, -1});
  CHECK(current_signs(two_blocks(), with_density(-2.0, 0.0)) == std::vector<int>{-1, 0});
}

TEST_CASE("a sheet's current is read from the jump of H across it", "[files]")
{
  // A square of four triangles a side about the sheet at r = 2: H_z = 3 inside, 1 outside.
  post::Sample sample;
  sample.region_names = {"air"};
  for (const double r : {1.0, 2.0})
    for (int j = 0; j < 4; ++j)
    {
      const int first = static_cast<int>(sample.points.size());
      for (const auto& [dr, dz] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}})
      {
        sample.points.push_back({r + dr, double(j + dz)});
        sample.H_z.push_back(r < 2.0 ? 3.0 : 1.0);
      }
      sample.triangles.push_back({first, first + 1, first + 2});
      sample.triangles.push_back({first, first + 2, first + 3});
    }
  sample.current_density.assign(sample.triangles.size(), 0.0);
  const mesh::Layout layout{{{"air", "air", {}}}, {{0, 1.0, mesh::SheetSection{2.0, 0.0, 4.0}}}};
  CHECK(current_signs(layout, sample) == std::vector<int>{1});
  for (double& H : sample.H_z)
    H = 4.0 - H;
  CHECK(current_signs(layout, sample) == std::vector<int>{-1});
  for (std::size_t p = 0; p < sample.H_z.size(); ++p)
    sample.H_z[p] = 2.0 + 1e-3 * double(p % 3); // the mesh's error, no current
  CHECK(current_signs(layout, sample) == std::vector<int>{0});
}

TEST_CASE("dot and cross follow the right-hand rule of (r, phi, z)", "[files]")
{
  const Body along_phi{"coil", true, {}, {}, 1}, against{"coil", true, {}, {}, -1};
  for (const bool lying : {false, true})
    for (const bool mirror_image : {false, true})
    {
      Frame frame;
      frame.lying = lying;
      frame.r_max = frame.z_high = frame.points_per_metre = 1.0;
      const double side = mirror_image ? -1.0 : 1.0;
      const Spot zero = frame.spot({0.0, 0.0});
      const Spot r = frame.spot({side, 0.0}), z = frame.spot({0.0, 1.0});
      // phi = z x r; with x to the right and y up, its part towards the reader is z_x r_y - z_y
      // r_x. On the sheet y runs down.
      const double towards_reader =
          -(z.x - zero.x) * (r.y - zero.y) + (z.y - zero.y) * (r.x - zero.x);
      CAPTURE(lying, mirror_image);
      CHECK(goes_in(along_phi, frame, mirror_image) == (towards_reader < 0.0));
      CHECK(goes_in(against, frame, mirror_image) == (towards_reader > 0.0));
    }
}
