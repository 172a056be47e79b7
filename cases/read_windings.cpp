// [[windings]]: a plain section, or turns of wire drawn one by one.
#include "cases/bodies.hpp"

#include "cases/wording.hpp"

#include "mesh/layout.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <numbers>

namespace cases
{
namespace
{

using Build = std::variant<mesh::Block, mesh::RoundTurns>;

constexpr std::array<std::string_view, 2> block_keys = {"outer_diameter", "length"};
constexpr std::array<std::string_view, 7> wire_keys = {
    "wire", "layers", "pitch", "insulation", "coating", "strand", "connection"};

template <std::size_t count>
std::vector<std::string> present(const Section& section,
                                 const std::array<std::string_view, count>& keys)
{
  std::vector<std::string> found;
  for (const std::string_view key : keys)
  {
    if (section.has(key))
    {
      found.emplace_back(key);
    }
  }
  return found;
}

/// `wire` and `strands` of a plain section: what its turns are made of; false where at fault.
bool read_strands(Section& section, const std::optional<double>& turns, mesh::Block& build)
{
  if (!section.has("wire"))
  {
    section.misplaced("strands", "needs wire, the bare diameter of one strand",
                      "write e.g. wire = \"0.1 mm\"");
    return !section.has("strands");
  }
  const auto wire = section.needed("wire", wire_thickness);
  const auto strands = section.value("strands", strand_count, 1.0);
  if (!wire || !strands || !turns)
  {
    return false;
  }
  build.strand_diameter = *wire;
  build.strands = static_cast<int>(*strands);
  const double room = 0.5 * (build.outer_diameter - build.inner_diameter) * build.length;
  const double copper = 0.25 * std::numbers::pi * *wire * *wire * *strands * *turns;
  constexpr double densest = std::numbers::pi / 3.4641016151377544; // circles in a plane
  if (copper > densest * room)
  {
    section.fault_at("wire",
                     fmt::format("does not fit: its strands fill {:.0f} % of the section, and "
                                 "round ones at most {:.0f} %",
                                 100.0 * copper / std::max(room, 1e-300), 100.0 * densest),
                     "a thinner wire, fewer strands, or a larger section");
    return false;
  }
  return true;
}

std::optional<Build> read_block(Section& section, const std::optional<double>& turns)
{
  const auto inner = section.needed("inner_diameter", extent_of_body);
  const auto outer = section.needed("outer_diameter", extent_of_body);
  const auto length = section.needed("length", extent_of_body);
  if (inner && outer && *outer < *inner)
  {
    section.fault_at("outer_diameter",
                     fmt::format("is less than inner_diameter, got {} around {}",
                                 section.written("outer_diameter"),
                                 section.written("inner_diameter")),
                     "change one of them; equal ones make a current sheet");
    return std::nullopt;
  }
  mesh::Block build{inner.value_or(0.0), outer.value_or(0.0), length.value_or(0.0)};
  if (!inner || !outer || !length)
  {
    section.at("strands");
    return std::nullopt;
  }
  return read_strands(section, turns, build) ? std::optional<Build>(build) : std::nullopt;
}

/// Pitch from its key, at least the full diameter; the full diameter where it is not given.
std::optional<double> read_pitch(Section& section, const mesh::RoundTurns& build)
{
  const double full = mesh::full_diameter(build);
  const auto pitch = section.value("pitch", extent_of_body, full);
  // Equal to the last digits counts as touching: 0.5 mm + 2 * 0.05 mm is not quite 0.6 mm.
  if (pitch && *pitch < full * (1.0 - 1e-9))
  {
    section.fault_at("pitch",
                     fmt::format("is less than the wire's full diameter of {:.6g} mm, got {}",
                                 1e3 * full, section.written("pitch")),
                     "turns would overlap; leave pitch out for turns that touch");
    return std::nullopt;
  }
  return pitch ? std::optional(std::max(*pitch, full)) : std::nullopt;
}

std::optional<Build> read_wire(const Draft& draft, Section& section,
                               const std::optional<double>& turns)
{
  mesh::RoundTurns build;
  const auto wire = section.needed("wire", wire_thickness);
  const auto inner = section.needed("inner_diameter", extent_of_body);
  const auto layers = section.needed("layers", layer_count);
  const auto insulation = read_insulation(draft, section);
  const auto strand = section.choice("strand", std::vector<std::string>{"fine", "solid"});
  const auto connection =
      section.choice("connection", std::vector<std::string>{"series", "parallel"});
  bool sound = wire && inner && layers && insulation && strand && connection;
  if (sound && *connection == "parallel" && *strand != "solid")
  {
    section.fault_at("connection", "is parallel, but the strand is fine",
                     "turns that share their current by themselves are solid: strand = \"solid\"");
    sound = false;
  }
  build.coating = read_coating(draft, section, sound);
  if (!(solver::material(draft.result.problem, "copper").conductivity > 0.0))
  {
    section.fault_at("wire", "is of copper, to which this case gives no conductivity",
                     "give materials.copper one above 0, or leave it out");
    sound = false;
  }
  if (layers && turns && *layers > *turns)
  {
    section.fault_at("layers",
                     fmt::format("must be at most turns, got {} for {}", written(*layers),
                                 written(*turns) + (*turns == 1.0 ? " turn" : " turns")),
                     "each layer holds a turn or more");
    sound = false;
  }
  if (!sound)
  {
    section.value("pitch", extent_of_body, 0.0);
    return std::nullopt;
  }
  build.wire_diameter = *wire;
  build.inner_diameter = *inner;
  build.layers = static_cast<int>(*layers);
  build.insulation = insulation->thickness;
  build.insulation_material = insulation->material;
  build.strand = *strand == "solid" ? mesh::Strand::solid : mesh::Strand::fine;
  build.parallel = *connection == "parallel";
  const auto pitch = read_pitch(section, build);
  build.pitch = pitch.value_or(0.0);
  return pitch ? std::optional<Build>(build) : std::nullopt;
}

/// Both sorts of keys at once, or neither; true where that is noted as a fault. A wire alone may
/// stand beside a plain section: its strands.
bool mixed(Section& section)
{
  const auto block = present(section, block_keys);
  const auto wire = present(section, wire_keys);
  const bool strands_only = wire.size() == 1 && wire.front() == "wire";
  if (block.empty() ? wire.empty() : !wire.empty() && !strands_only)
  {
    if (block.empty())
    {
      section.fault("needs outer_diameter and length, or wire and layers",
                    "the first make a plain section, the others turns drawn one by one");
    }
    else
    {
      section.fault_at(block.front(), fmt::format("does not go with {}", in_words(wire)),
                       "outer_diameter and length make a plain section, wire and layers make turns "
                       "drawn one by one; keep one sort");
    }
    for (const std::string_view key : {"inner_diameter", "turns"})
    {
      section.at(key);
    }
    std::ranges::for_each(block_keys, [&](std::string_view key) { section.at(key); });
    std::ranges::for_each(wire_keys, [&](std::string_view key) { section.at(key); });
    section.at("strands");
    return true;
  }
  return false;
}

/// Its own current, if any; nothing at all where that is at fault.
std::optional<std::optional<double>> read_own_current(Section& section)
{
  if (!section.has("current"))
  {
    section.at("current");
    return std::optional<double>();
  }
  const auto amperes = section.needed("current", current);
  return amperes ? std::optional<std::optional<double>>(amperes) : std::nullopt;
}

void read_winding(Draft& draft, Section& section)
{
  const std::string name = checked_name(section, "coil");
  Body* body = enter(draft, section, name);
  std::optional<double> turns;
  std::optional<Build> build;
  if (!mixed(section))
  {
    const bool drawn = present(section, block_keys).empty();
    turns = section.needed("turns", drawn ? drawn_turns : plain_turns);
    build = drawn ? read_wire(draft, section, turns) : read_block(section, turns);
    if (drawn)
    {
      section.misplaced("strands", "belongs to a plain section",
                        "give outer_diameter and length in place of layers");
    }
  }
  const auto centre = read_centre(section, body);
  const auto own_current = read_own_current(section);
  if (build && std::holds_alternative<mesh::Block>(*build))
  {
    std::ranges::for_each(wire_keys, [&](std::string_view key) { section.at(key); });
  }
  section.finish("a winding");
  if (!body || !turns || !build || !centre || !own_current)
  {
    return;
  }
  body->sound = true;
  draft.result.problem.scene.windings.push_back({name, *turns, *build, *centre});
  draft.own_currents.push_back(*own_current);
}

} // namespace

void read_windings(Draft& draft, Section& top)
{
  for (Section& section : sections(top, "windings"))
  {
    read_winding(draft, section);
  }
}

} // namespace cases
