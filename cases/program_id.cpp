// The build id that the linker put into the running program, read from memory.
#include "cases/sweep_plan.hpp"
#include "post/version.hpp"

#include <cstring>
#include <fmt/format.h>
#include <link.h>

namespace cases
{

namespace
{

/// The first object is the program itself; its notes hold the id [ELF gABI, note sections].
int find_id(dl_phdr_info* object, std::size_t, void* found)
{
  for (int i = 0; i < object->dlpi_phnum; ++i)
  {
    const ElfW(Phdr)& header = object->dlpi_phdr[i];
    if (header.p_type != PT_NOTE)
    {
      continue;
    }
    const char* at = reinterpret_cast<const char*>(object->dlpi_addr + header.p_vaddr);
    const char* const end = at + header.p_memsz;
    const auto padded = [](std::size_t size) { return (size + 3) / 4 * 4; };
    while (at + sizeof(ElfW(Nhdr)) <= end)
    {
      ElfW(Nhdr) note;
      std::memcpy(&note, at, sizeof note);
      const char* const name = at + sizeof note;
      const char* const bytes = name + padded(note.n_namesz);
      if (note.n_type == NT_GNU_BUILD_ID && std::memcmp(name, "GNU", 4) == 0)
      {
        for (std::size_t k = 0; k < note.n_descsz; ++k)
        {
          *static_cast<std::string*>(found) +=
              fmt::format("{:02x}", static_cast<unsigned char>(bytes[k]));
        }
        return 1;
      }
      at = bytes + padded(note.n_descsz);
    }
  }
  return 1; // only the first object
}

} // namespace

std::string program_id()
{
  std::string id;
  dl_iterate_phdr(find_id, &id);
  return id.empty() ? std::string(post::version()) : id;
}

} // namespace cases
