#!/usr/bin/env bash
# run.sh SECONDS [SUBJECT…]: every reader fuzzed for so long in turn, one process at low priority.
#
# Needs Clang 16 with its runtime (Debian: clang-16 libclang-rt-16-dev) and a release build. Inputs
# start from the repository's own cases, bad files and corpus/; what is found lies in build/fuzz:
# SUBJECT/ the inputs that reach new code, findings/ those that break a reader. Exits 1 with a
# finding. `run.sh keep` takes the smallest inputs of the widest reach into corpus/.
set -euo pipefail
cd "$(dirname "$0")/../.."
here=tests/fuzz build=build/fuzz
subjects=(case units table reading meter typed journal record model)

built()
{
  cmake -S "$here" -B "$build" -DCMAKE_CXX_COMPILER=clang++-16 -DFERRULE_BUILD="$PWD/build/release" > /dev/null
  cmake --build "$build" > "$build/build.log" || { tail -n 30 "$build/build.log"; exit 1; }
}

# Keys, words and units as the fuzzer's dictionary.
dictionary()
{
  { grep -ohE '"[a-z][a-z_-]+"' cases/read_*.cpp cases/reading_keys.hpp cases/read_impedance.cpp post/sweep_json.cpp
    grep -oE '"[^" ]{1,8}"' cases/unit_tables.hpp
    printf '"%s"\n' '[[parts]]' '[[windings]]' '[drive]' '1e999' '-0' 'nan' '\xc2\xb5' '24 AWG' ' mm'
  } | grep -v '\\u' | sort -u > "$build/words.dict"
}

seeds() # seeds SUBJECT: lays its first inputs into build/fuzz/seeds/SUBJECT
{
  local into=$build/seeds/$1 number=0 line file
  mkdir -p "$into"
  case $1 in
    case) cp cases/*.toml tests/cases/bad_files/*.toml "$into"
      for file in cases/starters/*.toml; do cp "$file" "$into/starter-$(basename "$file")"; done ;;
    reading) cp cases/readings/*.toml tests/cases/bad_readings/*.toml tests/cases/readings/*.toml "$into" ;;
    meter) cp cases/readings/*.csv tests/cases/bad_readings/*.csv tests/cases/readings/*.csv "$into" ;;
    table) for file in cases/*.csv tests/cases/*/*.csv; do cp "$file" "$into/$(md5sum < "$file" | cut -c1-8)"; done ;;
    units) grep -ohE '"-?[0-9.]+ ?[^"]*"' cases/*.toml tests/cases/units_test.cpp | tr -d '"' | sort -u |
      while read -r line; do printf '%s' "$line" > "$into/$((number += 1))"; done ;;
    typed) printf 'parts.core.length=20mm:200mm:10\nmaterials.dust.powder.packing=0.3:0.5:3:log\n' > "$into/1"
      printf 'windings.coil.turns=5,6,7\nparts.core.coating={ material = "copper", thickness = "1 mm" }\n' > "$into/2" ;;
    journal) printf 'af63bd4c8601b7be 0 a\n' > "$into/1"; printf '\n' > "$into/2" ;;
    record | model) mkdir -p "$build/made"
      build/release/cases/ferrule sweep cases/coating-gain.toml --vary windings.feed.turns=40,50 --full \
        --out "$build/made/full" --quiet > /dev/null 2>&1 || true
      build/release/cases/ferrule new powder-tube > "$build/made/tube.toml"
      build/release/cases/ferrule sweep "$build/made/tube.toml" --vary materials.powder.powder.packing=0.3:0.6:5 \
        --out "$build/made/model" --quiet > /dev/null 2>&1 || true
      if [ "$1" = model ]; then
        cp "$build"/made/model/model.json "$into/model" 2> /dev/null || true
      else
        sed -n '2,$s/^[0-9a-f]* [0-9]* //p' "$build"/made/*/sweep.journal | awk -v into="$into" '{ print > (into "/" NR) }'
      fi
      printf '{"status":"ok","method":"full solution","accuracy_met":1e-4,"geometry":null,"windings":[]}' > "$into/small"
      printf '{"format":"ferrule reduced model 1","title":"t","accuracy":{"asked":1,"met":1,"geometry":0},"snapshots":1,"unknowns":1,"materials":[{"name":"a","from":1,"to":2}],"windings":[{"name":"c","turns":1,"air_inductance_H":{"value":1,"lower":1,"upper":1},"load_H":[1],"flux_H":[[[1]],[[1]]],"field_H":[[[1]],[[1]]]}]}' > "$into/tiny" ;;
  esac
}

fuzz() # fuzz SUBJECT SECONDS
{
  mkdir -p "$build/$1" "$build/findings" "$here/corpus/$1"
  seeds "$1"
  FERRULE_SUBJECT=$1 LSAN_OPTIONS=suppressions=$PWD/$here/leaks.supp nice -n 19 "$build/ferrule_fuzz" -max_total_time="$2" \
    -max_len=4096 -dict="$build/words.dict" -artifact_prefix="$build/findings/$1-" -print_final_stats=1 -timeout=20 \
    -rss_limit_mb=2048 "$build/$1" "$build/seeds/$1" "$here/corpus/$1" > "$build/$1.log" 2>&1 || {
    tail -n 25 "$build/$1.log"
    return 1
  }
  printf '%-8s %s\n' "$1" "$(grep -E 'cov: ' "$build/$1.log" | tail -n 1) $(grep -oE 'executed_units: *[0-9]+' "$build/$1.log")"
}

# The smallest inputs of the widest reach, at most 20 kB a subject.
keep()
{
  local subject total file size
  for subject in "${subjects[@]}"; do
    rm -rf "$build/least"
    mkdir -p "$build/least" "$here/corpus/$subject"
    FERRULE_SUBJECT=$subject "$build/ferrule_fuzz" -merge=1 -max_len=1500 "$build/least" "$here/corpus/$subject" \
      "$build/seeds/$subject" "$build/$subject" > /dev/null 2>&1
    find "$here/corpus/$subject" -type f ! -name 'mended-*' -delete
    total=0
    while read -r size file; do
      total=$((total + size))
      [ "$total" -le 20000 ] || break
      cp "$file" "$here/corpus/$subject/$(basename "$file" | cut -c1-12)"
    done < <(find "$build/least" -type f -printf '%s %p\n' | sort -k1,1n -k2 | awk 'NR % step == 1 || step == 1' \
      step="$(($(find "$build/least" -type f | wc -l) / 40 + 1))")
    echo "$subject: $(find "$here/corpus/$subject" -type f | wc -l) inputs"
  done
}

mkdir -p "$build"
if [ "${1:-}" = keep ]; then
  keep
  exit
fi
seconds=${1:?say how many seconds in all}
shift
[ $# -gt 0 ] && subjects=("$@")
built
dictionary
status=0
for subject in "${subjects[@]}"; do
  fuzz "$subject" $((seconds / ${#subjects[@]})) || status=1
done
exit "$status"
