#!/usr/bin/env bash
# The main job from nothing but this clone on Debian 12: installs what is missing, builds, compares
# the example cases, and says where the pictures are.
set -euo pipefail
cd "$(dirname "$0")/.."
. .ci/packages.sh
need "${build_packages[@]}"

echo "building ferrule (some minutes the first time)"
mkdir -p build
{ cmake --preset release -DFERRULE_TESTS=OFF && cmake --build --preset release --target ferrule ferrule_drawing; } \
  > build/demo.log 2>&1 || { tail -n 40 build/demo.log; exit 1; }
ferrule=build/release/cases/ferrule

for pair in "sintered-rod powder-tube" "bare-turns coated-turns"; do
  read -r yardstick other <<< "$pair"
  printf '\n$ ferrule compare cases/%s.toml cases/%s.toml\n' "$yardstick" "$other"
  "$ferrule" compare "cases/$yardstick.toml" "cases/$other.toml"
done

printf '\nPictures and field files:\n'
find cases -path '*.results/*' -type f | sort
