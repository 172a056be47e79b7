#!/usr/bin/env bash
# browser.sh RULE FERRULE SOURCE: the page to send in a real browser, Debian's chromium without a
# window. Exits 77, "skipped", where there is none or it cannot start.
set -u
rule=$1 ferrule=$2 source=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1

fail() { echo "FAILED: $*"; grep CONSOLE console 2>/dev/null; exit 1; }

browse()
{
  HOME=$work timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-quic --no-first-run \
    --disable-background-networking --disable-component-update --disable-sync \
    --disable-dev-shm-usage --user-data-dir="$work/profile" --enable-logging=stderr \
    --virtual-time-budget=4000 "$@" 2>console
}
command -v chromium >/dev/null || { echo "no chromium here"; exit 77; }
echo '<p id=p>here</p>' >hello.html
browse --dump-dom "file://$work/hello.html" | grep -q here || { echo "chromium cannot start"; exit 77; }

# probed PAGE SCRIPT: runs the script at the end of the page; what it passes to say() comes out.
probed()
{
  { cat "$1"; printf '<pre id="said"></pre><script>\n'
    printf 'const say = (...words) => { document.getElementById("said").textContent += words.join(" ") + "\\n"; };\n'
    cat "$2"; printf '\nsay("end");</script>\n'; } >probe.html
  browse --dump-dom "file://$work/probe.html" | sed -n '/<pre id="said">/,/<\/pre>/p' |
    sed 's/<pre id="said">//; s/<\/pre>.*//; /^$/d' >said
  grep -qx end said || fail "the script did not come to its end"
}
no_complaint() { ! grep -E 'CONSOLE|Uncaught|Refused' console || fail "the console is not empty"; }
model_of() { sed -n 's/.*class="model-data">\(.*\)<\/script>.*/\1/p' "$1" | head -n 1; }

# The model in the page against the program's own evaluation of it, over a grid of 41 and of 7 x 7.
model()
{
  "$ferrule" report "$source/cases/sintered-rod.toml" --quiet --out one || exit 1
  model_of one/report.html >model.json
  cat >script <<'X'
const model = JSON.parse(document.querySelector(".model-data").textContent);
for (let i = 0; i <= 40; ++i) {
  const mu = Number((120 * Math.pow(100, i / 40)).toPrecision(6));
  const L = ferrule.inductance(model.windings[0], [mu]);
  say(mu, L.lower, L.upper);
}
X
  probed one/report.html script
  agree 41 materials.ferrite.permeability
  # Two materials: a coated rod.
  cat >coated.toml <<'X'
title = "Coated rod"
[materials.core]
permeability = 300
[materials.dust]
permeability = 6
[[parts]]
name = "rod"
shape = "rod"
material = "core"
diameter = "6 mm"
length = "30 mm"
coating = { material = "dust", thickness = "1 mm" }
[[windings]]
name = "coil"
turns = 50
inner_diameter = "9 mm"
outer_diameter = "10 mm"
length = "20 mm"
X
  "$ferrule" report coated.toml --quiet --out one || exit 1
  model_of one/report.html >model.json
  cat >script <<'X'
const model = JSON.parse(document.querySelector(".model-data").textContent);
const names = model.materials.map((one) => one.name);
for (const a of [30, 70, 150, 300, 700, 1500, 3000])
  for (const b of [1, 2, 4, 6, 12, 30, 60]) {
    const L = ferrule.inductance(model.windings[0], names.map((name) => name === "core" ? a : b));
    say(a, b, L.lower, L.upper);
  }
X
  probed one/report.html script
  agree 49 materials.core.permeability materials.dust.permeability
}

