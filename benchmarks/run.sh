#!/usr/bin/env bash
# Times ferrule on three problems at four accuracies, beside the peer where deal.II is installed.
#
#   bash benchmarks/run.sh [RUNS]        (default 5; medians are printed)
#
# The peer's package (libdeal.ii-dev, libopenmpi-dev: 2 GB installed) is not installed for you.
set -euo pipefail
cd "$(dirname "$0")/.."
. .ci/packages.sh
need "${build_packages[@]}"

cmake --preset release -DFERRULE_BENCHMARKS=ON > /dev/null
cmake --build --preset release --target ferrule pairs > /dev/null
peer=()
if cmake --build --preset release --target peer > /dev/null 2>&1; then
  peer=(build/release/benchmarks/peer/peer)
else
  echo "without the peer: it needs libdeal.ii-dev and libopenmpi-dev"
fi
uptime
build/release/benchmarks/pairs "${1:-5}" build/release/cases/ferrule "${peer[@]}"
