// A case file into a problem: text, tree, overrides, then table by table, then how they fit
// together.
#include "cases/draft.hpp"
#include "cases/overrides.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{
namespace
{

/// A case of a later format may mean something else by the same keys: nothing else is judged.
void read_format(Draft& draft, Section& top)
{
  const double format = top.value("format", case_format, newest_format).value_or(newest_format);
  if (format > newest_format)
  {
    top.fault_at(
        "format",
        fmt::format("is {:.0f}, and this version reads format {:.0f}", format, newest_format),
        "use a later version of ferrule for this case");
    throw CaseError(std::move(draft.faults));
  }
}

void read_words(Draft& draft, Section& top)
{
  Case& result = draft.result;
  result.title = top.text("title", result.path.stem().string()).value_or("");
  if (holds_control(result.title))
  {
    const bool lines = result.title.find('\n') != std::string::npos;
    top.fault_at("title", lines ? "must be one line" : "has a control character",
                 lines ? "put the rest into notes" : "leave it out");
  }
  result.notes = top.text("notes", "").value_or("");
  std::string notes = result.notes;
  std::erase_if(notes, [](char letter)
                { return std::string_view("\n\r\t").find(letter) != std::string_view::npos; });
  if (holds_control(notes))
  {
    top.fault_at("notes", "has a control character", "leave it out; lines and tabs may stay");
  }
}

/// Faults of the file from its top down, then those of the command line.
void sort_by_place(std::vector<Fault>& faults, const std::string& file)
{
  const auto rank = [&](const Fault& fault)
  { return std::tuple(fault.where.file != file, fault.where.line, fault.where.column); };
  std::ranges::stable_sort(faults, {}, rank);
}

} // namespace

Case read_case(const std::filesystem::path& path, const std::vector<Override>& overrides)
{
  Node root = tree(read_text(path), path.string());
  if (std::get<Entries>(root.value).empty())
  {
    throw CaseError({{{path.string()}, "the file is empty", "start a case with: ferrule new"}});
  }
  return read_tree(std::move(root), path, overrides);
}

Case read_tree(Node root, const std::filesystem::path& path, const std::vector<Override>& overrides)
{
  const std::string file = path.string();
  std::vector<Fault> faults;
  apply(overrides, root, faults);

  Draft draft(faults);
  draft.result.path = path;
  Section top(std::get<Entries>(root.value), {file}, "", faults);
  read_format(draft, top);
  read_words(draft, top);
  draft.result.problem.temperature = drive_temperature(top);
  read_materials(draft, top);
  read_parts(draft, top);
  read_windings(draft, top);
  read_drive(draft, top);
  read_accuracy(draft, top);
  read_heat(draft, top);
  read_probes(draft, top);
  read_axial(draft, top);
  read_sweep(draft, top);
  top.finish("a case");

  place_bodies(draft);
  check_overlaps(draft);
  if (faults.empty())
  {
    check_heat(draft);
  }

  if (!faults.empty())
  {
    sort_by_place(faults, file);
    throw CaseError(std::move(faults));
  }
  return std::move(draft.result);
}

} // namespace cases
