#!/usr/bin/env bash
# bad_commands.sh check|update FERRULE SOURCE: each line of bad_commands.txt, typed, is refused with exit
# status 2 and the lines that bad_commands.expected has below it; nothing is printed or written.
set -euo pipefail
action=$1 ferrule=$2 source=$3 here=$3/tests/command_line
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

"$ferrule" new rod > rod.toml
cp "$source/cases/powder-tube.toml" .
before=$(ls)
refused()
{
  local typed words status
  while read -r typed; do
    read -ra words <<< "$typed"
    status=0
    "$ferrule" "${words[@]:1}" > "$work.out" 2> "$work.err" || status=$?
    printf '$ %s\n' "$typed"
    [ "$status" = 2 ] && [ ! -s "$work.out" ] && [ "$(ls)" = "$before" ] || echo "NOT REFUSED: exit $status"
    cat "$work.err"
  done < "$here/bad_commands.txt"
  rm -f "$work.out" "$work.err"
}
if [ "$action" = update ]; then
  refused > "$here/bad_commands.expected"
  exit
fi
refused | diff "$here/bad_commands.expected" - || { echo "FAILED: other refusals (>); see update"; exit 1; }
! grep -q "NOT REFUSED" "$here/bad_commands.expected" || { echo "FAILED: taken"; exit 1; }
echo "ok: $(wc -l < "$here/bad_commands.txt") commands refused"
