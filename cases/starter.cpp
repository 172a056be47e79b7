// `ferrule new KIND`: a commented case to begin from, on standard output.
#include "cases/commands.hpp"
#include "cases/output.hpp"
#include "cases/request.hpp"
#include "cases/sheet.hpp"
#include "cases/starters.hpp"

namespace cases
{

namespace
{

/// The starter's own first line, without its comment sign.
std::string opening(const Starter& starter)
{
  const std::string_view line = starter.text.substr(0, starter.text.find('\n'));
  return std::string(line.substr(line.find_first_not_of("# ")));
}

std::string kind_list()
{
  std::string out = "Kinds of starter case:\n";
  Table table;
  table.left = {0, 1};
  for (const Starter& starter : starters())
  {
    table.rows.push_back({std::string(starter.kind), opening(starter)});
  }
  return out + text(table) + "\nferrule new rod > my-rod.toml; ferrule solve my-rod.toml\n";
}

std::string names()
{
  std::string list;
  for (const Starter& starter : starters())
  {
    list += (list.empty() ? "" : ", ") + std::string(starter.kind);
  }
  return list;
}

} // namespace

int starter(const std::string& kind)
{
  if (kind.empty())
  {
    print(kind_list());
    return done;
  }
  for (const Starter& one : starters())
  {
    if (one.kind == kind)
    {
      print(std::string(one.text));
      return done;
    }
  }
  usage_fault("there is no starter case \"" + plain(kind) + "\"", "the kinds are " + names());
}

} // namespace cases
