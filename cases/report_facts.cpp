// What stands below the numbers: limits, cautions, files, and how to make the page again.
#include "cases/fault.hpp"
#include "cases/report_page.hpp"
#include "cases/result_text.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"
#include "mesh/layout.hpp"
#include "post/version.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

bool any_region(std::span<const Case> read, auto wanted)
{
  return std::ranges::any_of(read,
                             [&](const Case& one)
                             {
                               const auto regions = mesh::layout(one.problem.scene).regions;
                               return std::ranges::any_of(regions, [&](const mesh::Region& region)
                                                          { return wanted(one.problem, region); });
                             });
}

bool wound(const Case& one)
{
  return !one.problem.scene.windings.empty() || !one.toroids.empty();
}

} // namespace

post::PageSection limits_section(std::span<const Case> read)
{
  const bool over_frequency =
      std::ranges::any_of(read, [](const Case& one) { return !one.problem.frequencies.empty(); });
  const bool biased =
      std::ranges::any_of(read, [](const Case& one) { return !one.problem.bias.empty(); });
  const bool capacitance = std::ranges::any_of(read, [](const Case& one)
                                               { return one.problem.electrostatics.has_value(); });
  post::PageList list;
  list.items = {
      {"Bounded", "means proved: the true value of the case as described lies between the two "
                  "bounds. The mesh, open space and the currents are covered."},
      {"Estimated", "means close, without a bound of its own: fields, energy shares, losses, the "
                    "permeability of powders."},
      {"Mesh-dependent", "is a peak at a sharp corner, where the computed field has no finite "
                         "value; a real, rounded edge has less."},
      {"Shape.", "Everything is a body of revolution about one axis. The helix of a winding, its "
                 "leads, slots, flats and what stands nearby are not in it."},
      {"Material.", std::string("Permeabilities are taken as constant and alike in all "
                                "directions: no saturation, ") +
                        (biased ? "but in the table over current; " : "") +
                        "no hysteresis, of temperature only what tables over it say. Batches, "
                        "milling and pressing change them; measure a sample."},
      {"Sizes.", "The bounds say nothing about how well the case describes the part on the "
                 "bench: its tolerances are for you to judge."},
      {over_frequency ? "Frequency." : "At rest.",
       std::string(over_frequency ? "Losses and eddy currents are in the tables over frequency only"
                                  : "No eddy currents and no losses are in these numbers") +
           (capacitance ? "; the capacitance of windings is in its own table only."
                        : "; the capacitance of windings is nowhere.")}};
  return {"What the numbers rest on", "", {std::move(list)}};
}

post::PageSection cautions_section(std::span<const Case> read)
{
  const bool magnetic =
      any_region(read, [](const solver::Problem& problem, const mesh::Region& region)
                 { return solver::material(problem, region.material).permeability != 1.0; });
  const bool coated = any_region(read, [](const solver::Problem&, const mesh::Region& region)
                                 { return region.name.find(".coating") != std::string::npos; }) ||
                      std::ranges::any_of(read, [](const Case& one) { return !one.wires.empty(); });
  post::PageList list;
  if (magnetic || coated)
  {
    list.items.emplace_back("Dust.",
                            "Ferrite and metal powders, also from cutting and breaking parts, harm "
                            "lungs, eyes and skin, may contain nickel or manganese, and may catch "
                            "fire. Follow the supplier's safety data sheet.");
  }
  if (coated)
  {
    list.items.emplace_back("Insulation.", "A coating of ferrite, paste or powder is no electrical "
                                           "insulation, whatever its thickness.");
  }
  if (std::ranges::any_of(read, wound))
  {
    list.items.emplace_back("Hot parts.",
                            "Cores and windings under current get hot; a ferrite above its Curie "
                            "temperature loses its permeability, and the current rises.");
    list.items.emplace_back("Stored energy.",
                            "A coil whose current is cut off makes high voltage. Discharge it "
                            "before you touch it.");
    list.items.emplace_back("Strong fields",
                            "disturb pacemakers and other implants, move loose iron, and erase "
                            "cards. Keep people at risk away.");
  }
  list.items.emplace_back("Before all this",
                          "come local codes, the supplier's data and licensed practice.");
  const Sheet said = safety_text(read);
  return {"Cautions",
          "",
          {std::move(list), post::PageText{std::get<Paragraph>(said.blocks.front()).words, true}}};
}

post::PageSection files_section(const std::vector<std::filesystem::path>& files)
{
  post::PageSection made{files.size() == 1 ? "The case file" : "The files", "", {}};
  for (const std::filesystem::path& file : files)
  {
    made.blocks.emplace_back(post::PageFile{file.filename().string(), read_text(file)});
  }
  return made;
}

post::PageSection reproduce_section(const std::vector<std::filesystem::path>& files,
                                    const std::filesystem::path& reading, const Options& options)
{
  std::string command = "ferrule report";
  for (const std::filesystem::path& file : files)
  {
    command += " " + shell_word(file.filename().string());
  }
  command += reading.empty() ? "" : " --reading " + shell_word(reading.filename().string());
  for (const Override& set : options.sets)
  {
    command += " --set " + shell_word(set.key + "=" + set.value);
  }
  command += options.accuracy ? " --accuracy " + written(*options.accuracy) : "";
  return {"How to make this page again",
          "",
          {post::PageText{fmt::format("With ferrule {} and the files above, and the tables they "
                                      "name, in one folder:",
                                      post::version())},
           post::PageFile{"Command", command}}};
}

std::string shell_word(const std::string& word)
{
  constexpr std::string_view harmless = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                        "0123456789_./=:,+-";
  if (!word.empty() && word.front() != '-' && word.find_first_not_of(harmless) == std::string::npos)
  {
    return word;
  }
  std::string out = "'";
  for (const char byte : word)
  {
    out += byte == '\'' ? std::string("'\\''") : std::string(1, byte);
  }
  return out + "'";
}

} // namespace cases
