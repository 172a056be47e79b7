// Pieces of work dealt one by one to whoever is free: threads of this process, and other ranks.
#pragma once

#include "cases/ranks.hpp"

#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

namespace cases
{

/// @brief The pieces that are left, and where their records go. For any number of threads.
class Dealer
{
public:
  /// @param accept  Takes each record, one at a time; what it throws ends the dealing.
  Dealer(std::vector<std::size_t> left,
         std::function<void(std::size_t piece, std::string record)> accept);

  std::size_t left() const { return _left.size(); }
  /// @brief The next piece; nothing when all are dealt, or after stop().
  std::optional<std::size_t> next();
  void accept(std::size_t piece, std::string record);
  void stop();

private:
  std::vector<std::size_t> _left;
  std::function<void(std::size_t, std::string)> _accept;
  std::mutex _one_at_a_time;
  std::size_t _next = 0;
  bool _stopped = false;
};

/// @brief Rank 0's side of the other ranks; dismisses them at the latest when it ends.
class Team
{
public:
  explicit Team(const Ranks& ranks) : _ranks(ranks), _at_work(ranks.size - 1) {}
  ~Team();
  Team(const Team&) = delete;
  Team& operator=(const Team&) = delete;

  int others() const { return _ranks.size - 1; }
  /// @brief Deals to the other ranks until nothing is left for them.
  /// @param work  Names the work; a rank that was given other work is an error.
  /// @throws std::runtime_error what another rank could not do, and what the dealer throws.
  void deal(Dealer& dealer, const std::string& work);

private:
  void answer(Dealer* dealer, const std::string& work, std::string& failure);

  const Ranks& _ranks;
  int _at_work; ///< Ranks not yet dismissed.
};

/// @brief Another rank's side: works out what it is dealt until it is dismissed.
/// @param work      As in Team::deal(); empty where there is none, `failure` saying why.
void serve(const Ranks& ranks, const std::string& work, const std::string& failure,
           const std::function<std::string(std::size_t piece)>& worked_out);

} // namespace cases
