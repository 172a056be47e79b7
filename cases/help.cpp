// Help texts; the options they name are those main.cpp declares (a test compares the two).
#include "cases/help.hpp"
#include "cases/mix.hpp"

#include <fmt/format.h>

namespace cases
{

namespace
{

constexpr std::string_view overview =
    R"(ferrule solves the magnetic field of bodies of revolution: rods, tubes, rings,
powders and coatings with windings around them. You describe a case in a short
text file; ferrule tells its inductance with a guaranteed lower and upper
bound, where the energy sits, and what limits the design.

  ferrule new                     list the starter cases
  ferrule new rod > my-rod.toml   write one to begin from
  ferrule solve my-rod.toml       solve it
  ferrule compare a.toml b.toml   set cases side by side, the first as yardstick
  ferrule sweep my-rod.toml --vary parts.core.length=20mm:200mm:10
                                  a table and a chart over one or more keys
  ferrule fit my-rod.toml --reading reading.toml
                                  what a measured sample really shows
  ferrule report my-rod.toml      a page to send: one HTML file with all of it
  ferrule formulas my-rod.toml    only the hand formulas that fit, with sources
  ferrule mix --particle 700 --packing 0.6
                                  what permeability a packed powder has

ferrule COMMAND --help explains a command; ferrule --version tells the version.

Exit status: 0 done; 2 the case file or the command line is at fault; 3 the
case is sound but the asked accuracy was not reached (what was reached is
written, and marked so); 1 anything else.
)";

constexpr std::string_view solve_help =
    R"(ferrule solve CASE.toml [options]

Solves one case and prints: the inductance of each winding with the bounds its
true value lies between, open space included; how strongly the core helps
(apparent permeability); in which region the energy sits, which tells what is
worth changing; hand formulas set against the bounds; and what doubling the
permeability, the length or the diameter would gain.

The results folder, CASE.results beside the case, gets the field (field.vtu),
pictures (picture.svg, picture.png) and all numbers (result.json).

Options of solve
  --revolve         also write the bodies as solids, a quarter cut out, with the
                    field on them: a picture (revolved.png), and revolved.vtp
                    for viewers of VTK files

)";

constexpr std::string_view compare_help =
    R"(ferrule compare CASE.toml CASE.toml ... [--vary KEY=VALUES] [options]

Solves the cases and sets them side by side. The first is the yardstick: each
other case gets the ratio of its inductance to the first one's, with the
interval the bounds leave, the turns that would match it, and the reason for
the difference. The first winding of each file is the one compared.

  --vary parts.core.gap=0.5mm,1mm,2mm   every case at each of these values; then
                                        one case file is enough
  --vary parts.core.gap,parts.filling.length=0.5mm,1mm   moved alike; a file
                                        without one of the parts moves the other

Each case has its own results folder; with --out DIR they lie below DIR. The
numbers side by side are in comparison.json (in DIR, or else in the folder of
the first case).

)";

constexpr std::string_view sweep_help =
    R"(ferrule sweep CASE.toml --vary KEY=VALUES [--vary ...] [options]
ferrule sweep CASE.toml --seek QUANTITY=VALUE --by KEY [options]
ferrule sweep CASE.toml --wish QUANTITY=up --wish QUANTITY=down --by KEY ...

Solves a case at many values of one, two or more of its keys: a table, a chart
and files for spreadsheets and scripts, each point with its guaranteed bounds.

  --vary parts.core.length=20mm:200mm:10           ten values, evenly spaced
  --vary materials.core.permeability=2:2000:50:log by equal factors
  --vary parts.core.diameter=6mm,8mm,10mm          a list
  --vary parts.core.length,windings.coil.length=20mm:80mm:7   moved alike

Any key that --set takes can be varied; without --vary, what [sweep] of the
case says. Where permeabilities or packings of up to three materials vary, one
reduced model a geometry answers for all of them, with bounds as guaranteed as
those of a full solution; at one frequency for complex permeabilities too, keys
materials.NAME.permeability.real and .imaginary. drive.frequency and drive.bias make every point tell
impedance or linkage there; a background, what the parts gather of it.

The results folder gets sweep.csv, sweep.json, the chart (sweep.svg, sweep.png),
reduced models (model.json), and sweep.journal: a run that was interrupted, by
whatever, goes on where it stopped when the same command is given again.

