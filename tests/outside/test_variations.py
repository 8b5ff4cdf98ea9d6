"""Random variations of the samples: each is sound, or refused for a reason that is true.

SWEPT_VARIATIONS asks for another number of them, for example 300.
"""

import os
import re

import pytest
from conftest import SAMPLES, build, built_in, meant_to_overlap
from OCP.BRepCheck import BRepCheck_Analyzer

import occ
import variations

COUNT = int(os.environ.get("SWEPT_VARIATIONS", "96"))
LAYOUTS = {re.search(r'layout = "([a-z-]+)"', p.read_text())[1]: p for p in reversed(SAMPLES)}
EACH = COUNT // len(LAYOUTS)


@pytest.fixture(scope="module")
def bases(tmp_path_factory):
    """Sample → what it decides."""
    out = tmp_path_factory.mktemp("bases")
    return {p: variations.decided(build(p, out / p.stem)[1]) for p in LAYOUTS.values()}


def sound(folder, manifest):
    """Every solid valid and of the stated volume; no two share more than 1 mm³, but for pairs that are named."""
    volume = {p["name"]: p["volume_mm3"] for p in manifest["parts"] if p.get("volume_mm3")}
    part_of = {i["name"]: i["part"] for i in manifest["instances"]}
    placed = occ.instances(folder / "step" / "assembly.step")
    seen = set()
    for name, shape in placed.items():
        part = part_of[name]
        if part not in seen:
            seen.add(part)
            assert BRepCheck_Analyzer(shape).IsValid() and len(occ.solids(shape)) == 1, part
            assert occ.volume(shape) == pytest.approx(volume[part], rel=1e-6), part
    assert occ.overlaps(placed, meant_to_overlap(manifest)) == []


@pytest.mark.parametrize("number", range(EACH))
@pytest.mark.parametrize("layout", sorted(LAYOUTS))
def test_a_variation_is_sound_or_refused_for_a_true_reason(layout, number, bases, tmp_path):
    design = LAYOUTS[layout]
    base = bases[design]
    sets = variations.changes(design, base, number)
    more = ("--out", str(tmp_path), "--quiet")
    found = variations.complaints(design, "build", sets, *more)
    if found:
        assert not any(tmp_path.iterdir()), "refused, yet something was written"
        complaint, diagnostic = next(iter(found.items()))
        assert variations.is_true(design, "build", sets, base, complaint, diagnostic, "--dry-run"), diagnostic
        return
    sound(*built_in(tmp_path))
