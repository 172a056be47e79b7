// The front door: command line -> one command -> exit status.
//
//   case file -> scene -> mesh -> field with its bracket -> numbers -> report, pictures, files
//
// Start here, then read the command you care about: solve.cpp, compare.cpp, formulas.cpp,
// starter.cpp. This file knows only how people spell what they want; request.cpp, what it means.
#include "cases/commands.hpp"
#include "cases/fault.hpp"
#include "cases/help.hpp"
#include "cases/mix.hpp"
#include "cases/output.hpp"
#include "cases/ranks.hpp"
#include "cases/request.hpp"
#include "post/version.hpp"
#include "solver/memory.hpp"

#include <CLI/CLI.hpp>
#include <csignal>
#include <cstdio>

namespace
{

/// One line on standard error, in the form of every fault.
int complain(const std::string& line, int status)
{
  std::fprintf(stderr, "%s\n", line.c_str());
  return status;
}

CLI::App* command(CLI::App& app, const std::string& name, cases::Typed& typed)
{
  CLI::App* sub = app.add_subcommand(name);
  if (name == "new")
  {
    sub->add_option("kind", typed.kind);
    return sub;
  }
  if (name == "mix")
  {
    for (const cases::MixOption& option : cases::mix_options())
    {
      sub->add_option(option.name, typed.mix[option.name]);
    }
    sub->add_option("--out", typed.out);
    sub->add_option("--files", typed.written);
    sub->add_flag("--json", typed.json)->disable_flag_override();
    sub->add_flag("--quiet", typed.quiet)->disable_flag_override();
    return sub;
  }
  sub->add_option("case", typed.files);
  if (name == "compare")
  {
    sub->add_option("--vary", typed.vary);
  }
  if (name == "solve")
  {
    sub->add_flag("--revolve", typed.revolve)->disable_flag_override();
  }
  if (name == "fit")
  {
    sub->add_option("--reading", typed.reading);
  }
  if (name == "report")
  {
    sub->add_option("--reading", typed.reading);
    sub->add_option("--set", typed.sets)->allow_extra_args(false);
    sub->add_option("--accuracy", typed.accuracy);
    sub->add_option("--out", typed.out);
    sub->add_option("--threads", typed.threads);
    sub->add_flag("--quiet", typed.quiet)->disable_flag_override();
    return sub;
  }
  if (name == "formulas")
  {
    sub->add_flag("--check", typed.check)->disable_flag_override();
    sub->add_flag("--fine", typed.fine)->disable_flag_override();
  }
  if (name == "sweep")
  {
    sub->add_option("--vary", typed.sweep.vary)->allow_extra_args(false);
    sub->add_option("--show", typed.sweep.show);
    sub->add_option("--share", typed.sweep.share);
    sub->add_option("--model", typed.model);
    sub->add_option("--seek", typed.sweep.seek);
    sub->add_option("--by", typed.sweep.by)->allow_extra_args(false);
    sub->add_option("--between", typed.sweep.between);
    sub->add_option("--wish", typed.sweep.wish)->allow_extra_args(false);
    sub->add_option("--keep", typed.sweep.keep)->allow_extra_args(false);
    sub->add_flag("--join", typed.sweep.join)->disable_flag_override();
    sub->add_flag("--full", typed.sweep.full)->disable_flag_override();
    sub->add_flag("--fields", typed.sweep.fields)->disable_flag_override();
  }
  sub->add_option("--set", typed.sets)->allow_extra_args(false);
  sub->add_option("--accuracy", typed.accuracy);
  sub->add_option("--out", typed.out);
  sub->add_option("--files", typed.written);
  sub->add_option("--threads", typed.threads);
  sub->add_flag("--json", typed.json)->disable_flag_override();
  sub->add_flag("--quiet", typed.quiet)->disable_flag_override();
  return sub;
}

/// Refuses what the parser refused, in our words.
[[noreturn]] void parse_fault(const CLI::App& app, const CLI::ParseError& error)
{
  const auto used = app.get_subcommands();
  const std::string name = used.empty() ? "" : used.front()->get_name();
  const std::string cure = "see ferrule " + (name.empty() ? "" : name + " ") + "--help";
  const std::vector<std::string> left = app.remaining(true);
  if (!left.empty() && used.empty())
  {
    cases::usage_fault("there is no command \"" + left.front() + "\"", cure);
  }
  if (!left.empty())
  {
    cases::usage_fault(name + " does not know \"" + left.front() + "\"", cure);
  }
  const std::string what = error.what();
  if (what.find("flag override") != std::string::npos) // "json was given a disallowed ..."
  {
    cases::usage_fault("--" + what.substr(0, what.find(' ')) + " takes no value", cure);
  }
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
  {
    cases::usage_fault(what.substr(0, what.find(':')) + " needs one value", cure);
  }
  cases::usage_fault(what, cure);
}

int parsed(CLI::App& app, int argc, char** argv, const cases::Typed& typed)
{
  try
  {
    app.parse(argc, argv);
  }
  catch (const CLI::CallForHelp&)
  {
    const auto used = app.get_subcommands();
    cases::print(cases::help(used.empty() ? "" : used.front()->get_name()));
    return cases::done;
  }
  catch (const CLI::CallForVersion&)
  {
    cases::print("ferrule " + std::string(post::version()) + "\n");
    return cases::done;
  }
  catch (const CLI::ParseError& error)
  {
    parse_fault(app, error);
  }
  const auto used = app.get_subcommands();
  if (used.empty())
  {
    cases::usage_fault("no command given", "see ferrule --help");
  }
  return cases::run(used.front()->get_name(), typed);
}

} // namespace

int main(int argc, char** argv)
{
  // A reader that goes away, a file over the limit: errors we can tell, not silent deaths.
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  const cases::Leave leave;
  cases::Typed typed;
  CLI::App app;
  app.set_version_flag("--version", std::string(post::version()));
  for (const char* name : {"solve", "compare", "report", "sweep", "fit", "formulas", "mix", "new"})
  {
    command(app, name, typed);
  }
  try
  {
    return parsed(app, argc, argv, typed);
  }
  catch (const cases::CaseError& error)
  {
    return complain(error.what(), cases::input_fault);
  }
  catch (const solver::NotEnoughMemory& error)
  {
    return complain(std::string("ferrule: error: ") + error.what() +
                        "; draw fewer turns, make plain sections of them, or ask for less accuracy",
                    cases::quality_unreached);
  }
  catch (const std::bad_alloc&)
  {
    return complain("ferrule: error: out of memory; ask for less accuracy", cases::failed);
  }
  catch (const std::exception& error)
  {
    return complain(std::string("ferrule: error: ") + error.what(), cases::failed);
  }
}
