// One reading a file and value, with the value as one override more.
#include "cases/variants.hpp"

#include "cases/pipeline.hpp"
#include "cases/request.hpp"
#include "cases/vary.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr std::size_t most_cases = 60;

/// Whether the case has what a key is of: parts.NAME, windings.NAME, materials.NAME; any other key
/// is of every case.
bool has_owner(const Case& read, const std::string& key)
{
  const std::size_t begin = key.find('.') + 1;
  const std::string kind = key.substr(0, begin),
                    name = key.substr(begin, key.find('.', begin) - begin);
  const auto named = [&name](const auto& one) { return one.name == name; };
  const solver::Problem& problem = read.problem;
  if (kind == "parts.")
  {
    return std::ranges::any_of(problem.scene.parts, named);
  }
  if (kind == "windings.")
  {
    return std::ranges::any_of(problem.scene.windings, named);
  }
  return kind != "materials." || problem.materials.contains(name);
}

/// The options with a value of each key the file has.
Options at_value(const Case& plain, const Varied& varied, const std::string& value,
                 const Options& options)
{
  Options made = options;
  for (const std::string& key : varied.keys)
  {
    if (has_owner(plain, key))
    {
      made.sets.push_back({key, value});
    }
  }
  if (made.sets.size() == options.sets.size())
  {
    throw CaseError({{{plain.path.string()},
                      fmt::format("has none of the keys {} that vary", keys_text(varied)),
                      "leave the file out, or name a key of it after a comma"}});
  }
  return made;
}

} // namespace

std::vector<Case> read_variants(const std::vector<std::filesystem::path>& files,
                                const Options& options)
{
  std::vector<Case> plain = read_all(files, options);
  if (options.vary.empty())
  {
    return plain;
  }
  Varied varied = cases::varied(options.vary);
  if (files.size() * varied.values.size() > most_cases)
  {
    usage_fault(fmt::format("--vary makes more than {} cases", most_cases),
                "give fewer values; ferrule sweep is for many");
  }
  std::vector<Case> all;
  for (const VariedValue& value : varied.values)
  {
    for (const Case& one : plain)
    {
      Case read = read_with(one.path, at_value(one, varied, value.text, options));
      read.variant =
          varied.unit.empty() ? value.text : fmt::format("{:.12g} {}", value.shown, varied.unit);
      read.title += fmt::format(" ({} {})", short_name(varied), read.variant);
      all.push_back(std::move(read));
    }
  }
  return all;
}

} // namespace cases
