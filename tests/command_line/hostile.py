#!/usr/bin/env python3
# hostile.py FERRULE SOURCE: names, title and notes that would like to be more than text, through every
# kind of file. Each file is read by a parser from outside and must have the build of the file of the
# same case under harmless names: same tags and attributes, same rows and columns, same keys.
import base64
import collections
import csv
import html.parser
import io
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as tree

FERRULE, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])

HOSTILE = {
    "title": "</title></style></script></svg><script>alert(1)</script> & \"q\" 's' ]]> <!-- {{x}} ${x} \\",
    "notes": "one\n</pre><b onclick=alert(2)> ]]>\n&#60;i&#62; \u200frtl",
    "core": "</td><svg onload>\"&'\u200f",
    "coil": "@cmd|'/C calc'!A1\"</g>",
    "stuff": "<img onerror>\"'",
    "spot": "\"><script>p</script>,+1",
}
PLAIN = {"title": "A rod", "notes": "one\ntwo\nthree", "core": "body", "coil": "winding", "stuff": "stuff", "spot": "spot"}

ROLES = {name: role for names in (HOSTILE, PLAIN) for role, name in names.items() if role != "notes"}

CASE = """title = {title}
notes = {notes}
[materials.{stuff}]
{law}
[[parts]]
name = {core}
shape = "rod"
material = {stuff}
diameter = "8 mm"
length = "45 mm"
[[windings]]
name = {coil}
turns = 80
inner_diameter = "9 mm"
outer_diameter = "10.2 mm"
length = "35 mm"
[drive]
{drive}
[[probes]]
name = {spot}
points = [["15 mm", "0 mm"], ["30 mm", "0 mm"]]
"""


def expect(kept, what):
    if not kept:
        print("FAILED:", what)
        sys.exit(1)


class Tags(html.parser.HTMLParser):
    """Tags with the names of their attributes, and what scripts and styles hold."""

    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.built, self.raw, self.pictures, self.models, self.inside = [], [], [], [], ""

    def handle_starttag(self, tag, attrs):
        self.inside = tag if tag in ("script", "style") else self.inside
        self.built.append((tag, tuple(sorted(name for name, _ in attrs))))
        for name, value in attrs:
            if name == "src" and value.startswith("data:image/svg+xml;base64,"):
                self.pictures.append(base64.b64decode(value.split(",", 1)[1]))
            expect(not name.startswith("on"), f"an attribute acts: {name}={value}")

    def handle_endtag(self, tag):
        self.inside = "" if tag == self.inside else self.inside
        self.built.append(("/" + tag, ()))

    def handle_comment(self, data):
        self.built.append(("comment", ()))

    def handle_data(self, data):
        if self.inside and data.strip().startswith("{"):
            self.models.append(json.loads(data))


def keys(document):
    """The build of a JSON document, names that are keys by what they name."""
    if isinstance(document, dict):
        return {ROLES.get(key, key): keys(value) for key, value in document.items()}
    return [keys(one) for one in document] if isinstance(document, list) else type(document).__name__


def build(path, text):
    """What may not change with the names."""
    kind = path.suffix
    if kind == ".html":
        page = Tags()
        page.feed(text)
        return page.built, [build(pathlib.Path("x.svg"), one.decode()) for one in page.pictures], [keys(one) for one in page.models]
    if kind in (".svg", ".vtu", ".vtp", ".pvd"):
        # Letters are outlines, so their number goes with the words; what kinds of element there are does not.
        return sorted({(re.sub("{.*}", "", one.tag), tuple(sorted(one.attrib))) for one in tree.fromstring(text).iter()})
    if kind == ".csv":
        rows = list(csv.reader(io.StringIO(text, newline=""), strict=True))
        for cell in (cell for row in rows for cell in row):
            expect(cell[:1] not in "=@" or cell == "", f"{path.name}: a spreadsheet would work this out: {cell}")
        return [len(row) for row in rows]
    if kind == ".json":
        return keys(json.loads(text))
    if kind in (".cir", ".s1p"):
        # Comment or data: what a line begins with.
        return [re.match(r"[*!#.]?", line)[0] for line in text.splitlines()]
    return None


