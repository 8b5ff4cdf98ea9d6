"""The schema of the design file, checked by another program: the Python library `jsonschema` (draft 2020-12).

Run after `cargo build --release`. SWEPT names the program; without it, target/release/swept is taken.
"""

import copy
import json
import os
import re
import subprocess
import tomllib
from pathlib import Path

import jsonschema
import pytest

ROOT = Path(__file__).resolve().parents[2]
TARGET = Path(os.environ.get("CARGO_TARGET_DIR", ROOT / "target"))
SWEPT = os.environ.get("SWEPT", str(TARGET / "release" / "swept"))
BROKEN = sorted((ROOT / "tests" / "broken-designs").glob("*.toml"))

# What a schema can know; ranges, folder names of devices and pairs of keys it cannot.
KNOWN_TO_SCHEMA = {
    "swept::unknown-key",
    "swept::unknown-table",
    "swept::type",
    "swept::unit",
    "swept::number",
    "swept::missing",
    "swept::text",
}

# Once read, a number has no base, and a pattern cannot tell that a number overflows.
# Bores and strokes may be left out where targets.power is given: that is a pair of keys.
BEYOND_SCHEMA = {
    "count-in-hexadecimal",
    "number-that-overflows",
    "open-bore-without-a-power",
    "required-key-missing",
    "required-table-missing",
}


def swept(*arguments, stdin=None):
    return subprocess.run([SWEPT, *arguments], input=stdin, capture_output=True, text=True, encoding="utf-8")


@pytest.fixture(scope="module")
def schema():
    printed = swept("schema")
    assert printed.returncode == 0, printed.stderr
    return json.loads(printed.stdout)


@pytest.fixture(scope="module")
def validator(schema):
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


@pytest.fixture(scope="module")
def starter():
    printed = swept("new", "-")
    assert printed.returncode == 0, printed.stderr
    return printed.stdout


def uncommented(text):
    """The starter with every line that holds a value."""
    lines = []
    for line in text.splitlines():
        bare = line.removeprefix("# ")
        value = re.match(r"[a-z_]+ = (?!\"?\.\.\.)", bare) or bare.startswith("[[")
        lines.append(bare if value else line)
    return "\n".join(lines)


def test_the_schema_is_of_draft_2020_12(schema):
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    jsonschema.Draft202012Validator.check_schema(schema)


def test_the_starter_fits(validator, starter):
    validator.validate(tomllib.loads(starter))


def test_the_starter_fits_with_every_default_written(validator, starter):
    design = tomllib.loads(uncommented(starter))
    assert sum(len(table) for table in design.values()) > 60
    validator.validate(design)


def test_every_default_in_the_schema_fits_its_own_key(schema):
    keys = [key for table in schema["properties"].values() for key in table["properties"].values()]
    defaults = [key for key in keys if "default" in key]
    assert len(defaults) > 50
    for key in defaults:
        jsonschema.Draft202012Validator(key).validate(key["default"])


def test_every_key_is_described(schema):
    for table in schema["properties"].values():
        assert table["description"]
        assert all("Allowed:" in key["description"] for key in table["properties"].values())


def changed(design, table, key, value):
    other = copy.deepcopy(design)
    other.setdefault(table, {})[key] = value
    return other


@pytest.mark.parametrize(
    "table, key, value",
    [
        ("piston", "legnth", "25 mm"),
        ("piston", "bore", 28),
        ("piston", "bore", "28"),
        ("piston", "bore", "28 °C"),
        ("piston", "bore", "28 mm extra"),
        ("piston", "bore", "NaN mm"),
        ("piston", "bore", ["28 mm"]),
        ("piston", "rings", "2"),
        ("piston", "rings", 9),
        ("piston", "rings", 1.5),
        ("engine", "charge_pressure", "2 bar"),
        ("engine", "gas", "steam"),
        ("engine", "name", "../x"),
        ("engine", "name", "x" * 65),
        ("engine", "layout", "gamma"),
        ("drawings", "owner", "a\nb"),
        ("drawings", "owner", "x" * 121),
        ("workshop", "stock", [{"shape": "round", "material": "brass"}]),
        ("workshop", "stock", [{"shape": "round", "material": "brass", "size": "5 mm", "colour": "red"}]),
        ("pistn", "bore", "28 mm"),
    ],
)
def test_mistakes_are_refused(validator, starter, table, key, value):
    design = tomllib.loads(starter)
    validator.validate(design)
    assert not validator.is_valid(changed(design, table, key, value))


