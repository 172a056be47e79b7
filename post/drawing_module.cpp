// Finds the module beside the program, and refuses one that was built from other structs.
#include "post/drawing_module.hpp"
#include "post/drawing/drawn.hpp"

#include <dlfcn.h>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace post
{

namespace
{

namespace fs = std::filesystem;

constexpr const char* module_name = "ferrule-drawing.so";

/// @brief Where the module may lie, first choice first: in ../lib/ferrule of the running
///        program, beside it, and in the library folder of the installation.
///
/// The build tree keeps to the first rule too, so no path of it is compiled in.
std::vector<fs::path> candidates()
{
  std::vector<fs::path> result;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  if (!error)
  {
    const fs::path prefix = program.parent_path().parent_path();
    result.push_back(prefix / "lib" / "ferrule" / module_name);
    if (const fs::path own = prefix / FERRULE_LIBDIR / "ferrule" / module_name;
        own != result.front())
      result.push_back(own);
    result.push_back(program.parent_path() / module_name);
  }
  result.push_back(fs::path(FERRULE_FULL_LIBDIR) / "ferrule" / module_name);
  return result;
}

void* opened_module()
{
  std::vector<std::string> looked_for;
  for (const fs::path& path : candidates())
  {
    looked_for.push_back(path.string());
    std::error_code error;
    if (!fs::exists(path, error))
      continue;
    if (void* module = dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL))
      return module;
    throw std::runtime_error(fmt::format("the drawing module cannot be loaded: {}", dlerror()));
  }
  throw std::runtime_error(fmt::format(
      "the drawing module is missing, so no pictures or field files can be written; looked for {}",
      fmt::join(looked_for, ", ")));
}

} // namespace

void* drawing_function(const char* name)
{
  static void* const module = opened_module();
  const auto* stamp = static_cast<const std::size_t*>(dlsym(module, "ferrule_drawing_stamp"));
  void* const function = dlsym(module, name);
  if (stamp == nullptr || function == nullptr || *stamp != drawing_stamp)
    throw std::runtime_error(
        fmt::format("the drawing module {} belongs to another version of ferrule", module_name));
  return function;
}

} // namespace post
