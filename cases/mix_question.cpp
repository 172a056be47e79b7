// Options of `mix` as typed -> what is known of the powder; every fault in one go.
#include "cases/fault.hpp"
#include "cases/mix.hpp"
#include "cases/section.hpp"
#include "cases/wording.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace cases
{

namespace
{

using Complex = std::complex<double>;

constexpr Wanted loss{Kind::number, 0.0, 1e9, "give mu'' as it stands in mu' - j mu'', 0 to 1e9",
                      "12"};
constexpr Wanted mass{Kind::mass, 1e-9, 1e6, "masses run from 1 ug to 1000 t", "\"25 g\""};
constexpr Wanted volume{Kind::volume, 1e-12, 1e3, "volumes run from 0.001 mm3 to 1000 m3",
                        "\"10 cm3\""};

/// The options, read one by one.
class Reader
{
public:
  explicit Reader(const MixTyped& typed) : _typed(typed) {}

  bool has(const std::string& option) const
  {
    const auto found = _typed.find(option);
    return found != _typed.end() && !found->second.empty();
  }
  const std::string& text(const std::string& option) const { return _typed.at(option); }

  void fault(const std::string& what, const std::string& cure)
  {
    _faults.push_back({{"ferrule", 0, 0}, what, cure});
  }

  /// A number (a share also in per cent) or a quantity; nothing where it was not given, or was at
  /// fault.
  std::optional<double> value(const std::string& option, const Wanted& wanted)
  {
    if (!has(option))
    {
      return std::nullopt;
    }
    Node node{text(option), {"ferrule", 0, 0}};
    if (wanted.kind == Kind::number)
    {
      const bool percent = option == "--packing" && text(option).back() == '%';
      const std::string number = text(option).substr(0, text(option).size() - (percent ? 1 : 0));
      const auto read = quantity(number, Kind::number);
      if (const auto* misread = std::get_if<Misread>(&read))
      {
        fault(option + " " + misread->what, misread->cure);
        return std::nullopt;
      }
      node.value = std::get<double>(read) / (percent ? 100.0 : 1.0);
    }
    return checked(node, option, wanted, _faults);
  }

  void finish()
  {
    if (!_faults.empty())
    {
      throw CaseError(std::move(_faults));
    }
  }

private:
  const MixTyped& _typed;
  std::vector<Fault> _faults;
};

/// What needs company, and what excludes it.
void check_pairs(Reader& reader)
{
  for (const auto& [given, needed] : {std::pair{"--tap-density", "--grain-density"},
                                      {"--mass", "--grain-density"},
                                      {"--mass", "--volume"},
                                      {"--volume", "--mass"},
                                      {"--tare", "--mass"}})
  {
    if (reader.has(given) && !reader.has(needed))
    {
      reader.fault(fmt::format("{} needs {} beside it", given, needed),
                   "e.g. --mass \"29 g\" --volume \"10 cm3\" --grain-density \"4.8 g/cm3\"");
    }
  }
  if (reader.has("--grain-density") && !reader.has("--tap-density") && !reader.has("--mass"))
  {
    reader.fault("--grain-density says nothing of the packing by itself",
                 "add --tap-density, or --mass and --volume");
  }
  if (reader.has("--tap-density") && reader.has("--mass"))
  {
    reader.fault("--tap-density and --mass both say how much powder there is", "give one of them");
  }
}

/// From masses and a volume, or from the density as filled.
std::optional<double> weighed_packing(Reader& reader)
{
  const auto grain = reader.value("--grain-density", density);
  const auto tap = reader.value("--tap-density", density);
  const auto filled = reader.value("--mass", mass);
  const auto tare = reader.value("--tare", mass);
  const auto space = reader.value("--volume", volume);
  check_pairs(reader);
  if (tare && filled && *tare >= *filled)
  {
    reader.fault("--tare leaves no powder", "--mass is that of the vessel with the powder");
    return std::nullopt;
  }
  const double powder = filled.value_or(0.0) - tare.value_or(0.0);
  const auto share = grain && tap ? std::optional(solver::packing(*tap, *grain))
                     : grain && filled && space
                         ? std::optional(solver::packing(powder, *space, *grain))
                         : std::nullopt;
  if (share && *share > 1.0)
  {
    reader.fault(
        fmt::format("the powder would be denser than its grains, a packing of {:.4g}", *share),
        "check the densities, and that --mass is without its vessel or has its --tare");
  }
  return share;
}

std::optional<solver::MixingRule> typed_rule(Reader& reader)
{
  if (!reader.has("--rule"))
  {
    return std::nullopt;
  }
  std::vector<std::string> names;
  for (const solver::RuleInfo& info : solver::mixing_rules())
  {
    if (reader.text("--rule") == info.name)
    {
      return info.rule;
    }
    names.emplace_back(info.name);
  }
  reader.fault(fmt::format("--rule is {}", in_quotes(reader.text("--rule"))),
               did_you_mean(reader.text("--rule"), names, "the rules are " + in_words(names)));
  return std::nullopt;
}

/// Two numbers of the three must be there, and loss must have one to belong to.
void check_count(Reader& reader, bool packing)
{
  const bool particle = reader.has("--particle"), effective = reader.has("--effective");
  const int known = int(particle) + int(packing) + int(effective);
  if (known < 2)
  {
    reader.fault("mix needs two of --particle, --effective and a packing, got " +
                     std::string(known == 1 ? "one" : "none"),
                 "e.g. ferrule mix --particle 700 --packing 0.6");
  }
  if (known > 2)
  {
    reader.fault("--particle, --effective and a packing leave nothing to find",
                 "leave out the one you look for");
  }
  if (reader.has("--imaginary") && particle && effective)
  {
    reader.fault("--imaginary cannot tell whether it belongs to --particle or to --effective",
                 "a packing is found from values without loss: leave it out");
  }
}

} // namespace

post::MixtureQuestion mixture_question(const MixTyped& typed)
{
  Reader reader(typed);
  bool weighed = false;
  for (const char* option : {"--tap-density", "--grain-density", "--mass", "--tare", "--volume"})
  {
    weighed = weighed || reader.has(option);
  }
  const bool packing = reader.has("--packing");
  post::MixtureQuestion question;
  if (packing && weighed)
  {
    reader.fault("--packing and densities or masses both say how full it is",
                 "give one or the other");
  }
  if (packing)
  {
    question.packing = reader.value("--packing", packing_fraction);
  }
  else if (weighed)
  {
    question.packing = weighed_packing(reader);
  }
  const double imaginary = reader.value("--imaginary", loss).value_or(0.0);
  if (const auto particle = reader.value("--particle", relative_permeability))
  {
    question.particle = Complex(*particle, -imaginary);
  }
  if (const auto effective = reader.value("--effective", relative_permeability))
  {
    question.effective = Complex(*effective, -imaginary);
  }
  question.rule = typed_rule(reader);
  check_count(reader, packing || weighed);
  reader.finish();
  return question;
}

} // namespace cases
