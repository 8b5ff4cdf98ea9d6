"""Frames of geometrical tolerances: each names a surface that the part's STEP has, and the exact solid keeps every one of them
without any deviation, as OpenCASCADE (PyPI: cadquery-ocp) measures it. So a frame never stands at the wrong surface.

What each characteristic asks of exact geometry is that of ISO 1101 (definitions of the zones).
"""

import copy
import csv
import math

import pytest
from occ import GeomAbs_Cylinder, GeomAbs_Plane, faces, read

LENGTH = 1e-5  # mm
ANGLE = 1e-7  # rad


def dot(a, b):
    return sum(x * y for x, y in zip(a, b))


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def minus(a, b):
    return tuple(x - y for x, y in zip(a, b))


def size(a):
    return math.sqrt(dot(a, a))


def xyz(p):
    return (p.X(), p.Y(), p.Z())


def off_axis(point, axis):
    """Distance of a point from an axis (point, direction)."""
    return size(cross(minus(point, axis[0]), axis[1]))


class Solid:
    """Cylinders and planes of a STEP file."""

    def __init__(self, path):
        self.cylinders, self.planes = [], []
        for face in faces(read(path)):
            if face.GetType() == GeomAbs_Cylinder:
                c = face.Cylinder()
                axis = (xyz(c.Axis().Location()), xyz(c.Axis().Direction()))
                ends = [face.FirstVParameter(), face.LastVParameter()]
                self.cylinders.append((axis, c.Radius(), [dot(axis[0], axis[1]) + v for v in ends]))
            elif face.GetType() == GeomAbs_Plane:
                p = face.Plane()
                self.planes.append((xyz(p.Location()), xyz(p.Axis().Direction())))

    def find(self, told):
        """The surface of the solid that an entry of build.json tells: ("axis", point, direction) or ("plane", point, normal)."""
        at = told["at_mm"]
        if told["kind"] == "plane":
            for point, normal in self.planes:
                square = size(cross(normal, told["normal"])) < ANGLE
                if square and abs(dot(minus(point, at), told["normal"])) < LENGTH:
                    return "plane", point, normal
        else:
            middle = [p + d * told["length_mm"] / 2 for p, d in zip(at, told["along"])]
            for axis, radius, ends in self.cylinders:
                there = abs(radius - told["diameter_mm"] / 2) < LENGTH and off_axis(at, axis) < LENGTH
                along = size(cross(axis[1], told["along"])) < ANGLE
                # a hole that crosses a curved wall is a little longer or shorter than told
                if there and along and ends[0] - 1.0 < dot(middle, axis[1]) < ends[1] + 1.0:
                    return "axis", *axis
        return None


def deviation(characteristic, surfaces, datums):
    """How far exact surfaces are from what a characteristic asks, in rad or mm; none where it does not apply."""
    kinds = {s[0] for s in surfaces}
    if characteristic == "flatness":
        return 0.0 if kinds == {"plane"} and not datums else None
    if characteristic == "cylindricity":
        return 0.0 if kinds == {"axis"} and not datums else None
    if not datums:
        return None
    kind, point, way = datums[0]
    same = [size(cross(s[2], way)) for s in surfaces]
    square = [abs(dot(s[2], way)) for s in surfaces]
    if characteristic == "parallelism":
        return max(a if s[0] == kind else b for s, a, b in zip(surfaces, same, square))
    if characteristic == "perpendicularity":
        return max(b if s[0] == kind else a for s, a, b in zip(surfaces, same, square))
    axes = [d for d in datums if d[0] == "axis"]
    if not axes:
        return None
    if characteristic == "coaxiality":
        return max(max(off_axis(s[1], axes[0][1:]), size(cross(s[2], axes[0][2]))) for s in surfaces)
    if characteristic == "circular-runout":
        beside = [0.0 if s[0] == "plane" else off_axis(s[1], axes[0][1:]) for s in surfaces]
        return max(max(b, size(cross(s[2], axes[0][2]))) for s, b in zip(surfaces, beside))
    if characteristic == "position":
        # holes along the datum's axis, on a circle or in a rectangle about it: all as far from it
        if kinds != {"axis"}:
            return None
        from_axis = [off_axis(s[1], axes[0][1:]) for s in surfaces]
        return max([max(from_axis) - min(from_axis), *(size(cross(s[2], axes[0][2])) for s in surfaces)])
    return None


