// Tables of the formula check and the sentences beside them.
#include "cases/check_text.hpp"

#include "cases/sheet.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace cases
{

namespace
{

std::string share(int count, int points)
{
  return points > 0 ? fmt::format("{:.0f}", std::floor(100.0 * count / points)) : "-";
}

std::string claim(const post::FormulaScore& score)
{
  if (!score.claim)
  {
    return "-";
  }
  return *score.claim == 0.0   ? "exact"
         : *score.claim < 1e-4 ? fmt::format("{:.3g} ppm", 1e6 * *score.claim)
                               : fmt::format("{:.3g} %", 100.0 * *score.claim);
}

std::vector<std::string> row(const post::FormulaScore& score)
{
  const post::Tally& in = score.inside;
  return {score.name,
          claim(score) + (score.broken > 0 ? "!" : ""),
          share(in.within[0], in.points),
          share(in.within[1], in.points),
          share(in.within[2], in.points),
          in.points > 0 ? fmt::format("{:+.2g} %", 100.0 * score.worst) : "-",
          share(score.outside.within[1], score.outside.points)};
}

std::string farthest(const post::CheckFamily& family, const post::FormulaScore& score)
{
  std::string at =
      post::axis_words(family.x, score.at[0]) + ", " + post::axis_words(family.y, score.at[1]);
  const std::string third = post::axis_words(family.third, score.at[2]);
  return fmt::format("{}: worst at {}{}.", score.name, at, third.empty() ? "" : ", " + third);
}

std::string family_text(const post::FormulaCheck& check, std::size_t index)
{
  const post::CheckFamily& family = check.families[index];
  Table table{.rows = {{"", "claims", "1 %", "5 %", "20 %", "worst", "else"}}};
  std::string sentences;
  for (const post::FormulaScore& score : check.scores)
  {
    if (score.family != index)
    {
      continue;
    }
    table.rows.push_back(row(score));
    if (score.inside.points > 0 && std::abs(score.worst) > 0.05)
    {
      sentences += wrapped(farthest(family, score));
    }
  }
  const auto shapes = std::ranges::count(check.points, index, &post::CheckPoint::family);
  std::string over = family.x.label + " and " + family.y.label;
  if (!family.third.label.empty())
  {
    over += ", " + family.third.label;
  }
  std::string title = family.title;
  title[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(title[0])));
  return heading(title) + wrapped(fmt::format("{} shapes over {}.", shapes, over)) + text(table) +
         sentences;
}

std::string troubles(const post::FormulaCheck& check)
{
  std::string lines;
  for (const post::CheckPoint& point : check.points)
  {
    const post::CheckFamily& family = check.families[point.family];
    if (!point.reached)
    {
      lines += wrapped(
          fmt::format("{} at {}, {}: {}.", family.title, post::axis_words(family.x, point.x),
                      post::axis_words(family.y, point.y),
                      point.trouble.empty() ? fmt::format("only {:.1g} reached", point.bracket)
                                            : "not solved, " + point.trouble));
    }
  }
  return lines.empty() ? Sheet() : heading("Accuracy not reached") + lines;
}

} // namespace

std::string check_text(const post::FormulaCheck& check)
{
  std::string all = heading("Hand formulas against the field");
  all +=
      wrapped("Claims: what a formula's stated range promises, \"-\" where it promises no number. "
              "1 %, 5 %, 20 %: per cent of the shapes in that range where it is that good. Worst: "
              "its largest deviation there. Else: per cent of the other shapes where it is good "
              "to 5 %. A deviation counts only beyond the field's own bounds.");
  for (std::size_t i = 0; i < check.families.size(); ++i)
  {
    all += family_text(check, i);
  }
  int broken = 0;
  for (const post::FormulaScore& score : check.scores)
  {
    broken += score.broken > 0 ? 1 : 0;
  }
  all += troubles(check) + heading("Altogether") +
         wrapped(fmt::format("{} shapes, {} formulas. {}", check.points.size(), check.scores.size(),
                             broken == 0
                                 ? "Every formula keeps its claim on this grid."
                                 : fmt::format("{} break their claim, marked \"!\".", broken)));
  return all;
}

} // namespace cases
