"""Cut files read by outside programs: ezdxf (DXF), svgelements (SVG), shapely (offsets).

The samples are written by `tests/outside_cutfiles.rs` into the folder named by SWEPT_OUTSIDE_DIR; without
it, the samples are written into a temporary folder first.
"""

import json
import math
import os
import pathlib
import subprocess
import xml.etree.ElementTree as ElementTree

import ezdxf
import ezdxf.math
import pytest
import shapely
import shapely.geometry
import svgelements

ROOT = pathlib.Path(__file__).resolve().parents[2]
SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    """Folder with the samples, written afresh."""
    where = os.environ.get("SWEPT_OUTSIDE_DIR") or str(tmp_path_factory.mktemp("outside"))
    done = pathlib.Path(where) / "cutfiles"
    if not (done / "expected.json").exists():
        command = ["cargo", "test", "--release", "--quiet", "--test", "outside_cutfiles"]
        subprocess.run(command, cwd=ROOT, check=True, env={**os.environ, "SWEPT_OUTSIDE_DIR": where})
    return done


@pytest.fixture(scope="session")
def samples(folder):
    """What each sample should hold."""
    found = json.loads((folder / "expected.json").read_text())
    assert len(found) == 28
    return found


def read(path):
    """A DXF read strictly: no recovery mode."""
    return ezdxf.readfile(path)


def on(document, layer):
    """Entities on a layer."""
    return [e for e in document.modelspace() if e.dxf.layer == layer]


# Chords stand in for arcs in the outside geometry library; they leave the arcs by no more than this [mm].
CHORD = 1e-4


def ring_of(entity):
    """Points along a closed entity. Arcs by ezdxf's own bulge_to_arc (its paths turn them into splines)."""
    if entity.dxftype() == "CIRCLE":
        return arc_points(entity.dxf.center, entity.dxf.radius, 0.0, 2 * math.pi)
    points = []
    vertices = entity.get_points("xyb")
    for (x, y, bulge), (u, v, _) in zip(vertices, vertices[1:] + vertices[:1]):
        if bulge == 0.0:
            points.append((x, y))
            continue
        centre, start, end, radius = ezdxf.math.bulge_to_arc((x, y), (u, v), bulge)
        turn = (end - start) % (2 * math.pi)
        if bulge > 0.0:
            arc = arc_points(centre, radius, start, turn)
        else:
            arc = arc_points(centre, radius, end, -turn)
        assert math.dist(arc[0], (x, y)) < 1e-6
        points += arc
    return points


def arc_points(centre, radius, start, turn):
    """Points along an arc but its last, chords within CHORD of it."""
    steps = math.ceil(abs(turn) / (2 * math.acos(1 - CHORD / radius)))
    turns = [start + turn * i / steps for i in range(steps)]
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in turns]


def material(document, origin=(0.0, 0.0)):
    """The part as a shapely polygon, in its own coordinates."""
    rings = [[(x - origin[0], y - origin[1]) for x, y in ring_of(e)] for e in on(document, "CUT")]
    return shapely.geometry.Polygon(rings[-1], rings[:-1])


def test_audit_finds_nothing_to_report_and_nothing_to_mend(folder):
    files = sorted(folder.glob("*.dxf"))
    assert len(files) == 56
    for path in files:
        auditor = read(path).audit()
        assert [e.message for e in auditor.errors] == [], path.name
        assert [e.message for e in auditor.fixes] == [], path.name


def test_units_version_and_layers(folder, samples):
    for sample in samples:
        new = read(folder / f"{sample['stem']}.dxf")
        assert new.dxfversion == "AC1015"
        assert new.header["$INSUNITS"] == 4 and new.header["$MEASUREMENT"] == 1
        old = read(folder / f"{sample['stem']}.r12.dxf")
        assert old.dxfversion == "AC1009"
        for document in (new, old):
            names = {layer.dxf.name: layer.dxf.color for layer in document.layers}
            assert {"CUT": 5, "PUNCH": 6, "MARK": 3, "REFERENCE": 8}.items() <= names.items()
            used = {e.dxf.layer for e in document.modelspace()}
            assert used <= {"CUT", "PUNCH", "MARK", "REFERENCE"}


