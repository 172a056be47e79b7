#!/usr/bin/env bash
# report.sh RULE FERRULE SOURCE: the page to send, as a file. browser.sh opens it in a browser.
set -u
rule=$1 ferrule=$2 source=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: $*"; cat out err 2>/dev/null; exit 1; }
run()
{
  local wanted=$1
  shift
  "$ferrule" "$@" >out 2>err
  local got=$?
  [ "$got" = "$wanted" ] || fail "exit $got instead of $wanted: ferrule $*"
}
says() { sed 's/\xc2\xa0/ /g' "$1" | grep -F -- "$2" >/dev/null || fail "$1 does not say: $2"; }
silent_on() { ! grep -qiE -- "$2" "$1" || fail "$1 holds: $2"; }

# One file, told where, beside the case or where asked; nothing else.
files()
{
  mkdir deep
  "$ferrule" new rod >deep/rod.toml
  run 0 report deep/rod.toml
  says out "Written: deep/rod.results/report.html"
  [ "$(ls deep/rod.results)" = report.html ] || fail "more than the page was written"
  run 0 report deep/rod.toml --out elsewhere --quiet
  [ ! -s out ] && [ ! -s err ] || fail "not quiet"
  # The same page again, but for the seconds it took.
  diff <(sed 's/[0-9.]* s\.<//' deep/rod.results/report.html) \
    <(sed 's/[0-9.]* s\.<//' elsewhere/report.html) >/dev/null || fail "not the same page twice"
  says elsewhere/report.html "ferrule report rod.toml"
  touch taken
  run 1 report deep/rod.toml --out taken
  [ "$(wc -l <err)" = 1 ] || fail "not one line on standard error"
  says err taken
  run 2 report
  says err "ferrule: error: report needs a case file"
  run 2 report deep/rod.toml deep/rod.toml --reading none.toml
  says err "a reading is of one case, got 2; write ferrule report CASE.toml --reading READING.toml"
  run 2 report deep/none.toml
  # An empty coil: without sliders the floor is met soonest.
  printf '[[windings]]\nname = "coil"\nturns = 20\ninner_diameter = "10 mm"\n' >coil.toml
  printf 'outer_diameter = "12 mm"\nlength = "10 mm"\n' >>coil.toml
  run 3 report coil.toml --accuracy 1e-15 --quiet --out floor
  says floor/report.html "ACCURACY NOT REACHED"
}

# What a page says of one case, several, a sweep, a reading, a frequency, and without a field.
kinds()
{
  run 0 report "$source/cases/powder-tube.toml" --out one
  for words in "guaranteed to lie between 508.03 and 508.95" "57 % of the energy sits in fill" \
    "Where the energy sits" "What if" "data:image/svg+xml;base64" "12 % above" "harms lungs" \
    'title = &quot;Tidal sensor B'; do
    says one/report.html "$words"
  done
  run 0 report "$source/cases/sintered-rod.toml" "$source/cases/powder-tube.toml" --out two
  says two/report.html "Against the yardstick (sintered-rod)"
  says two/report.html "The field of powder-tube"
  run 0 report "$source/cases/powder-tube.toml" --reading "$source/cases/readings/tubes.toml" \
    --out three
  says three/report.html "What the uncertainty comes from"
  says three/report.html "--reading tubes.toml"
  says three/report.html 'alt="Chart: '
  run 3 report "$source/cases/powder-tube.toml" --reading "$source/cases/readings/slip.toml" \
    --out four
  says four/report.html "IMPOSSIBLE READING"
  run 0 report "$source/cases/coated-lead.toml" --out five
  says five/report.html "Straight wires"
  silent_on five/report.html 'class="whatif"'
  { "$ferrule" new rod; printf '\n[[sweep.vary]]\nkey = "parts.core.length"\n'
    printf 'from = "60 mm"\nto = "80 mm"\ncount = 3\n'; } >swept.toml
  run 0 report swept.toml
  says swept.results/report.html "Sweep of 3 points"
  says swept.results/report.html 'alt="Chart: '
}

# What the terminal is told under a heading, the page has under the same, whatever the case asks for.
headings()
{
  local case heading
  for case in pot-core-powder-gap enamelled-coil canned-coil warm-choke receiving-rod coupled-coils coated-lead; do
    run 0 solve "$source/cases/$case.toml" --accuracy 1e-1 --files none
    grep -E '^[A-Z]' out | sed -n '2,$p' | sed -E 's/ \[.*//' >told
    run 0 report "$source/cases/$case.toml" --accuracy 1e-1 --quiet --out page
    [ "$(wc -l <told)" -ge 3 ] || fail "$case: no headings"
    while read -r heading; do
      grep -qF "$heading" <(grep -oE '<h2[^>]*>[^<]*' page/report.html) || [[ $heading == Ferrite* ]] ||
        [[ $heading == "A computed"* ]] || fail "$case: the page has no section: $heading"
    done <told
  done
}

# Whatever stands in names and files, it stays text.
hostile()
{
  local name='<img src=x onerror=alert(1)>&"'"'"'.toml'
  "$ferrule" new rod | sed 's|^title = .*|title = "</title></script><script>alert(1)</script>"\nnotes = "<b onclick=alert(2)>"|' >"$name"
  grep -q '<script>' "$name" || fail "the case is harmless"
  run 0 report "$name" --out page
  silent_on page/report.html '<img src=x|<script>alert|<b onclick'
  says page/report.html '&lt;/title&gt;&lt;/script&gt;&lt;script&gt;alert(1)'
  says page/report.html '&lt;img src=x onerror=alert(1)&gt;&amp;&quot;&#39;.toml'
  # In the picture too, which is an image of its own.
  grep -oE 'svg\+xml;base64,[A-Za-z0-9+/=]*' page/report.html | head -1 | sed 's/.*,//' |
    base64 -d >picture.svg
  says picture.svg "<svg"
  silent_on picture.svg '<script'
}

"$rule"
echo "ok: $rule"
