"""Sheets with several flat parts, read with ezdxf and measured with shapely, which knows nothing of how they were laid."""

import collections
import itertools
import pathlib

import pytest
import shapely
import shapely.geometry
from conftest import SAMPLES, build
from test_cutfiles import CHORD, on, read, ring_of

# the defaults of the keys workshop.sheet_gap, workshop.sheet_width and workshop.sheet_length, mm
GAP, SHEET = 3.0, (300.0, 500.0)


def pieces(path):
    """Every piece of a file as a polygon: rings inside an even number of others are outsides, the rest are holes."""
    rings = [shapely.geometry.Polygon(ring_of(e)) for e in on(read(path), "CUT")]
    shapely.prepare(rings)
    starts = [shapely.geometry.Point(r.exterior.coords[0]) for r in rings]
    around = [[j for j, b in enumerate(rings) if i != j and b.contains(p)] for i, p in enumerate(starts)]
    found = []
    for i, ring in enumerate(rings):
        if len(around[i]) % 2 == 0:
            holes = [r for r, a in zip(rings, around) if i in a and len(a) == len(around[i]) + 1]
            found.append(shapely.geometry.Polygon(ring.exterior, [h.exterior for h in holes]))
    return found


def shelves(boxes, sheet, gap):
    """Sheets that rows of boxes take, the highest first: next-fit decreasing height, in any text on packing."""
    sheets, x, y, row = 1, 0.0, 0.0, 0.0
    for height, width in sorted(((h + gap, w + gap) for w, h in boxes), reverse=True):
        if x + width > sheet[0] - gap:
            x, y, row = 0.0, y + row, 0.0
        if y + height > sheet[1] - gap:
            sheets, x, y, row = sheets + 1, 0.0, 0.0, 0.0
        x, row = x + width, max(row, height)
    return sheets


def look(folder, manifest, gap, sheet):
    """All sheets of a build: no two pieces nearer than the gap, all inside, every piece there, not too many sheets."""
    groups = collections.defaultdict(list)
    for path in sorted((folder / "outlines").glob("nest-*.dxf")):
        document = read(path)
        assert not document.audit().errors and not document.audit().fixes, path
        key = (path.stem.split("mm")[0], path.stem.split("mm", 1)[1].partition("-")[1])
        groups[key].append(path)
    singles = {}
    for part in manifest["parts"]:
        own = [p for p in part["files"] if p.startswith("outlines/") and p.endswith(".dxf")]
        if own:
            singles[part["name"]] = (pieces(folder / own[0])[0], part["quantity"])
    counted = collections.Counter()
    for paths in groups.values():
        boxes = []
        for path in paths:
            laid = pieces(path)
            # pieces whose boxes are far apart are far apart
            far = lambda a, b: shapely.geometry.box(*a.bounds).distance(shapely.geometry.box(*b.bounds)) > gap
            for a, b in (pair for pair in itertools.combinations(laid, 2) if not far(*pair)):
                assert a.distance(b) > gap - 2 * CHORD, f"{path}: two pieces {a.distance(b)} mm apart"
            for piece in laid:
                x0, y0, x1, y1 = piece.bounds
                assert min(x0, y0, sheet[0] - x1, sheet[1] - y1) > gap - CHORD, path
                boxes.append((x1 - x0, y1 - y0))
                counted[name_of(piece, singles)] += 1
        assert len(paths) <= shelves(boxes, sheet, gap), paths
    return counted, {name: count for name, (_, count) in singles.items()}


def name_of(piece, singles):
    """The part whose own cut file has this shape: the same area, length of all edges and number of holes."""
    like = lambda p: (p.area, p.length, len(p.interiors), p.area / p.convex_hull.area)
    found = [name for name, (p, _) in singles.items() if like(p) == pytest.approx(like(piece), rel=1e-4)]
    assert found, "a piece that is no part"
    return found[0]


def test_every_gasket_is_laid_once(sample):
    _, folder, manifest = sample
    counted, wanted = look(folder, manifest, GAP, SHEET)
    gaskets = {j["gasket"] for j in manifest["joints"] if j.get("gasket")}
    assert gaskets <= set(wanted) and gaskets
    # equal gaskets of two names are one shape
    total = lambda names, of: sum(of[n] for n in names)
    assert total(gaskets, counted) == total(gaskets, wanted)
    assert all(counted[name] <= total(wanted, wanted) for name in counted)


def test_small_sheets_with_kerf(tmp_path):
    design = next(p for p in SAMPLES if p.stem == "classroom-engine")
    more = {"kerf": "0.3 mm", "sheet_gap": "1.5 mm", "sheet_width": "200 mm", "sheet_length": "200 mm"}
    sets = itertools.chain.from_iterable(("--set", f"workshop.{k}={v}") for k, v in more.items())
    folder, manifest = build(design, tmp_path, *sets)
    counted, wanted = look(folder, manifest, 1.5, (200.0, 200.0))
    assert sum(counted.values()) == 6, "four gaskets and two rings"
    names = {pathlib.Path(p["path"]).name for p in manifest["files"]}
    assert {f"nest-flexible-graphite-sheet-1mm-{i}-kerf-0.3mm.dxf" for i in (1, 2)} <= names
    # the small gaskets lie in the holes of the large ones: two sheets hold what rows would need three for
    assert not any("1mm-3-kerf" in name for name in names)