Options of sweep
  --vary KEY=VALUES what to vary; the last one given runs fastest
  --show WHAT       what the chart shows: inductance, apparent_permeability or
                    inductance_per_turn_squared; at a frequency resistance,
                    quality or inductance_at_frequency; under bias flux_linkage,
                    secant_inductance or incremental_inductance; of a part in a
                    background apparent_permeability_middle or _volume,
                    ballistic_factor or magnetometric_factor; of straight wires
                    inductance_per_metre or resistance_per_metre
  --full            no reduced model: solve every point in full
  --fields          keep the field of every point as well: fields/point-0001.vtu
                    and fields.pvd, which viewers built on VTK open as one
  --share 3/20      work out only the third of 20 shares, for many machines;
                    its journal share-3-of-20.journal is all that is written
  --join            put the shares in the results folder together
  --model FILE      read points from a kept model.json; no case is needed

The other way round: the value of a key at which a winding has what you want,
with the interval its brackets leave, and the nearest whole turns.

  --seek inductance=100uH --by windings.coil.turns
  --seek coil.apparent_permeability=12 --by parts.core.length
  --seek coil.inductance=1mH --by materials.powder.powder.packing
  --by parts.core.length,windings.coil.length      moved alike

Options of a search
  --seek WHAT=VALUE what has bounds: inductance, apparent_permeability,
                    inductance_per_turn_squared, inductance_at_frequency,
                    resistance, quality, secant_inductance, a part's
                    apparent_permeability_volume or magnetometric_factor; after
                    WINDING. or PART. if there are several
  --by KEY          the number of the case to move
  --between FROM:TO where to look; else from a tenth to ten times the case's own
                    value, as far as its bodies leave room
Where no value meets it, the report tells what can be had, and the exit status
is 3.

Two wishes that pull against each other, say inductance up and volume down: some
ten designs, each the best of the first wish that was found at its level of the
second. It is a search: what it shows can be had, but nothing proves it best.

  --wish inductance=up --wish volume=down --by parts.core.length
  --by parts.core.diameter=4mm:9mm --keep "volume<2cm3"

  --wish WHAT=WAY   inductance, volume or mass (of parts and coatings; the last
                    needs densities), wire_length or dc_resistance (of windings
                    drawn turn by turn); up or down
  --by KEY[=FROM:TO]  a key that may move, once for each
  --keep LIMIT      WHAT<VALUE or WHAT>VALUE; inductances keep it with their
                    whole bracket
Every trial is a solution: one to two hundred in all.

Some points may have no sound case (bodies that overlap, say): they are marked
with the reason, and the exit status is 3; it is 2 where none has.

)";

constexpr std::string_view fit_help =
    R"(ferrule fit CASE.toml --reading READING.toml [options]

Turns readings of a wound sample into the one number of its case you do not
know: a material's permeability, a packing, a coating's thickness, a gap. You
get the best value, the interval it lies in, and what that interval comes from:
the reading, each dimension with a tolerance, the field solution itself. Where
the sample cannot tell, the interval stays open and ferrule works out which
sample could. A reading that no value explains is told with likely mistakes
(exit status 3).

The reading file, in TOML; several readings, several samples (sample = "tube 3")
and a meter's CSV files ([[meter_files]] file = "meter.csv") may stand in one:

  [unknown]
  key = "materials.core.permeability"

  [[readings]]
  winding = "coil"
  inductance = "122.8 uH"
  frequency = "10 kHz"
  tolerance = "1 %"                   # or "0.2 uH", or both: ["1 %", "0.2 uH"]

  [[tolerances]]
  key = "parts.core.diameter"
  tolerance = "0.05 mm"

Options of fit
  --reading FILE    the reading file

)";

constexpr std::string_view report_help =
    R"(ferrule report CASE.toml [CASE.toml ...] | FOLDER [options]

Makes a page to send: one HTML file, report.html, that opens from a mail
attachment, on a phone and without a network, and prints to A4 or Letter. It
holds the question (title and notes of the case), the answer with its bounds,
what limits the design, the parts to scale, the field, hand formulas, limits and
cautions, the case file itself and the command that makes it again. Sliders for
permeabilities, packing and turns answer "what if" in the page, with bounds as
guaranteed as those of a full solution.

