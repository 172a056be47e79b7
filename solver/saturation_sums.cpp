// The gap w(B) + w*(H) - B.H is never negative; with a background both energies leave its own out.
#include "solver/saturation_sums.hpp"

#include "solver/gather.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace solver
{

namespace
{

/// Fields of an element at its points.
struct Fields
{
  Eigen::VectorXd weight;                   ///< Of dV.
  Eigen::Matrix2Xd B, H;                    ///< (r, z) by points; beyond the box less B0, H0.
  std::vector<Eigen::Matrix2Xd> T;          ///< One a winding, at 1 A.
  std::vector<Eigen::Matrix2Xd> B_response; ///< By 1 A more in each winding.
  std::vector<Eigen::Matrix2Xd> H_response;
  std::vector<Density> energy, coenergy; ///< At |B| and at |H|, by points.
};

Fields fields(const Saturated& s, const Energetic& given, const Source& driven, int element,
              const RegionLaw& law, const Eigen::MatrixXd& field_response)
{
  const Space& space = given.space;
  const auto triangles = static_cast<int>(space.mesh.triangles.size());
  const bool inside = element < triangles;
  const Gather gather =
      inside ? triangle_gather(space, element) : exterior_gather(space, element - triangles);
  const ElementTable table = inside ? triangle_table(space, element, Care::bracketing)
                                    : exterior_table(space, element - triangles, Care::bracketing);
  const FieldMap to_B = field_map(table, Side::flux), to_H = field_map(table, Side::field);
  Fields made{to_B.weight,
              to_B.field(gathered(gather, s.flux)),
              to_H.field(gathered(gather, s.potential)),
              {},
              {},
              {},
              {},
              {}};
  if (inside)
  {
    made.B += source_field(given, driven, element, table, to_B, Side::flux);
    made.H += source_field(given, driven, element, table, to_H, Side::field);
  }
  for (std::size_t w = 0; w < given.sources.size(); ++w)
  {
    const auto column = static_cast<Eigen::Index>(w);
    made.T.push_back(inside
                         ? source_field(given, given.sources[w], element, table, to_H, Side::field)
                         : Eigen::Matrix2Xd::Zero(2, made.weight.size()));
    made.B_response.push_back(to_B.field(gathered(gather, s.flux_response.col(column))));
    made.H_response.push_back(to_H.field(gathered(gather, field_response.col(column))) +
                              made.T.back());
  }
  for (Eigen::Index c = 0; c < made.weight.size(); ++c)
  {
    made.energy.push_back(density(law, Side::flux, made.B.col(c).norm()));
    made.coenergy.push_back(density(law, Side::field, made.H.col(c).norm()));
  }
  return made;
}

/// |B||H| - B.H without cancelling.
double turned(const Eigen::Vector2d& B, const Eigen::Vector2d& H)
{
  const double product = B.norm() * H.norm(), dot = B.dot(H);
  const double cross = B[0] * H[1] - B[1] * H[0];
  return dot > 0.0 ? cross * cross / (product + dot) : product - dot;
}

/// w(B) + w*(H) - B.H at one point.
double gap_density(const RegionLaw& law, const Fields& at, Eigen::Index point)
{
  const Eigen::Vector2d B = at.B.col(point), H = at.H.col(point);
  if (law.curve == nullptr)
  {
    const double mu = mu0 * law.permeability;
    return 0.5 * mu * (H - B / mu).squaredNorm();
  }
  const double lengths = at.energy[point].value + at.coenergy[point].value - B.norm() * H.norm();
  return std::max(0.0, lengths) + turned(B, H);
}

/// Sums over all elements.
struct Sums
{
  double energy = 0.0;                   ///< int w - H0.b, a background's own left out
  Eigen::VectorXd linkage;               ///< int (B(H) - B0).T_w
  Eigen::MatrixXd flux_side, field_side; ///< Incremental inductances.
};

void add_element(const RegionLaw& law, const Fields& at, double B0, std::size_t region,
                 Eigen::Index element, Saturated& s, Sums& sums)
{
  const double H0 = B0 / mu0;
  const auto windings = static_cast<Eigen::Index>(at.T.size());
  for (Eigen::Index c = 0; c < at.weight.size(); ++c)
  {
    const Eigen::Vector2d B = at.B.col(c), H = at.H.col(c);
    const double w = at.weight[c];
    const Density &energy = at.energy[c], &coenergy = at.coenergy[c];
    s.gap[element] += w * gap_density(law, at, c);
    s.region_energy[region] += w * energy.value;
    s.region_coenergy[region] += w * coenergy.value;
    sums.energy += w * (energy.value - 0.5 * H0 * B0 - H0 * (B[1] - B0));
    const Eigen::Vector2d by_H =
        (H.norm() > 0.0 ? coenergy.first / H.norm() : 0.0) * H - Eigen::Vector2d(0.0, B0);
    const Eigen::Matrix2d bend_B = bend(energy, B, B.norm()), bend_H = bend(coenergy, H, H.norm());
    for (Eigen::Index i = 0; i < windings; ++i)
    {
      sums.linkage[i] += w * by_H.dot(at.T[i].col(c));
      for (Eigen::Index j = 0; j < windings; ++j)
      {
        sums.flux_side(i, j) += w * at.B_response[i].col(c).dot(bend_B * at.B_response[j].col(c));
        sums.field_side(i, j) += w * at.H_response[i].col(c).dot(bend_H * at.H_response[j].col(c));
      }
    }
  }
}

/// What the coenergy of the field side grows by when the current of winding i moves by each reach.
void add_moved(const RegionLaw& law, const Fields& at, double B0, const Eigen::VectorXd& reach,
               Eigen::MatrixXd& grown)
{
  for (Eigen::Index c = 0; c < at.weight.size(); ++c)
    for (Eigen::Index i = 0; i < reach.size(); ++i)
      for (const int way : {0, 1})
      {
        const Eigen::Vector2d H = at.H.col(c),
                              h = (way == 0 ? -1.0 : 1.0) * reach[i] * at.H_response[i].col(c);
        grown(i, way) += at.weight[c] * (density(law, Side::field, (H + h).norm()).value -
                                         at.coenergy[c].value - B0 * h[1]);
      }
}

/// The coenergy is convex in every current: a chord from below I to I, or from I to above it,
/// bounds the slope there, which is the linkage. The reach of the chord is where what the gap adds
/// and what the bend adds are alike.
void bound_linkages(const Eigen::VectorXd& flux_side, const Eigen::VectorXd& field_side,
                    const std::vector<Fields>& all, const std::function<const RegionLaw&(int)>& law,
                    Saturated& s)
{
  const auto triangles = s.stage->space.mesh.triangles.size();
  const double B0 = s.problem.background.value_or(0.0), gap = s.upper - s.lower;
  const Eigen::VectorXd reach =
      (2.0 * gap * s.incremental.diagonal().cwiseInverse()).cwiseMax(0.0).cwiseSqrt();
  Eigen::MatrixXd grown = Eigen::MatrixXd::Zero(reach.size(), 2);
  for (std::size_t k = 0; k < all.size(); ++k)
    add_moved(law(static_cast<int>(k)), all[k], k < triangles ? B0 : 0.0, reach, grown);
  s.linkage.clear();
  for (Eigen::Index i = 0; i < reach.size(); ++i)
  {
    Linkage one{0.5 * (flux_side[i] + field_side[i]), 0.0, 0.0};
    one.lower = -(gap + grown(i, 0)) / reach[i];
    one.upper = (gap + grown(i, 1)) / reach[i];
    s.linkage.push_back(one);
  }
}

} // namespace

void sum_up(Saturated& s, const Eigen::MatrixXd& field_response)
{
  const Stage& stage = *s.stage;
  const Space& space = stage.space;
  const auto triangles = static_cast<int>(space.mesh.triangles.size());
  const int elements = triangles + static_cast<int>(space.exteriors.size());
  const double B0 = s.problem.background.value_or(0.0);
  const Energetic given{space, stage.layout, stage.laws, stage.sources, B0, stage.unit.over_r};
  const Source driven = driving(given, s.currents);
  const RegionLaw air;
  const auto law = [&](int k) -> const RegionLaw&
  { return k < triangles ? stage.laws[space.mesh.triangles[k].region] : air; };
  const auto windings = static_cast<Eigen::Index>(stage.sources.size());

  s.gap = Eigen::VectorXd::Zero(elements);
  s.region_energy.assign(stage.laws.size(), 0.0);
  s.region_coenergy.assign(stage.laws.size(), 0.0);
  Sums sums{0.0, Eigen::VectorXd::Zero(windings), Eigen::MatrixXd::Zero(windings, windings),
            Eigen::MatrixXd::Zero(windings, windings)};
  std::vector<Fields> all;
  for (int k = 0; k < elements; ++k)
  {
    all.push_back(fields(s, given, driven, k, law(k), field_response));
    const std::size_t region = k < triangles ? space.mesh.triangles[k].region : 0;
    add_element(law(k), all.back(), k < triangles ? B0 : 0.0, region, k, s, sums);
  }
  Eigen::VectorXd linked(windings);
  const std::vector<double> ones(stage.laws.size(), 1.0);
  for (Eigen::Index w = 0; w < windings; ++w)
    linked[w] = flux_load(space, stage.layout, stage.sources[w], ones).dot(s.flux);
  s.lower = linked.dot(s.currents) - sums.energy;
  s.upper = s.lower + s.gap.sum();
  s.incremental = 0.5 * (sums.flux_side + sums.field_side);
  s.incremental_spread = 0.5 * (sums.field_side - sums.flux_side).cwiseAbs();
  bound_linkages(linked, sums.linkage, all, law, s);
}

} // namespace solver
