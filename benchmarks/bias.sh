#!/usr/bin/env bash
# Times an inductance over 50 currents of the gapped pot core to 1e-3: whole process, Newton steps and
# milliseconds a point, and the accuracy reached. Run it on a quiet machine.
#
#   bash benchmarks/bias.sh [FERRULE] [RUNS]        (default build/release/cases/ferrule, 5)
set -euo pipefail
cd "$(dirname "$0")/.."
ferrule=${1:-build/release/cases/ferrule} runs=${2:-5}
command=("$ferrule" solve cases/pot-core-air-gap.toml --accuracy 1e-3 --files none --json
  --set 'drive.bias={ from = "0.2 A", to = "10 A", count = 50 }')

uptime
for threads in 1 2; do
  for i in $(seq "$runs"); do
    { TIMEFORMAT='%R %U'; time "${command[@]}" --threads $threads > /dev/null; } 2>&1
  done | sort -n | awk -v t=$threads '{ w[NR] = $1; c[NR] = $2 } END { m = int((NR + 1) / 2)
    printf "50 currents, %d thread(s): %.2f s, %.2f s cpu, %.0f ms a point\n", t, w[m], c[m], 20 * w[m] }'
done
"${command[@]}" | grep -oE '"(accuracy_met|iterations)": [^,]+' | tr -d '"' | awk '
  $1 == "accuracy_met:" && $2 > worst { worst = $2 }
  $1 == "iterations:" { sum += $2; n++ }
  END { printf "  Newton steps of both sides: %.1f a point; widest bracket met %.1e\n", sum / n, worst }'
