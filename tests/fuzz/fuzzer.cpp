// The fuzzer's entry: the subject that FERRULE_SUBJECT names, fed with what the engine makes up.
#include "fuzz/subjects.hpp"

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace
{

const fuzz::Subject& asked()
{
  const char* name = std::getenv("FERRULE_SUBJECT");
  for (const fuzz::Subject& one : fuzz::subjects())
  {
    if (name && one.name == std::string_view(name))
    {
      return one;
    }
  }
  std::fputs("FERRULE_SUBJECT names none of:", stderr);
  for (const fuzz::Subject& one : fuzz::subjects())
  {
    std::fprintf(stderr, " %s", one.name);
  }
  std::fputs("\n", stderr);
  std::exit(2);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size)
{
  static const fuzz::Subject& subject = asked();
  subject.feed({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
