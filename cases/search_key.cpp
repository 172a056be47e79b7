// KEY and FROM:TO to a range in which the case can be built.
#include "cases/search_key.hpp"

#include "cases/draft.hpp"
#include "cases/overrides.hpp"
#include "cases/request.hpp"
#include "cases/sweep_plan.hpp"
#include "cases/text_file.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace cases
{

namespace
{

std::vector<std::string> names(const std::string& by)
{
  std::vector<std::string> list;
  for (std::size_t begin = 0; begin <= by.size();)
  {
    const std::size_t end = std::min(by.find(',', begin), by.size());
    list.push_back(by.substr(begin, end - begin));
    begin = end + 1;
  }
  if (std::ranges::any_of(list, &std::string::empty))
  {
    usage_fault("--by is " + in_quotes(by), "write a key of the case, e.g. parts.core.length");
  }
  return list;
}

/// The case's own value of a key, with its unit; nothing where the case has no such number.
std::optional<Varied> own_value(const SearchCase& searched, const std::string& key,
                                std::vector<Fault>& faults)
{
  const SourcePlace where{"--by " + key};
  Node root = searched.tree;
  apply(searched.options.sets, root, faults);
  const std::optional<Node> node = value_of(key, root, where, faults);
  if (!node)
  {
    return std::nullopt;
  }
  const auto* text = std::get_if<std::string>(&node->value);
  const auto* number = std::get_if<double>(&node->value);
  if (text || number)
  {
    Varied own = over_list({key}, {text ? *text : written(*number)}, where);
    if (own.numeric)
    {
      return own;
    }
  }
  faults.push_back({where, fmt::format("{} is {} in the case, no number", key, as_written(*node)),
                    "name a key that holds one, e.g. parts.core.length"});
  return std::nullopt;
}

std::pair<double, double> given_range(const SearchKey& key, const std::string& between,
                                      SearchKey& made)
{
  const SourcePlace where{"--between " + between};
  const std::size_t colon = between.find(':');
  if (colon == std::string::npos)
  {
    throw CaseError({{where, "this is no range", "write FROM:TO, e.g. 20mm:200mm"}});
  }
  Varied range =
      over_range(key.keys, {between.substr(0, colon), between.substr(colon + 1), 2}, where);
  std::ranges::sort(range.values, {}, &VariedValue::si);
  const VariedValue& shown = range.values[range.values[0].si == 0.0 ? 1 : 0];
  made.kind = range.kind;
  made.unit = range.unit;
  made.scale = shown.shown / shown.si;
  return {range.values[0].si, range.values[1].si};
}

/// Why the case cannot be built there; empty where it can.
std::string fault_at(const SearchCase& searched, const SearchKey& key, double at)
{
  try
  {
    case_at(searched, std::span(&key, 1), std::span(&at, 1));
    return "";
  }
  catch (const CaseError& error)
  {
    return first_fault(error);
  }
}

/// Narrows the range to the unbroken run of sound cases about the start.
class Narrowing
{
public:
  Narrowing(const SearchCase& searched, SearchKey& key) : _searched(searched), _key(key)
  {
    constexpr int count = 33;
    for (int i = 0; i < count; ++i)
    {
      _grid.push_back(i == 0           ? key.from
                      : i + 1 == count ? key.to
                                       : between(key.from, key.to, i / (count - 1.0)));
    }
  }

  void run()
  {
    const double start = sound_start();
    std::string below, above;
    const double from = reach(start, -1, below), to = reach(start, 1, above);
    _key.below = below;
    _key.above = above;
    if (!(to > from))
    {
      throw CaseError({{{"--by " + _key.keys.front()},
                        fmt::format("{} has no room to vary: {}", _key.keys.front(),
                                    below.empty() ? above : below),
                        "give it room, or search by another key"}});
    }
    _key.from = from;
    _key.to = to;
    _key.own = std::clamp(_key.own, from, to);
  }

private:
  double between(double a, double b, double share) const
  {
    const double at = _key.from > 0.0 ? a * std::pow(b / a, share) : a + (b - a) * share;
    return _key.whole ? std::round(at) : at;
  }

  double sound_start() const
  {
    std::string why = fault_at(_searched, _key, _key.own);
    if (why.empty())
    {
      return _key.own;
    }
    for (const double at : _grid)
    {
      if (fault_at(_searched, _key, at).empty())
      {
        return at;
      }
    }
    throw CaseError(
        {{{"--by " + _key.keys.front()},
          fmt::format("no value of {} from {} to {} makes a sound case: {}", _key.keys.front(),
                      value_text(_key, _key.from), value_text(_key, _key.to), why),
          "give another range with --between"}});
  }

  /// The last sound value on the way to an end; beyond it, `why`.
  double reach(double start, int direction, std::string& why) const
  {
    double good = start;
    for (std::size_t i = 0; i < _grid.size(); ++i)
    {
      const double at = direction > 0 ? _grid[i] : _grid[_grid.size() - 1 - i];
      if (direction * (at - good) <= 0.0)
      {
        continue;
      }
      why = fault_at(_searched, _key, at);
      if (!why.empty())
      {
        return edge(good, at, why);
      }
      good = at;
    }
    return good;
  }

  /// Bisection, no closer than what leaves a gap worth a mesh.
  double edge(double good, double bad, std::string& why) const
  {
    for (int i = 0; i < 12; ++i)
    {
      const double middle = between(good, bad, 0.5);
      if (middle == good || middle == bad)
      {
        break;
      }
      const std::string fault = fault_at(_searched, _key, middle);
      (fault.empty() ? good : bad) = middle;
      why = fault.empty() ? why : fault;
    }
    // Bodies that just touch, and other round ends, where they are sound.
    const double round = std::stod(fmt::format("{:.3g}", good * _key.scale)) / _key.scale;
    const bool nearer = (round - good) * (bad - round) >= 0.0;
    return nearer && fault_at(_searched, _key, round).empty() ? round : good;
  }

  const SearchCase& _searched;
  SearchKey& _key;
  std::vector<double> _grid;
};

bool takes_whole_numbers(const SearchCase& searched, const std::string& key)
{
  const std::string head = "windings.";
  if (!key.starts_with(head) || !(key.ends_with(".turns") || key.ends_with(".layers")))
  {
    return false;
  }
  std::vector<Fault> none;
  Node root = searched.tree;
  return key.ends_with(".layers") ||
         value_of(key.substr(0, key.rfind('.')) + ".wire", root, {}, none).has_value();
}

} // namespace

SearchCase search_case(const std::filesystem::path& file, const Options& options)
{
  SearchCase made;
  made.file = file;
  made.tree = tree(read_text(file), file.string());
  made.options = options;
  std::vector<Fault> later; // the case is judged when it is built
  Section top(std::get<Entries>(made.tree.value), {file.string()}, "", later);
  made.title = top.text("title", file.stem().string()).value_or(file.stem().string());
  return made;
}

SearchKey search_key(const SearchCase& searched, const std::string& typed,
                     const std::string& beside)
{
  const std::size_t equals = typed.find('=');
  const std::string by = typed.substr(0, equals),
                    between = equals == std::string::npos ? beside : typed.substr(equals + 1);
  SearchKey key;
  key.keys = names(by);
  key.whole = std::ranges::any_of(key.keys, [&](const std::string& one)
                                  { return takes_whole_numbers(searched, one); });
  std::vector<Fault> faults;
  const std::optional<Varied> own = own_value(searched, key.keys.front(), faults);
  if (own)
  {
    const VariedValue& value = own->values.front();
    key.kind = own->kind;
    key.unit = own->unit;
    key.own = value.si;
    key.scale = value.si != 0.0 ? value.shown / value.si : 1.0;
  }
  if (between.empty() && !own)
  {
    throw CaseError(std::move(faults));
  }
  if (between.empty() && !(key.own > 0.0))
  {
    throw CaseError({{{"--by " + by},
                      fmt::format("{} is {} in the case, which suggests no range", by,
                                  own->values.front().text),
                      "add --between FROM:TO"}});
  }
  if (between.empty())
  {
    key.from = 0.1 * key.own;
    key.to = 10.0 * key.own;
    key.from = key.whole ? std::max(1.0, std::round(key.from)) : key.from;
  }
  else
  {
    std::tie(key.from, key.to) = given_range(key, between, key);
    const bool inside = own && key.own >= key.from && key.own <= key.to;
    key.own = inside ? key.own : 0.5 * (key.from + key.to);
  }
  if (key.whole)
  {
    key.own = std::round(key.own);
    key.from = std::ceil(key.from);
    key.to = std::floor(key.to);
  }
  Narrowing(searched, key).run();
  return key;
}

std::string value_text(const SearchKey& key, double si)
{
  return fmt::format("{:.15g}{}{}", si * key.scale, key.unit.empty() ? "" : " ", key.unit);
}

Case case_at(const SearchCase& searched, std::span<const SearchKey> keys,
             std::span<const double> values)
{
  std::vector<Override> all = searched.options.sets;
  for (std::size_t i = 0; i < keys.size(); ++i)
  {
    for (const std::string& key : keys[i].keys)
    {
      all.push_back({key, value_text(keys[i], values[i])});
    }
  }
  Case read = read_tree(searched.tree, searched.file, all);
  read.problem.accuracy = searched.options.accuracy.value_or(read.problem.accuracy);
  return read;
}

solver::Problem problem_at(const SearchCase& searched, std::span<const SearchKey> keys,
                           std::span<const double> values)
{
  solver::Problem problem = case_at(searched, keys, values).problem;
  if (problem.scene.windings.empty())
  {
    throw CaseError({{{searched.file.string()},
                      "the case has no winding",
                      "add one: what is sought is an inductance"}});
  }
  return problem;
}

std::string first_fault(const CaseError& error)
{
  const Fault& first = error.faults().front();
  const std::size_t more = error.faults().size() - 1;
  return first.what + (first.cure.empty() ? "" : "; " + first.cure) +
         (more > 0 ? fmt::format(" (and {} more)", more) : "");
}

std::vector<std::string> materials_moved(const SearchKey& key)
{
  std::vector<std::string> list;
  for (const std::string& one : key.keys)
  {
    if (!is_material_key(one))
    {
      return {};
    }
    const std::size_t begin = one.find('.') + 1;
    list.push_back(one.substr(begin, one.find('.', begin) - begin));
  }
  return list;
}

} // namespace cases
