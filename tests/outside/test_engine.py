"""Every STEP file of every sample through OpenCASCADE, and the assembly over a turn."""

import itertools
import math

import numpy as np
import pytest
from conftest import SAMPLES, build, meant_to_overlap
from OCP.BRepCheck import BRepCheck_Analyzer

import occ

TURN = [15 * i for i in range(24)]


def drawn(manifest):
    return [p for p in manifest["parts"] if p.get("volume_mm3")]


def test_every_part_is_one_valid_solid_of_the_stated_volume(sample):
    _, folder, manifest = sample
    assert len(drawn(manifest)) >= 20
    for part in drawn(manifest):
        shape = occ.read(folder / "step" / f"{part['name']}.step")
        assert BRepCheck_Analyzer(shape).IsValid(), part["name"]
        assert len(occ.solids(shape)) == 1, part["name"]
        assert occ.volume(shape) == pytest.approx(part["volume_mm3"], rel=1e-6), part["name"]


def test_faces_are_elementary_and_as_many_as_stated(sample):
    _, folder, manifest = sample
    for part in drawn(manifest):
        counted = {}
        for face in occ.faces(occ.read(folder / "step" / f"{part['name']}.step")):
            kind = occ.KINDS.get(face.GetType())
            assert kind, f"{part['name']}: a face of kind {face.GetType()}"
            counted[kind] = counted.get(kind, 0) + 1
        assert counted == part["faces"], part["name"]


def test_bounding_boxes_agree(sample):
    _, folder, manifest = sample
    for part in drawn(manifest):
        bounds = occ.box(occ.read(folder / "step" / f"{part['name']}.step"))
        theirs = [bounds.CornerMin(), bounds.CornerMax()]
        for ours, corner in zip(part["bounding_box_mm"], theirs):
            for mine, other in zip(ours, (corner.X(), corner.Y(), corner.Z())):
                assert mine == pytest.approx(other, abs=1e-4), part["name"]


def test_every_bore_that_is_named_is_a_cylinder_of_its_radius(sample):
    """Each hole of the hole table, each step in it and each fitted diameter is found as a cylinder of that radius."""
    _, folder, manifest = sample
    checked = 0
    for part in drawn(manifest):
        shape = occ.read(folder / "step" / f"{part['name']}.step")
        radii = [f.Cylinder().Radius() for f in occ.faces(shape) if occ.KINDS.get(f.GetType()) == "cylinder"]
        wanted = [hole["diameter_mm"] for hole in part["holes"]]
        wanted += [step[0] for hole in part["holes"] for step in hole.get("steps_mm", [])]
        # the height of a ring is the only fitted size that is no diameter
        wanted += [d["value"] for d in part["dimensions"] if d["tolerance"]["kind"] == "fit" and d["name"] != "height"]
        for diameter in wanted:
            assert any(math.isclose(2 * r, diameter, abs_tol=1e-6) for r in radii), f"{part['name']}: {diameter} mm"
            checked += 1
    assert checked > 100


def test_blanks_hold_their_parts(sample):
    _, folder, manifest = sample
    blanks = list((folder / "blanks").glob("*.step"))
    stems = {b.stem for b in blanks}
    assert "piston" in stems and any("crank" in s for s in stems)
    by_name = {p["name"]: p for p in manifest["parts"]}
    for path in blanks:
        shape = occ.read(path)
        assert BRepCheck_Analyzer(shape).IsValid(), path
        low, high = by_name[path.stem]["bounding_box_mm"]
        bounds = occ.box(shape)
        least, most = bounds.CornerMin(), bounds.CornerMax()
        for axis, a, b in zip("XYZ", low, high):
            assert getattr(least, axis)() <= a - 0.9 and getattr(most, axis)() >= b + 0.9, f"{path.stem} along {axis}"


def test_the_assembly_holds_every_instance_by_name(sample):
    _, folder, manifest = sample
    found = occ.instances(folder / "step" / "assembly.step")
    assert sorted(found) == sorted(i["name"] for i in manifest["instances"])
    assert occ.read(folder / "step" / "assembly.step") is not None


def frames(manifest):
    """Instance → its frame: rotation (columns x, y, z) and origin."""
    found = {}
    for i in manifest["instances"]:
        x, z = np.array(i["x_axis"]), np.array(i["z_axis"])
        found[i["name"]] = (np.column_stack([x, np.cross(z, x), z]), np.array(i["origin_mm"]))
    return found


def stands_alike(first, now, a, b):
    """Whether `b` stands to `a` as it stood before: nothing between the two can have changed."""

    def seen_from_a(placed):
        (turn, origin), (other, place) = placed[a], placed[b]
        return turn.T @ other, turn.T @ (place - origin)

    return all(np.allclose(p, q, rtol=0, atol=1e-9) for p, q in zip(seen_from_a(first), seen_from_a(now)))


