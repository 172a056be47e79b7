// The only file that knows the optimisation library: COBYLA [Powell 1994].
#include "post/front.hpp"

#include "solver/at_once.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <nlopt.hpp>

namespace post
{

namespace
{

constexpr double bad = 20.0; ///< Of a wish or constraint without a design; they are logarithms.
constexpr double none = std::numeric_limits<double>::infinity();

using Numbers = std::optional<std::vector<double>>;
using Tried = std::map<std::vector<double>, Numbers>;

/// @brief Evenly strewn, reproducible: radical inverses in the first primes [Halton 1960].
std::vector<double> strewn(std::size_t index, std::size_t coordinates)
{
  constexpr std::size_t primes[] = {2, 3, 5, 7, 11, 13};
  std::vector<double> at;
  for (std::size_t k = 0; k < coordinates; ++k)
  {
    double value = 0.0, part = 1.0;
    for (std::size_t i = index; i > 0; i /= primes[k % 6])
    {
      part /= static_cast<double>(primes[k % 6]);
      value += part * static_cast<double>(i % primes[k % 6]);
    }
    at.push_back(value);
  }
  return at;
}

bool kept(const std::vector<double>& numbers)
{
  return std::all_of(numbers.begin() + 2, numbers.end(), [](double one) { return one <= 0.0; });
}

/// Least of a wish among what was tried, with the other at most at a level.
const std::pair<const std::vector<double>, Numbers>* best(const Tried& tried, std::size_t wish,
                                                          double level)
{
  const std::pair<const std::vector<double>, Numbers>* found = nullptr;
  for (const auto& one : tried)
    if (one.second && kept(*one.second) && (*one.second)[1 - wish] <= level &&
        (!found || (*one.second)[wish] < (*found->second)[wish]))
      found = &one;
  return found;
}

/// One local search; it leaves all it tried in `tried`.
class Search
{
public:
  Search(const FrontQuestion& question, std::size_t wish, double level)
      : _question(question), _wish(wish), _level(level)
  {
  }

  Tried run(const std::vector<double>& start)
  {
    const auto count = static_cast<unsigned>(start.size());
    nlopt::opt search(nlopt::LN_COBYLA, count);
    search.set_lower_bounds(0.0);
    search.set_upper_bounds(1.0);
    search.set_initial_step(0.15);
    search.set_xtol_abs(2e-3);
    search.set_maxeval(_question.steps);
    search.set_min_objective(objective, this);
    const Numbers first = at(start);
    const std::size_t constraints = first ? first->size() - 2 : 0;
    _constraints.reserve(constraints + 1);
    for (std::size_t i = 0; i < constraints + (_level < none ? 1 : 0); ++i)
    {
      _constraints.push_back({this, i});
      search.add_inequality_constraint(constraint, &_constraints.back(), 0.0);
    }
    std::vector<double> x = start;
    double value = 0.0;
    try
    {
      search.optimize(x, value);
    }
    catch (const nlopt::roundoff_limited&)
    {
      // As far as it gets; what it tried is kept all the same.
    }
    return _tried;
  }

private:
  struct Constraint
  {
    Search* search;
    std::size_t index;
  };

  Numbers at(const std::vector<double>& x)
  {
    const auto found = _tried.find(x);
    return found != _tried.end() ? found->second
                                 : _tried.emplace(x, _question.numbers(x)).first->second;
  }
  static double objective(const std::vector<double>& x, std::vector<double>& /*gradient*/,
                          void* data)
  {
    auto* self = static_cast<Search*>(data);
    const Numbers numbers = self->at(x);
    return numbers ? (*numbers)[self->_wish] : bad;
  }
  static double constraint(const std::vector<double>& x, std::vector<double>& /*gradient*/,
                           void* data)
  {
    const auto* one = static_cast<Constraint*>(data);
    const Numbers numbers = one->search->at(x);
    if (!numbers)
      return bad;
    return one->index + 2 < numbers->size()
               ? (*numbers)[one->index + 2]
               : (*numbers)[1 - one->search->_wish] - one->search->_level;
  }

  const FrontQuestion& _question;
  std::size_t _wish;
  double _level;
  std::vector<Constraint> _constraints;
  Tried _tried;
};

/// Runs searches at once and gathers what they tried.
void search_all(const FrontQuestion& question, Tried& tried, std::size_t wish,
                const std::vector<double>& levels, int threads)
{
  std::vector<Tried> found(levels.size());
  solver::at_once(levels.size(), threads,
                  [&](std::size_t i)
                  {
                    const auto* start = best(tried, wish, levels[i]);
                    if (start)
                      found[i] = Search(question, wish, levels[i]).run(start->first);
                  });
  for (Tried& one : found)
    tried.merge(one);
}

void strew(const FrontQuestion& question, Tried& tried, int threads)
{
  const std::size_t coordinates = question.own.size(), count = 8 + 8 * coordinates;
  std::vector<std::vector<double>> places = {question.own};
  for (std::size_t i = 1; i <= count; ++i)
    places.push_back(strewn(i, coordinates));
  std::vector<Numbers> found(places.size());
  solver::at_once(places.size(), threads,
                  [&](std::size_t i) { found[i] = question.numbers(places[i]); });
  for (std::size_t i = 0; i < places.size(); ++i)
    tried.emplace(places[i], found[i]);
}

} // namespace

Front front(const FrontQuestion& question, int threads)
{
  Tried tried;
  strew(question, tried, threads);
  search_all(question, tried, 0, {none}, threads);
  search_all(question, tried, 1, {none}, threads);
  // Of designs as good as the best in the first wish, the best in the second ends the front.
  constexpr double as_good = 1e-3;
  const auto best_first = [&]
  {
    const auto* found = best(tried, 0, none);
    return found ? (*found->second)[0] + as_good : -none;
  };
  search_all(question, tried, 1, {best_first()}, threads);
  const auto *most = best(tried, 1, best_first()), *least = best(tried, 1, none);
  std::vector<double> levels;
  for (int i = 0; most && i < question.levels; ++i)
  {
    const double from = (*least->second)[1], to = (*most->second)[1];
    levels.push_back(i + 1 == question.levels ? to
                                              : from + (to - from) * i / (question.levels - 1));
  }
  search_all(question, tried, 0, levels, threads);
  Front made;
  made.tried = tried.size();
  for (const auto& one : tried)
    made.impossible += one.second ? 0 : 1;
  for (const double level : levels)
  {
    const auto* one = best(tried, 0, level);
    if (made.points.empty() || one->second->at(0) < made.points.back().numbers[0])
      made.points.push_back({one->first, *one->second});
  }
  return made;
}

} // namespace post
