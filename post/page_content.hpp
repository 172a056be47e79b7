// What a section of a page may hold, as plain data: words, tables, pictures, drawings, sliders.
#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace post
{

struct PageText
{
  std::string words;
  bool caution = false; ///< Set apart by a rule and a mark.
};

/// @brief The first row holds the headings.
struct PageTable
{
  std::vector<std::vector<std::string>> rows;
  std::vector<std::size_t> left = {0};
  std::vector<std::string> below = {}; ///< A sentence below each row, or empty; may be shorter.
  bool heads = true;                   ///< False where the first row is one like the others.
};

struct PageList
{
  std::vector<std::pair<std::string, std::string>> items; ///< What is stressed, and the rest.
  bool numbered = false;
};

/// @brief Shares of a whole, a bar each.
struct PageBars
{
  struct Bar
  {
    std::string name;
    double share = 0.0; ///< 0 to 1
    std::string words;  ///< "57 %"
  };
  std::vector<Bar> bars;
};

/// @brief A drawing made elsewhere, kept apart from the page as an image: what is in it cannot act.
struct PagePicture
{
  std::string svg;
  std::string words; ///< Instead of the picture, for those who do not see it.
};

/// @brief Closed outlines in the half-plane, drawn to scale with their mirror image.
struct PageBody
{
  enum class Kind
  {
    part,
    coating,
    winding,
    hollow ///< Air within another; without a number.
  };
  std::string name;
  std::string words; ///< What it is, with its sizes.
  Kind kind = Kind::part;
  std::vector<std::vector<std::pair<double, double>>> areas; ///< (r, z) [m]; two points: a sheet.
};
struct PageParts
{
  std::vector<PageBody> bodies; ///< Larger before what lies in them.
};

/// @brief A file shown as it is.
struct PageFile
{
  std::string name;
  std::string text;
};

/// @brief A reduced model with sliders; the documents are JSON.
struct PageWhatIf
{
  std::string model;    ///< post::json(KeptModel), or empty: turns only.
  std::string question; ///< Sliders: see cases/report_whatif.cpp.
};

using PageBlock = std::variant<PageText, PageTable, PageList, PageBars, PagePicture, PageParts,
                               PageFile, PageWhatIf>;

} // namespace post
