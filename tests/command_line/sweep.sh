#!/usr/bin/env bash
# sweep.sh RULE FERRULE SOURCE: `ferrule sweep` as people and scripts meet it, in an empty folder:
# exit statuses, files, interruption at any moment, shares of several machines.
set -u
rule=$1 ferrule=$2 source=$3 file_tests=${4:-}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: $*"; cat out err 2>/dev/null; exit 1; }
run()
{
  local wanted=$1
  shift
  "$ferrule" "$@" >out 2>err
  local got=$?
  [ "$got" = "$wanted" ] || fail "exit $got instead of $wanted: ferrule $*"
}
silent() { [ ! -s "$1" ] || fail "$1 is not empty"; }
says() { grep -qF -- "$2" "$1" || fail "$1 does not say: $2"; }
same() { cmp -s "$1" "$2" || fail "$1 differs from $2"; }
small_case() { "$ferrule" new rod >"$1"; }

# A table, and every file the results folder is promised.
files()
{
  small_case rod.toml
  run 0 sweep rod.toml --vary windings.coil.turns=50,100 --out res
  silent err
  says out "Inductance of coil [bounded: the true value lies between lower and upper]"
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
  [ "$(ls res | tr '\n' ' ')" = "origin.json sweep.csv sweep.journal sweep.json sweep.png sweep.svg " ] ||
    fail "files: $(ls res)"
  [ "$(wc -l <res/sweep.csv)" = 3 ] || fail "not one line a point"
  run 0 sweep rod.toml --vary materials.ferrite.permeability=10:1000:20:log --out model --json
  silent err
  same out model/sweep.json
  [ -s model/model.json ] || fail "no model"
  run 0 sweep --model model/model.json --vary materials.ferrite.permeability=10:1000:20:log --json
  diff <(grep '"values"' out) <(grep '"values"' model/sweep.json) >/dev/null ||
    fail "the kept model says otherwise"
  run 0 sweep rod.toml --vary windings.coil.turns=50,100 --files none
  run 0 sweep rod.toml --vary windings.coil.turns=50,100 --quiet --out quiet
  silent out
  silent err
  [ ! -e rod.results ] || fail "files against the word"
  { cat rod.toml
    printf '[[sweep.vary]]\nkey = "windings.coil.turns"\nvalues = [50, 100]\n'; } >own.toml
  run 0 solve own.toml --files none
  run 0 sweep own.toml --out own
  # The case counts in the name of the work, its [sweep] says the same points.
  same own/sweep.csv res/sweep.csv
}
# The field of every point, and a collection that VTK's own readers open; what is there is not done
# again, what was lost is, and a point that cannot be built is left out.
fields()
{
  local vary="--vary parts.core.length=50mm:80mm:3"
  small_case rod.toml
  run 0 sweep rod.toml $vary --fields --out res
  [ "$(ls res/fields | tr '\n' ' ')" = "point-0001.vtu point-0002.vtu point-0003.vtu " ] || fail "fields: $(ls res/fields)"
  says res/sweep.json res/fields/point-0003.vtu
  says res/sweep.json res/fields.pvd
  FERRULE_COLLECTION=$PWD/res/fields.pvd "$file_tests" "[collection]" >out || fail "VTK does not open it"
  "$ferrule" solve rod.toml --set parts.core.length=65mm --out alone --quiet
  same alone/field.vtu res/fields/point-0002.vtu
  touch -d 2001-01-01 res/fields/*.vtu
  rm res/fields/point-0002.vtu res/fields.pvd
  run 0 sweep rod.toml $vary --fields --out res
  [ -n "$(find res/fields/point-0001.vtu ! -newermt 2002-01-01)" ] || fail "a field is made twice"
  same alone/field.vtu res/fields/point-0002.vtu
  [ -s res/fields.pvd ] || fail "no collection"
  run 3 sweep rod.toml --vary windings.coil.inner_diameter=1mm,20mm --fields --out partly --set windings.coil.outer_diameter=21mm
  [ "$(ls partly/fields)" = point-0002.vtu ] || fail "fields: $(ls partly/fields)"
  run 2 sweep rod.toml $vary --fields --files none
  says err "ferrule: error: --files none keeps no fields;"
  run 2 sweep rod.toml $vary --fields --share 1/2
  says err "ferrule: error: a share keeps no fields; give --fields with --join"
  run 2 sweep rod.toml --seek inductance=1mH --by windings.coil.turns --fields
}
# Faults in one line and exit 2; points that cannot be built are marked and make 3, all of them 2.
faults()
{
  small_case rod.toml
  run 2 sweep rod.toml --vary parts.cor.length=20mm,30mm
  says err '--vary parts.cor.length: error: the case has no part "cor"; did you mean "core"?'
  run 2 sweep rod.toml --vary parts.core.length=20mm:30mm
  says err '--vary parts.core.length: error: "20mm:30mm" is no range;'
  run 2 sweep rod.toml
  says err "ferrule: error: sweep needs to know what to vary;"
  run 2 sweep
  says err "ferrule: error: sweep needs a case file;"
  "$ferrule" new background >bare.toml
  run 2 sweep bare.toml --seek inductance=1mH --by parts.rod.length --files none
  says err "ferrule: error: --seek inductance: the case has none; it has apparent_permeability_mid"
  rm bare.toml
  run 2 sweep rod.toml --vary windings.coil.turns=1,2 --show beauty
  says err 'ferrule: error: --show is "beauty"; write --show inductance, apparent_permeability, '
  run 2 sweep rod.toml --vary windings.coil.turns=1,2 --share 1/2 --join
  says err "ferrule: error: --share and --join are both given;"
  run 2 sweep rod.toml --vary windings.coil.turns=1,2 --share 1/2 --files none
  says err "ferrule: error: --files none keeps no shares;"
  run 2 sweep rod.toml --model rod.toml --vary materials.core.permeability=2
  says err "ferrule: error: sweep --model takes no case file"
  run 2 sweep --model rod.toml --vary materials.core.permeability=2
  says err "rod.toml: error: the reduced model cannot be read:"
  run 2 sweep rod.toml --vary parts.core.length=20,30
  says err 'ferrule: error: no point of the sweep can be built: parts.core.length needs a unit,'
  silent out
  [ "$(ls | tr '\n' ' ')" = "err out rod.toml " ] || fail "files: $(ls)"
  run 3 sweep rod.toml --vary parts.core.diameter=8mm,9.5mm --out some
  says out "Not built: 1 of 2 points"
  says some/sweep.csv "not built: "
  says some/sweep.json '"status":"not built"'
}
# A search meets its target: the found value solved again has it in its bracket, the ends have not.
seek()
{
  small_case rod.toml
  run 0 sweep rod.toml --seek inductance=600uH --by parts.core.length --out res
  silent err
  says out "Found [bounded: a value that meets it lies in the interval]"
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
  [ "$(ls res | tr '\n' ' ')" = "seek.json seek.png seek.svg " ] || fail "files: $(ls res)"
  number() { tr -d ' ,"' <"$2" | sed -n "/^found/,\$s/^$1:\([-+.e0-9]*\).*/\1/p" | head -1; }
  of() { tr -d ' ,"' <out | sed -n "/^inductance_H/,\$s/^$1:\([-+.e0-9]*\).*/\1/p" | head -1; }
  local end
  for end in value lower upper; do
    run 0 solve rod.toml --set "parts.core.length=$(number $end res/seek.json) m" --files none --json
    echo "$(of lower) $(of upper)" | awk -v end=$end '{
      inside = $1 <= 600e-6 && 600e-6 <= $2
      exit !(end == "value" ? inside : end == "lower" ? $2 < 600e-6 : $1 > 600e-6) }' ||
      fail "$end: $(number $end res/seek.json) m has $(of lower) to $(of upper) H"
  done
  run 0 sweep rod.toml --seek coil.inductance=240uH --by materials.ferrite.permeability --files none
  says out "Read from one reduced model"
  # What is printed lies within its own interval, as a plain number.
  sed -n 's/^  materials.ferrite.permeability: \(.*\), between \(.*\) and \(.*\)/\1 \2 \3/p' out |
    awk '{ exit !(NF == 3 && $1 ~ /^[0-9.]+$/ && $2 <= $1 && $1 <= $3); n = 1 } END { if (!NR) exit 1 }' ||
    fail "the value found is not told within its interval"
  [ ! -e rod.results ] || fail "files against the word"
  run 0 sweep rod.toml --seek inductance=1mH --by windings.coil.turns --files none
  says out "Nearest whole numbers"
  run 3 sweep rod.toml --seek inductance=1H --by materials.ferrite.permeability --files none
  says out "1.000 H is not"
  run 3 sweep rod.toml --seek inductance=1H --by parts.core.length --files none --json --accuracy 1e-2
  says out '"status": "not met"'
  run 2 sweep rod.toml --seek inductance=1H
  says err "ferrule: error: a search needs both --seek and one --by;"
  run 2 sweep rod.toml --seek inductance=1H --by windings.coil.turns --share 1/2
  says err "ferrule: error: --seek and --wish take no --vary,"
  run 2 sweep rod.toml --seek inductance=5 --by windings.coil.turns
  says err '--seek inductance: error: needs a unit, got 5; write e.g. "5 uH"'
  run 2 sweep rod.toml --seek lift=5 --by windings.coil.turns
  says err "write [WINDING.]QUANTITY=VALUE with inductance,"
}
# Two wishes: designs that keep their limits, none beaten by another in both.
wish()
{
  small_case rod.toml
  run 0 sweep rod.toml --wish inductance=up --wish volume=down --by parts.core.length=20mm:60mm \
    --keep "volume<2cm3" --keep "inductance>100uH" --accuracy 1e-2 --out res
  silent err
  says out "no proof that none is better"
  awk 'length > 80 { exit 1 }' out || fail "wider than the page"
  [ "$(ls res | tr '\n' ' ')" = "wish.csv wish.json wish.png wish.svg " ] || fail "files: $(ls res)"
  awk -F, 'NR > 1 { n++
    if ($1 < 0.02 || $1 > 0.06 || $5 > 2e-6 || $3 < 1e-4 || $2 <= L || $5 <= V) exit 1
    L = $2; V = $5 } END { exit n < 5 }' res/wish.csv || { cat res/wish.csv; fail "designs"; }
  # The longest rod the volume leaves room for: 2 cm3 of 8 mm diameter are 39.79 mm.
  tail -1 res/wish.csv | awk -F, '{ exit !($1 > 0.0390 && $1 < 0.0398) }' || fail "the volume is left unused"
  run 3 sweep rod.toml --wish inductance=up --wish volume=down --by parts.core.length=20mm:60mm \
    --keep "inductance>1H" --accuracy 1e-2 --files none
  says out "keeps every limit"
  run 2 sweep rod.toml --wish inductance=up --by parts.core.length
  says err "ferrule: error: wishes come in twos,"
  run 2 sweep rod.toml --wish inductance=up --wish mass=down --by parts.core.length
  says err "ferrule: error: --wish mass=down needs the density of ferrite;"
  run 2 sweep rod.toml --wish inductance=up --wish dc_resistance=down --by parts.core.length
  says err "ferrule: error: --wish dc_resistance=down needs a winding drawn turn by turn;"
  run 2 sweep rod.toml --wish inductance=up --wish volume=side --by parts.core.length
  says err 'ferrule: error: --wish is "volume=side";'
  run 2 sweep rod.toml --wish inductance=up --wish volume=down --by parts.core.length --keep "volume<3mm"
  says err '--keep volume<3mm: error: must be a volume, got "3mm" (a length);'
  run 2 sweep rod.toml --wish inductance=up --wish volume=down --by parts.core.length --keep volume=3
  says err 'ferrule: error: --keep is "volume=3";'
}
# Three shares in any order make the files of one run; what is missing is named.
shares()
{
  small_case rod.toml
  local vary="--vary windings.coil.turns=20:100:5 --accuracy 1e-2"
  run 0 sweep rod.toml $vary --out res
  mv res whole
  run 0 sweep rod.toml $vary --out res --share 2/3
  says out "Share 2/3: 2 of 5 solutions are in res/share-2-of-3.journal."
  run 0 sweep rod.toml $vary --out res --share 3/3 --quiet
  silent out
  run 2 sweep rod.toml $vary --out res --join
  says err "ferrule: error: 2 of 5 solutions are missing in res: share 1/3; run what is missing"
  run 0 sweep rod.toml $vary --out res --share 1/3
  run 0 sweep rod.toml $vary --out res --join
  for file in sweep.csv sweep.json sweep.svg sweep.png; do same res/$file whole/$file; done
  run 2 sweep rod.toml --set windings.coil.length=30mm $vary --out res --join
  says err "only of another case or command"
}
# A full disk: told, and the same command goes on where it stopped once there is room.
full_disk()
{
  small_case rod.toml
  local vary="--vary windings.coil.turns=20:100:9 --accuracy 1e-2 --threads 1"
  run 0 sweep rod.toml $vary --out res
  mv res whole
  (trap '' XFSZ; ulimit -f 2; exec "$ferrule" sweep rod.toml $vary --out res) >out.txt 2>err
  [ $? = 1 ] || fail "not exit 1"
  says err "ferrule: error: cannot write res/sweep.journal: "
  [ "$(ls res)" = sweep.journal ] || fail "half a folder: $(ls res)"
  run 0 sweep rod.toml $vary --out res
  for file in sweep.csv sweep.json sweep.svg sweep.png; do same res/$file whole/$file; done
}
# Fifty kills at random moments: files are whole or not there, the journal only grows, and the run
# that is left alone ends with the files of one that never was interrupted, bit for bit.
kills()
{
  small_case rod.toml
  local vary="--vary windings.coil.turns=20:100:16 --accuracy 1e-2 --out res --quiet"
  run 0 sweep rod.toml $vary --threads 1
  mv res whole
  RANDOM=6
  local kill stopped=0 completed=0 resumed=0
  for kill in $(seq 50); do
    rm -f before
    [ ! -e res/sweep.journal ] || cp res/sweep.journal before
    timeout -s KILL "0.$(printf %03d $((RANDOM % 600 + 20)))" \
      "$ferrule" sweep rod.toml $vary --threads 2 >/dev/null 2>&1
    if [ $? = 0 ]; then completed=$((completed + 1)); else stopped=$((stopped + 1)); fi
    for file in sweep.csv sweep.json sweep.svg sweep.png; do
      [ ! -e res/$file ] || same res/$file whole/$file
    done
    if [ -e before ]; then # all whole lines are still there
      head -n "$(wc -l <before)" res/sweep.journal | cmp -s - <(head -n "$(wc -l <before)" before) ||
        fail "the journal lost records"
      [ "$(wc -l <before)" -lt 2 ] || resumed=$((resumed + 1))
    fi
    [ ! -e res/sweep.csv ] || rm -rf res
  done
  [ $stopped -ge 10 ] || fail "only $stopped of 50 runs were stopped"
  [ $resumed -ge 5 ] || fail "only $resumed runs went on with records"
  rm -rf res
  timeout -s KILL 0.4 "$ferrule" sweep rod.toml $vary --threads 2 >/dev/null 2>&1
  run 0 sweep rod.toml $vary --threads 2
  for file in sweep.csv sweep.json sweep.svg sweep.png; do same res/$file whole/$file; done
  [ -z "$(find res -name '.*.part')" ] || fail "passing files are left: $(ls -A res)"
  echo "$stopped stopped, $completed completed, $resumed with records"
}
# The same command under an MPI launcher, on 2 and 4 ranks: the same files, one report.
ranks()
{
  small_case rod.toml
  local vary="--vary windings.coil.turns=20:100:9 --accuracy 1e-2 --threads 1 --out res" n
  run 0 sweep rod.toml $vary
  mv res whole
  cp out whole.txt
  for n in 2 4; do
    rm -rf res
    mpirun --oversubscribe --allow-run-as-root -n $n "$ferrule" sweep rod.toml $vary >told 2>err ||
      fail "exit $? on $n ranks"
    for file in sweep.csv sweep.json sweep.svg sweep.png; do same res/$file whole/$file; done
    same told whole.txt
  done
  mpirun --oversubscribe --allow-run-as-root -n 2 "$ferrule" sweep rod.toml --vary a=1 \
    >out.txt 2>err && fail "no fault"
  [ "$(grep -c 'error: "a" names no single value' err)" = 1 ] || fail "not one line for the fault"
}

"$rule"
echo "ok: $rule"
