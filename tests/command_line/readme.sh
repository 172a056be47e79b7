#!/usr/bin/env bash
# The README and the guided page keep their word: what they show is what the files hold and the
# program prints. So does DEVELOPERS.md about sources.
#
#   readme.sh check|update FERRULE SOURCE_DIR [readme|guide|charts|tour]
#
# A comment above a fenced block says what the block shows:
#   <!-- file: PATH -->      that file, whole
#   <!-- prints: COMMAND --> `$ COMMAND`, an empty line, and what it prints, times masked
#   <!-- refuses: COMMAND --> the same of a command that ends with exit status 3
#   <!-- reads -->           a case that reads without a fault
# check compares; update writes the blocks anew (look at the difference before you commit it).
set -euo pipefail
mode=$1 ferrule=$2 source=$3
cd "$source"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

fail() { echo "FAILED: $*"; exit 1; }

# "0.23 s." differs from run to run; nothing else may.
masked() { sed -E 's/[0-9]+\.[0-9]{2} s\.$/0.00 s./'; }

# What the block under that comment has to hold.
wanted()
{
  local what=$1
  case $what in
    "file: "*) cat "${what#file: }" ;;
    "prints: ferrule "* | "refuses: ferrule "*)
      local words=() status=0 due=0
      [[ $what == refuses* ]] && due=3
      read -ra words <<< "${what#*: ferrule }"
      printf '$ %s\n\n' "${what#*: }"
      "$ferrule" "${words[@]}" --files none || status=$?
      [ "$status" = "$due" ] || fail "exit status $status instead of $due: ${what#*: }"
      ;;
    *) fail "the comment says neither file, prints nor refuses: $what" ;;
  esac
}

# The page with every such block made anew.
renewed()
{
  local page=$1 line what="" state=text
  while IFS= read -r line; do
    if [ "$state" = inside ]; then
      [ "$line" = '```' ] || continue
      state=text
    fi
    printf '%s\n' "$line"
    if [[ $line =~ ^'<!-- '((file|prints|refuses): .*)' -->'$ ]]; then
      what=${BASH_REMATCH[1]} state=announced
      echo "$what" >> "$work/blocks"
    elif [ "$state" = announced ] && [[ $line == '```'* ]]; then
      wanted "$what"
      state=inside
    fi
  done < "$page"
}

# The case that shows the keys reads, and every key the reader knows stands in the README.
reads()
{
  awk '/^<!-- reads -->$/ { found = 1 } found && /^```$/ { exit } inside { print } found && /^```toml$/ { inside = 1 }' \
    README.md > "$work/reference.toml"
  [ -s "$work/reference.toml" ] || fail "no case under <!-- reads -->"
  "$ferrule" formulas "$work/reference.toml" > "$work/said" 2>&1 || { cat "$work/said"; fail "the reference case has faults"; }
  local key keys
  keys=$(grep -hoE '(needed|needed_text|value|text|choice|table|has|misplaced|sections)\((top, )?"[a-z_]+"' cases/read_*.cpp |
    grep -oE '"[a-z_]+"' | tr -d '"' | sort -u)
  [ "$(wc -w <<< "$keys")" -ge 30 ] || fail "found hardly any key in cases/read_*.cpp"
  for key in $keys; do
    grep -qE "(^|[^a-z_])$key([^a-z_]|$)" README.md || fail "README.md does not tell of the key $key"
  done
}

# A page's pictures are there, and small.
pictures()
{
  local page=$1 least=$2 name names
  names=$(grep -oE '\]\((cases/)?pictures/[a-z-]+\.png' "$page" | sed -E 's/.*\((cases\/)?/cases\//' | sort -u)
  [ "$(wc -w <<< "$names")" -ge "$least" ] || fail "$page has fewer than $least pictures"
  for name in $names; do
    [ -s "$name" ] || fail "no $name"
    [ "$(stat -c %s "$name")" -le 400000 ] || fail "$name is larger than 400 kB"
  done
}

# Every [Author Year] of the sources is resolved in DEVELOPERS.md.
references()
{
  local key
  find mesh solver post cases tests benchmarks -name '*.[ch]pp' -print0 | xargs -0 perl -0777 -ne '
    while (/\[([A-Z][^\[\]{}"]{2,90}?\b(?:18|19|20)\d\d\b[^\[\]{}]{0,60})\]/g) {
      (my $all = $1) =~ s/\s*\n\s*(?:\/\/+)?\s*/ /g;
      print "$1\n" while $all =~ /([A-Z][A-Za-z&, -]*? (?:18|19|20)\d\d)\b/g;
    }' | sort -u > "$work/keys"
  [ "$(wc -l < "$work/keys")" -ge 30 ] || fail "found hardly any reference in the sources"
  while read -r key; do
    grep -qF -- "- [$key]" DEVELOPERS.md || fail "DEVELOPERS.md does not resolve [$key]"
  done < "$work/keys"
}

# A page against itself made anew; written where that is asked.
keeps_its_word()
{
  local page=$1
  : > "$work/blocks"
  renewed "$page" > "$work/page.md"
  [ "$(wc -l < "$work/blocks")" -ge 4 ] || fail "$page: fewer than four blocks to compare"
  if [ "$mode" = update ]; then
    cat "$work/page.md" > "$page"
  fi
  diff <(masked < "$page") <(masked < "$work/page.md") ||
    fail "$page (<) is not what is there (>); see: readme.sh update"
  echo "ok: $page, $(wc -l < "$work/blocks") blocks"
}

case ${4:-readme} in
  readme)
    keeps_its_word README.md
    reads
    pictures README.md 3
    references
    ;;
  guide)
    keeps_its_word cases/from-reading-to-decision.md
    pictures cases/from-reading-to-decision.md 1
    ;;
  charts)
    keeps_its_word cases/design-charts.md
    pictures cases/design-charts.md 4
    ;;
  tour) keeps_its_word cases/ten-minutes.md ;;
  *) fail "neither readme, guide, charts nor tour: $4" ;;
esac
