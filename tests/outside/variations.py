"""Random variations of a sample design, seeded: the same number draws the same changes."""

import json
import random
import re
import subprocess

from conftest import ROOT, SWEPT

# factors on what the sample decides; the middle of each range is likelier than its ends
FACTORS = {
    "displacer.bore": (0.75, 1.4),
    "displacer.stroke": (0.6, 1.4),
    "piston.bore": (0.8, 1.25),
    "piston.stroke": (0.6, 1.4),
    "cold_end.cylinder_length": (0.8, 1.4),
    "cold_end.fin_height": (0.6, 1.5),
    "cold_end.wall": (0.8, 1.5),
    "hot_end.wall": (0.7, 1.6),
    "hot_end.depth": (0.8, 1.4),
    "block.wall": (0.8, 1.5),
    "block.outer_wall": (0.8, 1.3),
    "block.length": (1.0, 1.3),
    "cooler.plate_thickness": (0.8, 1.4),
    "cooler.jacket_width": (0.7, 1.3),
    "drive.con_rod_length": (0.9, 1.4),
    "joints.gasket_thickness": (0.5, 1.5),
    "displacer.gap": (0.6, 1.5),
}
CHOICES = {
    "piston.seal": ["ptfe-ring", "metal-ring", "o-ring", "graphite-ring", "fitted", "lip-ring"],
    "piston.rings": ["1", "2", "3"],
    "regenerator.kind": ["none", "mesh", "wool", "foil"],
    "joints.hot_screw": ["M3", "M4", "M5", "M6"],
    "joints.power_screw": ["M4", "M5", "M6"],
    "cooler.hose_thread": ["M8", "M10", "G1/8"],
    "drive.belt_section": ["3M", "5M", "MXL", "T2.5", "T5"],
    "drive.belt_width": ["6 mm", "9 mm", "15 mm"],
    "drive.journal_bearing": ["608", "626", "6000", "6001"],
    "drive.crankpin_bearing": ["688ZZ", "686ZZ", "608"],
    "drive.lead": ["75°", "85°", "95°", "105°"],
    "displacer.rod_diameter": ["5 mm", "6 mm", "8 mm", "10 mm"],
    "cold_end.fins": ["0", "2", "4"],
    "hot_end.temperature": ["300 °C", "450 °C"],
    "cold_end.temperature": ["40 °C", "70 °C"],
}


def run(design, command, sets, *more):
    """Exit code, stdout and stderr of the program."""
    words = [word for key, value in sets.items() for word in ("--set", f"{key}={value}")]
    done = subprocess.run([SWEPT, command, str(design), *words, *more], capture_output=True, text=True, cwd=ROOT)
    return done.returncode, done.stdout, done.stderr


def decided(manifest):
    """Path → value in millimetres of every length that the sample decides."""
    return {d["path"]: d["value"] for d in manifest["decided"] if d.get("unit") == "mm"}


def changes(design, base, number):
    """Two to five changes of the sample, and a crank angle."""
    draw = random.Random(f"{design.stem} {number}")
    own = design.read_text()
    names = [k for k in FACTORS if k in base] + [k for k in CHOICES if fits(k, own)]
    sets = {}
    for key in draw.sample(names, draw.randint(2, 5)):
        if key in FACTORS:
            value = base[key] * draw.triangular(*FACTORS[key])
            sets[key] = f"{round(value * 4) / 4 if value > 5 else round(value, 1)} mm"
        else:
            sets[key] = draw.choice(CHOICES[key])
    if '"gamma-right-angle"' in own:
        # both rods on one crankpin: one stroke for both
        both = sets.get("displacer.stroke") or sets.get("piston.stroke")
        sets |= {"displacer.stroke": both, "piston.stroke": both} if both else {}
    if "cold_seal" in own:
        # the tables end at O-rings round 100 mm
        sets["joints.cold_seal"] = draw.choice(["gasket", "gasket", "o-ring"])
    if "plate_channels" in own:
        sets["cooler.plate_channels"] = draw.choice(["0", "0", "1", "2"])
    sets["outputs.crank_angle"] = f"{draw.randrange(360)}°"
    return sets


def fits(key, own):
    """Keys that the sample's layout does not have are left alone."""
    if key.startswith("drive.belt") or key == "drive.lead":
        return '"gamma-twin-crank"' in own
    return True


def complaints(design, command, sets, *more):
    """Errors of a command as (code, key of the label) → diagnostic; empty when it is done."""
    code, out, err = run(design, command, sets, "--json", *more)
    assert code in (0, 1), f"{sets}: exit code {code}\n{err}"
    if code == 0:
        return {}
    errors = [d for d in json.loads(out)["diagnostics"] if d["severity"] == "error"]
    assert errors, f"{sets}: refused without a reason"
    return {(d["code"], (d.get("label") or "").split(" = ")[0]): d for d in errors}


LARGER = ("enlarge", "larger", "longer", "thicker", "more", "wider", "higher")
SMALLER = ("smaller", "shorter", "thinner", "fewer", "narrower", "less", "nearer", "lower")
STEPS = (1.05, 1.15, 1.3, 1.6, 2.0, 3.0)


def remedies(diagnostic, sets, base):
    """Changed designs that the diagnostic itself says would do, the nearest first."""
    key = (diagnostic.get("label") or "").split(" = ")[0]
    allowed, hint = diagnostic.get("allowed") or "", diagnostic.get("hint") or ""
    bound = re.match(r"(-?[\d.]+) (mm|K|°C|°|bar abs)? ?(or more|or less|at the most|at least)", allowed)
    if bound and key in base:
        yield {**sets, key: f"{bound[1]} {bound[2]}"}
    named = [k for k in re.findall(r"[a-z_]+\.[a-z_]+", hint) if k in base or k in CHOICES]
    # a number that was given and should not have been
    for left_out in {*named, key} & set(sets):
        yield {k: v for k, v in sets.items() if k != left_out}
    for path, value in re.findall(r'set ([a-z_]+\.[a-z_]+) = "([^"]+)"', hint):
        yield {**sets, path: value}
    for suggestion in re.findall(r'did you mean "([^"]+)"', hint):
        yield {**sets, key: suggestion}
    up = any(w in hint for w in LARGER) or not any(w in hint for w in SMALLER)
    down = any(w in hint for w in SMALLER)
    for step in STEPS:
        for path in named or [key]:
            if path in base:
                now = float(re.match(r"[\d.]+", sets.get(path, str(base[path])))[0])
                if up:
                    yield {**sets, path: f"{now * step:.2f} mm"}
                if down:
                    yield {**sets, path: f"{now / step:.2f} mm"}


def is_true(design, command, sets, base, complaint, diagnostic, *more):
    """Doing what the diagnostic says removes it, so what it named was the reason.

    A builder's check tells its figure and its bound: the figure must lie on the wrong side of it."""
    if complaint[0] == "swept::check":
        told = re.search(r": (-?[\d.e+]+)( \S+)?, at (least|most) (-?[\d.e+]+)", diagnostic["message"])
        assert told, diagnostic["message"]
        value, bound = float(told[1]), float(told[4])
        return value < bound if told[3] == "least" else value > bound
    return any(
        complaint not in complaints(design, command, changed, *more) for changed in remedies(diagnostic, sets, base)
    )
