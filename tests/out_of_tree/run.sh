#!/usr/bin/env bash
# Installs a build into a folder of its own, builds the program here against it, checks its answer.
#
#   run.sh BUILD_DIR
#
# The answer: coil on a rod D10 x 50 mm, mu 10; current sheet of radius 5.5 mm and length 25 mm, 100
# turns: 213.811 uH, six digits, from an independent surface-charge integral equation (computed for
# this project; not published).
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
away=$(mktemp -d)
trap 'rm -rf "$away"' EXIT

cmake --install "$1" --prefix "$away/prefix" > "$away/log" || { cat "$away/log"; exit 1; }
cmake -S "$here" -B "$away/build" -DCMAKE_PREFIX_PATH="$away/prefix" -DCMAKE_BUILD_TYPE=Release > "$away/log"
cmake --build "$away/build" > "$away/log" 2>&1 || { cat "$away/log"; exit 1; }
said=$("$away/build/rod_coil")
echo "$said"
lines=$(wc -l < "$here/rod_coil.cpp")
echo "$said" | awk -v lines="$lines" '
  { value = $1; lower = $4; upper = $6; read = NF == 7 }
  END {
    width = (upper - lower) / value
    sound = read && lower < value && value < upper && width <= 2.001e-3 # asked: 1e-3 half-width
    right = lower <= 213.8115e-6 && upper >= 213.8105e-6                # last digit of the six
    short = lines < 25
    if (!sound) print "the bracket is not sound"
    if (!right) print "the bracket does not hold 213.811 uH"
    if (!short) print "the program is " lines " lines long, not under 25"
    exit !(sound && right && short)
  }'

# The installed program runs and finds its drawing module from where it was put.
"$away/prefix/bin/ferrule" --version
test -n "$(find "$away/prefix" -path '*/ferrule/ferrule-drawing.so')"
