// A case and its readings written in a test, put together as `fit` does it.
#pragma once

#include "cases/fit_case.hpp"
#include "folder.hpp"

#include <string>

namespace fit_tests
{

inline const std::string tube = R"(title = "Powder tube"
[materials.powder]
permeability = 6
[materials.spare]
permeability = 9
[[parts]]
name = "fill"
shape = "tube"
material = "powder"
inner_diameter = "8 mm"
outer_diameter = "22 mm"
length = "70 mm"
[[windings]]
name = "coil"
turns = 90
inner_diameter = "24 mm"
outer_diameter = "25 mm"
length = "50 mm"
)";

inline const std::string rod = R"(title = "Sintered rod"
[materials.ferrite]
permeability = 1200
[[parts]]
name = "rod"
shape = "rod"
material = "ferrite"
diameter = "5 mm"
length = "50 mm"
[[windings]]
name = "coil"
turns = 100
inner_diameter = "7 mm"
outer_diameter = "8 mm"
length = "40 mm"
)";

/// @brief Reading files of one unknown, some readings of "coil" and what is added below.
inline std::string readings(const std::string& key, const std::string& more = "",
                            const std::string& inductance = "250 uH")
{
  return "[unknown]\nkey = \"" + key + "\"\n[[readings]]\nwinding = \"coil\"\ninductance = \"" +
         inductance + "\"\nfrequency = \"10 kHz\"\ntolerance = \"0.5 %\"\n" + more;
}

inline std::string tolerance(const std::string& key, const std::string& size)
{
  return "[[tolerances]]\nkey = \"" + key + "\"\ntolerance = " + size + "\n";
}

/// @brief Both files in a folder of their own.
struct Bench
{
  Folder folder;
  std::filesystem::path file, reading;

  Bench(const std::string& case_text, const std::string& reading_text)
      : file(folder.path / "case.toml"), reading(folder.path / "reading.toml")
  {
    std::ofstream(file) << case_text;
    std::ofstream(reading) << reading_text;
  }
  cases::FitCase asked() const { return cases::fit_case(file, cases::read_readings(reading), {}); }
};

} // namespace fit_tests
