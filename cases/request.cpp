// Checks each option's text and hands over to the command.
#include "cases/request.hpp"

#include "cases/fault.hpp"
#include "cases/origin.hpp"

#include <algorithm>
#include <cstdlib>
#include <thread>

namespace cases
{

namespace
{

/// The number a text is as a whole; empty where it is none.
std::optional<double> whole_number(const std::string& text)
{
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  return !text.empty() && *end == '\0' ? std::optional(value) : std::nullopt;
}

} // namespace

void usage_fault(const std::string& what, const std::string& cure)
{
  Fault fault;
  fault.where.file = "ferrule";
  fault.what = what;
  fault.cure = cure;
  std::vector<Fault> faults;
  faults.push_back(std::move(fault)); // no braces: GCC 12 warns wrongly of uninitialised members
  throw CaseError(std::move(faults));
}

Options options(const Typed& typed)
{
  Options chosen;
  chosen.out = typed.out;
  chosen.json = typed.json;
  chosen.quiet = typed.quiet;
  chosen.revolve = typed.revolve;
  for (const std::string& set : typed.sets)
  {
    const std::size_t equals = set.find('=');
    if (equals == std::string::npos || equals == 0)
    {
      usage_fault("--set \"" + set + "\" has no KEY=VALUE", "e.g. --set parts.core.length=80mm");
    }
    chosen.sets.push_back({set.substr(0, equals), set.substr(equals + 1)});
  }
  if (!typed.accuracy.empty())
  {
    chosen.accuracy = whole_number(typed.accuracy);
    if (!chosen.accuracy || !(*chosen.accuracy > 0.0 && *chosen.accuracy < 1.0))
    {
      usage_fault("--accuracy is \"" + typed.accuracy + "\"; it must lie between 0 and 1",
                  "e.g. 1e-3 for bounds within a thousandth");
    }
  }
  if (typed.written != "all" && typed.written != "none")
  {
    usage_fault("--files is \"" + typed.written + "\"", "write --files none or --files all");
  }
  chosen.files = typed.written == "all";
  chosen.vary = typed.vary;
  chosen.threads = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  if (!typed.threads.empty())
  {
    const double count = whole_number(typed.threads).value_or(0.0);
    if (!(count >= 1.0 && count <= 1024.0) || count != static_cast<int>(count))
    {
      usage_fault("--threads is \"" + typed.threads + "\"", "give a whole number from 1 to 1024");
    }
    chosen.threads = static_cast<int>(count);
  }
  return chosen;
}

namespace
{

/// The catalogue is checked as it stands: it belongs to no case.
int check(const Typed& typed, const Options& chosen)
{
  if (!typed.check)
  {
    usage_fault("--fine asks for denser grids of --check", "write ferrule formulas --check --fine");
  }
  if (!typed.files.empty() || !typed.sets.empty())
  {
    usage_fault("formulas --check takes no case file and no --set",
                "write ferrule formulas --check, or ferrule formulas CASE.toml");
  }
  return check_formulas(typed.fine, chosen);
}

/// Searches have words of their own.
int search(const Typed& typed, const Options& chosen)
{
  const SweepAsked& asked = typed.sweep;
  const std::filesystem::path file(typed.files.front());
  if (!asked.vary.empty() || !asked.show.empty() || !asked.share.empty() || asked.join ||
      asked.fields || !typed.model.empty())
  {
    usage_fault("--seek and --wish take no --vary, --show, --share, --join, --fields or --model",
                "search first, then sweep about what was found");
  }
  if (!asked.wish.empty() || !asked.keep.empty())
  {
    if (asked.wish.size() != 2 || asked.by.empty() || !asked.seek.empty() || !asked.between.empty())
    {
      usage_fault("wishes come in twos, with --by for each key that may move",
                  "write e.g. --wish inductance=up --wish mass=down --by parts.core.length "
                  "--by parts.core.diameter=4mm:8mm");
    }
    return wish(file, asked, chosen);
  }
  if (asked.seek.empty() || asked.by.size() != 1)
  {
    usage_fault("a search needs both --seek and one --by",
                "write e.g. --seek inductance=100uH --by windings.coil.turns");
  }
  return seek(file, asked, chosen);
}

/// A kept model stands in for the case; shares and joining are for cases.
int sweep(const Typed& typed, const Options& chosen)
{
  SweepAsked asked = typed.sweep;
  asked.model = typed.model;
  if (asked.join && !asked.share.empty())
  {
    usage_fault("--share and --join are both given", "run every share first, then join");
  }
  if (!typed.model.empty())
  {
    if (!typed.files.empty() || !typed.sets.empty() || asked.join || asked.full || asked.fields ||
        !asked.share.empty())
    {
      usage_fault("sweep --model takes no case file and no --set, --share, --join, --full or "
                  "--fields",
                  "write ferrule sweep --model model.json --vary materials.NAME.permeability=...");
    }
    return sweep(std::filesystem::path(), asked, chosen);
  }
  return sweep(std::filesystem::path(typed.files.front()), asked, chosen);
}

/// The page of what a results folder was made of, into that folder.
int report_of_folder(const std::filesystem::path& folder, const Typed& typed, const Options& chosen)
{
  if (!typed.sets.empty() || chosen.accuracy || !typed.reading.empty())
  {
    usage_fault("a results folder takes no --set, --accuracy or --reading: it says what made it",
                "give ferrule report the case file");
  }
  const Origin origin = read_origin(folder);
  Options options = chosen;
  options.sets = origin.options.sets;
  options.accuracy = origin.options.accuracy;
  options.out = chosen.out.empty() ? folder : chosen.out;
  return report(origin.files, origin.reading, options);
}

} // namespace

int run(const std::string& name, const Typed& typed)
{
  if (name == "new")
  {
    return starter(typed.kind);
  }
  const Options chosen = options(typed);
  if (name == "mix")
  {
    return mix(typed.mix, chosen);
  }
  if (name == "formulas" && (typed.check || typed.fine))
  {
    return check(typed, chosen);
  }
  const std::vector<std::filesystem::path> files(typed.files.begin(), typed.files.end());
  const std::size_t needed = name == "compare" && typed.vary.empty()   ? 2
                             : name == "sweep" && !typed.model.empty() ? 0
                                                                       : 1;
  if (files.size() < needed)
  {
    usage_fault(name + (needed == 2 ? " needs at least two case files" : " needs a case file"),
                needed == 2
                    ? "write ferrule compare A.toml B.toml, or one with --vary KEY=VALUES"
                    : "write ferrule " + name + " CASE.toml; ferrule new lists starter cases");
  }
  if (name != "compare" && name != "report" && files.size() > 1)
  {
    usage_fault(name + " takes one case file, got " + std::to_string(files.size()),
                "ferrule compare takes several");
  }
  if (name == "fit")
  {
    if (typed.reading.empty())
    {
      usage_fault("fit needs a reading file", "write ferrule fit CASE.toml --reading READING.toml");
    }
    return fit(files.front(), typed.reading, chosen);
  }
  if (name == "sweep")
  {
    const SweepAsked& asked = typed.sweep;
    const bool values = asked.seek.empty() && asked.by.empty() && asked.between.empty() &&
                        asked.wish.empty() && asked.keep.empty();
    return values ? sweep(typed, chosen) : search(typed, chosen);
  }
  if (name == "report")
  {
    if (!typed.reading.empty() && files.size() > 1)
    {
      usage_fault("a reading is of one case, got " + std::to_string(files.size()),
                  "write ferrule report CASE.toml --reading READING.toml");
    }
    return files.size() == 1 && std::filesystem::is_directory(files.front())
               ? report_of_folder(files.front(), typed, chosen)
               : report(files, typed.reading, chosen);
  }
  return name == "solve"     ? solve(files.front(), chosen)
         : name == "compare" ? compare(files, chosen)
                             : formulas(files.front(), chosen);
}

} // namespace cases
