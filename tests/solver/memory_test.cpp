// Limits of memory as a made-up machine tells them, and the estimate against peaks that were seen.
#include "folder.hpp"
#include "solver/memory.hpp"

namespace
{

void put(const std::filesystem::path& path, const std::string& text)
{
  std::filesystem::create_directories(path.parent_path());
  std::ofstream(path) << text;
}

} // namespace

TEST_CASE("the least of machine and control groups is what is left", "[memory]")
{
  const Folder machine;
  CHECK(solver::memory_left(machine.path) > 1e15); // nothing tells: no limit but the address space
  put(machine.path / "proc/meminfo", "MemTotal: 900 kB\nMemAvailable:    800 kB\n");
  CHECK(solver::memory_left(machine.path) == 800.0 * 1024.0);

  put(machine.path / "proc/self/cgroup", "0::/outer/inner\n"); // version 2
  put(machine.path / "sys/fs/cgroup/outer/memory.max", "500000\n");
  put(machine.path / "sys/fs/cgroup/outer/memory.current", "200000\n");
  put(machine.path / "sys/fs/cgroup/outer/inner/memory.max", "max\n");
  put(machine.path / "sys/fs/cgroup/outer/inner/memory.current", "100000\n");
  CHECK(solver::memory_left(machine.path) == 300000.0);
  put(machine.path / "sys/fs/cgroup/outer/memory.stat", "anon 7\ninactive_file 50000\n");
  CHECK(solver::memory_left(machine.path) == 350000.0);

  put(machine.path / "proc/self/cgroup", "5:cpu,memory:/box\n1:cpuset:/other\n"); // version 1
  put(machine.path / "sys/fs/cgroup/memory/box/memory.limit_in_bytes", "90000\n");
  put(machine.path / "sys/fs/cgroup/memory/box/memory.usage_in_bytes", "100000\n");
  CHECK(solver::memory_left(machine.path) == 0.0);
}

TEST_CASE("the estimate meets the peaks that were seen within a quarter", "[memory]")
{
  // Peaks of whole runs, one thread, in kB [time -f %M]: 100, 400 and 1200 coated turns.
  CHECK(solver::memory_needed({8279, 4, 1}) == Approx(160564.0 * 1024.0).epsilon(0.25));
  CHECK(solver::memory_needed({30620, 4, 1}) == Approx(422504.0 * 1024.0).epsilon(0.25));
  CHECK(solver::memory_needed({88767, 4, 1}) == Approx(1073588.0 * 1024.0).epsilon(0.25));
  CHECK(solver::memory_needed({15498, 6, 1}) == Approx(528188.0 * 1024.0).epsilon(0.25));
  CHECK(solver::memory_needed({8279, 4, 9}) > solver::memory_needed({8279, 4, 1}));
}

TEST_CASE("a mesh beyond the machine is refused in words", "[memory]")
{
  const solver::MemoryShare share;
  const solver::MeshSize beyond{4000000000, 8, 1};
  CHECK_THROWS_AS(solver::MemoryShare::require(beyond), solver::NotEnoughMemory);
  CHECK(solver::MemoryShare::lacking(beyond).starts_with("the mesh would need about "));
  CHECK(solver::MemoryShare::lacking({100, 3, 1}).empty());
}
