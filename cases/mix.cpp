// `ferrule mix`: a powder by every mixing rule, forwards and backwards, between its bounds.
#include "cases/mix.hpp"

#include "cases/commands.hpp"
#include "cases/output.hpp"
#include "post/files.hpp"
#include "post/pending_file.hpp"

#include <algorithm>

namespace cases
{

namespace
{

/// mix.svg and mix.png, loss.svg and loss.png where there is loss, then the document.
std::vector<std::string> write_files(const std::filesystem::path& folder,
                                     const post::Mixture& mixture)
{
  std::vector<std::string> files;
  const char* name = "mix";
  for (const post::Chart& chart : post::charts(mixture))
  {
    for (const std::string& file : post::write_chart(folder, name, chart))
    {
      files.push_back((folder / file).string());
    }
    name = "loss";
  }
  post::make_folder(folder); // where there was nothing to draw
  files.push_back((folder / "result.json").string());
  post::write_text(folder / "result.json", post::json(mixture, files));
  return files;
}

} // namespace

int mix(const MixTyped& typed, const Options& options)
{
  // 1. Options -> what is known of the powder.
  const post::MixtureQuestion question = mixture_question(typed);

  // 2. Two numbers -> the third, by every rule, and its bounds.
  const post::Mixture mixture = post::mixture(question);

  // 3. Numbers -> files, only where they were asked for by a folder.
  std::vector<std::string> files;
  if (!options.out.empty() && options.files)
  {
    files = write_files(options.out, mixture);
  }

  // 4. Numbers -> one document or one report.
  if (options.json)
  {
    print(post::json(mixture, files));
  }
  else if (!options.quiet)
  {
    print(mix_text(mixture));
  }
  const bool any =
      std::any_of(mixture.rules.begin(), mixture.rules.end(),
                  [](const post::MixtureByRule& one) { return one.found.value.has_value(); });
  return any ? done : quality_unreached;
}

} // namespace cases
