#!/usr/bin/env bash
# messages.sh check|update SOURCE: cases/messages.md against the tables of messages that the tests
# hold character for character; "update" writes it.
set -euo pipefail
action=$1
cd "$2"
page=cases/messages.md

# "FILE:LINE:COLUMN: error: WHAT; CURE" as a line of a list; markup in messages is escaped.
list()
{
  sed -E 's/^[^ ]+ error: //; s/[<>*_|\\]/\\&/g' "$1" | LC_ALL=C sort -u |
    awk '{ at = index($0, "; "); what = at ? substr($0, 1, at - 1) : $0
           cure = at ? substr($0, at + 2) : ""
           printf "- %s%s\n", what, cure == "" ? "" : "\n  **" cure "**" }'
}
made()
{
  printf '# What ferrule says of a file at fault, and the cure\n\n'
  printf 'Each message is one line: file, line and column, what is wrong, and after the semicolon the cure (bold here).\n'
  printf 'All faults of a file come at once; the exit status is 2 and nothing is written. Names and numbers are those of\n'
  printf 'the tests'"'"' bad files, from which this page is made; a test keeps it so.\n'
  printf '\n## Case files\n\n'
  list tests/cases/bad_files/expected.txt
  printf '\n## Reading files\n\n'
  list tests/cases/bad_readings/expected.txt
}

if [ "$action" = update ]; then
  made >"$page"
  exit
fi
made | diff "$page" - || { echo "FAILED: run tests/command_line/messages.sh update ."; exit 1; }
[ "$(grep -c '^- ' "$page")" -ge 100 ] || { echo "FAILED: hardly any message"; exit 1; }
echo "ok: $(grep -c '^- ' "$page") messages"
