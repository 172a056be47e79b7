// Files in a results folder: whole or not at all, and faults that name the path.
#include "folder.hpp"
#include "post/files.hpp"
#include "sphere_sample.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <functional>

namespace fs = std::filesystem;

namespace
{

std::string fault_of(const std::function<void()>& deed)
{
  try
  {
    deed();
  }
  catch (const std::runtime_error& error)
  {
    return error.what();
  }
  return "";
}

void write_sphere(const fs::path& folder)
{
  post::write_field_files(folder, sphere::sample(), sphere::layout(), {});
}

} // namespace

TEST_CASE("text is written whole, over an older file", "[files]")
{
  const Folder folder;
  const fs::path path = folder.path / "result.json";
  post::write_text(path, std::string(100000, 'x'));
  post::write_text(path, "short\n");
  CHECK(text_of(path) == "short\n");
  CHECK(folder.entries() == 1);
}

TEST_CASE("a full disk leaves the older file and nothing else", "[files]")
{
  const Folder folder;
  const fs::path path = folder.path / "result.json";
  post::write_text(path, "older");
  std::string fault;
  {
    const SmallDisk disk(1000);
    fault = fault_of([&] { post::write_text(path, std::string(5000, 'x')); });
  }
  CHECK(fault == "cannot write " + path.string() + ": File too large");
  CHECK(text_of(path) == "older");
  CHECK(folder.entries() == 1);
}

TEST_CASE("places that cannot be written are named", "[files]")
{
  const Folder folder;
  post::write_text(folder.path / "file", "x");
  const fs::path through = folder.path / "file" / "result.json";
  CHECK(fault_of([&] { post::write_text(through, "x"); }) ==
        "cannot write " + through.string() + ": Not a directory");
  const fs::path taken = folder.path / "taken";
  fs::create_directories(taken / "by a folder");
  CHECK(fault_of([&] { post::write_text(taken, "x"); }) ==
        "cannot write " + taken.string() + ": Is a directory");
  CHECK(folder.entries() == 2);
}

TEST_CASE("field files are made with their folder", "[files]")
{
  const Folder folder;
  const fs::path results = folder.path / "a" / "rod.results";
  CHECK(post::write_field_files(results, sphere::sample(), sphere::layout(), {}) ==
        std::vector<std::string>{"field.vtu", "picture.svg", "picture.png"});
  CHECK(text_of(results / "field.vtu").substr(0, 5) == "<?xml");
  CHECK(text_of(results / "picture.svg").substr(0, 5) == "<?xml");
  CHECK(text_of(results / "picture.png").substr(1, 3) == "PNG");
  CHECK(std::distance(fs::directory_iterator(results), fs::directory_iterator()) == 3);
}

TEST_CASE("field files are all there or none is", "[files]")
{
  const Folder folder;
  const post::Sample coarse = sphere::sample(2, 8);
  post::write_field_files(folder.path / "sizes", coarse, sphere::layout(), {});
  const auto field = fs::file_size(folder.path / "sizes" / "field.vtu");
  REQUIRE(field < fs::file_size(folder.path / "sizes" / "picture.svg"));
  fs::remove_all(folder.path / "sizes");
  std::string fault;
  {
    const SmallDisk disk(field); // the field file fits, the next does not
    fault = fault_of([&] { post::write_field_files(folder.path, coarse, sphere::layout(), {}); });
  }
  CHECK(fault == "cannot write " + (folder.path / "picture.svg").string() + ": File too large");
  CHECK(folder.entries() == 0);
}

TEST_CASE("a results folder that is a file is named", "[files]")
{
  const Folder folder;
  const fs::path file = folder.path / "rod.results";
  post::write_text(file, "x");
  CHECK(fault_of([&] { write_sphere(file); }) ==
        "cannot make the folder " + file.string() + ": Not a directory");
}

TEST_CASE("run by the next test: the module is looked for around the program", "[.no-module]")
{
  const fs::path program = fs::read_symlink("/proc/self/exe");
  const std::string fault = fault_of([&] { write_sphere(program.parent_path()); });
  CAPTURE(fault);
  CHECK(fault.find("the drawing module is missing") == 0);
  const fs::path prefix = program.parent_path().parent_path();
  CHECK(fault.find((prefix / "lib/ferrule/ferrule-drawing.so").string()) != std::string::npos);
  CHECK(fault.find((program.parent_path() / "ferrule-drawing.so").string()) != std::string::npos);
}

TEST_CASE("a program far from its drawing module says where it looked", "[files]")
{
  const Folder folder;
  fs::create_directory(folder.path / "bin");
  const fs::path copy = folder.path / "bin" / "moved";
  fs::copy_file(fs::read_symlink("/proc/self/exe"), copy);
  CHECK(std::system(
            (copy.string() + " '[.no-module]' > " + (folder.path / "log").string()).c_str()) == 0);
  INFO(text_of(folder.path / "log"));
  CHECK(text_of(folder.path / "log").find("All tests passed") != std::string::npos);
}