def test_every_contour_is_closed_and_of_the_right_kind(folder, samples):
    for sample in samples:
        cut = on(read(folder / f"{sample['stem']}.dxf"), "CUT")
        kinds = [e.dxftype() for e in cut]
        assert kinds.count("CIRCLE") == sample["circles"], sample["stem"]
        assert kinds.count("LWPOLYLINE") == sample["paths"], sample["stem"]
        assert len(kinds) == sample["circles"] + sample["paths"]
        for line in (e for e in cut if e.dxftype() == "LWPOLYLINE"):
            assert line.closed
            points = line.get_points("xyb")
            for (x, y, bulge), (u, v, _) in zip(points, points[1:] + points[:1]):
                assert math.hypot(u - x, v - y) > 1e-6, "no piece without length, no repeated corner"
                assert abs(bulge) <= 1.0 + 1e-9


def test_the_old_version_has_lines_arcs_and_circles_that_meet(folder, samples):
    for sample in samples:
        cut = on(read(folder / f"{sample['stem']}.r12.dxf"), "CUT")
        assert {e.dxftype() for e in cut} <= {"LINE", "ARC", "CIRCLE"}
        ends = []
        for e in cut:
            if e.dxftype() == "LINE":
                ends += [e.dxf.start, e.dxf.end]
            elif e.dxftype() == "ARC":
                ends += [e.start_point, e.end_point]
        for end in ends:
            assert sum(end.isclose(other, abs_tol=1e-6) for other in ends) == 2, sample["stem"]


def test_direction_of_travel_and_order(folder, samples):
    for sample in samples:
        cut = on(read(folder / f"{sample['stem']}.dxf"), "CUT")
        for i, e in enumerate(cut):
            if e.dxftype() == "LWPOLYLINE":
                outline = i == len(cut) - 1
                assert shapely.geometry.LinearRing(ring_of(e)).is_ccw == outline, sample["stem"]


def test_area_and_place(folder, samples):
    for sample in samples:
        part = material(read(folder / f"{sample['stem']}.dxf"))
        assert part.is_valid, sample["stem"]
        assert part.area == pytest.approx(sample["area_mm2"], abs=CHORD * part.length), sample["stem"]
        assert part.bounds[:2] == pytest.approx((5.0, 5.0), abs=CHORD)


def test_the_f_plate_is_neither_mirrored_nor_turned(folder, samples):
    sample = next(s for s in samples if s["stem"] == "f-plate")
    part = material(read(folder / "f-plate.dxf"), sample["origin_mm"])
    assert part.bounds == (0.0, 0.0, 40.0, 60.0)
    for inside in [(35, 54), (25, 30), (6, 20)]:
        assert part.contains(shapely.geometry.Point(inside)), inside
    for outside in [(35, 30), (35, 6), (25, 42), (6, 6)]:
        assert not part.contains(shapely.geometry.Point(outside)), outside


def test_offsets_agree_with_another_library(folder, samples):
    compared = 0
    for sample in samples:
        if sample["offset_mm"] == 0.0 or sample["punched"]:
            continue
        nominal = next(s for s in samples if s["stem"] == sample["part"])
        before = material(read(folder / f"{nominal['stem']}.dxf"), nominal["origin_mm"])
        after = material(read(folder / f"{sample['stem']}.dxf"), sample["origin_mm"])
        offset = sample["offset_mm"]
        # Every point of the new edge has the right distance from the old one.
        corners = shapely.points([p for ring in [after.exterior, *after.interiors] for p in ring.coords])
        away = shapely.distance(before.boundary, corners)
        assert max(abs(away - offset)) < 2 * CHORD, sample["stem"]
        # Nothing is missing; this library simplifies its input by up to a hundredth of the distance.
        grown = before.buffer(offset, quad_segs=256)
        assert grown.hausdorff_distance(after) < 2 * CHORD + 0.01 * offset, sample["stem"]
        compared += 1
    assert compared >= 14


