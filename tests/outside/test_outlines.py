"""Cut outlines of the samples through ezdxf, and gaskets against the solids of both their flanges."""

import math

import ezdxf
import pytest

import occ

# Largest distance between the same hole in gasket and flange, in mm.
SAME = 1e-6


def outlines(folder):
    return sorted((folder / "outlines").glob("*.dxf"))


def test_dxf_is_clean_closed_and_in_millimetres(sample):
    _, folder, manifest = sample
    names = {p.stem for p in outlines(folder)}
    assert {j["gasket"] for j in manifest["joints"] if j.get("gasket")} <= names
    for path in outlines(folder):
        drawing = ezdxf.readfile(path)
        audit = drawing.audit()
        assert not audit.errors and not audit.fixes, f"{path.name}: {audit.errors} {audit.fixes}"
        assert drawing.header["$INSUNITS"] == 4 and drawing.header["$MEASUREMENT"] == 1, path.name
        cut = drawing.modelspace().query('*[layer=="CUT"]')
        kinds = {e.dxftype() for e in cut}
        assert kinds <= {"LWPOLYLINE", "CIRCLE"}, f"{path.name}: {kinds}"
        assert all(e.closed for e in cut.query("LWPOLYLINE")), path.name
        assert len(cut) > 0, path.name


def test_svg_outlines_measure_the_same_as_the_dxf(sample):
    """Width and height of the page in mm, and one user unit is one mm."""
    _, folder, _ = sample
    for path in sorted((folder / "outlines").glob("*.svg")):
        head = path.read_text().split("<svg", 1)[1].split(">", 1)[0]
        get = lambda key: head.split(f'{key}="', 1)[1].split('"', 1)[0]
        view = [float(x) for x in get("viewBox").split()]
        assert get("width") == f"{get('width')[:-2]}mm" and float(get("width")[:-2]) == pytest.approx(view[2], abs=1e-3)
        assert float(get("height")[:-2]) == pytest.approx(view[3], abs=1e-3), path.name


def dxf_circles(path):
    """Centres of the circles on the cut layer, counted from the lower left corner of the outline."""
    cut = ezdxf.readfile(path).modelspace().query('*[layer=="CUT"]')
    return [(c.dxf.center.x, c.dxf.center.y, c.dxf.radius) for c in cut.query("CIRCLE")]


def place(instance, point):
    """A point of a part in the engine's frame."""
    z, x = instance["z_axis"], instance["x_axis"]
    y = [z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0]]
    return [o + point[0] * a + point[1] * b + point[2] * c for o, a, b, c in zip(instance["origin_mm"], x, y, z)]


def axes(folder, manifest, part):
    """Where the cylinders of a part with an upright axis stand, in the engine's X and Y."""
    instance = next(i for i in manifest["instances"] if i["part"] == part)
    found = []
    for face in occ.faces(occ.read(folder / "step" / f"{part}.step")):
        if occ.KINDS.get(face.GetType()) == "cylinder":
            p = face.Cylinder().Axis().Location()
            found.append(place(instance, (p.X(), p.Y(), p.Z())))
    return found


def beside(instance, a, b):
    """Distance of two points, seen along the gasket's Z."""
    d = [p - q for p, q in zip(a, b)]
    along = sum(x * z for x, z in zip(d, instance["z_axis"]))
    return math.sqrt(max(sum(x * x for x in d) - along * along, 0.0))


def test_gasket_holes_sit_over_the_holes_of_both_flanges(sample):
    _, folder, manifest = sample
    checked = 0
    for joint in manifest["joints"]:
        if not joint.get("gasket"):
            continue
        gasket = joint["gasket"]
        instance = next(i for i in manifest["instances"] if i["part"] == gasket)
        low = next(p for p in manifest["parts"] if p["name"] == gasket)["bounding_box_mm"][0]
        flanges = [axes(folder, manifest, part) for part in joint["parts"]]
        circles = dxf_circles(folder / "outlines" / f"{gasket}.dxf")
        centres = [place(instance, (x - 5.0 + low[0], y - 5.0 + low[1], 0.0)) for x, y, _ in circles]
        assert len(centres) > len(joint["bolt_pattern_mm"]), "bolt holes and the opening"
        for centre in centres:
            for part, flange in zip(joint["parts"], flanges):
                nearest = min(beside(instance, centre, axis) for axis in flange)
                assert nearest <= SAME or math.dist(centre, place(instance, (0, 0, 0))) < SAME, f"{gasket} and {part}: {nearest}"
                checked += 1
    # an engine with O-rings has two gaskets, hot cap and jacket
    assert checked > 30
