#!/usr/bin/env bash
# valgrind.sh FERRULE [COMMAND …]: the demo's commands, and one of each other kind, under valgrind's memcheck;
# no invalid access, no use of what was never set, no block lost for good. Minutes; never part of the tests.
#
# FERRULE is a release build's program. What is kept till the end and still within reach is no loss;
# valgrind.supp holds what libraries of others do, each with its reason.
set -euo pipefail
source=$(realpath "$(dirname "$0")/..") ferrule=$(realpath "${1:?say which program}")
shift
command -v valgrind > /dev/null || { echo "no valgrind here"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp "$source"/cases/*.{toml,csv} "$source"/cases/readings/tubes.{toml,csv} "$work"
cd "$work"

commands=(
  "compare sintered-rod.toml powder-tube.toml" # the demo's two
  "compare bare-turns.toml coated-turns.toml"
  "solve powder-tube.toml --revolve"
  "solve canned-coil.toml --accuracy 3e-2"
  "solve pot-core-powder-gap.toml --accuracy 1e-1"
  "solve enamelled-coil.toml --accuracy 1e-1"
  "solve warm-choke.toml --accuracy 1e-1"
  "report powder-tube.toml --accuracy 1e-2"
  "sweep sintered-rod.toml --vary materials.ferrite.permeability=60:900:9 --accuracy 1e-2"
  "fit powder-tube.toml --reading tubes.toml --accuracy 1e-1"
  "mix --particle 700 --imaginary 30 --packing 0.6 --out mixed"
  "formulas powder-tube.toml"
)
[ $# -eq 0 ] || commands=("$@")
status=0
for now in "${commands[@]}"; do
  start=$SECONDS
  # shellcheck disable=SC2086 # words of a command line
  if valgrind --quiet --error-exitcode=99 --leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite \
    --suppressions="$source/tests/valgrind.supp" --gen-suppressions=all "$ferrule" $now > out 2> err; then
    echo "ok, $((SECONDS - start)) s: ferrule $now"
  else
    echo "FAILED: ferrule $now"
    head -n 60 err
    status=1
  fi
done
exit "$status"