@pytest.mark.parametrize("angle", TURN)
def test_no_two_made_parts_overlap(sample, angle, tmp_path):
    """At most 1 mm³ of shared volume, but for pairs that build.json names (threads, press fits)."""
    design, _, first = sample
    assert first["crank_angle_deg"] == 0
    folder, manifest = build(design, tmp_path, "--set", f"outputs.crank_angle={angle}°")
    placed = occ.instances(folder / "step" / "assembly.step")
    pairs = list(itertools.combinations(sorted(placed), 2))
    if angle:
        # pairs that stand to each other as at angle 0 were compared there
        before, now = frames(first), frames(manifest)
        pairs = [(a, b) for a, b in pairs if not stands_alike(before, now, a, b)]
        assert pairs, "nothing moves"
    assert occ.overlaps(placed, meant_to_overlap(manifest), pairs) == []


def test_pairs_named_as_overlapping_do_overlap(sample):
    """The list of exceptions holds no pair that would not need it, and the check above can see an overlap."""
    _, folder, manifest = sample
    part_of = {i["name"]: i["part"] for i in manifest["instances"]}
    placed = occ.instances(folder / "step" / "assembly.step")
    assert manifest["overlaps"]
    for exception in manifest["overlaps"]:
        assert exception["reason"]
        pairs = [(a, b) for a, b in itertools.combinations(placed, 2) if {part_of[a], part_of[b]} == set(exception["parts"])]
        assert max(occ.shared_mm3(placed[a], placed[b]) for a, b in pairs) > 1.0, exception


def test_least_clearances_over_the_turn_are_those_of_opencascade(sample, tmp_path):
    """Each pair at the angle at which build.json puts its least clearance: the same distance within 0.01 mm; and nowhere
    else on the turn a smaller one."""
    design, _, manifest = sample
    pairs = manifest["clearances"]
    assert len(pairs) >= 5
    whole_turn = {60.0 * i for i in range(6)}
    for number, angle in enumerate(sorted({p["at_deg"] for p in pairs} | whole_turn)):
        folder, _ = build(design, tmp_path / str(number), "--set", f"outputs.crank_angle={angle}°")
        placed = occ.instances(folder / "step" / "assembly.step")
        for pair in pairs:
            if angle not in whole_turn and angle != pair["at_deg"]:
                continue
            a, b = pair["parts"]
            seen = occ.distance_mm(placed[a], placed[b])
            assert seen >= pair["least_mm"] - 0.01, f"{a} and {b} at {angle}°: {seen} mm"
            if angle == pair["at_deg"]:
                # a pulley counts as the circle around its teeth, which a gap between two of them does not reach
                more = 0.1 if "pulley" in a + b else 0.01
                assert seen <= pair["least_mm"] + more, f"{a} and {b} at {angle}°: {seen} mm"


VARIATIONS = {
    "around-a-bought-can": ["displacer.can_diameter=94 mm", "displacer.can_length=108 mm", "displacer.can_wall=0.3 mm"],
    "three-rings-and-wide-belt": ["piston.rings=3", "drive.belt_section=5M", "drive.belt_width=15 mm"],
    "thin-plate-pipe-thread": ["cooler.plate_thickness=16 mm", "cooler.hose_thread=G1/8", "cold_end.fins=0"],
    "mesh-regenerator": ["regenerator.kind=mesh", "displacer.gap=0.6 mm"],
    "metal-rings": ["piston.seal=metal-ring"],
    "graphite-rings": ["piston.seal=graphite-ring", "piston.rings=3"],
    "o-rings": ["piston.seal=o-ring", "piston.rings=1"],
    "lip-rings": ["piston.seal=lip-ring", "cold_end.temperature=40 °C"],
    "fitted-piston": ["piston.seal=fitted", "piston.material=cast-iron", "block.material=cast-iron"],
    "short-strokes": ["displacer.stroke=24 mm", "piston.stroke=18 mm", "joints.hot_screw=M5"],
}


@pytest.mark.parametrize("name", VARIATIONS)
def test_variations_of_the_pump_are_sound_too(name, tmp_path):
    design = next(p for p in SAMPLES if p.stem == "allotment-pump")
    sets = [word for change in VARIATIONS[name] for word in ("--set", change)]
    folder, manifest = build(design, tmp_path, *sets)
    for part in drawn(manifest):
        shape = occ.read(folder / "step" / f"{part['name']}.step")
        assert BRepCheck_Analyzer(shape).IsValid() and len(occ.solids(shape)) == 1, part["name"]
        assert occ.volume(shape) == pytest.approx(part["volume_mm3"], rel=1e-6), part["name"]
    placed = occ.instances(folder / "step" / "assembly.step")
    assert occ.overlaps(placed, meant_to_overlap(manifest)) == []
