// The numbers of the timed problems, and the peer's settings found by trying.
#include "problems.hpp"

#include <fmt/format.h>

// The inductances are the peer's own, order 6, 24 splits, wall at 1000 rod lengths; they lie in
// ferrule's bracket at every accuracy asked, or pairs.cpp says so.
std::vector<TimedProblem> timed_problems()
{
  return {{"rod D10 x 100 mm, mu 700", 100, 700, 100, 440.7741377604e-6},
          {"rod D10 x 100 mm, mu 8", 100, 8, 100, 68.49679496646e-6},
          {"rod D10 x 20 mm, mu 700", 20, 700, 10, 416.6188329122e-6}};
}

std::string case_text(const TimedProblem& problem)
{
  return fmt::format(R"(title = "{}"
[materials.core]
permeability = {}
[[parts]]
name = "core"
shape = "rod"
material = "core"
diameter = "10 mm"
length = "{} mm"
[[windings]]
name = "coil"
turns = 100
inner_diameter = "12 mm"
outer_diameter = "14 mm"
length = "{} mm"
)",
                     problem.name, problem.permeability, problem.rod_length, problem.coil_length);
}

std::vector<PeerSetting> peer_settings(double accuracy)
{
  const std::vector<std::string> plain{"--order",  "4", "--half",   "0", "--grading", "0",
                                       "--growth", "2", "--finest", "1", "--share",   "0.6"};
  if (accuracy < 2e-5)
    return {{"order 2", {"--order", "2", "--grading", "12", "--growth", "1.5", "--finest", "1"}},
            {"order 4", {"--order", "4", "--grading", "8", "--growth", "1.5", "--finest", "0.5"}},
            {"plain 4", plain}};
  return {{"order 2", {"--order", "2", "--grading", "8", "--growth", "1.5", "--finest", "0.5"}},
          {"order 4", {"--order", "4", "--grading", "5", "--growth", "2.5", "--finest", "1"}},
          {"plain 4", plain}};
}

std::vector<std::string> peer_options(const TimedProblem& problem, double accuracy)
{
  return {"--rod-length",   fmt::format("{}e-3", problem.rod_length),
          "--coil-length",  fmt::format("{}e-3", problem.coil_length),
          "--permeability", fmt::format("{}", problem.permeability),
          "--reference",    fmt::format("{:.12e}", problem.inductance),
          "--tolerance",    fmt::format("{}", accuracy)};
}
