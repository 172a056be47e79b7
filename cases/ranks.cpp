// Opens the MPI module on demand, as the drawing module is.
#include "cases/ranks.hpp"

#include <array>
#include <cstdlib>
#include <dlfcn.h>
#include <filesystem>
#include <stdexcept>
#include <string_view>

namespace cases
{

namespace
{

namespace fs = std::filesystem;

/// Variables by which a launcher tells a process that it is one of several.
bool is_launched()
{
  for (const char* count : {"OMPI_COMM_WORLD_SIZE", "PMI_SIZE"})
  {
    const char* const value = std::getenv(count);
    if (value != nullptr && std::atoi(value) > 1)
    {
      return true;
    }
  }
  return std::getenv("PMIX_RANK") != nullptr;
}

struct Module
{
  void* handle = nullptr;

  template <class Function> Function* function(const char* name) const
  {
    void* const found = dlsym(handle, name);
    if (found == nullptr)
    {
      throw std::runtime_error("the MPI module belongs to another version of ferrule");
    }
    return reinterpret_cast<Function*>(found);
  }
};

Module opened_module()
{
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  const fs::path prefix = program.parent_path().parent_path();
  for (const fs::path& folder : {prefix / "lib" / "ferrule", prefix / FERRULE_LIBDIR / "ferrule",
                                 program.parent_path(), fs::path(FERRULE_FULL_LIBDIR) / "ferrule"})
  {
    const fs::path path = folder / "ferrule-mpi.so";
    if (!fs::exists(path, error))
    {
      continue;
    }
    // Global, because MPI's own plug-ins look for its symbols there.
    if (void* const handle = dlopen(path.c_str(), RTLD_NOW | RTLD_GLOBAL))
    {
      return {handle};
    }
    throw std::runtime_error(std::string("the MPI module cannot be loaded: ") + dlerror());
  }
  throw std::runtime_error("this ferrule was built without MPI; sweep takes --share and --join "
                           "instead");
}

std::function<void()>& farewell()
{
  static std::function<void()> end;
  return end;
}

Ranks joined_ranks()
{
  const Module module = opened_module();
  Ranks ranks;
  module.function<void(int*, int*)>("ferrule_mpi_begin")(&ranks.rank, &ranks.size);
  farewell() = module.function<void()>("ferrule_mpi_end");
  const auto send = module.function<void(int, const char*, std::size_t)>("ferrule_mpi_send");
  ranks.send = [send](int to, const std::string& text) { send(to, text.data(), text.size()); };
  const auto probe = module.function<int(int*, std::size_t*)>("ferrule_mpi_probe");
  const auto receive = module.function<void(int, char*, std::size_t)>("ferrule_mpi_receive");
  ranks.receive = [probe, receive]() -> std::optional<std::pair<int, std::string>>
  {
    int from = 0;
    std::size_t size = 0;
    if (probe(&from, &size) == 0)
    {
      return std::nullopt;
    }
    std::string text(size, '\0');
    receive(from, text.data(), size);
    return std::pair(from, std::move(text));
  };
  return ranks;
}

} // namespace

const Ranks& launched_ranks()
{
  static const Ranks ranks = is_launched() ? joined_ranks() : Ranks{};
  return ranks;
}

Leave::~Leave()
{
  if (farewell())
  {
    farewell()();
  }
}

} // namespace cases
