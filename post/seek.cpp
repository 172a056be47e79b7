// A few values over the range, then a safeguarded search in ln quantity over ln value.
#include "post/seek.hpp"

#include "solver/at_once.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace post
{

namespace
{

class Search
{
public:
  Search(const SeekQuestion& question, int threads) : _question(question)
  {
    constexpr int nodes = 7;
    std::vector<double> values;
    for (int i = 0; i < nodes; ++i)
      values.push_back(
          place(position(question.from) +
                (position(question.to) - position(question.from)) * i / (nodes - 1.0)));
    values.front() = question.from;
    values.back() = question.to;
    if (question.own > question.from && question.own < question.to)
    {
      // The case's own value in place of a node close to it.
      const double near = 0.1 * std::abs(position(question.to) - position(question.from)) / nodes;
      std::erase_if(values,
                    [&](double at)
                    {
                      return at != question.from && at != question.to &&
                             std::abs(position(at) - position(question.own)) < near;
                    });
      values.push_back(question.own);
    }
    std::ranges::sort(values);
    values.erase(std::unique(values.begin(), values.end()), values.end());
    _tried.resize(values.size());
    solver::at_once(values.size(), threads,
                    [&](std::size_t i) { _tried[i] = question.tried(values[i]); });
  }

  Sought result()
  {
    if (gaps().empty())
      look_at_extremes();
    Sought made;
    const auto all = gaps();
    if (!all.empty())
      close(all, made);
    else
      take_open(made);
    made.tried = _tried;
    return made;
  }

private:
  double position(double at) const { return _question.from > 0.0 ? std::log(at) : at; }
  double place(double position) const
  {
    const double at = _question.from > 0.0 ? std::exp(position) : position;
    return _question.whole ? std::round(at) : at;
  }
  /// Logarithm of the quantity over the target.
  double excess(const TriedValue& one) const
  {
    return std::log(one.quantity.value / _question.target);
  }
  double half_width(const TriedValue& one) const
  {
    return 0.5 * (one.quantity.upper - one.quantity.lower) / one.quantity.value;
  }
  /// Which side of the target the true quantity is surely on; 0 where the bracket holds it.
  int side(const TriedValue& one) const
  {
    return one.quantity.upper < _question.target ? -1 : one.quantity.lower > _question.target;
  }

  const TriedValue& tried(double at)
  {
    auto next = std::ranges::lower_bound(_tried, at, {}, &TriedValue::at);
    if (next == _tried.end() || next->at != at)
      next = _tried.insert(next, _question.tried(at));
    return *next;
  }

  /// Neighbours tried with the target between their middles.
  std::vector<std::pair<TriedValue, TriedValue>> gaps() const
  {
    std::vector<std::pair<TriedValue, TriedValue>> list;
    for (std::size_t i = 1; i < _tried.size(); ++i)
    {
      const TriedValue &a = _tried[i - 1], &b = _tried[i];
      if (a.fault.empty() && b.fault.empty() && (excess(a) < 0.0) != (excess(b) < 0.0))
        list.emplace_back(a, b);
    }
    return list;
  }

  /// The target may hide beyond an extreme between values: parabolas through the nearest three.
  void look_at_extremes()
  {
    for (int steps = 0; steps < 8 && gaps().empty(); ++steps)
    {
      std::size_t best = 0;
      for (std::size_t i = 1; i + 1 < _tried.size(); ++i)
        if (sound_three(i) && (best == 0 || size(i) < size(best)))
          best = i;
      if (best == 0 || size(best) > size(best - 1) || size(best) > size(best + 1))
        return;
      const double a = position(_tried[best - 1].at), b = position(_tried[best].at),
                   c = position(_tried[best + 1].at);
      const double p = (b - a) * (excess(_tried[best]) - excess(_tried[best + 1])),
                   q = (b - c) * (excess(_tried[best]) - excess(_tried[best - 1]));
      const double vertex = b - 0.5 * ((b - a) * p - (b - c) * q) / (p - q);
      const double at = place(vertex);
      if (!(vertex > a && vertex < c) || at == _tried[best].at || !tried(at).fault.empty())
        return;
    }
  }
  bool sound_three(std::size_t i) const
  {
    return _tried[i - 1].fault.empty() && _tried[i].fault.empty() && _tried[i + 1].fault.empty();
  }
  double size(std::size_t i) const { return std::abs(excess(_tried[i])); }

  /// Without a gap: the value whose bracket holds the target, if there is one.
  void take_open(Sought& made) const
  {
    const TriedValue* best = nullptr;
    for (const TriedValue& one : _tried)
      if (one.fault.empty() && side(one) == 0 &&
          (!best || std::abs(excess(one)) < std::abs(excess(*best))))
        best = &one;
    if (!best)
      return;
    made.value = best->at;
    if (_question.whole)
      made.neighbours = {*best};
  }

  void close(const std::vector<std::pair<TriedValue, TriedValue>>& all, Sought& made)
  {
    const double own = position(std::clamp(_question.own, _question.from, _question.to));
    const auto distance = [&](const auto& gap)
    {
      const double a = position(gap.first.at), b = position(gap.second.at);
      return own < a ? a - own : own > b ? own - b : 0.0;
    };
    const auto nearest = std::ranges::min_element(all, {}, distance);
    for (auto gap = all.begin(); gap != all.end(); ++gap)
      if (gap != nearest)
        made.others.emplace_back(gap->first.at, gap->second.at);
    auto [low, high] = *nearest;
    close_in(low, high);
    const TriedValue best = std::abs(excess(low)) <= std::abs(excess(high)) ? low : high;
    made.slope = best.slope.value_or(slope(low, high));
    if (_question.whole)
    {
      const double share = excess(low) / (excess(low) - excess(high));
      made.value = position(low.at) + share * (position(high.at) - position(low.at));
      made.value = _question.from > 0.0 ? std::exp(*made.value) : *made.value;
      made.neighbours = {low, high};
      return;
    }
    made.value = best.at;
    const int rising = excess(high) > excess(low) ? 1 : -1;
    made.lower = sure_end(best, -1, -rising, made.slope);
    made.upper = sure_end(best, 1, rising, made.slope);
  }

  /// Narrows a gap until an end's middle is well within its own bracket of the target.
  void close_in(TriedValue& low, TriedValue& high)
  {
    constexpr double enough = 0.25; // of the half-width: below it the mesh decides, not the case
    for (int steps = 0; steps < 60; ++steps)
    {
      const TriedValue best = std::abs(excess(low)) <= std::abs(excess(high)) ? low : high;
      if (!_question.whole && std::abs(excess(best)) <= std::max(enough * half_width(best), 1e-14))
        return;
      const double a = position(low.at), b = position(high.at);
      // A guess close to an end goes far enough from it to leave little of the gap.
      const double margin = 1e-3 * (b - a), wish = guess(low, high, best);
      const bool inside = wish > a && wish < b && steps % 6 != 5;
      double next = place(inside ? std::clamp(wish, a + margin, b - margin) : 0.5 * (a + b));
      if (next <= low.at || next >= high.at)
        next = place(0.5 * (a + b));
      if (next <= low.at || next >= high.at)
        return;
      const TriedValue made = tried(next);
      if (!made.fault.empty())
        return;
      ((excess(made) < 0.0) == (excess(low) < 0.0) ? low : high) = made;
    }
  }

  /// Where the target should lie, from all that is known near the gap.
  double guess(const TriedValue& low, const TriedValue& high, const TriedValue& best) const
  {
    if (best.slope && *best.slope != 0.0 && _question.from > 0.0)
      return position(best.at) - excess(best) / *best.slope;
    std::vector<double> x = {position(low.at), position(high.at)}, y = {excess(low), excess(high)};
    const bool rising = y[1] > y[0];
    for (std::size_t i = 1; i < _tried.size(); ++i)
    {
      if (_tried[i].at == high.at && i >= 2 && usable(_tried[i - 2], low, rising))
        x.push_back(position(_tried[i - 2].at)), y.push_back(excess(_tried[i - 2]));
      if (_tried[i].at == high.at && i + 1 < _tried.size() && usable(high, _tried[i + 1], rising))
        x.push_back(position(_tried[i + 1].at)), y.push_back(excess(_tried[i + 1]));
    }
    for (std::size_t order = 1; order < x.size(); ++order) // x at y = 0 [Neville]
      for (std::size_t i = 0; i + order < x.size(); ++i)
        x[i] = (y[i + order] * x[i] - y[i] * x[i + 1]) / (y[i + order] - y[i]);
    return x[0];
  }
  bool usable(const TriedValue& a, const TriedValue& b, bool rising) const
  {
    return a.fault.empty() && b.fault.empty() &&
           (rising ? excess(b) > excess(a) : excess(b) < excess(a));
  }

  /// d excess / d position, over a distance that what the brackets leave open does not blur.
  double slope(const TriedValue& low, const TriedValue& high) const
  {
    const double blur = 4.0 * (half_width(low) + half_width(high));
    const TriedValue *a = &low, *b = &high;
    for (const TriedValue& one : _tried)
    {
      if (!one.fault.empty() || std::abs(excess(*b) - excess(*a)) > blur)
        continue;
      if (one.at > b->at)
        b = &one;
    }
    for (auto one = _tried.rbegin(); one != _tried.rend(); ++one)
      if (one->fault.empty() && std::abs(excess(*b) - excess(*a)) <= blur && one->at < a->at)
        a = &*one;
    return (excess(*b) - excess(*a)) / (position(b->at) - position(a->at));
  }

  /// A value beside the best one at which the quantity is surely on the wanted side.
  std::optional<double> sure_end(const TriedValue& best, int direction, int wanted, double slope)
  {
    double step =
        1.1 * (half_width(best) + std::abs(excess(best))) / std::max(std::abs(slope), 1e-12);
    const double end = direction < 0 ? _question.from : _question.to;
    for (int tries = 0; tries < 12; ++tries, step *= 1.5)
    {
      const double wish = position(best.at) + direction * step;
      const bool beyond = direction * (wish - position(end)) >= 0.0;
      const double at = beyond ? end : place(wish);
      if (at == best.at)
        continue;
      const TriedValue made = tried(at);
      if (made.fault.empty() && side(made) == wanted)
        return at;
      if (beyond || !made.fault.empty())
        return std::nullopt;
    }
    return std::nullopt;
  }

  const SeekQuestion& _question;
  std::vector<TriedValue> _tried;
};

} // namespace

Sought sought(const SeekQuestion& question, int threads)
{
  return Search(question, threads).result();
}

} // namespace post
