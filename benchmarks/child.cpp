// Starts a program, reads what it prints, and asks the system what it used.
#include "child.hpp"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>

Child run(const std::vector<std::string>& command)
{
  std::vector<char*> words;
  for (const std::string& word : command)
    words.push_back(const_cast<char*>(word.c_str()));
  words.push_back(nullptr);

  int ends[2];
  if (pipe(ends) != 0)
    throw std::runtime_error("no pipe for " + command.front());
  const auto start = std::chrono::steady_clock::now();
  const pid_t pid = vfork(); // copies nothing of ours, so our size is not in its peak
  if (pid < 0)
    throw std::runtime_error("cannot start " + command.front());
  if (pid == 0)
  {
    dup2(ends[1], STDOUT_FILENO);
    close(ends[0]);
    close(ends[1]);
    execv(words[0], words.data());
    _exit(127);
  }
  close(ends[1]);

  Child child;
  char buffer[4096];
  for (ssize_t count = 0; (count = read(ends[0], buffer, sizeof buffer)) > 0;)
    child.printed.append(buffer, static_cast<std::size_t>(count));
  close(ends[0]);
  int status = 0;
  rusage used{};
  wait4(pid, &status, 0, &used);
  child.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  child.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  const auto in_seconds = [](const timeval& t)
  { return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) * 1e-6; };
  child.processor = in_seconds(used.ru_utime) + in_seconds(used.ru_stime);
  child.megabytes = static_cast<double>(used.ru_maxrss) * 1024e-6;
  return child;
}

double median(std::vector<double> values)
{
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
}
