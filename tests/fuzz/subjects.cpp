// Every subject may refuse its input with a CaseError whose faults are lines a person can read, or
// take it; anything else it throws, or any broken sum, is a finding.
#include "fuzz/subjects.hpp"

#include "cases/case.hpp"
#include "cases/journal.hpp"
#include "cases/overrides.hpp"
#include "cases/reading.hpp"
#include "cases/tree.hpp"
#include "cases/units.hpp"
#include "cases/vary.hpp"
#include "post/sweep.hpp"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <stdexcept>
#include <string>

namespace fuzz
{
namespace
{

namespace fs = std::filesystem;

struct BrokenPromise : std::logic_error
{
  using std::logic_error::logic_error;
};

void owe(bool kept, const std::string& what)
{
  if (!kept)
  {
    throw BrokenPromise(what);
  }
}

/// A folder of this process, kept until it ends.
const fs::path& folder()
{
  struct Made
  {
    fs::path path;
    Made()
    {
      std::string name = (fs::temp_directory_path() / "ferrule-fuzz-XXXXXX").string();
      owe(mkdtemp(name.data()) != nullptr, "no folder to write to");
      path = name;
    }
    ~Made() { fs::remove_all(path); }
  };
  static const Made made;
  return made.path;
}

fs::path file(const char* name, std::string_view bytes)
{
  const fs::path path = folder() / name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

/// Faults are what a terminal is shown: lines of text, each with a file and a reason.
void check(const cases::CaseError& error)
{
  owe(!error.faults().empty(), "refused without a fault");
  for (const cases::Fault& fault : error.faults())
  {
    owe(!fault.what.empty(), "a fault says nothing");
    for (const char letter : cases::line(fault))
    {
      const auto code = static_cast<unsigned char>(letter);
      owe(code >= 0x20 && code != 0x7f, "a fault holds a control character: " + cases::line(fault));
    }
  }
}

template <class Read> void judged(const Read& read)
{
  try
  {
    read();
  }
  catch (const cases::CaseError& error)
  {
    check(error);
  }
}

void feed_case(std::string_view bytes)
{
  const fs::path path = file("case.toml", bytes);
  judged(
      [&]
      {
        const cases::Case read = cases::read_case(path, {});
        for (const mesh::Winding& winding : read.problem.scene.windings)
        {
          owe(winding.turns > 0.0 && std::isfinite(winding.centre), "a winding out of bounds");
        }
        for (const mesh::Part& part : read.problem.scene.parts)
        {
          owe(std::isfinite(part.centre), "a part that is nowhere");
        }
        for (const auto& [name, material] : read.problem.materials)
        {
          owe(material.permeability > 0.0 && std::isfinite(material.permeability),
              "a material out of bounds: " + name);
        }
      });
}

void feed_units(std::string_view bytes)
{
  for (int kind = 0; kind <= static_cast<int>(cases::Kind::number); ++kind)
  {
    const auto read = cases::quantity(bytes, static_cast<cases::Kind>(kind));
    const double* number = std::get_if<double>(&read);
    owe(!number || std::isfinite(*number), "a quantity without end");
    owe(number || !std::get<cases::Misread>(read).what.empty(), "misread without a word");
  }
  cases::measured_by(bytes);
}

void feed_table(std::string_view bytes)
{
  static const fs::path path = file("tables.toml", R"(
[materials.a]
permeability_table = "table.csv"
[materials.b]
magnetisation_table = "table.csv"
[[windings]]
name = "coil"
turns = 10
inner_diameter = "10 mm"
outer_diameter = "12 mm"
length = "20 mm"
)");
  file("table.csv", bytes);
  judged([] { cases::read_case(path, {}); });
}

void feed_reading(std::string_view bytes)
{
  static const fs::path meter = file("meter.csv", "f [kHz],Ls [uH],Rs [ohm]\n10,142,1.2\n");
  const fs::path path = file("reading.toml", bytes);
  judged([&] { owe(!cases::read_readings(path).readings.empty(), "no reading, and no fault"); });
}

void feed_meter(std::string_view bytes)
{
  static const fs::path path = file("metered.toml", R"(
[unknown]
key = "materials.dust.permeability"
[[meter_files]]
file = "list.csv"
winding = "coil"
tolerance = "1 %"
)");
  file("list.csv", bytes);
  judged([] { owe(!cases::read_readings(path).readings.empty(), "no reading, and no fault"); });
}

/// Lines of what --set and --vary are told.
void feed_typed(std::string_view bytes)
{
  static const fs::path path = file("plain.toml", R"(
[materials.dust]
powder = { particle_permeability = 700, packing = 0.5 }
[[parts]]
name = "core"
shape = "rod"
material = "dust"
diameter = "6 mm"
length = "40 mm"
[[windings]]
name = "coil"
turns = 10
inner_diameter = "10 mm"
outer_diameter = "12 mm"
length = "20 mm"
)");
  std::vector<cases::Override> sets;
  for (std::size_t at = 0; at < bytes.size() && sets.size() < 8;)
  {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
    const std::string typed(bytes.substr(at, end - at));
    at = end + 1;
    judged([&] { cases::varied(typed); });
    if (const std::size_t equals = typed.find('='); equals != std::string::npos)
    {
      sets.push_back({typed.substr(0, equals), typed.substr(equals + 1)});
    }
  }
  judged([&] { cases::read_case(path, sets); });
}

/// Records made of these bytes, a line each; the file is then cut at a place they decide.
void cut_journal(const fs::path& path, std::string_view bytes)
{
  fs::remove(path);
  std::size_t pieces = 0;
  {
    cases::Journal journal(path, "work");
    for (std::size_t at = 0; at < bytes.size() && pieces < 8; ++pieces)
    {
      const std::size_t end = std::min(bytes.find('\n', at), bytes.size());
      journal.add(pieces, bytes.substr(at, end - at));
      at = end + 1;
    }
  }
  const cases::Records whole = cases::read_journal(path, "work");
  owe(whole.size() == pieces, "a whole record is lost");
  fs::resize_file(path, std::hash<std::string_view>()(bytes) % (fs::file_size(path) + 1));
  const cases::Journal cut(path, "work");
  for (const auto& [piece, text] : cut.found())
  {
    owe(whole.at(piece) == text, "a cut changes what is before it");
  }
}

void feed_journal(std::string_view bytes)
{
  const fs::path path = file("sweep.journal", "ferrule journal 1 work\n" + std::string(bytes));
  const cases::Records read = cases::read_journal(path, "work");
  const cases::Records again = cases::Journal(path, "work").found();
  owe(read == again, "a journal reads otherwise when it is opened");
  owe(cases::read_journal(path, "work") == read, "opening a journal changes what it holds");
  owe(cases::read_journal(path, "other").empty(), "a journal of other work counts");
  cut_journal(path, bytes);
}

/// Runs a reader of a document; it may refuse with one sentence.
template <class Read> void refused_or(const Read& read)
{
  try
  {
    read();
  }
  catch (const std::runtime_error& error)
  {
    owe(*error.what() != '\0', "refused without a word");
  }
}

void feed_record(std::string_view bytes)
{
  refused_or(
      [&]
      {
        const std::string once = post::json(post::swept_point(bytes));
        owe(post::json(post::swept_point(once)) == once, "a point changes when it is kept");
      });
}

void feed_model(std::string_view bytes)
{
  refused_or(
      [&]
      {
        const post::KeptModel kept = post::kept_model(bytes);
        const std::vector<double> mu(kept.model.varied.size(), 10.0);
        const post::SweptPoint point = post::at(kept, mu);
        owe(point.windings.size() == kept.windings.size(), "a winding is lost");
      });
}

} // namespace

std::span<const Subject> subjects()
{
  static constexpr Subject all[] = {
      {"case", feed_case},       {"units", feed_units},   {"table", feed_table},
      {"reading", feed_reading}, {"meter", feed_meter},   {"typed", feed_typed},
      {"journal", feed_journal}, {"record", feed_record}, {"model", feed_model}};
  return all;
}

} // namespace fuzz
