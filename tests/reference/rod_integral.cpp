// The equations of rod_integral.hpp, solved for even and odd parts in z.
#include "reference/rod_integral.hpp"

#include "reference/loops.hpp"
#include "reference/rod_surface.hpp"

#include <Eigen/LU>

#include <cmath>
#include <numbers>

namespace reference
{
namespace
{

using Eigen::VectorXd;
using std::numbers::pi;

/// A function on both halves: the sum of an even part and an odd one, given on the upper half.
struct Parts
{
  VectorXd even;
  VectorXd odd;
};

Parts parts(const VectorXd& upper, const VectorXd& lower)
{
  return {(upper + lower) / 2.0, (upper - lower) / 2.0};
}

/// Runs a function over the nodes of the upper and of the lower half; it is told which: 1, -1.
template <class Function> Parts sampled(const RodSurface& surface, const Function& function)
{
  VectorXd half[2];
  for (const int lower : {0, 1})
  {
    half[lower] = VectorXd(static_cast<int>(surface.nodes.size()));
    for (int i = 0; i < half[lower].size(); ++i)
    {
      half[lower][i] = function(surface.nodes[i], lower ? -1.0 : 1.0);
    }
  }
  return parts(half[0], half[1]);
}

/// H per current per length of the sheet, lengths in radii of the rod.
Field field(const Cylinder& rod, const Sheet& sheet, const SurfaceNode& node, double sign)
{
  const double low = (sheet.centre - sheet.length / 2.0) / rod.radius;
  const double high = (sheet.centre + sheet.length / 2.0) / rod.radius;
  const double z = sign * (rod.length / rod.radius / 2.0 - node.down);
  return sheet_field(sheet.radius / rod.radius, low, high, 1.0 - node.inward, z);
}

/// Right-hand side: H normal (charge) or along the outline up the side (current).
Parts excitation(const RodSurface& surface, const Cylinder& rod, const Sheet& sheet, Bound bound)
{
  return sampled(surface,
                 [&](const SurfaceNode& node, double sign)
                 {
                   const Field H = field(rod, sheet, node, sign);
                   if (bound == Bound::charge)
                   {
                     return node.on_face ? sign * H.z : H.r;
                   }
                   return node.on_face ? -sign * H.r : H.z;
                 });
}

/// Integral from the edge inwards, along each piece of the outline, and its two whole values.
struct Primitive
{
  VectorXd value;
  double side = 0.0;
  double face = 0.0;
};

Primitive primitive(const RodSurface& surface, const VectorXd& slope)
{
  Primitive result{VectorXd(slope.size())};
  const int order = static_cast<int>(surface.rule.node.size());
  int first = 0;
  const auto walk = [&](const std::vector<Stretch>& panels)
  {
    double whole = 0.0;
    for (const Stretch& panel : panels)
    {
      const double half = (panel.to - panel.from) / 2.0;
      const auto piece = slope.segment(first, order);
      result.value.segment(first, order) = (half * (surface.rule.partial * piece)).array() + whole;
      whole += half * surface.rule.weight.dot(piece);
      first += order;
    }
    return whole;
  };
  result.side = walk(surface.side);
  result.face = walk(surface.face);
  return result;
}

/// Of the sheet on the surface: -phi (charge), r A / mu0 (current); per current per length.
Parts potential(const RodSurface& surface, const Cylinder& rod, const Sheet& sheet, Bound bound)
{
  // From the edge inwards: d(-phi) = H.dl and d(r A) = -r H_z d(inward) or +-r H_r d(down).
  const auto slope = [&](const SurfaceNode& node, double sign)
  {
    const Field H = field(rod, sheet, node, sign);
    if (bound == Bound::charge)
    {
      return node.on_face ? -H.r : -sign * H.z;
    }
    return node.on_face ? -(1.0 - node.inward) * H.z : sign * H.r;
  };
  const Parts slopes = sampled(surface, slope);
  const Primitive even = primitive(surface, slopes.even);
  const Primitive odd = primitive(surface, slopes.odd);
  if (bound == Bound::charge) // odd: phi = 0 in the middle; even: free, as the charges add to zero
  {
    return {even.value, odd.value.array() - odd.side};
  }
  return {even.value.array() - even.face, odd.value.array() - odd.face}; // A = 0 on the axis
}

/// Solves for one parity; rows and columns by roots of the weights, for the condition of the graded
/// panels.
VectorXd solution(const RodSurface& surface, Eigen::MatrixXd matrix, const VectorXd& right)
{
  VectorXd root(right.size());
  for (int i = 0; i < root.size(); ++i)
  {
    root[i] = std::sqrt(surface.nodes[i].weight);
  }
  matrix = root.asDiagonal() * matrix * root.cwiseInverse().asDiagonal();
  const Eigen::PartialPivLU<Eigen::Ref<Eigen::MatrixXd>> factors(matrix);
  return factors.solve(root.cwiseProduct(right)).cwiseQuotient(root);
}

std::vector<Field> ends(const Cylinder& rod, const Sheet& sheet)
{
  const double gap = std::abs(sheet.radius / rod.radius - 1.0);
  return {{gap, (sheet.centre - sheet.length / 2.0) / rod.radius},
          {gap, (sheet.centre + sheet.length / 2.0) / rod.radius}};
}

/// Lengths of the panels' rings [radii of the rod] times their circumference, or that of radius 1.
VectorXd rings(const RodSurface& surface, bool unit_radius)
{
  VectorXd area(static_cast<int>(surface.nodes.size()));
  for (int i = 0; i < area.size(); ++i)
  {
    const SurfaceNode& node = surface.nodes[i];
    area[i] = 2.0 * pi * node.weight * (unit_radius ? 1.0 : 1.0 - node.inward);
  }
  return area;
}

} // namespace

std::vector<double> rod_gain(const Cylinder& rod, const Sheet& driven, const Sheet& other,
                             const std::vector<double>& permeabilities, Bound bound,
                             const Fineness& fineness)
{
  std::vector<Field> loops = ends(rod, driven);
  const std::vector<Field> more = ends(rod, other);
  loops.insert(loops.end(), more.begin(), more.end());
  const RodSurface surface(rod.length / rod.radius / 2.0, loops, fineness);
  const Coupling mean = coupling(surface, bound);
  const Parts right = excitation(surface, rod, driven, bound);
  const Parts left = potential(surface, rod, other, bound);
  const VectorXd area = rings(surface, false);
  const VectorXd measure = rings(surface, bound == Bound::current); // its A comes times r
  const double unit =
      mu0 * std::pow(rod.radius, 3) * driven.turns / driven.length * other.turns / other.length;
  std::vector<double> gains;
  for (const double mu : permeabilities)
  {
    Eigen::MatrixXd even = -mean.direct - mean.mirrored;
    Eigen::MatrixXd odd = -mean.direct + mean.mirrored;
    even.diagonal().array() += 1.0 / (mu - 1.0) + 0.5;
    odd.diagonal().array() += 1.0 / (mu - 1.0) + 0.5;
    if (bound == Bound::charge)
    {
      even.rowwise() += area.transpose() / area.sum(); // no effect but on the sum of the charges
    }
    const VectorXd source_even = solution(surface, even, right.even);
    const VectorXd source_odd = solution(surface, odd, right.odd);
    gains.push_back(2.0 * unit *
                    (measure.dot(source_even.cwiseProduct(left.even)) +
                     measure.dot(source_odd.cwiseProduct(left.odd))));
  }
  return gains;
}

std::vector<double> rod_coil(const Cylinder& rod, const Sheet& sheet,
                             const std::vector<double>& permeabilities, Bound bound,
                             const Fineness& fineness)
{
  std::vector<double> values = rod_gain(rod, sheet, sheet, permeabilities, bound, fineness);
  for (double& value : values)
  {
    value += current_sheet(sheet.radius, sheet.length, sheet.turns);
  }
  return values;
}

} // namespace reference
