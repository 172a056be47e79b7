// A page to send: nothing in it can act or fetch, units are set, colours can be told apart.
#include "post/page.hpp"
#include "post/page_blocks.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <map>

namespace
{

using Catch::Contains;

const std::string hostile = "</script><img src=x onerror=alert(1)> \"'&\x1b";

/// Relative luminance and contrast as WCAG 2.2 defines them.
double luminance(const std::string& hex)
{
  std::array<double, 3> parts{};
  for (std::size_t k = 0; k < 3; ++k)
  {
    const double part = std::stoi(hex.substr(1 + 2 * k, 2), nullptr, 16) / 255.0;
    parts[k] = part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
  }
  return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2];
}

double contrast(const std::string& a, const std::string& b)
{
  const double first = luminance(a), second = luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

/// Colours by name, of each ":root" of the style sheet in its order: light, dark, print.
std::vector<std::map<std::string, std::string>> palettes()
{
  const std::string style(post::page_style());
  std::vector<std::map<std::string, std::string>> list;
  for (std::size_t at = style.find(":root"); at != std::string::npos; at = style.find(":root", at))
  {
    const std::size_t end = style.find('}', at);
    list.emplace_back();
    for (at = style.find("--", at); at < end; at = style.find("--", at + 2))
    {
      const std::size_t colon = style.find(':', at);
      list.back()[style.substr(at, colon - at)] = style.substr(style.find('#', at), 7);
    }
    at = end;
  }
  return list;
}

} // namespace

TEST_CASE("words of a case cannot act in the page", "[page]")
{
  post::Page page;
  page.title = page.question = page.foot = hostile;
  page.answers = {{hostile, hostile, hostile}};
  const post::PageBody body{
      hostile, hostile, post::PageBody::Kind::part, {{{0.0, 0.0}, {1.0, 0.0}, {1.0, 3.0}}}};
  const std::string question =
      R"({"sliders":[{"id":"a","label":"</script><img src=x>","kind":"turns","from":1,"to":9,)"
      R"("own":3}],"materials":[],"windings":[{"name":"</script><img src=x>","place":"w"}]})";
  page.sections = {
      {hostile,
       hostile,
       {post::PageText{hostile}, post::PageTable{{{hostile}, {hostile}}, {0}, {hostile}},
        post::PageList{{{hostile, hostile}}}, post::PageBars{{{hostile, 0.5, hostile}}},
        post::PagePicture{"<svg/>", hostile}, post::PageParts{{body}},
        post::PageFile{hostile, hostile}, post::PageWhatIf{"", question}}}};
  std::string made = post::html(page);
  CHECK_THAT(made, !Contains("<img src=x") && !Contains("\x1b"));
  CHECK_THAT(made, Contains("&lt;/script&gt;&lt;img src=x onerror=alert(1)&gt; &quot;&#39;&amp;?"));
  // As many scripts end as begin: the sliders' question and the page's own.
  std::size_t ends = 0;
  for (std::size_t at = made.find("</script"); at != std::string::npos;
       at = made.find("</script", at + 1))
  {
    ++ends;
  }
  CHECK(ends == 2);
}

TEST_CASE("a page fetches nothing and sends nothing", "[page]")
{
  post::Page page;
  page.title = "Rod";
  const std::string made = post::html(page);
  CHECK_THAT(made, Contains("default-src 'none'") && Contains("form-action 'none'"));
  CHECK_THAT(made, !Contains("http:") && !Contains("https:") && !Contains("url(") &&
                       !Contains("@import") && !Contains("fetch(") && !Contains("XMLHttp"));
}

TEST_CASE("units are set as in print, words and names are not", "[page]")
{
  CHECK(post::typeset("485 uH") == "485\xc2\xa0µH");
  CHECK(post::typeset("uH") == "µH");
  CHECK(post::typeset("of 23.2 mohm, 34.3 ohm/m.") == "of 23.2\xc2\xa0mΩ, 34.3 Ω/m.");
  CHECK(post::typeset("1.70 cm3") == "1.70\xc2\xa0"
                                     "cm³");
  CHECK(post::typeset("length 50 mm") == "length 50\xc2\xa0mm");
  CHECK(post::typeset("(10 % more)") == "(10\xc2\xa0% more)");
  CHECK(post::typeset("10 to 20") == "10 to 20");
  CHECK(post::typeset("coil uH here") == "coil uH here");
  CHECK(post::typeset("+- 0.3") == "± 0.3");
}

TEST_CASE("bytes in base 64 are those of the standard", "[page]")
{
  // The test vectors of RFC 4648, section 10.
  CHECK(post::base64("") == "");
  CHECK(post::base64("f") == "Zg==");
  CHECK(post::base64("fo") == "Zm8=");
  CHECK(post::base64("foo") == "Zm9v");
  CHECK(post::base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("text and marks stand out from their ground, light, dark and in print", "[page]")
{
  // WCAG 2.2 AA: 4.5 : 1 for text (1.4.3), 3 : 1 for what a graphic is told by (1.4.11).
  CHECK(contrast("#000000", "#ffffff") == Approx(21.0));
  CHECK(contrast("#777777", "#ffffff") == Approx(4.48).margin(0.005));
  const auto all = palettes();
  REQUIRE(all.size() == 3);
  for (const auto& colour : all)
  {
    REQUIRE(colour.size() == 12);
    for (const char* const text : {"--ink", "--quiet", "--accent"})
    {
      for (const char* const ground : {"--paper", "--raised"})
      {
        CAPTURE(text, ground, colour.at(text), colour.at(ground));
        CHECK(contrast(colour.at(text), colour.at(ground)) >= 4.5);
      }
    }
    const std::array<std::pair<const char*, const char*>, 9> marks = {{{"--bar", "--raised"},
                                                                       {"--bar", "--paper"},
                                                                       {"--copper", "--paper"},
                                                                       {"--caution", "--paper"},
                                                                       {"--edge", "--paper"},
                                                                       {"--edge", "--raised"},
                                                                       {"--ink", "--solid"},
                                                                       {"--ink", "--coat"},
                                                                       {"--copper", "--coat"}}};
    for (const auto& [mark, ground] : marks)
    {
      CAPTURE(mark, ground, colour.at(mark), colour.at(ground));
      CHECK(contrast(colour.at(mark), colour.at(ground)) >= 3.0);
    }
  }
}

TEST_CASE("parts are drawn to scale in both halves, the axis left open", "[page]")
{
  // A rod of D 10 x 40 mm lies: 332 units for 40 mm, so 83 for the diameter.
  const post::PageBody rod{"rod",
                           "a rod",
                           post::PageBody::Kind::part,
                           {{{0.0, -0.02}, {0.005, -0.02}, {0.005, 0.02}, {0.0, 0.02}}}};
  const std::string made = post::block_html(post::PageParts{{rod}});
  CHECK_THAT(made, Contains("M14.00 79.50L14.00 38.00L346.00 38.00L346.00 79.50Z"));
  CHECK_THAT(made, Contains("M14.00 79.50L14.00 121.00L346.00 121.00L346.00 79.50Z"));
  CHECK_THAT(made, !Contains("M346.00 79.50L14.00 79.50"));
  CHECK_THAT(made, Contains("10 mm</text>") && Contains("h83.00"));
  CHECK_THAT(made, Contains("aria-label=\"Section through the axis, to scale: rod\""));
}