def made(folder, names):
    """Every file of every command that writes, by its place."""
    folder.mkdir()
    quoted = {key: json.dumps(value, ensure_ascii=False) for key, value in names.items()}
    def case(name, law, drive, more=""):
        path = folder / name
        path.write_text(CASE.format(law=law, drive=drive, **quoted) + more, encoding="utf-8")
        return name
    lossy, tanh = "permeability = { real = 120, imaginary = 3 }", 'magnetisation = { law = "tanh", saturation = "0.4 T", permeability = 120 }'
    files = {"f": case("frequency.toml", lossy, 'frequency = ["10 kHz", "20 kHz", "40 kHz"]'),
             "b": case("bias.toml", tanh, 'bias = ["1 A", "2 A"]')}
    key = ["--vary", f"materials.{names['stuff']}.permeability=60:900:9"]
    plain = case("plain.toml", "permeability = 120", "")
    (folder / "reading.toml").write_text("[unknown]\nkey = %s\n[[readings]]\nsample = %s\nwinding = %s\ninductance = \"220 uH\"\nfrequency = \"10 kHz\"\n"
        "tolerance = \"5 %%\"\n[[readings]]\nsample = \"2\"\nwinding = %s\ninductance = \"225 uH\"\nfrequency = \"10 kHz\"\ntolerance = \"5 %%\"\n"
        % (json.dumps(f"materials.{names['stuff']}.permeability", ensure_ascii=False), quoted["core"], quoted["coil"], quoted["coil"]), encoding="utf-8")
    for typed in (["solve", files["f"], "--revolve", "--out", "solve"], ["solve", files["b"], "--out", "bias"],
                  ["compare", files["f"], files["b"], "--out", "compare"], ["report", files["f"], "--out", "page"],
                  ["report", files["f"], files["b"], "--out", "two"], ["report", plain, "--reading", "reading.toml", "--out", "fitted"],
                  ["fit", plain, "--reading", "reading.toml", "--out", "fit"],
                  ["sweep", plain, *key, "--out", "sweep"], ["sweep", plain, "--vary", "parts.%s.length=40mm,50mm" % names["core"], "--fields", "--out", "fields"],
                  ["sweep", plain, "--seek", "inductance=240uH", "--by", "windings.%s.turns" % names["coil"], "--out", "seek"],
                  ["sweep", plain, "--wish", "inductance=up", "--wish", "volume=down", "--by", "parts.%s.length=30mm:60mm" % names["core"], "--out", "wish"]):
        done = subprocess.run([FERRULE, *typed, "--accuracy", "1e-1", "--quiet"], cwd=folder, capture_output=True, text=True)
        expect(done.returncode in (0, 3) and not done.stderr, f"{typed[0]}: {done.returncode} {done.stderr}")
    return {path.relative_to(folder): path for path in sorted(folder.rglob("*")) if path.is_file()}


with tempfile.TemporaryDirectory() as work:
    harmless, harmful = made(pathlib.Path(work) / "a", PLAIN), made(pathlib.Path(work) / "b", HOSTILE)
    expect(list(harmless) == list(harmful), f"other files: {set(harmless) ^ set(harmful)}")
    seen = collections.Counter()
    for place, path in harmful.items():
        ours, theirs = (build(one, one.read_bytes().decode("utf-8", "strict") if one.suffix not in (".png", ".vtu", ".vtp") else one.read_bytes().decode("latin-1"))
                        for one in (path, harmless[place]))
        expect(ours == theirs, f"{place} is built otherwise under hostile names")
        seen[path.suffix] += ours is not None
    for kind in (".html", ".svg", ".csv", ".json", ".vtu", ".vtp", ".pvd", ".cir", ".s1p"):
        expect(seen[kind] > 0, f"no {kind} was looked at")
print("ok:", dict(seen))