# agree COUNT KEY...: said has the keys' values, lower and upper; the program says the same to 1e-9.
agree()
{
  local count=$1 column=0 vary=()
  shift
  grep -vx end said >ours
  [ "$(wc -l <ours)" = "$count" ] || fail "the page evaluated $(wc -l <ours) points, not $count"
  for key in "$@"; do
    column=$((column + 1))
    vary+=(--vary "$key=$(awk -v c=$column '!seen[$c]++ { printf "%s%s", comma, $c; comma = "," }' ours)")
  done
  "$ferrule" sweep --model model.json "${vary[@]}" --json --files none >swept.json || fail "no sweep"
  tr -d ' \n' <swept.json | grep -oE '"inductance_H":\{"value":[^,]*,"lower":[^,]*,"upper":[^}]*' |
    sed -E 's/.*"lower":([^,]*),"upper":(.*)/\1 \2/' >theirs
  [ "$(wc -l <theirs)" = "$count" ] || fail "the program evaluated $(wc -l <theirs) points"
  paste -d ' ' ours theirs | awk -v n=$# '
    function off(a, b) { return (a > b ? a - b : b - a) / b }
    { for (k = 1; k <= 2; ++k) { o = off($(n + k), $(n + 2 + k)); if (!(o <= worst)) worst = o } }
    END { printf "largest difference %.1e over %d points\n", worst, NR; exit !(worst <= 1e-9) }' ||
    fail "page and program disagree"
}

# The mixing rules in the page against ferrule mix.
rules()
{
  "$ferrule" report "$source/cases/powder-tube.toml" --quiet --out one || exit 1
  cat >script <<'X'
for (const rule of Object.keys(ferrule.rules))
  for (const mu of [2, 130, 3250])
    for (const f of [0.2, 0.58, 0.75]) say(rule, mu, f, ferrule.rules[rule](mu, f));
X
  probed one/report.html script
  [ "$(grep -vcx end said)" = 45 ] || fail "not five rules at nine points"
  while read -r law mu f page; do
    "$ferrule" mix --particle "$mu" --packing "$f" --rule "$law" --json --files none >mixed.json
    tr -d ' \n' <mixed.json | grep -oE '"permeability":[0-9.e+-]+' |
      sed 's/.*://' | awk -v page="$page" '
        { o = (page - $1) / $1; if (o < 0) o = -o; if (!(o <= 1e-9)) exit 1; ++n } END { exit n != 1 }' ||
      fail "$law at $mu and $f: the page has $page"
  done < <(grep -vx end said)
}

# Sliders move the answer, by events as the arrow keys send them; turns count as their square.
sliders()
{
  "$ferrule" report "$source/cases/powder-tube.toml" --quiet --out one || exit 1
  cat >script <<'X'
const box = ferrule.boxes[0], shown = () => document.querySelector(".whatif strong").textContent;
const of = (kind) => document.querySelector("input[data-kind=" + kind + "]");
const move = (slider, value) => {
  slider.value = value;
  slider.dispatchEvent(new Event("input", { bubbles: true }));
};
const first = shown(), before = box.evaluate()[0];
say("hidden", document.querySelector(".whatif").hidden);
say("labels", Array.from(document.querySelectorAll("input[type=range]")).every((one) =>
  one.labels.length === 1 && one.getAttribute("aria-valuetext") && one.tabIndex === 0));
move(of("turns"), 240);
const twice = box.evaluate()[0];
say("square", Math.abs(twice.lower / before.lower - 4) < 1e-12, shown() !== first);
document.querySelector(".whatif button").click();
say("back", shown() === first);
move(of("packing"), Number(of("packing").value) + 50);
say("packing", box.evaluate()[0].lower > before.upper, document.querySelector("#cm0m").textContent);
document.querySelector(".whatif button").click();
move(of("permeability"), 0);
say("grains", box.evaluate()[0].upper < before.lower);
say("outward", JSON.stringify(ferrule.bracketed({ lower: 508.3812e-6, upper: 508.5178e-6 })));
X
  probed one/report.html script
  no_complaint
  for line in "hidden false" "labels true" "square true true" "back true" "grains true" \
    'outward {"value":"508.4 µH","bounds":"508.38 to 508.52 µH"}'; do
    sed 's/\xc2\xa0/ /g; s/&nbsp;/ /g' said | grep -qxF "$line" || { cat said; fail "not: $line"; }
  done
  grep -qE '^packing true [0-9.]+$' said || { cat said; fail "packing"; }
}

"$rule"
echo "ok: $rule"
