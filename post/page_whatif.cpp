// The box of sliders: what it asks stands in a small document, which the script reads.
#include "post/page_blocks.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace post
{

namespace
{

using Json = nlohmann::ordered_json;

/// JSON as it may stand in a script element: no "<", so nothing in it can end the element.
std::string in_script(const std::string& json)
{
  std::string out;
  for (const char byte : json)
  {
    out += byte == '<' ? std::string("\\u003c") : std::string(1, byte);
  }
  return out;
}

std::string slider(const Json& one)
{
  const auto word = [&](const char* key) { return one.at(key).get<std::string>(); };
  const bool turns = word("kind") == "turns";
  return fmt::format(
      "<div class=\"slider\"><label for=\"{0}\">{1}</label>"
      "<input type=\"range\" id=\"{0}\" data-kind=\"{2}\" data-from=\"{3}\" data-to=\"{4}\" "
      "data-own=\"{5}\" min=\"{6}\" max=\"{7}\" step=\"{8}\"></div>\n",
      word("id"), escaped(word("label")) + fmt::format("<output for=\"{}\"></output>", word("id")),
      word("kind"), one.at("from").dump(), one.at("to").dump(), one.at("own").dump(),
      turns ? one.at("from").dump() : "0", turns ? one.at("to").dump() : "1000",
      turns ? "1" : "any");
}

} // namespace

std::string block_html(const PageWhatIf& what_if)
{
  const Json asked = Json::parse(what_if.question);
  std::string sliders, said;
  for (const Json& one : asked.at("sliders"))
  {
    sliders += slider(one);
  }
  for (const Json& material : asked.at("materials"))
  {
    if (material.contains("rule"))
    {
      said += fmt::format("<p>{}, by the rule {}: permeability <span id=\"{}\"></span> [estimated]"
                          "</p>\n",
                          escaped(material.at("name").get<std::string>()),
                          escaped(material.at("rule").get<std::string>()),
                          material.at("place").get<std::string>());
    }
  }
  for (const Json& winding : asked.at("windings"))
  {
    said += fmt::format(
        "<p id=\"{}\">{}: <strong></strong><br>guaranteed to lie in <span "
        "class=\"bounds\"></span>, "
        "for the values set; <span class=\"gain\"></span> times the same winding in air</p>\n",
        winding.at("place").get<std::string>(), escaped(winding.at("name").get<std::string>()));
  }
  return fmt::format(
      "<noscript><p>The sliders need a browser that runs the script in this page; nothing is "
      "fetched or sent.</p></noscript>\n"
      "<div class=\"whatif\" role=\"group\" aria-label=\"What if\" hidden>\n"
      "<script type=\"application/json\" class=\"question-data\">{}</script>\n{}"
      "{}<button type=\"button\">Back to the case</button>\n"
      "<div class=\"said\" aria-live=\"polite\">\n{}</div>\n</div>\n",
      in_script(what_if.question),
      what_if.model.empty()
          ? ""
          : fmt::format("<script type=\"application/json\" class=\"model-data\">{}</script>\n",
                        in_script(what_if.model)),
      sliders, said);
}

} // namespace post
