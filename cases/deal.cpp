// Who is free asks: "ready WORK", "done PIECE RECORD" or "failed WHY"; the answer is "do PIECE" or
// "stop".
#include "cases/deal.hpp"

#include <chrono>
#include <stdexcept>
#include <thread>

namespace cases
{

namespace
{

void rest()
{
  std::this_thread::sleep_for(std::chrono::milliseconds(1));
}

/// Cuts the first word off a text.
std::string first_word(std::string& text)
{
  const std::size_t space = std::min(text.find(' '), text.size());
  std::string word = text.substr(0, space);
  text.erase(0, space + 1);
  return word;
}

} // namespace

Dealer::Dealer(std::vector<std::size_t> left,
               std::function<void(std::size_t piece, std::string record)> accept)
    : _left(std::move(left)), _accept(std::move(accept))
{
}

std::optional<std::size_t> Dealer::next()
{
  const std::lock_guard<std::mutex> lock(_one_at_a_time);
  return _stopped || _next >= _left.size() ? std::nullopt : std::optional(_left[_next++]);
}

void Dealer::accept(std::size_t piece, std::string record)
{
  const std::lock_guard<std::mutex> lock(_one_at_a_time);
  try
  {
    if (!_stopped)
    {
      _accept(piece, std::move(record));
    }
  }
  catch (...)
  {
    _stopped = true;
    throw;
  }
}

void Dealer::stop()
{
  const std::lock_guard<std::mutex> lock(_one_at_a_time);
  _stopped = true;
}

/// One message, if there is one: its record goes to the dealer, its sender gets work or leave.
void Team::answer(Dealer* dealer, const std::string& work, std::string& failure)
{
  std::optional<std::pair<int, std::string>> message = _ranks.receive();
  if (!message)
  {
    return rest();
  }
  auto& [from, text] = *message;
  const std::string word = first_word(text);
  std::optional<std::size_t> piece;
  try
  {
    if (word == "failed")
    {
      throw std::runtime_error("rank " + std::to_string(from) + ": " + text);
    }
    if (dealer && word == "ready" && text != work)
    {
      throw std::runtime_error("rank " + std::to_string(from) +
                               " was given another case or program");
    }
    if (dealer && word == "done")
    {
      const std::size_t done = std::stoull(first_word(text));
      dealer->accept(done, std::move(text));
    }
    piece = dealer ? dealer->next() : std::nullopt;
  }
  catch (const std::exception& error)
  {
    failure = failure.empty() ? error.what() : failure;
    if (dealer)
    {
      dealer->stop();
    }
  }
  _ranks.send(from, piece ? "do " + std::to_string(*piece) : "stop");
  _at_work -= piece ? 0 : 1;
}

void Team::deal(Dealer& dealer, const std::string& work)
{
  std::string failure;
  while (_at_work > 0)
  {
    answer(&dealer, work, failure);
  }
  if (!failure.empty())
  {
    throw std::runtime_error(failure);
  }
}

Team::~Team()
{
  std::string failure; // rank 0 tells its own
  while (_at_work > 0)
  {
    answer(nullptr, "", failure);
  }
}

void serve(const Ranks& ranks, const std::string& work, const std::string& failure,
           const std::function<std::string(std::size_t piece)>& worked_out)
{
  ranks.send(0, failure.empty() ? "ready " + work : "failed " + failure);
  while (true)
  {
    std::optional<std::pair<int, std::string>> message = ranks.receive();
    if (!message)
    {
      rest();
      continue;
    }
    std::string text = message->second;
    if (first_word(text) != "do")
    {
      return;
    }
    std::string answer;
    try
    {
      answer = "done " + text + " " + worked_out(std::stoull(text));
    }
    catch (const std::exception& error)
    {
      answer = std::string("failed ") + error.what();
    }
    ranks.send(0, answer);
  }
}

} // namespace cases
