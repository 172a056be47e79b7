#!/usr/bin/env bash
# tidy-batch.sh BATCH.cxx: clang-tidy over a file that includes several sources; one by one where
# names of their unnamed namespaces clash.
set -u
tidy=(clang-tidy-16 --quiet --warnings-as-errors='*' --checks=-bugprone-suspicious-include
  --extra-arg=-Wno-shadow
  --header-filter='/(mesh|solver|post|cases)/([a-z]+/)?[^/]+\.(hpp|cpp)$')
found=$("${tidy[@]}" -p build/tidy-batches "$1" 2> /dev/null) && exit 0
if grep -q 'clang-diagnostic-error' <<< "$found"; then
  sed -n 's/^#include "\(.*\)"$/\1/p' "$1" | xargs "${tidy[@]}" -p build/tidy 2> /dev/null
else
  echo "$found"
  exit 1
fi
