#!/usr/bin/env bash
# writing.sh RULE FERRULE SOURCE: every command that writes, where it may not, where there is no
# space, and where nobody reads: one clear line, exit 1, nothing half written.
set -u
rule=$1 ferrule=$2 source=$3
work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: ferrule $now: $*"; head -c 2000 out err 2>/dev/null; exit 1; }

# Each as it is typed, OUT standing for the results folder.
commands=(
  "solve bias.toml --accuracy 1e-1 --out OUT"
  "solve curve.toml --accuracy 1e-1 --revolve --out OUT"
  "solve warm-choke.toml --accuracy 1e-1 --out OUT"
  "compare rod.toml curve.toml --accuracy 1e-1 --out OUT"
  "report rod.toml --accuracy 1e-1 --out OUT"
  "report powder-tube.toml --reading tubes.toml --accuracy 1e-1 --out OUT"
  "fit powder-tube.toml --reading tubes.toml --accuracy 1e-1 --out OUT"
  "mix --particle 700 --imaginary 30 --packing 0.6 --out OUT"
  "sweep rod.toml --accuracy 1e-1 --vary materials.ferrite.permeability=60:80:3 --out OUT"
  "sweep rod.toml --accuracy 1e-1 --vary parts.core.length=60mm,80mm --fields --out OUT"
  "sweep rod.toml --accuracy 1e-1 --vary parts.core.length=60mm,80mm --share 1/2 --out OUT"
  "sweep --model model.json --vary materials.ferrite.permeability=60:80:3 --out OUT"
  "sweep rod.toml --accuracy 1e-1 --seek inductance=600uH --by windings.coil.turns --out OUT"
  "sweep rod.toml --accuracy 1e-1 --wish inductance=up --wish volume=down --by parts.core.length --out OUT"
)

cases()
{
  "$ferrule" new rod >rod.toml
  sed 's/^\[drive\]/&\nfrequency = ["10 kHz", "20 kHz"]/' rod.toml >curve.toml
  sed 's/^permeability = .*/magnetisation = { law = "tanh", saturation = "0.4 T", permeability = 200 }/
    s/^\[drive\]/&\nbias = ["1 A", "2 A"]/' rod.toml >bias.toml
  cp "$source"/cases/{powder-tube,warm-choke}.toml "$source"/cases/*.csv \
    "$source"/cases/readings/tubes.{toml,csv} .
  "$ferrule" sweep rod.toml --accuracy 1e-1 --vary materials.ferrite.permeability=60:900:9 --quiet --out kept
  mv kept/model.json . && rm -r kept
}

# told STATUS WORDS: the status, and one line with our name, the place and the machine's reason.
told()
{
  [ "$1" = 1 ] || fail "exit $1, not 1"
  [ "$(wc -l <err)" = 1 ] || fail "not one line on standard error"
  grep -qE "^ferrule: error: (cannot |nothing can be |standard output could not be )" err || fail "not our words"
  grep -qF -- "$2" err || fail "does not say: $2"
}
none_half() { [ -z "$(find . -name '*.part')" ] || fail "half a file is left: $(find . -name '*.part')"; }

# Where nobody may write, asked before the work begins; root would be let in, so it lays that down.
no_permission()
{
  local meek=()
  [ "$(id -u)" != 0 ] || meek=(setpriv "--bounding-set=-dac_override,-dac_read_search" --inh-caps=-all)
  mkdir closed
  chmod 555 closed
  touch taken
  for now in "${commands[@]}"; do
    "${meek[@]}" "$ferrule" ${now/OUT/closed\/res} >out 2>err
    told $? Permission
    grep -qF "closed" err || fail "no place"
    "${meek[@]}" "$ferrule" ${now/OUT/closed} >out 2>err
    told $? "Permission denied"
    "$ferrule" ${now/OUT/taken} >out 2>err
    told $? "Not a directory"
    "$ferrule" ${now/OUT/taken\/deep} >out 2>err
    told $? "Not a directory"
    [ -z "$(ls -A closed)" ] && [ ! -s taken ] && [ ! -s out ] || fail "something was written or told"
  done
  now="new and formulas"
  "$ferrule" formulas --check --out taken >out 2>err
  told $? "Not a directory"
}

# No file may grow beyond 1 kB, then, where there are several, beyond 40 kB: a later one does not fit.
no_space()
{
  local limit
  for now in "${commands[@]}"; do
    for limit in 1 40; do
      [[ $limit = 1 || $now =~ revolve|compare|fields ]] && [[ ! $now =~ share ]] || continue
      (ulimit -f $limit; exec "$ferrule" ${now/OUT/res} >/dev/null 2>err)
      told $? "cannot write res/"
      grep -q "File too large" err || fail "no reason"
      none_half
      rm -rf res
    done
  done
}

# Standard output on a full disk, closed, and into a pipe nobody reads; the files are whole.
no_reader()
{
  for now in "${commands[@]}" new "new rod" --help --version "solve --help" "formulas rod.toml" \
    "mix --particle 700 --packing 0.6 --json"; do
    [[ ! $now =~ bias|warm|wish|fields ]] || continue # these print as the others do
    "$ferrule" ${now/OUT/res} >/dev/full 2>err
    told $? "standard output could not be written: No space left on device"
    none_half
    rm -rf res
  done
  for now in "solve rod.toml --accuracy 1e-1 --out res" new --help; do
    { sleep 0.1; "$ferrule" $now 2>err; echo $? >status; } | true
    told "$(cat status)" "standard output could not be written: Broken pipe"
    none_half
  done
}

now=cases
cases
"$rule"
echo "ok: $rule"
