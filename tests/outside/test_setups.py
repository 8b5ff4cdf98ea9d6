"""Solids of the set-ups, read with OpenCASCADE: the same part, lying as the list says, with its holes open to the tool."""

import csv
import re

import occ
import pytest
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.gp import gp_Pnt
from OCP.TopAbs import TopAbs_IN

AXES = {"X": 0, "Y": 1, "Z": 2}


def vector(text):
    """A direction as the table tells it: `+X`, or three numbers."""
    if text[1:] in AXES:
        found = [0.0, 0.0, 0.0]
        found[AXES[text[1:]]] = 1.0 if text[0] == "+" else -1.0
        return found
    return [float(t) for t in text.split()]


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def test_set_ups_of_every_part(sample):
    _, folder, manifest = sample
    rows = list(csv.DictReader((folder / "tables" / "setups.csv").open(newline="")))
    parts = {p["name"]: p for p in manifest["parts"]}
    assert {r["file"] for r in rows} == {p["path"] for p in manifest["files"] if p["path"].startswith("step/setups/")}
    # reading takes most of the time: every third file, each kind of side among them
    looked = {"Z": 0, "across": 0}
    for i, row in enumerate(rows):
        across = "Z" not in row["tool_direction"]
        if i % 3 and not (across and looked["across"] < 3):
            continue
        looked["across" if across else "Z"] += 1
        part = parts[row["part"]]
        shape = occ.read(folder / row["file"])
        assert occ.volume(shape) == pytest.approx(part["volume_mm3"], rel=1e-6), row["file"]
        text = (folder / row["file"]).read_text()
        assert re.search(rf"AXIS2_PLACEMENT_3D\('set-up {row['set_up']}',", text), row["file"]
        lies_as_said(shape, row)
        holes_open_upwards(shape, row, part)
    assert looked["Z"] >= 5 and looked["across"] >= 1


def lies_as_said(shape, row):
    bounds = occ.box(shape)
    low, high = bounds.CornerMin(), bounds.CornerMax()
    for corner, said in ((low, row["low_mm"]), (high, row["high_mm"])):
        if said:
            found = (corner.X(), corner.Y(), corner.Z())
            assert found == pytest.approx([float(t) for t in said.split()], abs=2e-3), row["file"]


def holes_open_upwards(shape, row, part):
    """Just below the mouth of each hole of this set-up there is no metal on its axis, nor anywhere above it."""
    z, x = [-c for c in vector(row["tool_direction"])], vector(row["x_axis"])
    y = cross(z, x)
    turn = lambda v: [dot(v, x), dot(v, y), dot(v, z)]
    high = occ.box(shape).CornerMax().Z()
    solid = BRepClass3d_SolidClassifier(occ.solids(shape)[0])
    seen = 0
    for hole in (h for h in part["holes"] if h["group"] in row["features"].split()):
        down = turn(hole["direction"])
        # a plain hole right through along the part's Z may be made from its far side
        plain = abs(hole["direction"][2]) > 1 - 1e-9 and not hole.get("depth_mm") and not hole.get("steps_mm")
        if abs(down[2]) < 1 - 1e-9 or (down[2] > 0 and not plain):
            continue
        mouth = turn(hole["at_mm"])
        seen += 1
        for step in range(20):
            at = mouth[2] - 1e-3 + (high - mouth[2]) * step / 19
            solid.Perform(gp_Pnt(mouth[0], mouth[1], at), 1e-7)
            assert solid.State() != TopAbs_IN, f"{row['file']}: metal above {hole['label']}"
    groups = {h["group"] for h in part["holes"]}
    assert seen or not groups & set(row["features"].split()), f"{row['file']}: no hole along Z"
