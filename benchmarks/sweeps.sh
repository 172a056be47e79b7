#!/usr/bin/env bash
# Times sweeps: points a second on 1 and 2 threads, and 1000 permeabilities of one geometry, whole
# process. Reports the accuracy each reaches; run it on a quiet machine.
#
#   bash benchmarks/sweeps.sh [FERRULE] [RUNS]        (default build/release/cases/ferrule, 5)
set -euo pipefail
cd "$(dirname "$0")/.."
ferrule=${1:-build/release/cases/ferrule} runs=${2:-5}

# median ARGUMENTS...: median wall-clock and processor milliseconds of a run without files
median()
{
  local i
  for i in $(seq "$runs"); do
    { TIMEFORMAT='%R %U %S'; time "$ferrule" sweep "$@" --files none --quiet; } 2>&1
  done | awk '{ print 1000 * $1, 1000 * ($2 + $3) }' | sort -n | awk '{ w[NR] = $1; c[NR] = $2 }
    END { m = int((NR + 1) / 2); print w[m], c[m] }'
}
met() # the widest bracket of all points
{
  "$ferrule" sweep "$@" --files none --json |
    grep -oE '"accuracy_met":[^,]+' | cut -d: -f2 | sort -g | tail -n 1
}

uptime
rod=cases/sintered-rod.toml
points="$rod --vary parts.rod.length=56mm:100mm:40 --accuracy 1e-3"
for threads in 1 2; do
  read -r wall cpu < <(median $points --threads $threads)
  awk -v w="$wall" -v c="$cpu" -v t=$threads 'BEGIN {
    printf "40 rod lengths, %d thread(s): %.0f ms, %.0f ms cpu, %.1f points a second\n", t, w, c, 4e4 / w }'
done
echo "  accuracy met $(met $points)"
for what in "$rod --vary materials.ferrite.permeability=1:1e5:1000:log" \
  "cases/powder-tube.toml --vary materials.powder.powder.packing=0.3:0.74:1000"; do
  read -r wall cpu < <(median $what --accuracy 1e-4)
  echo "1000 values, $what: $wall ms, $cpu ms cpu, accuracy met $(met $what --accuracy 1e-4)"
done

# The loss of a material at one frequency: complex permeabilities, a disc for every impedance.
lossy=$(mktemp --suffix .toml)
trap 'rm -f "$lossy"' EXIT
cat >"$lossy" <<'X'
[materials.core]
permeability = { real = 700, imaginary = 35 }
[[parts]]
name = "core"
shape = "rod"
material = "core"
diameter = "10 mm"
length = "100 mm"
[[windings]]
name = "coil"
turns = 100
inner_diameter = "12 mm"
outer_diameter = "14 mm"
length = "100 mm"
[drive]
frequency = "100 kHz"
X
what="$lossy --vary materials.core.permeability.real=10:2000:40:log"
what+=" --vary materials.core.permeability.imaginary=1:700:25:log"
for accuracy in 1e-3 1e-4; do
  read -r wall cpu < <(median $what --accuracy $accuracy)
  echo "1000 complex permeabilities at 100 kHz, discs to $accuracy: $wall ms, $cpu ms cpu"
done

# Several materials at once: the same rod, a sleeve inside its coil, a tube outside.
several=$(mktemp --suffix .toml)
trap 'rm -f "$lossy" "$several"' EXIT
sed '/^\[drive\]/,$d' "$lossy" >"$several"
cat >>"$several" <<'X'
[materials.sleeve]
permeability = 10
[materials.shell]
permeability = 50
[[parts]]
name = "sleeve"
shape = "tube"
material = "sleeve"
inner_diameter = "10 mm"
outer_diameter = "11.8 mm"
length = "100 mm"
[[parts]]
name = "shell"
shape = "tube"
material = "shell"
inner_diameter = "14.2 mm"
outer_diameter = "18 mm"
length = "100 mm"
X
sed -i 's/^permeability = {.*/permeability = 700/' "$several"
core="--vary materials.core.permeability" sleeve="--vary materials.sleeve.permeability"
shell="--vary materials.shell.permeability"
for what in "$core=10:2000:40:log $sleeve=1:100:25:log" \
  "$core=10:2000:10:log $sleeve=1:100:10:log $shell=1:200:10:log"; do
  read -r wall cpu < <(median "$several" $what --accuracy 1e-4)
  echo "1000 points, $what: $wall ms, $cpu ms cpu, accuracy met $(met "$several" $what --accuracy 1e-4)"
done