def faults(part, solid):
    """What is wrong with the tolerances of one part."""
    found, datums = [], {}
    sizes = {d["name"]: d["value"] for d in part["dimensions"]}

    def surfaces(entry):
        there = [solid.find(s) for s in entry["surfaces"]]
        if not there or None in there:
            found.append(f"{part['name']}: {entry['of']} is not on the solid")
        for told in entry["surfaces"]:
            known = sizes.get(entry["of"])
            if told["kind"] == "cylinder" and known is not None and abs(known - told["diameter_mm"]) > LENGTH:
                found.append(f"{part['name']}: {entry['of']} is {told['diameter_mm']}, not {known}")
        return [s for s in there if s]

    for datum in part.get("datums", []):
        datums[datum["letter"]] = surfaces(datum)
    used = set()
    for control in part.get("controls", []):
        name = f"{part['name']}: {control['characteristic']} of {control['of']}"
        here, letters = surfaces(control), control["datums"]
        used.update(letters)
        if missing := [letter for letter in letters if not datums.get(letter)]:
            found.append(f"{name}: datums {missing} are not defined")
            continue
        if any(len(datums[letter]) != 1 for letter in letters):
            found.append(f"{name}: a datum is more than one surface")
        off = deviation(control["characteristic"], here, [datums[letter][0] for letter in letters]) if here else 0.0
        if off is None or off > LENGTH:
            found.append(f"{name}: off by {off}")
        if not 0.004 < control["value_mm"] < 0.5:
            found.append(f"{name}: {control['value_mm']} mm is no workshop tolerance")
    if used != set(datums):
        found.append(f"{part['name']}: datums {sorted(set(datums) ^ used)} are not used")
    return found


@pytest.fixture(scope="module")
def controlled(sample):
    """Parts with tolerances of a sample, with their solids."""
    _, folder, manifest = sample
    parts = [p for p in manifest["parts"] if p.get("controls")]
    return folder, [(p, Solid(folder / "step" / f"{p['name']}.step")) for p in parts]


def test_every_tolerance_names_surfaces_of_the_solid_that_keep_it(controlled):
    _, parts = controlled
    assert len(parts) > 10
    wrong = [fault for part, solid in parts for fault in faults(part, solid)]
    assert not wrong, wrong


def test_a_wrong_surface_or_datum_is_found(controlled):
    """The check itself: what is told of another surface, place or relation must not pass."""
    _, parts = controlled
    for part, solid in parts:
        for i, control in enumerate(part["controls"]):
            moved = copy.deepcopy(part)
            moved["controls"][i]["surfaces"][0]["at_mm"] = [v + 0.01 for v in control["surfaces"][0]["at_mm"]]
            assert faults(moved, solid), f"{part['name']}: {control['of']} moved"
            swap = {"parallelism": "perpendicularity", "perpendicularity": "parallelism"}
            if control["characteristic"] in swap:
                turned = copy.deepcopy(part)
                turned["controls"][i]["characteristic"] = swap[control["characteristic"]]
                assert faults(turned, solid), f"{part['name']}: {control['of']} turned"


def test_the_table_holds_every_tolerance_and_datum(controlled):
    folder, parts = controlled
    with open(folder / "tables" / "geometry.csv", newline="") as file:
        rows = list(csv.DictReader(file))
    told = sorted((r["part"], r["characteristic"], r["of"], r["datums"]) for r in rows)
    wanted = [(p["name"], c["characteristic"], c["of"], " ".join(c["datums"])) for p, _ in parts for c in p["controls"]]
    wanted += [(p["name"], "datum", d["of"], d["letter"]) for p, _ in parts for d in p.get("datums", [])]
    assert told == sorted(wanted)


def test_each_frame_and_datum_stands_on_its_sheet_once(controlled):
    folder, parts = controlled
    for part, _ in parts:
        sheet = (folder / "drawings" / f"{part['name']}.svg").read_text()
        for letter in (d["letter"] for d in part.get("datums", [])):
            assert sheet.count(f"datum {letter}") == 1, f"{part['name']}: datum {letter}"
        for c in part["controls"]:
            name = f"{c['characteristic']} of {c['of']}"
            assert sheet.count(f'"{name}"') == 1, f"{part['name']}: {name}"
