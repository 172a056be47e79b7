// Pieces dealt to ranks, without MPI: ranks are threads, and messages lie in queues.
#include "cases/deal.hpp"

#include <catch2/catch.hpp>

#include <future>
#include <map>
#include <queue>
#include <set>

namespace
{

using cases::Ranks;
using Message = std::pair<int, std::string>;

/// Mail for several ranks of this process.
class Post
{
public:
  explicit Post(int size) : _size(size), _boxes(static_cast<std::size_t>(size)) {}

  Ranks at(int rank)
  {
    Ranks ranks;
    ranks.rank = rank;
    ranks.size = _size;
    ranks.send = [this, rank](int to, const std::string& text)
    {
      const std::lock_guard<std::mutex> lock(_guard);
      _boxes[static_cast<std::size_t>(to)].emplace(rank, text);
    };
    ranks.receive = [this, rank]() -> std::optional<Message>
    {
      const std::lock_guard<std::mutex> lock(_guard);
      std::queue<Message>& box = _boxes[static_cast<std::size_t>(rank)];
      if (box.empty())
      {
        return std::nullopt;
      }
      Message first = box.front();
      box.pop();
      return first;
    };
    return ranks;
  }

private:
  int _size;
  std::mutex _guard;
  std::vector<std::queue<Message>> _boxes;
};

std::string result_of(std::size_t piece)
{
  return "result of " + std::to_string(piece) + " in words";
}

/// Starts the other ranks; each goes on until it is dismissed.
std::vector<std::future<void>> others(Post& mail, const std::vector<Ranks>& ranks,
                                      const std::string& work, const std::string& failure)
{
  (void)mail;
  std::vector<std::future<void>> list;
  for (std::size_t r = 1; r < ranks.size(); ++r)
  {
    list.push_back(std::async(std::launch::async, cases::serve, std::cref(ranks[r]), work, failure,
                              result_of));
  }
  return list;
}

std::vector<Ranks> all_ranks(Post& mail, int size)
{
  std::vector<Ranks> list;
  for (int r = 0; r < size; ++r)
  {
    list.push_back(mail.at(r));
  }
  return list;
}

std::string told(const std::function<void()>& act)
{
  try
  {
    act();
  }
  catch (const std::exception& error)
  {
    return error.what();
  }
  return "nothing";
}

} // namespace

TEST_CASE("every piece is dealt once, to whatever number of ranks", "[deal]")
{
  for (const int size : {2, 3, 5})
  {
    Post mail(size);
    const std::vector<Ranks> ranks = all_ranks(mail, size);
    std::map<std::size_t, std::string> records;
    cases::Dealer dealer({2, 3, 5, 7, 11, 13, 17, 19},
                         [&](std::size_t piece, std::string record)
                         {
                           CHECK(records.count(piece) == 0);
                           records[piece] = std::move(record);
                         });
    auto running = others(mail, ranks, "work", "");
    {
      cases::Team team(ranks[0]);
      team.deal(dealer, "work");
    }
    CHECK(records.size() == 8);
    for (const auto& [piece, record] : records)
    {
      CHECK(record == result_of(piece));
    }
  }
}

TEST_CASE("a rank with other work, or without, ends the run with its reason", "[deal]")
{
  for (const auto& [work, failure, expected] :
       {std::tuple("other", "", "rank 1 was given another case or program"),
        std::tuple("", "case.toml: error: there is no such file",
                   "rank 1: case.toml: error: there is no such file")})
  {
    Post mail(2);
    const std::vector<Ranks> ranks = all_ranks(mail, 2);
    cases::Dealer dealer({1, 2}, [](std::size_t, const std::string&) { FAIL("nothing was done"); });
    auto running = others(mail, ranks, work, failure);
    cases::Team team(ranks[0]);
    CHECK(told([&] { team.deal(dealer, "work"); }) == expected);
  }
}

TEST_CASE("a record that cannot be kept ends the dealing on all ranks", "[deal]")
{
  Post mail(3);
  const std::vector<Ranks> ranks = all_ranks(mail, 3);
  cases::Dealer dealer({1, 2, 3, 4}, [](std::size_t, const std::string&)
                       { throw std::runtime_error("the disk is full"); });
  auto running = others(mail, ranks, "work", "");
  cases::Team team(ranks[0]);
  CHECK(told([&] { team.deal(dealer, "work"); }) == "the disk is full");
  CHECK_FALSE(dealer.next());
}

TEST_CASE("ranks are dismissed when there is nothing to deal", "[deal]")
{
  Post mail(4);
  const std::vector<Ranks> ranks = all_ranks(mail, 4);
  auto running = others(mail, ranks, "work", "");
  {
    const cases::Team team(ranks[0]);
  }
  for (std::future<void>& one : running)
  {
    CHECK(one.wait_for(std::chrono::seconds(10)) == std::future_status::ready);
  }
}
