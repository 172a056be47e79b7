// Paths are kept relative to the folder, so that case and results can move together.
#include "cases/origin.hpp"

#include "cases/fault.hpp"
#include "cases/text_file.hpp"
#include "post/files.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace cases
{

namespace
{

namespace fs = std::filesystem;
using Json = nlohmann::ordered_json;

constexpr const char* file_name = "origin.json";

[[noreturn]] void refuse(const fs::path& where, const std::string& what, const std::string& cure)
{
  throw CaseError({{{where.string()}, what, cure}});
}

Json kept(const fs::path& file, const fs::path& folder)
{
  const fs::path relative = fs::absolute(file).lexically_normal().lexically_relative(
      fs::absolute(folder).lexically_normal());
  return {{"file", (relative.empty() ? fs::absolute(file) : relative).generic_string()},
          {"text", read_text(file)}};
}

/// The file kept, where it is from here and still says the same.
fs::path found(const Json& kept, const fs::path& folder)
{
  fs::path file = (folder / kept.at("file").get<std::string>()).lexically_normal();
  if (read_text(file) != kept.at("text").get<std::string>())
  {
    refuse(file, fmt::format("has changed since {} was made", folder.string()),
           "solve it again, or give ferrule report the case itself");
  }
  return file;
}

} // namespace

void write_origin(const fs::path& folder, const Origin& origin)
{
  Json made = {{"tool", "ferrule"}, {"command", origin.command}, {"cases", Json::array()}};
  for (const fs::path& file : origin.files)
  {
    made["cases"].push_back(kept(file, folder));
  }
  if (!origin.reading.empty())
  {
    made["reading"] = kept(origin.reading, folder);
  }
  made["set"] = Json::array();
  for (const Override& one : origin.options.sets)
  {
    made["set"].push_back({one.key, one.value});
  }
  if (origin.options.accuracy)
  {
    made["accuracy"] = *origin.options.accuracy;
  }
  if (!origin.vary.empty())
  {
    made["vary"] = origin.vary;
  }
  post::write_text(folder / file_name,
                   made.dump(2, ' ', false, Json::error_handler_t::replace) + "\n");
}

Origin read_origin(const fs::path& folder)
{
  const fs::path file = folder / file_name;
  if (!fs::exists(file))
  {
    refuse(folder, fmt::format("this folder has no {}", file_name),
           "give the results folder of solve, compare, sweep or fit, or the case file");
  }
  Origin made;
  try
  {
    const Json all = Json::parse(read_text(file));
    made.command = all.at("command").get<std::string>();
    made.vary = all.value("vary", "");
    if (!made.vary.empty())
    {
      refuse(
          folder,
          fmt::format("was made by {} --vary {}, which no case file says", made.command, made.vary),
          "put it under [sweep] of the case and give ferrule report the case");
    }
    for (const Json& one : all.at("cases"))
    {
      made.files.push_back(found(one, folder));
    }
    if (all.contains("reading"))
    {
      made.reading = found(all.at("reading"), folder);
    }
    for (const Json& one : all.at("set"))
    {
      made.options.sets.push_back({one.at(0).get<std::string>(), one.at(1).get<std::string>()});
    }
    if (all.contains("accuracy"))
    {
      made.options.accuracy = all.at("accuracy").get<double>();
    }
  }
  catch (const Json::exception&)
  {
    refuse(file, "is not as ferrule wrote it", "solve the case again");
  }
  if (made.files.empty())
  {
    refuse(file, "is not as ferrule wrote it", "solve the case again");
  }
  return made;
}

} // namespace cases
