#!/usr/bin/env python3
"""schema.py RULE FERRULE SOURCE: the JSON Schema of the case file against the reader itself.

  shipped  every case that is shipped is sound by the schema
  bad      every bad file a schema can tell is refused by it; what it cannot tell is listed here
  keys     every key the reader asks for is in the schema, and none besides
  mutants  cases with one value or key changed: what the schema refuses, ferrule refuses too

The validator is Debian's python3-jsonschema; without it the exit status is 77.
"""
import copy
import json
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import tomllib

try:
    import jsonschema
except ImportError:
    print("skipped: there is no python3-jsonschema")
    sys.exit(77)

rule, ferrule, source = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
schema = json.loads((source / "cases/case.schema.json").read_text())
validator = jsonschema.Draft7Validator(schema)

# Soundness beyond one value: names that must exist, sizes that must fit one another, files beside.
BEYOND_A_SCHEMA = """
above-in-a-circle above-itself above-unknown background-zero bias-range coating-of-unknown-material
connection-of-fine-strands current-zero earthed-without-conductivity frequency-range
heat-without-conductivity huge-length insulation-conducts insulation-magnetic length-beyond-doubles magnetisation-brauer
magnetisation-law-of-air magnetisation-table more-layers-than-turns name-twice nothing-drives
nothing-in-the-field outline-corner-twice outline-crossing-itself outline-on-a-line overlap-of-coating
overlap-of-layers overlap-of-parts overlap-of-turns overlap-of-winding overlap-twice-the-same
permeability-not-a-number permeability-table-short permeability-table pitch-too-small
pot-all-gap pot-without-room powder-of-powder powder-of-unknown-particles probe-name-twice ring-without-a-hole
tiny-length toroid-coated-shut toroids tube-without-a-wall unknown-material-far unknown-material
winding-inside-out wires
""".split()


def fail(message):
    print("FAILED:", message)
    sys.exit(1)


def faults(case):
    return [f"{'.'.join(map(str, e.absolute_path))}: {e.message[:200]}" for e in validator.iter_errors(case)]


def shipped_files():
    return sorted([*(source / "cases").glob("*.toml"), *(source / "cases/starters").glob("*.toml")])


def readme_case():
    text = (source / "README.md").read_text()
    return tomllib.loads(re.search(r"<!-- reads -->\n```toml\n(.*?)```", text, re.S).group(1))


def shipped():
    jsonschema.Draft7Validator.check_schema(schema)
    cases = {str(path): tomllib.loads(path.read_text()) for path in shipped_files()}
    cases["the README's case"] = readme_case()
    if len(cases) < 20:
        fail("hardly any case found")
    for name, case in cases.items():
        if found := faults(case):
            fail(f"{name}: {found}")
    print(f"{len(cases)} cases are sound by the schema")


def bad():
    refused = passed = 0
    for path in sorted((source / "tests/cases/bad_files").glob("*.toml")):
        try:
            case = tomllib.loads(path.read_text())
        except (tomllib.TOMLDecodeError, UnicodeDecodeError):
            continue  # no TOML at all: nothing a schema is asked about
        if faults(case):
            refused += 1
            if path.stem in BEYOND_A_SCHEMA:
                fail(f"{path.name} is refused; take it off the list")
        elif path.stem in BEYOND_A_SCHEMA:
            passed += 1
        else:
            fail(f"{path.name} is bad and sound by the schema")
    if refused < 80 or passed != len(BEYOND_A_SCHEMA):
        fail(f"{refused} bad files refused, {passed} of {len(BEYOND_A_SCHEMA)} listed ones found")
    print(f"{refused} bad files refused, {passed} beyond what a schema tells")


def schema_keys(node):
    if isinstance(node, dict):
        for keys in ("properties", "dependencies"):
            yield from node.get(keys, {})
        for value in node.values():
            yield from schema_keys(value)
    elif isinstance(node, list):
        for value in node:
            yield from schema_keys(value)


def reader_keys():
    """Keys as read_*.cpp asks for them, as the README's test finds them."""
    files = [p for p in (source / "cases").glob("read_*.cpp")
             if p.name not in ("read_reading.cpp", "read_impedance.cpp", "read_meter_file.cpp")]
    asked = r'(?:needed|value|text|needed_text|choice|table|at|has|read_points|file_table|read_permeability|sections|top)\w*\(\s*(?:\w+,\s*)?"([a-z_0-9]+)"'
    listed = r'(?:string_view, \d+> \w+ = |key : )\{([^}]*)\}'
    found = set()
    for path in files:
        text = path.read_text()
        found |= set(re.findall(asked, text))
        for group in re.findall(listed, text):
            found |= set(re.findall(r'"([a-z_0-9]+)"', group))
    return found


def keys():
    read, known = reader_keys(), set(schema_keys(schema))
    if len(read) < 60:
        fail(f"only {len(read)} keys found in the reader")
    words = "".join(p.read_text() for p in (source / "cases").glob("read_*.cpp"))
    words += (source / "cases/bodies.hpp").read_text()
    if missing := read - known:
        fail(f"read, but not in cases/case.schema.json: {sorted(missing)}")
    if dead := {key for key in known if f'"{key}"' not in words}:
        fail(f"in cases/case.schema.json, but never read: {sorted(dead)}")
    print(f"{len(read)} keys read, all in the schema")


def places(node, path=()):
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for key, value in items:
        yield path + (key,)
        yield from places(value, path + (key,))


def toml(value):
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(k)} = {toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    return repr(value) if isinstance(value, float) else json.dumps(value, ensure_ascii=False)


STRANGE = [-1, 0, 0.5, 3, "", "x", "0 mm", "-2 mm", "5 mm", "3 kHz", "1 A", "24 AWG", "2 mT", "20 degC", True, [], {},
           "1 inch", "  7.5e-1  cm ", "+3 mm", ".5mm", ["0 mm", "0 mm"], "brauer", "rod", "tube", 1e12, "5 m/H"]


def mutants():
    random.seed(7)
    pool = [tomllib.loads(p.read_text()) for p in shipped_files()] + [readme_case()]
    names = sorted(set(schema_keys(schema)))
    told = sound = 0
    with tempfile.TemporaryDirectory() as folder:
        for table in (source / "cases").glob("*.csv"):
            (pathlib.Path(folder) / table.name).write_bytes(table.read_bytes())
        for number in range(120):
            case = copy.deepcopy(random.choice(pool))
            *path, last = random.choice(list(places(case)))
            node = case
            for key in path:
                node = node[key]
            kind = random.randrange(4)
            if kind == 0:
                del node[last]
            elif kind == 1 and isinstance(node, dict):
                node[random.choice(names)] = random.choice(STRANGE)
            elif kind == 2 and isinstance(node, dict):
                node[random.choice(names)] = node.pop(last)
            else:
                node[last] = random.choice(STRANGE)
            found = faults(case)
            sound += not found
            if not found:
                continue
            told += 1
            file = pathlib.Path(folder) / "mutant.toml"
            file.write_text("".join(f"{json.dumps(k)} = {toml(v)}\n" for k, v in case.items()))
            run = subprocess.run([ferrule, "formulas", file], capture_output=True, text=True)
            if run.returncode != 2:
                fail(f"mutant {number}: the schema says {found}, ferrule takes it:\n{file.read_text()}")
    if told < 60 or sound < 10:
        fail(f"{told} refused and {sound} sound: the mutants show nothing")
    print(f"{told} mutants refused by both, {sound} sound by the schema")


{"shipped": shipped, "bad": bad, "keys": keys, "mutants": mutants}[rule]()
