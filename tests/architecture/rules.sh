#!/usr/bin/env bash
# The rules of the house that a compiler does not hold, each a test:
#
#   rules.sh RULE SOURCE_DIR PROGRAM COMPILER EIGEN_INCLUDE_DIR
#
# Prints each breach as `file: what` and exits 1 when there is one, or when nothing was looked at.
set -euo pipefail
rule=$1 source=$2 program=$3 compiler=$4 eigen=$5
cd "$source"
folders=(mesh solver post cases)
breaches=$(mktemp)
trap 'rm -f "$breaches"' EXIT
looked=0

breach() { echo "$1: $2" >> "$breaches"; }

files() { find "${folders[@]}" -name "$1" | sort; }

# mesh -> solver -> post -> cases: a lower folder never includes a higher one.
includes()
{
  local rank=0 folder file higher
  for folder in "${folders[@]}"; do
    rank=$((rank + 1))
    higher=$(IFS='|'; echo "${folders[*]:$rank}")
    for file in $(find "$folder" -name '*.[ch]pp'); do
      looked=$((looked + 1))
      [ -z "$higher" ] || while read -r line; do
        breach "$file" "$folder must not include $line"
      done < <(grep -oE "^ *# *include +[\"<](ferrule/|\.\./)?($higher)/[^\">]+" "$file" || true)
      while read -r line; do
        breach "$file" "names our headers from the root of the project, not $line"
      done < <(grep -E '^ *# *include +"\.\.?/' "$file" || true)
    done
  done
}

# Third-party headers stay in .cpp files; ours may show the standard library and Eigen.
borders()
{
  local file line
  for file in $(files '*.hpp'); do
    looked=$((looked + 1))
    while read -r line; do
      breach "$file" "a header of ours must not include $line"
    done < <(grep -oE '^ *# *include +(<[^>]*[/.][^>]*>|"[^"]*")' "$file" |
               grep -vE '<Eigen/(Core|SparseCore|Dense)>|"(mesh|solver|post|cases)/[^"]+"' || true)
    while read -r line; do
      breach "$file" "a header of ours must not speak of $line"
    done < <(grep -oE '\b(gmsh|toml|CLI|nlohmann|fmt)::|\bvtk[A-Z]\w+|\bcairo_\w+|\but_(system|unit)\b' \
               "$file" || true)
  done
}

# A header past 120 lines or a source past 400 holds a second idea.
sizes()
{
  local file count limit
  for file in $(files '*.[ch]pp'); do
    looked=$((looked + 1))
    count=$(wc -l < "$file")
    limit=400
    [[ $file == *.hpp ]] && limit=120
    [ "$count" -le "$limit" ] || breach "$file" "$count lines, more than $limit"
  done
}

# Every header compiles alone: it is the first include of the source of its name, which the build
# has compiled; the few that have no such source are compiled here.
headers()
{
  local file source alone=()
  for file in $(files '*.hpp'); do
    looked=$((looked + 1))
    source=${file%.hpp}.cpp
    [ -f "$source" ] && grep -m1 -E '^ *# *include' "$source" | grep -qF "\"$file\"" ||
      alone+=("$file")
  done
  [ ${#alone[@]} -eq 0 ] || printf '%s\0' "${alone[@]}" |
    xargs -0 -n 8 -P "$(nproc)" "$compiler" -std=c++20 -fsyntax-only -w -I. -isystem "$eigen" -x c++ \
      2>> "$breaches" || true
}

# Neither VTK nor Cairo loads when the program starts.
startup()
{
  local line
  looked=$(ldd "$program" | wc -l)
  while read -r line; do
    breach "$program" "loads $line at its start"
  done < <(readelf -d "$program" | grep -oE '\[lib(vtk|cairo)[^]]*\]' || true)
}

# The version stands in CMakeLists.txt, CITATION.cff and the changelog, and is the same.
versions()
{
  local version file
  version=$(grep -oE 'project\(ferrule VERSION [0-9.]+' CMakeLists.txt | grep -oE '[0-9.]+$')
  for file in CITATION.cff CHANGELOG.md; do
    looked=$((looked + 1))
    grep -qE "(^version: |^## )$version( |\$)" "$file" || breach "$file" "does not say version $version"
  done
}

"$rule"
if [ "$looked" -eq 0 ]; then
  echo "$rule: found nothing to look at"
  exit 1
fi
if [ -s "$breaches" ]; then
  cat "$breaches"
  exit 1
fi
echo "$rule: $looked looked at, no breach"
