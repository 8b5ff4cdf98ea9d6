"""Prints of every sample: opened by trimesh, measured against the STEP of the same shape as OpenCASCADE reads it.

Sources: trimesh (readers of 3MF and binary STL, watertightness, winding, volume), OpenCASCADE (volume, surfaces), the 3MF core
specification 1.3 (unit, object, content types) read with zipfile and ElementTree.
"""

import csv
import io
import itertools
import math
import xml.etree.ElementTree as ElementTree
import zipfile

import numpy as np
import pytest
import trimesh
from conftest import SAMPLES, build
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.gp import gp_Ax3, gp_Cylinder, gp_Dir, gp_Pnt, gp_Trsf
from OCP.TopLoc import TopLoc_Location

import occ

CHORD_MM = 0.02
CORE = "{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"


def vector(p):
    return np.array([p.X(), p.Y(), p.Z()])


def distances(face, points):
    """Distance of points from the surface of an OpenCASCADE face, in mm."""
    kind = occ.KINDS[face.GetType()]
    surface = getattr(face, kind.capitalize())()
    place = surface.Position()
    away = points - vector(place.Location())
    height = away @ vector(place.Direction())
    if kind == "plane":
        return abs(height)
    radius = np.sqrt(np.maximum((away * away).sum(axis=1) - height**2, 0.0))
    if kind == "cylinder":
        return abs(radius - surface.Radius())
    if kind == "cone":
        half = surface.SemiAngle()
        return abs((radius - surface.RefRadius()) * np.cos(half) - height * np.sin(half))
    if kind == "sphere":
        return abs(np.hypot(radius, height) - surface.Radius())
    return abs(np.hypot(radius - surface.MajorRadius(), height) - surface.MinorRadius())


def far_points(faces, mesh):
    """Middles of edges and of triangles that lie farther from every surface of the solid than the chord error."""
    corners = mesh.triangles
    points = np.vstack([0.5 * (corners[:, i] + corners[:, (i + 1) % 3]) for i in range(3)] + [corners.mean(axis=1)])
    for face in faces:
        points = points[distances(face, points) > CHORD_MM]
        if not len(points):
            break
    return points


def step_of(folder, aid):
    """The exact shape of a print: a trial print is a part of the engine and has its STEP there."""
    home = "step" if aid["kind"] == "trial print" else "prints"
    return folder / home / f"{aid['name']}.step"


def standing_bounds(bounds, stands):
    """Bounds of a part as it stands, upright or turned over about X."""
    sign = stands["z_axis"][2]
    corners = np.array(bounds) * [1, sign, sign] + stands["origin_mm"]
    return [corners.min(axis=0), corners.max(axis=0)]


def test_every_print_opens_is_closed_and_true(sample):
    _, folder, manifest = sample
    made = [a for a in manifest["aids"] if not a.get("left_out")]
    assert len(made) >= 8
    for aid in made:
        shape = occ.read(step_of(folder, aid))
        bounds = aid["bounding_box_mm"]
        if aid["kind"] == "trial print":
            # the part as it stands on the bed
            shape = placed(shape, aid["stands"])
            bounds = standing_bounds(bounds, aid["stands"])
            assert bounds[0][2] == pytest.approx(0.0, abs=CHORD_MM), aid["name"]
        assert BRepCheck_Analyzer(shape).IsValid() and len(occ.solids(shape)) == 1, aid["name"]
        assert occ.volume(shape) == pytest.approx(aid["volume_mm3"], rel=1e-6), aid["name"]
        faces = occ.faces(shape)
        for ending in ("3mf", "stl"):
            path = folder / "prints" / f"{aid['name']}.{ending}"
            mesh = trimesh.load_mesh(path)
            assert mesh.is_watertight and mesh.is_winding_consistent, path
            assert mesh.volume == pytest.approx(aid["volume_mm3"], rel=2e-3), path
            assert len(mesh.faces) == aid["triangles"], path
            assert np.allclose(mesh.bounds, bounds, atol=CHORD_MM), path
        assert len(far_points(faces, mesh)) == 0, aid["name"]


def test_the_chord_check_sees_a_coarse_mesh():
    """A cylinder of 20 mm with 36 sides is 0.038 mm off in the middle of a side."""
    coarse = trimesh.creation.cylinder(radius=10.0, height=4.0, sections=36)

    class Round:
        def GetType(self):
            return next(k for k, name in occ.KINDS.items() if name == "cylinder")

        def Cylinder(self):
            return gp_Cylinder(gp_Ax3(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), 10.0)

    assert len(far_points([Round()], coarse)) > 0