One case is told like solve does, several like compare, a case with a [sweep] of
its own with its table and chart, and with --reading what fit finds.

  ferrule report my-rod.results    a results folder in place of cases: what made
                                   it, with its overrides, solved again into it

Options of report
  --reading FILE    what a measured sample shows, as in ferrule fit
  --set KEY=VALUE   override one key of the case, as often as needed
  --accuracy REL    half-width of the bounds asked for, relative to the value
  --out DIR         folder for report.html instead of CASE.results
  --quiet           do not say where the page is
  --threads N       use up to N threads at once (default: one a processor)
  --help            this text
)";

constexpr std::string_view formulas_help =
    R"(ferrule formulas CASE.toml [options]
ferrule formulas --check [--fine] [options]

Prints the hand formulas that speak about this case: value, whether the case
lies in the range where each holds, and its source. Nothing is solved and
nothing is written. Hand formulas carry no bounds; solve sets them beside some.

With --check no case is read: some 1500 shapes of coils and cores are solved and
each formula of the catalogue is set against them. The table tells how much of
its own range a formula is good to 1, 5 and 20 %, and where it is worst; the
results folder, formulas.results, gets a map of each (maps/), all points
(points.csv), table.txt and result.json. It takes about a minute.

Options of formulas
  --check           set the whole catalogue against the field
  --fine            with --check: grids twice as dense, four times as long

)";

constexpr std::string_view mix_help =
    R"(ferrule mix [options]

What permeability a packed powder has, by every mixing rule of the trade and
between the bounds that no arrangement of the grains can leave. Give two of
three: the particle's permeability, the packing, the powder's permeability;
ferrule finds the third.

  ferrule mix --particle 700 --packing 0.6
  ferrule mix --particle 700 --tap-density 2.9g/cm3 --grain-density 4.8g/cm3
  ferrule mix --effective 6.2 --packing 0.6     what the grains must have
  ferrule mix --effective 6.2 --particle 700    how full it must be

Exit status 3: no rule asked for knows such a powder.

Options
)";

constexpr std::string_view mix_common_options =
    R"(  --out DIR              write charts and result.json there; else nothing is
                         written
  --files none|all       none: write nothing even so (default all)
  --json                 print exactly one JSON document
  --quiet                print no report
  --help                 this text
)";

/// Help of `mix`, its options from the one list of them.
std::string help_of_mix()
{
  std::string text(mix_help);
  for (const MixOption& option : mix_options())
  {
    text += fmt::format("  {:<22} {}\n", fmt::format("{} {}", option.name, option.value),
                        option.meaning);
  }
  return text + std::string(mix_common_options);
}

constexpr std::string_view new_help =
    R"(ferrule new [KIND]

Writes a commented starter case to standard output; without KIND, lists the
kinds. Its numbers are invented: replace them by your own.

  ferrule new rod > my-rod.toml

)";

constexpr std::string_view options_help =
    R"(Options
  --set KEY=VALUE   override one key of the case, as often as needed:
                      --set parts.core.length=80mm
                      --set materials.core.permeability=900
  --accuracy REL    half-width of the bounds asked for, relative to the value:
                    1e-3 is a thousandth (the usual), 1e-5 takes a little longer
  --out DIR         results folder instead of CASE.results beside the case
  --files none|all  none: draw and write no files, only print (default all)
  --json            print exactly one JSON document, in SI units, nothing else
  --quiet           print no report and no progress; the files are written
  --threads N       use up to N threads at once (default: one a processor)
  --help            this text
)";

} // namespace

std::string help(std::string_view command)
{
  if (command == "new")
  {
    return std::string(new_help) + "Options\n  --help            this text\n";
  }
  if (command == "mix")
  {
    return help_of_mix();
  }
  if (command == "report")
  {
    return std::string(report_help);
  }
  const std::string_view own = command == "solve"      ? solve_help
                               : command == "compare"  ? compare_help
                               : command == "sweep"    ? sweep_help
                               : command == "fit"      ? fit_help
                               : command == "formulas" ? formulas_help
                                                       : overview;
  return own == overview ? std::string(overview) : std::string(own) + std::string(options_help);
}

} // namespace cases
