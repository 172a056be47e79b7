// Pieces are dealt one by one to whoever is free; their order in the result is fixed.
#include "cases/sweep_run.hpp"

#include "cases/deal.hpp"
#include "cases/journal.hpp"
#include "cases/request.hpp"
#include "cases/sweep_points.hpp"
#include "cases/wording.hpp"
#include "post/pending_file.hpp"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <fmt/format.h>
#include <future>
#include <memory>
#include <set>

namespace cases
{

namespace
{

/// "[####......] 12 of 40, 3 min left": time by the pieces of this run.
class Countdown
{
public:
  Countdown(Progress& progress, std::size_t before, std::size_t all)
      : _progress(progress), _before(before), _all(all)
  {
  }
  void show(std::size_t done)
  {
    constexpr std::size_t width = 20;
    const std::size_t finished = _before + done,
                      filled = width * finished / std::max(_all, _before);
    const double passed =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - _start).count();
    const double left =
        done == 0 ? 0.0 : passed / static_cast<double>(done) * static_cast<double>(_all - finished);
    _progress.step(fmt::format("[{}{}] {} of {} solved{}", std::string(filled, '#'),
                               std::string(width - filled, '.'), finished, _all,
                               done == 0 ? "" : ", " + duration(left) + " left"));
  }

private:
  static std::string duration(double seconds)
  {
    return seconds < 90.0     ? fmt::format("{:.0f} s", seconds)
           : seconds < 5400.0 ? fmt::format("{:.0f} min", seconds / 60.0)
                              : fmt::format("{:.1f} h", seconds / 3600.0);
  }

  Progress& _progress;
  std::size_t _before;
  std::size_t _all;
  std::chrono::steady_clock::time_point _start = std::chrono::steady_clock::now();
};

/// Works out the pieces that are left: on threads of this process, and on other ranks.
void work(const SweepPlan& plan, Dealer& dealer, Team& team)
{
  const std::size_t threads = static_cast<std::size_t>(std::max(1, plan.options.threads));
  const std::size_t workers = std::max<std::size_t>(1, std::min(dealer.left(), threads));
  const int inner = static_cast<int>(std::max<std::size_t>(1, threads / workers));
  const auto worker = [&]
  {
    try
    {
      while (const std::optional<std::size_t> piece = dealer.next())
      {
        dealer.accept(*piece, worked_out(plan, plan.pieces[*piece], inner));
      }
    }
    catch (...)
    {
      dealer.stop();
      throw;
    }
  };
  // The first thread speaks to the other ranks, if there are any, and works if there are none.
  std::vector<std::future<void>> others;
  for (std::size_t t = team.others() > 0 ? 0 : 1; t < workers; ++t)
  {
    others.push_back(std::async(std::launch::async, worker));
  }
  if (team.others() > 0)
  {
    team.deal(dealer, plan.work);
  }
  else
  {
    worker();
  }
  for (std::future<void>& one : others)
  {
    one.get();
  }
}

/// Passing files of runs that were killed while they wrote; whoever holds the journal is alone.
void remove_passing_files(const std::filesystem::path& folder)
{
  std::vector<std::filesystem::path> left;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
  {
    const std::string name = entry.path().filename().string();
    if ((name.starts_with(".sweep.") || name.starts_with(".model")) && name.ends_with(".part"))
    {
      left.push_back(entry.path());
    }
  }
  std::error_code none;
  for (const std::filesystem::path& path : left)
  {
    std::filesystem::remove(path, none);
  }
}

/// Which shares are not whole, as far as the journals tell how many there are.
std::string missing_shares(const std::vector<std::string>& records, std::size_t of)
{
  std::set<std::size_t> numbers;
  for (std::size_t i = 0; i < records.size(); ++i)
  {
    if (records[i].empty())
    {
      numbers.insert(i % of + 1);
    }
  }
  std::vector<std::string> names;
  for (const std::size_t number : numbers)
  {
    names.push_back(fmt::format("{}/{}", number, of));
  }
  if (names.size() > 8)
  {
    names.resize(8);
    names.emplace_back("others");
  }
  return in_words(names);
}

/// The number of shares a journal's name tells; 0 for other files.
std::size_t shares_told(const std::string& name)
{
  std::size_t number = 0, of = 0;
  const bool fits = std::sscanf(name.c_str(), "share-%zu-of-%zu.journal", &number, &of) == 2;
  return fits && of > 0 && journal_name({number, of}) == name ? of : 0;
}

} // namespace

