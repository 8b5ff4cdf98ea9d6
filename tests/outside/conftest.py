"""Shared by all outside checks: the program under test and the folders it builds.

The outside readers are OpenCASCADE (PyPI: cadquery-ocp), ezdxf and jsonschema; versions are pinned in
tests/requirements.txt. `bash tests/run.sh` installs them and builds the program; SWEPT names another one.
"""

import itertools
import json
import os
import pathlib
import subprocess

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
SWEPT = os.environ.get("SWEPT", str(ROOT / "target" / "release" / "swept"))
SAMPLES = sorted(p for p in (ROOT / "sample-designs").glob("*.toml"))


def swept(*arguments, code=0):
    """Runs the program and expects an exit code; gives (stdout, stderr)."""
    done = subprocess.run([SWEPT, *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == code, f"swept {arguments}: {done.returncode}\n{done.stdout}\n{done.stderr}"
    return done.stdout, done.stderr


def build(design, out, *more):
    """Builds a design into `out` and gives its folder and manifest."""
    swept("build", design, "--out", out, "--quiet", *more)
    return built_in(out)


def built_in(out):
    """Folder and manifest of the one engine that was built into `out`."""
    folder = next(p for p in pathlib.Path(out).iterdir() if (p / "build.json").exists())
    return folder, json.loads((folder / "build.json").read_text())


def settled(design, folder):
    """The design with what it leaves open found once and written down; itself where it leaves nothing open."""
    written = folder / design.name
    swept("size", design, "--quiet", "--write-settled", written, "--set", "model.samples=0")
    return written


@pytest.fixture(scope="session", params=SAMPLES, ids=lambda p: p.stem)
def sample(request, tmp_path_factory):
    """Each sample design, built once: (design, folder, manifest)."""
    out = tmp_path_factory.mktemp(request.param.stem)
    design = settled(request.param, tmp_path_factory.mktemp("settled"))
    folder, manifest = build(design, out)
    return design, folder, manifest


def meant_to_overlap(manifest):
    """Pairs of instances that share metal on purpose: threads, press fits."""
    parts = {frozenset(o["parts"]) for o in manifest["overlaps"]}
    both = itertools.combinations(manifest["instances"], 2)
    return {frozenset((a["name"], b["name"])) for a, b in both if frozenset((a["part"], b["part"])) in parts}
