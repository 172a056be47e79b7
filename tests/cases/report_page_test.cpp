// Page and terminal say the same; what the page adds follows from the case.
#include "cases/report_page.hpp"

#include "cases/report.hpp"
#include "hand_filled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

namespace
{

using Catch::Contains;

cases::Case coated_rod()
{
  cases::Case read;
  read.path = "rod.toml";
  read.title = "Rod";
  read.problem.materials["ferrite"].permeability = 700.0;
  read.problem.materials["dust"].permeability = 5.0;
  read.problem.scene.parts = {
      {"core", mesh::Rod{6e-3, 60e-3}, "ferrite", 0.0, mesh::Coating{"dust", 0.4e-3}}};
  read.problem.scene.windings = {{"coil", 100, mesh::Block{8e-3, 9e-3, 40e-3}, 0.0}};
  return read;
}

std::string words(const post::PageSection& section)
{
  std::string out;
  for (const post::PageBlock& block : section.blocks)
  {
    if (const auto* list = std::get_if<post::PageList>(&block))
    {
      for (const auto& [stressed, rest] : list->items)
      {
        out += stressed + " " + rest + "\n";
      }
    }
    if (const auto* text = std::get_if<post::PageText>(&block))
    {
      out += text->words + "\n";
    }
  }
  return out;
}

} // namespace

TEST_CASE("every section of the terminal's report is one of the page", "[page]")
{
  const cases::Sheet sheet = cases::solve_text(coated_rod(), hand_filled::rod(), {});
  const std::vector<post::PageSection> made = cases::sections(sheet);
  std::vector<std::string> headings;
  for (const post::PageSection& section : made)
  {
    headings.push_back(section.heading);
  }
  CHECK(headings == std::vector<std::string>{"Inductance", "Where the energy sits",
                                             "Hand formulas beside the bracket", "Accuracy",
                                             "What this means"});
  CHECK(made[0].taken_as == "bounded: the true value lies between lower and upper");
  const auto& table = std::get<post::PageTable>(made[0].blocks[0]);
  CHECK(table.rows[1][2] == "450 uH");
  CHECK(std::get<post::PageTable>(made[2].blocks[0]).below.size() == 1);
}

TEST_CASE("a sheet prints as before, sentences below their rows", "[page]")
{
  cases::Table table{{{"a", "1 uH"}, {"b", "2 uH"}}, {0}, {"", "why not"}};
  CHECK(cases::title("Rod") + cases::heading("What", "bounded") + cases::text(table) +
            cases::apart("End.") ==
        "Rod\n---\n\nWhat [bounded]\n  a  1 uH\n  b  2 uH\n      why not\n\nEnd.\n");
}

TEST_CASE("parts, coatings and windings are told with their sizes, the larger first", "[page]")
{
  const post::PageSection made = cases::parts_section(coated_rod(), "The parts");
  const auto& bodies = std::get<post::PageParts>(made.blocks.at(0)).bodies;
  REQUIRE(bodies.size() == 3);
  CHECK(bodies[0].name == "core.coating");
  CHECK(bodies[0].words == "coating, 0.4 mm thick, of dust (permeability 5)");
  CHECK(bodies[1].words == "rod, diameter 6 mm, length 60 mm, of ferrite (permeability 700)");
  CHECK(bodies[2].words == "100 turns, inner diameter 8 mm, outer diameter 9 mm, length 40 mm");
}

TEST_CASE("cautions follow from what a case holds", "[page]")
{
  cases::Case read = coated_rod();
  CHECK_THAT(words(cases::cautions_section({&read, 1})),
             Contains("Dust.") && Contains("is no electrical insulation") &&
                 Contains("makes high voltage") && Contains("no approval") &&
                 Contains("local codes"));
  read.problem.scene.parts.clear();
  CHECK_THAT(words(cases::cautions_section({&read, 1})),
             !Contains("Dust.") && !Contains("insulation") && Contains("makes high voltage"));
}

TEST_CASE("losses are promised only where there are frequencies", "[page]")
{
  cases::Case read = coated_rod();
  CHECK_THAT(words(cases::limits_section({&read, 1})), Contains("At rest. No eddy currents"));
  read.problem.frequencies = {1e4};
  CHECK_THAT(words(cases::limits_section({&read, 1})), !Contains("At rest."));
}

TEST_CASE("the command to make a page again survives a shell", "[page]")
{
  CHECK(cases::shell_word("rod.toml") == "rod.toml");
  CHECK(cases::shell_word("my rod.toml") == "'my rod.toml'");
  CHECK(cases::shell_word("a'b;$(c)") == "'a'\\''b;$(c)'");
  CHECK(cases::shell_word("-x") == "'-x'");
  CHECK(cases::shell_word("") == "''");
  cases::Options options;
  options.sets = {{"parts.core.length", "80 mm"}};
  options.accuracy = 1e-4;
  const post::PageSection made = cases::reproduce_section({"deep/my rod.toml"}, {}, options);
  CHECK(std::get<post::PageFile>(made.blocks.at(1)).text ==
        "ferrule report 'my rod.toml' --set 'parts.core.length=80 mm' --accuracy 0.0001");
}
