// The border between ferrule and its drawing module: what is handed over and what comes back.
//
// Read by files.cpp and chart.cpp, which open the module on demand, and by the module itself;
// neither side includes more of the other. Plain structs and bytes only.
#pragma once

#include "mesh/layout.hpp"
#include "post/chart.hpp"
#include "post/result.hpp"
#include "post/sample.hpp"

#include <cstddef>
#include <string>

namespace post
{

/// @brief The bytes of the three files, ready to be written.
struct Drawn
{
  bool only_svg = false;   ///< Asked: the others stay empty.
  bool only_field = false; ///< Likewise.
  bool revolve = false;    ///< Asked: solids too.
  std::string field;       ///< field.vtu
  std::string revolved;    ///< revolved.vtp, where asked.
  std::string solids;      ///< revolved.png, likewise.
  std::string svg;
  std::string png;
};
/// @brief Likewise of a chart's two.
struct DrawnChart
{
  bool only_svg = false;
  std::string svg;
  std::string png;
};

/// @brief Draws; throws std::runtime_error when a library underneath fails. Likewise charts.
using DrawFunction = void(const Sample&, const mesh::Layout&, const Result&, Drawn&);
/// @brief Likewise the temperatures of one of the result's points; fills svg and png.
using DrawWarmFunction = void(const Sample&, const mesh::Layout&, const Result&, std::size_t point,
                              Drawn&);
using DrawChartFunction = void(const Chart&, DrawnChart&);

template <class... Structs> constexpr std::size_t folded_sizes()
{
  std::size_t sum = 2; // of the interface itself: raise it when a struct changes its meaning only
  ((sum = sum * 31 + sizeof(Structs)), ...);
  return sum;
}

/// @brief Differs where program and module were built from different structs.
inline constexpr std::size_t drawing_stamp =
    folded_sizes<Sample, mesh::Layout, mesh::Region, mesh::Piece, mesh::Conductor, Result,
                 WindingResult, RegionResult, HeatPoint, HeatBody, Drawn, Chart, ChartAxis,
                 ChartBand, ChartLine, ChartPoints, ChartMap, DrawnChart>();

} // namespace post

extern "C"
{
  /// @brief The module's own post::drawing_stamp.
  [[gnu::visibility("default")]] extern const std::size_t ferrule_drawing_stamp;
  /// @brief See post::DrawFunction.
  [[gnu::visibility("default")]] void ferrule_drawing_draw(const post::Sample& sample,
                                                           const mesh::Layout& layout,
                                                           const post::Result& result,
                                                           post::Drawn& drawn);
  /// @brief See post::DrawWarmFunction.
  [[gnu::visibility("default")]] void ferrule_drawing_warm(const post::Sample& sample,
                                                           const mesh::Layout& layout,
                                                           const post::Result& result,
                                                           std::size_t point, post::Drawn& drawn);
  /// @brief See post::DrawChartFunction.
  [[gnu::visibility("default")]] void ferrule_drawing_chart(const post::Chart& chart,
                                                            post::DrawnChart& drawn);
}