def test_hole_centres_of_gasket_and_flanges_are_the_same(folder, samples):
    joint = [s for s in samples if s["part"].startswith("joint-") and not s["punched"]]
    assert len(joint) == 9
    for sample in joint:
        document = read(folder / f"{sample['stem']}.dxf")
        # Bore first, then the pattern, as in the recipe.
        circles = [e for e in on(document, "CUT") if e.dxftype() == "CIRCLE"][1:8]
        x0, y0 = sample["origin_mm"]
        found = [(e.dxf.center.x - x0, e.dxf.center.y - y0) for e in circles]
        for (x, y), (u, v) in zip(found, sample["bolt_holes_mm"], strict=True):
            assert math.hypot(x - u, y - v) < 1e-8, sample["stem"]
    patterns = [s["bolt_holes_mm"] for s in joint]
    assert all(p == patterns[0] for p in patterns)


def test_punch_marks_stand_at_the_hole_centres(folder, samples):
    punched = [s for s in samples if s["punched"]]
    assert len(punched) == 4
    for sample in punched:
        arms = on(read(folder / f"{sample['stem']}.dxf"), "PUNCH")
        assert len(arms) == 2 * sample["punched"]
        x0, y0 = sample["origin_mm"]
        middles = [(e.dxf.start + e.dxf.end) / 2 for e in arms]
        for hole in sample["bolt_holes_mm"]:
            near = [m for m in middles if math.hypot(m.x - x0 - hole[0], m.y - y0 - hole[1]) < 1e-8]
            assert len(near) == 2, sample["stem"]


def test_the_reference_line_measures_twenty_millimetres(folder, samples):
    for sample in samples:
        for ending in (".dxf", ".r12.dxf"):
            first = on(read(folder / f"{sample['stem']}{ending}"), "REFERENCE")[0]
            assert (first.dxf.end - first.dxf.start).magnitude == pytest.approx(20.0, abs=1e-9)


def test_svg_shows_the_same_part_at_its_true_size(folder, samples):
    for sample in samples:
        path = folder / f"{sample['stem']}.svg"
        root = ElementTree.parse(path).getroot()
        width, height = sample["page_mm"]
        assert root.get("width") == f"{width:.4f}mm" and root.get("height") == f"{height:.4f}mm"
        assert root.get("viewBox") == f"0 0 {width:.4f} {height:.4f}"
        groups = {g.get("id"): g for g in root.findall(f"{SVG}g")}
        assert list(groups) == ["CUT", "PUNCH", "MARK", "REFERENCE"]
        assert all(g.get("fill") == "none" for g in groups.values())
        rings = [svg_ring(e, height) for e in groups["CUT"]]
        drawn = shapely.geometry.Polygon(rings[-1], rings[:-1])
        assert drawn.is_valid
        part = material(read(folder / f"{sample['stem']}.dxf"))
        assert drawn.hausdorff_distance(part) < 3 * CHORD, sample["stem"]
        for group in groups.values():
            for x, y in (p for e in group for p in svg_ring(e, height)):
                assert -1e-6 <= x <= width + 1e-6 and -1e-6 <= y <= height + 1e-6


def svg_ring(element, height):
    """Points along a circle or path of an SVG, with Y up again."""
    if element.tag == f"{SVG}circle":
        x, y, r = (float(element.get(k)) for k in ("cx", "cy", "r"))
        return arc_points((x, height - y), r, 0.0, 2 * math.pi)
    points = []
    for segment in svgelements.Path(element.get("d")):
        if isinstance(segment, svgelements.Move):
            continue
        steps = 1
        if isinstance(segment, svgelements.Arc):
            steps = math.ceil(abs(segment.sweep) / (2 * math.acos(1 - CHORD / segment.rx)))
        points += [segment.point(i / steps) for i in range(1, steps + 1)]
    return [(p.x, height - p.y) for p in points]
