// The reports of one case: `solve` and `formulas`.
#include "cases/pipeline.hpp"
#include "cases/report.hpp"
#include "cases/result_text.hpp"
#include "cases/sheet.hpp"
#include "post/engineering.hpp"

#include <algorithm>

namespace cases
{

namespace
{

Sheet title_text(const Case& read)
{
  return title(plain(read.title)) + (read.notes.empty() ? Sheet() : wrapped(read.notes, 0, 0));
}

/// Value, then what the formula rests on.
Sheet one_formula(const post::FormulaResult& formula)
{
  const bool bare = formula.unit.empty() || formula.unit == "1";
  const Sheet named = apart(plain(formula.name) + ": " +
                                (bare ? post::number(formula.value, 5)
                                      : post::engineering(formula.value, formula.unit, 5)),
                            2);
  return named +
         wrapped((formula.holds ? "Holds here: " : "Outside its range: ") + plain(formula.why)) +
         wrapped("Source: " + plain(formula.source));
}

} // namespace

Sheet solve_text(const Case& read, const post::Result& result, std::span<const Tried> tried)
{
  if (!has_field(read.problem))
  {
    return title_text(read) + axial_text(result) + ladder_text(result) + bias_text(result) +
           insertion_text(result) + temperature_text(read.problem) + powder_text({&read, 1}) +
           safety_text({&read, 1});
  }
  return title_text(read) + winding_text(result) + parallel_text(read.problem) +
         mutual_text(result) + bias_text(result) + capacitance_text(read.problem, result) +
         frequency_text(result) + ladder_text(result) + heat_text(read.problem, result) +
         axial_text(result) + insertion_text(result) + temperature_text(read.problem) +
         background_text(result) + region_text(read.problem, result) + gap_text(result) +
         formula_text(result.formulas) + probe_text(result) + powder_text({&read, 1}) +
         accuracy_text(result) + meaning_text(result, tried) + safety_text({&read, 1});
}

Sheet meaning_text(const post::Result& result, std::span<const Tried> tried)
{
  const std::string limit = limit_sentence(result);
  const std::string gain = gain_sentence(result, tried);
  return heading("What this means") + (limit.empty() ? Sheet() : wrapped(limit)) +
         (gain.empty() ? Sheet() : wrapped(gain));
}

Sheet formulas_text(const Case& read, std::span<const post::FormulaResult> formulas)
{
  Sheet out = title_text(read);
  if (formulas.empty())
  {
    return out + apart("No hand formula in stock fits this case.");
  }
  for (const post::FormulaResult& formula : formulas)
  {
    out += one_formula(formula);
  }
  return out + apart("Hand formulas carry no bracket; ferrule solve sets them beside one.");
}

} // namespace cases