def test_with_a_shelf_file_names_are_free(validator, starter):
    design = changed(tomllib.loads(starter), "engine", "gas", "argon")
    assert not validator.is_valid(design)
    assert validator.is_valid(changed(design, "workshop", "shelf", "shelf.toml"))


def test_the_shelf_files_schema_reads_a_shelf_and_refuses_slips():
    schema = json.loads(swept("schema", "--shelf").stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    shelf = jsonschema.Draft202012Validator(schema)
    can = {"name": "tea-tin", "diameter": "94 mm", "length": "109 mm", "wall": "0.25 mm"}
    steel = {"name": "x", "expansion": "12 µm/(m K)", "at": [{"temperature": "20 °C", "conductivity": "50 W/(m K)"}]}
    belt = {"section": "T5", "teeth": 91}
    assert shelf.is_valid({"can": [can], "material": [steel], "belt": [belt], "screw": [{"thread": "M5", "lengths": ["22 mm"]}]})
    assert not shelf.is_valid({"can": [{**can, "wall": "0.25"}]})
    assert not shelf.is_valid({"can": [{**can, "colour": "red"}]})
    assert not shelf.is_valid({"material": [{**steel, "expansion": "12"}]})
    assert not shelf.is_valid({"tin": [can]})


@pytest.mark.parametrize("table, key", [("engine", "name"), ("engine", "layout")])
def test_a_missing_key_is_refused(validator, starter, table, key):
    design = tomllib.loads(starter)
    del design[table][key]
    assert not validator.is_valid(design)
    del design[table]
    assert not validator.is_valid(design)


QUANTITIES = {
    "piston.length": [
        "25 mm", "25mm", " 25 mm ", "2.5 cm", "0.025 m", "1 in", "1 1/2 in", "1/2 in", "1/ 2 in", "25. mm", "+25 mm",
        "2.5e1 mm", "25000 µm", "25000 um", "1 inch", "25", "mm", "", "25 MM", "25 furlongs", "25,0 mm", "2 5 mm", "1/0 in", "10/10 in", "1/02 in",
        "1 1 1/2 in", "1/2/3 in", "twenty mm", "25 mm mm", "25 °C", "NaN mm", "inf mm", "0x19 mm", "25_0 mm", ".5 m",
    ],
    "hot_end.temperature": ["500 °C", "500 C", "500 degC", "800 K", "900 °F", "500 c", "500", "500°C", "500 ° C"],
    "engine.charge_pressure": [
        "2 bar abs", "1 bar gauge", "200 kPa absolute", "0.2 MPa abs", "30 psi abs", "2 atm abs", "2 bar", "2 abs",
        "2 bara", "2 bar  abs", "2bar abs", "2 bar abs abs", "200000 Pa abs",
    ],
    "targets.speed": ["600 rpm", "10 Hz", "10 1/s", "600 1/min", "600", "600 RPM", "10 /s"],
    "targets.power": ["12 W", "0.012 kW", "12 w", "12"],
    "drive.lead": ["90°", "90 °", "90 deg", "1.5 rad", "90", "90 degrees"],
}


@pytest.mark.parametrize("path, text", [(path, text) for path, texts in QUANTITIES.items() for text in texts])
def test_program_and_schema_agree_on_quantities(validator, starter, path, text):
    table, key = path.split(".")
    fits = validator.is_valid(changed(tomllib.loads(starter), table, key, text))
    read = swept("check", "-", "--set", f"{path}={text}", stdin=starter)
    assert read.returncode in (0, 1)
    assert fits == (read.returncode == 0), read.stderr


def knowable():
    """Broken designs that are TOML and whose mistake a schema can know, as (name, design)."""
    for path in BROKEN:
        codes = {line.split()[0] for line in path.with_suffix(".expect").read_text(encoding="utf-8").splitlines()}
        if not codes & KNOWN_TO_SCHEMA or path.stem in BEYOND_SCHEMA:
            continue
        try:
            yield path.stem, tomllib.loads(path.read_bytes().decode("utf-8"))
        except tomllib.TOMLDecodeError:
            continue


KNOWABLE = dict(knowable())


def test_many_broken_designs_are_of_a_kind_that_a_schema_can_know():
    assert len(KNOWABLE) > 40


@pytest.mark.parametrize("name", KNOWABLE)
def test_broken_designs_that_a_schema_can_know(validator, name):
    assert list(validator.iter_errors(json.loads(json.dumps(KNOWABLE[name], default=str))))


@pytest.mark.parametrize("path", sorted((ROOT / "sample-designs").glob("*.toml")), ids=lambda path: path.stem)
def test_every_sample_design_fits(validator, path):
    validator.validate(tomllib.loads(path.read_text(encoding="utf-8")))
