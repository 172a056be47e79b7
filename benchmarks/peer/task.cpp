// Reads the peer's command line.
#include "task.hpp"

#include <map>
#include <stdexcept>
#include <string>

Task task(int argc, char** argv)
{
  Task t;
  const std::map<std::string, double*> names{{"--rod-diameter", &t.rod_diameter},
                                             {"--rod-length", &t.rod_length},
                                             {"--permeability", &t.permeability},
                                             {"--coil-inner", &t.coil_inner},
                                             {"--coil-outer", &t.coil_outer},
                                             {"--coil-length", &t.coil_length},
                                             {"--turns", &t.turns},
                                             {"--reference", &t.reference},
                                             {"--tolerance", &t.tolerance},
                                             {"--wall", &t.wall},
                                             {"--finest", &t.finest},
                                             {"--growth", &t.growth},
                                             {"--grading", &t.grading},
                                             {"--share", &t.share},
                                             {"--order", &t.order},
                                             {"--steps", &t.steps},
                                             {"--half", &t.half}};
  for (int i = 1; i < argc; i += 2)
  {
    const auto found = names.find(argv[i]);
    if (found == names.end() || i + 1 == argc)
      throw std::invalid_argument(std::string("unknown or without a value: ") + argv[i]);
    *found->second = std::stod(argv[i + 1]);
  }
  return t;
}
