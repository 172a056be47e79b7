#!/usr/bin/env bash
# check.sh RULE FERRULE SOURCE: runs the program in an empty folder and looks at exit status,
# standard output, standard error and files.
set -u
rule=$1 ferrule=$2 source=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: $*"; cat out err 2>/dev/null; exit 1; }

# run STATUS ARGUMENTS...: leaves standard output in "out" and standard error in "err".
run()
{
  local wanted=$1
  shift
  "$ferrule" "$@" >out 2>err
  local got=$?
  [ "$got" = "$wanted" ] || fail "exit $got instead of $wanted: ferrule $*"
}
silent() { [ ! -s "$1" ] || fail "$1 is not empty"; }
one_line() { [ "$(wc -l <err)" = 1 ] || fail "not one line on standard error"; }
says() { grep -qF -- "$2" "$1" || fail "$1 does not say: $2"; }
one_document()
{
  silent err
  [ "$(head -c 1 out)" = "{" ] && [ "$(tail -n 1 out)" = "}" ] || fail "not one document"
  [ "$(grep -c '^{' out)" = 1 ] || fail "more than one document"
}
small_case()
{
  "$ferrule" new rod >"$1"
}

# Options of main.cpp as "COMMAND --option", "all" for those every command shares.
declared_options()
{
  awk '/^  if \(name == "/ { split($0, part, "\""); who = part[2] }
       /^  }/ { who = "" }
       /sub->add_/ && match($0, /"--[a-z]+"/) {
         print (who == "" ? "all" : who), substr($0, RSTART + 1, RLENGTH - 2) }' \
    "$source/cases/main.cpp"
}
help()
{
  run 0 --help
  says out "ferrule solve"
  [ "$(declared_options | wc -l)" -ge 8 ] || fail "no options found in main.cpp"
  for command in solve compare report sweep fit formulas; do
    run 0 $command --help
    silent err
    for option in $(declared_options | awk -v own=$command '$1 == own || ($1 == "all" && own != "report") { print $2 }'); do
      says out "$option"
    done
  done
  run 0 new --help
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
}
version()
{
  run 0 --version
  grep -qxE 'ferrule [0-9]+\.[0-9]+\.[0-9]+' out || fail "no version"
}
faults()
{
  small_case rod.toml
  run 2
  says err "ferrule: error: no command given; see ferrule --help"
  run 2 slove rod.toml
  says err 'ferrule: error: there is no command "slove"; see ferrule --help'
  run 2 solve rod.toml --jsn
  says err 'ferrule: error: solve does not know "--jsn"; see ferrule solve --help'
  run 2 solve
  says err "ferrule: error: solve needs a case file"
  run 2 solve rod.toml --accuracy
  says err "ferrule: error: --accuracy needs one value; see ferrule solve --help"
  run 2 solve rod.toml --json=3
  says err "ferrule: error: --json takes no value; see ferrule solve --help"
  run 2 solve rod.toml --set parts.core.length=-3mm
  one_line
  silent out
  run 2 solve none.toml
  one_line
  run 2 new rood
  says err 'there is no starter case "rood"; the kinds are background,'
  echo "permeabilty = 1" >bad.toml
  run 2 compare rod.toml bad.toml
  silent out
  [ "$(ls | sort | tr '\n' ' ')" = "bad.toml err out rod.toml " ] || fail "something was written"
}
json()
{
  small_case rod.toml
  run 0 solve rod.toml --json --files none
  one_document
  says out '"tool": "ferrule"'
  cp rod.toml other.toml
  run 0 compare rod.toml other.toml --json --files none
  one_document
  says out '"turns_to_match"'
  run 0 formulas rod.toml --json
  one_document
  [ ! -e rod.results ] || fail "--files none wrote files"
}
files()
{
  mkdir deep
  small_case deep/rod.toml
  run 0 solve deep/rod.toml
  for name in field.vtu picture.svg picture.png result.json; do
    [ -s "deep/rod.results/$name" ] || fail "no $name beside the case"
  done
  says deep/rod.results/result.json "rod.results/picture.svg"
  [ ! -e deep/rod.results/revolved.vtp ] || fail "solids nobody asked for"
  run 0 solve deep/rod.toml --revolve --quiet --out solid
  grep -q 'type="PolyData"' solid/revolved.vtp || fail "no solids"
  says solid/result.json "solid/revolved.vtp"
  head -c 4 solid/revolved.png | grep -q PNG || fail "no picture of the solids"
  run 0 solve deep/rod.toml --out elsewhere --json
  one_document
  cmp out elsewhere/result.json || fail "result.json is not the document printed"
}
compare_files()
{
  mkdir one two
  small_case one/rod.toml
  small_case two/rod.toml
  run 0 compare one/rod.toml two/rod.toml --out all
  for name in rod/result.json rod-2/result.json comparison.json; do
    [ -s "all/$name" ] || fail "no $name"
  done
  says out "undecided at this accuracy"
  run 0 compare one/rod.toml two/rod.toml --quiet
  [ -s one/rod.results/comparison.json ] && [ -s two/rod.results/result.json ] || fail "files missing"
  run 0 compare one/rod.toml --vary parts.core.length=30mm,40mm --quiet
  [ -s one/rod.results/comparison.json ] && [ -s one/rod-2.results/result.json ] || fail "no variant"
}
quiet()
{
  small_case rod.toml
  run 0 solve rod.toml --quiet
  silent out
  silent err
  [ -s rod.results/result.json ] || fail "nothing written"
}
full_disk()
{
  small_case rod.toml
  "$ferrule" solve rod.toml --files none >/dev/full 2>err
  [ $? = 1 ] || fail "exit status"
  says err "ferrule: error: standard output could not be written: No space left on device"
}
closed_output()
{
  "$ferrule" new rod >&- 2>err
  [ $? = 1 ] || fail "exit status"
  says err "ferrule: error: standard output could not be written"
  # A reader that leaves at once: the status is the program's own, not that of a signal.
  small_case rod.toml
  { "$ferrule" solve rod.toml --files none 2>err; echo $? >status; } | true
  [ "$(cat status)" = 1 ] || fail "status $(cat status) into a closed pipe"
}
unwritable_folder()
{
  small_case rod.toml
  touch taken
  run 1 solve rod.toml --out taken
  says err taken
  one_line
}
# A case too large for what is left stops before it is begun, in words; a small one fits there.
memory()
{
  small_case rod.toml
  printf '[materials.paste]\npermeability = 5\n[[windings]]\nname = "coil"\nturns = 200\nwire = "0.5 mm"\n%s\n' \
    'insulation = "0.05 mm"
coating = { material = "paste", thickness = "0.1 mm" }
inner_diameter = "20 mm"
layers = 4' >turns.toml
  (ulimit -v 440000 && run 0 solve rod.toml --files none --threads 1) || exit 1
  (ulimit -v 440000 && run 3 solve turns.toml --threads 1) || exit 1
  says err "ferrule: error: the mesh would need about "
  one_line
  [ ! -e turns.results ] || fail "something was written"
}
accuracy_not_reached()
{
  small_case rod.toml
  run 3 solve rod.toml --accuracy 1e-15 --json
  one_document
  says out '"status": "accuracy not reached"'
  [ -s rod.results/result.json ] || fail "what was reached is not written"
}
formulas()
{
  small_case rod.toml
  run 0 formulas rod.toml
  says out "Source:"
  [ ! -e rod.results ] || fail "formulas wrote files"
  run 2 formulas rod.toml --check
  says err "ferrule: error: formulas --check takes no case file and no --set; write ferrule formulas --check"
  run 2 formulas --fine
  says err "ferrule: error: --fine asks for denser grids of --check; write ferrule formulas --check --fine"
  run 2 formulas
  says err "ferrule: error: formulas needs a case file"
  [ ! -e formulas.results ] || fail "a refused check wrote files"
}
fit()
{
  cp "$source/cases/powder-tube.toml" "$source"/cases/readings/{tubes.toml,tubes.csv,slip.toml} .
  run 0 fit powder-tube.toml --reading tubes.toml --json
  one_document
  says out '"key": "materials.powder.permeability"'
  cmp out powder-tube.results/fit.json || fail "fit.json is not the document printed"
  for name in fit.png fit.svg; do
    [ -s "powder-tube.results/$name" ] || fail "no $name"
  done
  rm -r powder-tube.results
  run 3 fit powder-tube.toml --reading slip.toml --files none
  says out "IMPOSSIBLE READING"
  silent err
  [ ! -e powder-tube.results ] || fail "--files none wrote files"
  run 3 fit powder-tube.toml --reading slip.toml --quiet --out elsewhere
  silent out
  silent err
  says elsewhere/fit.json '"status": "reading impossible"'
  [ ! -e elsewhere/fit.png ] || fail "a chart of one sample"
  run 2 fit powder-tube.toml
  says err "ferrule: error: fit needs"
  silent out
  sed 's/winding = "sensor"/winding = "sensr"/' slip.toml >astray.toml
  run 2 fit powder-tube.toml --reading astray.toml
  one_line
  says err 'did you mean "sensor"?'
  [ ! -e powder-tube.results ] || fail "a fault wrote files"
}
mix()
{
  run 0 mix --particle 700 --packing 0.6
  silent err
  says out "Particles of permeability 700 filling 60 % of the space"
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
  run 0 mix --particle 700 --packing 0.6 --quiet
  silent out
  run 0 mix --particle 700 --packing "60 %" --json
  one_document
  says out '"maxwell-garnett"'
  cp out percent
  run 0 mix --particle 700 --tap-density "2.88 g/cm3" --grain-density "4.8 g/cm3" --json
  says out '"packing": 0.6'
  run 0 mix --particle 700 --mass "59.8 g" --tare "31 g" --volume "10 ml" \
    --grain-density "4.8 g/cm3" --json
  says out '"packing": 0.6'
  [ "$(ls | sort | tr '\n' ' ')" = "err out percent " ] || fail "written without --out"
  run 0 mix --particle 700 --imaginary 30 --packing 0.6 --out deep/powder --json
  one_document
  for name in mix.svg mix.png loss.svg loss.png result.json; do
    [ -s "deep/powder/$name" ] || fail "no $name"
  done
  cmp out deep/powder/result.json || fail "result.json is not the document printed"
  touch taken
  run 1 mix --particle 700 --packing 0.6 --out taken
  one_line
  says err taken
}
mix_faults()
{
  run 2 mix
  one_line
  says err "ferrule: error: mix needs two of --particle, --effective and a packing, got none; e.g."
  run 2 mix --particle 700 --packing 1.2
  one_line
  says err "--packing is too large, got 1.2; packing is the filled share of the volume"
  run 2 mix --particle 700 --packing 0.6 --tap-density "2.9 g/cm3"
  says err "--packing and densities or masses both say how full it is; give one or the other"
  run 2 mix --particle -3 --packing 0.6
  run 2 mix --particle=-3 --packing 1.2 --rule looyanga
  [ "$(wc -l <err)" = 3 ] || fail "not all faults in one go"
  says err 'did you mean "looyenga"?'
  run 2 mix --particle 700 --packing 0.6 --effective 5
  says err "leave nothing to find"
  run 2 mix rod.toml
  says err 'ferrule: error: mix does not know "rod.toml"; see ferrule mix --help'
  run 3 mix --effective 9 --particle 5
  says out "none: any packing gives 1.00 to 5.00"
  run 3 mix --effective 5.6 --packing 0.6 --rule maxwell-garnett --json
  one_document
  says out '"particle_permeability": null'
  run 0 mix --effective 5.6 --packing 0.6
  run 0 mix --help
  for option in --particle --effective --imaginary --packing --tap-density --grain-density --mass \
    --tare --volume --rule --out --files --json --quiet; do
    says out "$option"
  done
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
}
starters()
{
  run 0 new
  for kind in $(awk '/^  /{print $1}' out | grep -v ferrule); do
    run 0 new "$kind"
    cmp out "$source/cases/starters/$kind.toml" || fail "$kind differs from its file"
  done
}

"$rule"
echo "ok: $rule"