Share share(const std::string& typed)
{
  if (typed.empty())
  {
    return {};
  }
  Share made{0, 0};
  const char* const end = typed.data() + typed.size();
  const auto first = std::from_chars(typed.data(), end, made.number);
  const bool slash = first.ec == std::errc() && first.ptr != end && *first.ptr == '/';
  const auto second = slash ? std::from_chars(first.ptr + 1, end, made.of) : first;
  if (!slash || second.ec != std::errc() || second.ptr != end || made.number < 1 ||
      made.number > made.of || made.of > most_points)
  {
    usage_fault("--share is " + in_quotes(typed), "write e.g. --share 3/20 for the third of 20");
  }
  return made;
}

std::string journal_name(const Share& share)
{
  return share.of == 1 ? "sweep.journal"
                       : fmt::format("share-{}-of-{}.journal", share.number, share.of);
}

std::vector<std::string> records(const SweepPlan& plan, const Share& share,
                                 const std::filesystem::path& folder, Progress& progress,
                                 Team& team)
{
  std::unique_ptr<Journal> journal;
  if (!folder.empty())
  {
    post::make_folder(folder);
    journal = std::make_unique<Journal>(folder / journal_name(share), plan.work);
    if (share.of == 1)
    {
      remove_passing_files(folder);
    }
  }
  std::vector<std::string> all(plan.pieces.size());
  std::vector<std::size_t> left;
  std::size_t own = 0;
  for (std::size_t i = share.number - 1; i < plan.pieces.size(); i += share.of)
  {
    ++own;
    const auto found = journal ? journal->found().find(i) : Records::const_iterator{};
    if (journal && found != journal->found().end())
    {
      all[i] = found->second;
    }
    else
    {
      left.push_back(i);
    }
  }
  Countdown countdown(progress, own - left.size(), own);
  std::size_t done = 0;
  Dealer dealer(std::move(left),
                [&](std::size_t piece, std::string record)
                {
                  if (journal)
                  {
                    journal->add(piece, record);
                  }
                  all[piece] = std::move(record);
                  countdown.show(++done);
                });
  if (dealer.left() > 0)
  {
    countdown.show(0);
    work(plan, dealer, team);
  }
  return all;
}

std::vector<std::string> joined(const SweepPlan& plan, const std::filesystem::path& folder)
{
  std::vector<std::string> all(plan.pieces.size());
  std::size_t of = 0, other = 0;
  std::error_code none;
  for (const auto& entry : std::filesystem::directory_iterator(folder, none))
  {
    const std::size_t told = shares_told(entry.path().filename().string());
    if (told == 0)
    {
      continue;
    }
    const Records found = read_journal(entry.path(), plan.work);
    of = found.empty() ? of : std::max(of, told);
    other += found.empty() ? 1 : 0;
    for (const auto& [piece, record] : found)
    {
      if (piece < all.size())
      {
        all[piece] = record;
      }
    }
  }
  const auto missing = std::ranges::count_if(all, &std::string::empty);
  if (missing > 0 && of == 0)
  {
    usage_fault(fmt::format("there is no share of this sweep in {}{}", folder.string(),
                            other > 0 ? ", only of another case or command" : ""),
                "run it with --share 1/2 and --share 2/2 first, and join with the same words");
  }
  if (missing > 0)
  {
    usage_fault(fmt::format("{} of {} solutions are missing in {}: share {}", missing, all.size(),
                            folder.string(), missing_shares(all, of)),
                "run what is missing, then join again");
  }
  return all;
}

} // namespace cases
