// Times ferrule and the peer as whole processes on the same problems, in turn, and prints medians.
//
//   pairs RUNS FERRULE [PEER]
//
// ferrule certifies its accuracy and is told nothing; the peer certifies nothing and is told the
// answer, so that it stops at the first step that meets it. ferrule's "rest" is its process time
// less the stages of the case itself: loading, reading, and the same coil solved once more in air.
#include "child.hpp"
#include "problems.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <unistd.h>

namespace
{

using Json = nlohmann::json;
using Row = std::map<std::string, std::vector<double>>; ///< Column -> one value a run.

void note_process(Row& row, const Child& child)
{
  row["ms"].push_back(child.seconds * 1e3);
  row["processor"].push_back(child.processor * 1e3);
  row["MB"].push_back(child.megabytes);
}

/// One run of ferrule; says so where its bracket does not hold the peer's answer.
void time_ferrule(Row& row, const std::vector<std::string>& command, const TimedProblem& problem)
{
  const Child child = run(command);
  if (child.status != 0)
    throw std::runtime_error(fmt::format("ferrule exits {} on {}", child.status, problem.name));
  const Json document = Json::parse(child.printed);
  const Json& L = document["windings"][0]["inductance_H"];
  const double lower = L["lower"], upper = L["upper"];
  if (problem.inductance < lower * (1 - 1e-7) || problem.inductance > upper * (1 + 1e-7))
    fmt::print("  the bracket {:.9e} to {:.9e} H does not hold the peer's {:.9e} H\n", lower, upper,
               problem.inductance);
  note_process(row, child);
  row["unknowns"].push_back(document["mesh"]["unknowns"]);
  row["met"].push_back((upper - lower) / (upper + lower));
  const Json& seconds = document["seconds"];
  double staged = 0;
  for (const char* stage : {"mesh", "assemble", "solve", "bracket"})
  {
    row[stage].push_back(seconds[stage].get<double>() * 1e3);
    staged += row[stage].back();
  }
  row["rest"].push_back(child.seconds * 1e3 - staged);
}

void time_peer(Row& row, const std::vector<std::string>& command, const TimedProblem& problem)
{
  const Child child = run(command);
  if (child.status != 0)
    throw std::runtime_error(fmt::format("the peer exits {} on {}", child.status, problem.name));
  note_process(row, child);
  std::istringstream lines(child.printed);
  std::string word;
  double unknowns = 0, L = 0, seconds = 0;
  while (lines >> word)
  {
    if (word == "unknowns")
      lines >> unknowns;
    else if (word == "L")
      lines >> L;
    else if (word == "seconds")
      lines >> seconds;
  }
  row["unknowns"].push_back(unknowns);
  row["met"].push_back(std::abs(L / problem.inductance - 1));
  row["inside"].push_back(seconds * 1e3);
}

std::vector<std::string> joined(std::vector<std::string> first,
                                const std::vector<std::string>& rest)
{
  first.insert(first.end(), rest.begin(), rest.end());
  return first;
}

double middle(const Row& row, const char* column)
{
  return median(row.at(column));
}

void print_row(const std::string& name, const Row& row)
{
  fmt::print("  {:<10}{:>7.0f}{:>7.0f}{:>6.0f}{:>9.0f}{:>9.1e}", name, middle(row, "ms"),
             middle(row, "processor"), middle(row, "MB"), middle(row, "unknowns"),
             middle(row, "met"));
}

void time_problem(const TimedProblem& problem, double accuracy, int runs,
                  const std::string& ferrule, const std::string& peer, const std::string& case_file)
{
  const std::vector<std::string> ours{ferrule,   "solve",      case_file,
                                      "--files", "none",       "--json",
                                      "--quiet", "--accuracy", fmt::format("{}", accuracy)};
  const auto settings = peer.empty() ? std::vector<PeerSetting>{} : peer_settings(accuracy);
  Row own;
  std::vector<Row> others(settings.size());
  for (int i = 0; i < runs; ++i) // in turn, so that what slows the machine slows both
  {
    time_ferrule(own, ours, problem);
    for (std::size_t k = 0; k < settings.size(); ++k)
      time_peer(others[k],
                joined(joined({peer}, peer_options(problem, accuracy)), settings[k].options),
                problem);
  }
  fmt::print("{}, accuracy {}\n", problem.name, accuracy);
  print_row("ferrule", own);
  fmt::print("   rest {:.0f}, mesh {:.0f}, assemble {:.0f}, factor {:.0f}, bracket {:.0f} ms\n",
             middle(own, "rest"), middle(own, "mesh"), middle(own, "assemble"),
             middle(own, "solve"), middle(own, "bracket"));
  for (std::size_t k = 0; k < settings.size(); ++k)
  {
    print_row(settings[k].name, others[k]);
    fmt::print("   {:.0f} ms of it after start-up; {:.2f} times ferrule's ms, {:.2f} its cpu\n",
               middle(others[k], "inside"), middle(others[k], "ms") / middle(own, "ms"),
               middle(others[k], "processor") / middle(own, "processor"));
  }
  std::fflush(stdout);
}

} // namespace

int main(int argc, char** argv)
{
  if (argc < 3)
    return std::fprintf(stderr, "usage: pairs RUNS FERRULE [PEER]\n"), 2;
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("pairs-{}", getpid());
  try
  {
    std::filesystem::create_directory(folder);
    fmt::print("  {:<10}{:>7}{:>7}{:>6}{:>9}{:>9}\n", "", "ms", "cpu ms", "MB", "unknowns", "met");
    for (const TimedProblem& problem : timed_problems())
    {
      const std::string file = folder / "rod.toml";
      std::ofstream(file) << case_text(problem);
      for (const double accuracy : {1e-3, 1e-4, 1e-5, 1e-6})
        time_problem(problem, accuracy, std::stoi(argv[1]), argv[2], argc > 3 ? argv[3] : "", file);
    }
  }
  catch (const std::exception& error)
  {
    std::fprintf(stderr, "pairs: %s\n", error.what());
    return std::filesystem::remove_all(folder), 1;
  }
  std::filesystem::remove_all(folder);
}
