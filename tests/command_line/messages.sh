#!/usr/bin/env bash
# messages.sh check|update SOURCE: cases/messages.md against the tables of messages that the tests
# hold character for character; "update" writes it.
set -euo pipefail
action=$1
cd "$2"
page=cases/messages.md
faults=$(mktemp)
trap 'rm -f "$faults"' EXIT

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
  printf '# What ferrule says when something is wrong, and the cure\n\n'
  printf 'Each message is one line: file, line and column, what is wrong, and after the semicolon the cure (bold here).\n'
  printf 'All faults of a file come at once; the exit status is 2 and nothing is written. Names and numbers are those of\n'
  printf 'the tests'"'"' bad files and commands, from which this page is made; a test keeps it so.\n'
  printf '\n## Case files\n\n'
  list tests/cases/bad_files/expected.txt
  printf '\n## Reading files\n\n'
  list tests/cases/bad_readings/expected.txt
  printf '\n## The command line\n\n'
  grep -v '^\$ ' tests/command_line/bad_commands.expected >"$faults"
  list "$faults"
  printf '\n## The machine\n\nAt the exit status 1, or 3 where the case is sound:\n\n'
  while IFS='|' read -r words cure; do
    # Each is in the sources as it stands here, up to what differs from case to case.
    grep -rqF --include='*.cpp' -e "${words%%[A-Z…]*}" cases post solver mesh ||
      { echo "FAILED: nothing says: $words" >&2; exit 1; }
    printf -- '- %s\n  **%s**\n' "$words" "$cure"
  done <<'END'
standard output could not be written: REASON|free space, or keep the reader of the pipe open; the files are written all the same
cannot make the folder FOLDER: REASON|choose a folder you may write to with --out
nothing can be written to FOLDER: PLACE: REASON|choose a folder you may write to with --out; told before the work begins
cannot write FILE: REASON|free space or choose another folder with --out; no half file is left, and a sweep goes on where it stopped
another ferrule is at work on it|let that one end, or choose another folder with --out
the mesh would need about N GB of memory, and M GB are left for it|draw fewer turns, make plain sections of them, or ask for less accuracy; exit status 3
out of memory|ask for less accuracy
the drawing module cannot be loaded: REASON|install ferrule whole again; --files none works without it
the mesh generator failed: REASON|look for sizes that differ by many powers of ten, or outlines that touch in a point
no valid mesh found: a triangle stays folded|curved boundaries are too close to one another: leave a gap or let them touch
the solution is not finite: permeabilities or sizes too far apart|bring sizes and permeabilities nearer to one another
this ferrule was built without MPI|use --share and --join
END
}

if [ "$action" = update ]; then
  made >"$page"
  exit
fi
made | diff "$page" - || { echo "FAILED: run tests/command_line/messages.sh update ."; exit 1; }
[ "$(grep -c '^- ' "$page")" -ge 100 ] || { echo "FAILED: hardly any message"; exit 1; }
echo "ok: $(grep -c '^- ' "$page") messages"