def test_a_3mf_is_in_millimetres_named_and_without_a_clock(sample):
    _, folder, manifest = sample
    files = sorted((folder / "prints").glob("*.3mf"))
    assert sorted(p.stem for p in files) == sorted(a["name"] for a in manifest["aids"] if not a.get("left_out"))
    for path in files:
        with zipfile.ZipFile(path) as package:
            assert package.testzip() is None
            assert {i.date_time for i in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}, path
            assert package.namelist()[0] == "[Content_Types].xml"
            relations = ElementTree.fromstring(package.read("_rels/.rels"))
            model = ElementTree.fromstring(package.read(relations[0].attrib["Target"].lstrip("/")))
        assert model.attrib["unit"] == "millimeter"
        (only,) = model.iter(f"{CORE}object")
        assert only.attrib["name"] == path.stem and only.attrib["type"] == "model"
        told = next(m.text for m in model.iter(f"{CORE}metadata") if m.attrib["name"] == "Description")
        aid = next(a for a in manifest["aids"] if a["name"] == path.stem)
        assert all(text in told for text in [aid["title"], *aid["notes"]])
        assert [i.attrib["objectid"] for i in model.iter(f"{CORE}item")] == [only.attrib["id"]]


def test_aids_have_a_table_of_their_own_and_are_no_parts(sample):
    _, folder, manifest = sample
    parts = {p["name"] for p in manifest["parts"]}
    placed = {i["part"] for i in manifest["instances"]}
    rows = list(csv.DictReader(io.StringIO((folder / "tables" / "aids.csv").read_text())))
    assert [r["name"] for r in rows] == [a["name"] for a in manifest["aids"]]
    for aid in manifest["aids"]:
        assert set(aid["of"]) <= parts
        if aid["kind"] != "trial print":
            assert aid["name"] not in parts | placed
        if not aid.get("left_out"):
            assert aid["cautions"] and aid["notes"], aid["name"]
            assert all((folder / path).exists() for path in aid["files"])
        else:
            assert not aid["left_out"].startswith("shape:"), aid
    wanted = {j["gasket"] for j in manifest["joints"] if j.get("gasket")}
    templates = itertools.chain.from_iterable(a["of"] for a in manifest["aids"] if a["kind"] == "knife template")
    assert set(templates) == wanted


def placed(shape, lies):
    """A jig where it lies on its part."""
    origin, z, x = (lies[key] for key in ("origin_mm", "z_axis", "x_axis"))
    to = gp_Ax3(gp_Pnt(*origin), gp_Dir(*z), gp_Dir(*x))
    move = gp_Trsf()
    move.SetTransformation(to, gp_Ax3())
    return shape.Moved(TopLoc_Location(move), False)


def test_jigs_fit_their_parts_and_their_bushes_stand_over_the_holes(sample):
    """Laid on its part a jig shares no metal with it, touches it, and each of its bush holes has a bore of the part on its
    axis."""
    _, folder, manifest = sample
    jigs = [a for a in manifest["aids"] if a["kind"] == "drilling jig" and not a.get("left_out")]
    assert len(jigs) >= 4
    for aid in jigs:
        part = occ.read(folder / "step" / f"{aid['of'][0]}.step")
        jig = placed(occ.read(step_of(folder, aid)), aid["lies"])
        shared = occ.overlaps({"part": part, "jig": jig}, set())
        assert shared == [], aid["name"]
        assert occ.distance_mm(part, jig) < 1e-6, aid["name"]
        bores = [f.Cylinder().Axis() for f in occ.faces(part) if occ.KINDS[f.GetType()] == "cylinder"]
        axes = {}
        for face in occ.faces(jig):
            if occ.KINDS[face.GetType()] == "cylinder" and math.isclose(2 * face.Cylinder().Radius(), aid["bush_mm"], abs_tol=1e-6):
                axes[tuple(np.round(vector(face.Cylinder().Axis().Location())[:2], 4))] = face.Cylinder().Axis()
        assert len(axes) >= 3, aid["name"]
        for axis in axes.values():
            assert any(axis.IsCoaxial(b, 1e-6, 1e-4) or axis.IsCoaxial(b.Reversed(), 1e-6, 1e-4) for b in bores), aid["name"]


@pytest.mark.parametrize("seal", ["lip-ring"])
def test_a_ring_with_lips_is_printed(seal, tmp_path):
    design = next(p for p in SAMPLES if p.stem == "allotment-pump")
    folder, manifest = build(design, tmp_path, "--set", f"piston.seal={seal}", "--set", "cold_end.temperature=40 °C")
    ring = next(a for a in manifest["aids"] if a["name"] == "piston-ring")
    mesh = trimesh.load_mesh(folder / "prints" / "piston-ring.3mf")
    assert mesh.is_watertight and mesh.volume == pytest.approx(ring["volume_mm3"], rel=2e-3)
    assert len(far_points(occ.faces(occ.read(step_of(folder, ring))), mesh)) == 0
