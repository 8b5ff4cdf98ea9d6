"""Reads the kernel's STEP files with OpenCASCADE and compares what it finds with our own figures.

The files come from the Rust test `kernel`. Either name a folder for both,

    SWEPT_OUTSIDE_DIR=target/outside cargo test --release --test kernel
    SWEPT_OUTSIDE_DIR=target/outside python -m pytest tests/outside/test_step_kernel.py

or leave the variable out, and the first command is run from here into a temporary folder.
Needs `cadquery-ocp` and `pytest`.
"""

import json
import os
import pathlib
import re
import subprocess

import pytest
from OCP.Bnd import Bnd_Box
from OCP.BOPAlgo import BOPAlgo_ArgumentAnalyzer
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import (
    GeomAbs_Cone,
    GeomAbs_Cylinder,
    GeomAbs_Plane,
    GeomAbs_Sphere,
    GeomAbs_Torus,
)
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.STEPControl import STEPControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.collections import Sequence_TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_FACE, TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS
from OCP.XCAFDoc import XCAFDoc_Area, XCAFDoc_ColorGen, XCAFDoc_ColorSurf, XCAFDoc_DocumentTool, XCAFDoc_Volume
from OCP.Quantity import Quantity_Color

ROOT = pathlib.Path(__file__).resolve().parents[2]
KINDS = {
    GeomAbs_Plane: "plane",
    GeomAbs_Cylinder: "cylinder",
    GeomAbs_Cone: "cone",
    GeomAbs_Torus: "torus",
    GeomAbs_Sphere: "sphere",
}
NAMES = [
    "stepped-bush",
    "flange",
    "plate",
    "grooved-block",
    "shaft",
    "tube",
    "crank",
    "rounded",
    "ball",
    "split-ring",
    "points",
]


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    given = os.environ.get("SWEPT_OUTSIDE_DIR")
    if given:
        return pathlib.Path(given)
    made = tmp_path_factory.mktemp("kernel")
    command = ["cargo", "test", "--release", "--test", "kernel"]
    subprocess.run(command, cwd=ROOT, check=True, env={**os.environ, "SWEPT_OUTSIDE_DIR": str(made)})
    return made


@pytest.fixture(scope="session")
def figures(folder):
    return json.loads((folder / "kernel.json").read_text())


def part_figures(figures, name):
    return next(p for p in figures["parts"] if p["name"] == name)


def complaints(checks):
    found = []
    checks.Start()
    while checks.More():
        check = checks.Value()
        found += [check.CFail(i + 1) for i in range(check.NbFails())]
        found += [check.CWarning(i + 1) for i in range(check.NbWarnings())]
        checks.Next()
    return found


def read(path):
    """The one shape of a file, with proof that the reader had nothing to say."""
    reader = STEPControl_Reader()
    assert reader.ReadFile(str(path)) == IFSelect_RetDone
    assert complaints(reader.WS().ModelCheckList(True)) == []
    assert reader.TransferRoots() == 1
    process = reader.WS().TransferReader().TransientProcess()
    assert complaints(process.CheckList(False)) == []
    return reader.OneShape()


def explore(shape, kind):
    found, explorer = [], TopExp_Explorer(shape, kind)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def corners(box):
    low, high = box.CornerMin(), box.CornerMax()
    return [low.X(), low.Y(), low.Z(), high.X(), high.Y(), high.Z()]


def agree(shape, ours):
    """One valid closed solid of elementary faces with our volume, centre, inertia and area."""
    solids = explore(shape, TopAbs_SOLID)
    assert len(solids) == 1 and len(explore(shape, TopAbs_SHELL)) == 1
    assert explore(shape, TopAbs_SHELL)[0].Closed()
    assert BRepCheck_Analyzer(shape, True).IsValid()

    kinds = dict.fromkeys(KINDS.values(), 0)
    for face in explore(shape, TopAbs_FACE):
        kinds[KINDS[BRepAdaptor_Surface(TopoDS.Face(face)).GetType()]] += 1
    assert kinds == ours["faces"]

    props = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, props, 1e-9, True)
    assert props.Mass() == pytest.approx(ours["volume_mm3"], rel=1e-7)
    size = max(h - l for l, h in zip(ours["low"], ours["high"]))
    centre = props.CentreOfMass()
    for theirs, mine in zip((centre.X(), centre.Y(), centre.Z()), ours["centre"]):
        assert theirs == pytest.approx(mine, abs=1e-6 * size)
    matrix = props.MatrixOfInertia()
    scale = max(abs(v) for row in ours["inertia_mm5"] for v in row)
    for i in range(3):
        for j in range(3):
            assert matrix.Value(i + 1, j + 1) == pytest.approx(ours["inertia_mm5"][i][j], abs=1e-6 * scale)
    area = GProp_GProps()
    BRepGProp.SurfaceProperties_s(shape, area, 1e-9)
    assert area.Mass() == pytest.approx(ours["area_mm2"], rel=1e-7)


def faulty(shape):
    """Whether any face, edge or vertex runs into another."""
    analyzer = BOPAlgo_ArgumentAnalyzer()
    analyzer.SetShape1(shape)
    analyzer.ArgumentTypeMode = True
    analyzer.SelfInterMode = True
    analyzer.SmallEdgeMode = True
    analyzer.Perform()
    return analyzer.HasFaulty()


@pytest.mark.parametrize("ending", ["step", "ap242.step"])
@pytest.mark.parametrize("name", NAMES)
def test_part_is_one_valid_solid_with_our_figures(folder, figures, name, ending):
    agree(read(folder / f"{name}.{ending}"), part_figures(figures, name))


@pytest.mark.parametrize("name", [*NAMES, "assembly"])
def test_text_of_the_file(folder, name):
    """ISO 10303-21 text: references resolve, and each edge is run twice, once each way."""
    text = (folder / f"{name}.step").read_text(encoding="ascii")
    data = text.split("DATA;")[1].replace("\n", "")
    entities = dict(re.findall(r"#(\d+)=(.*?);(?=#|ENDSEC)", data))
    assert len(entities) == data.count("=")
    used = {r for body in entities.values() for r in re.findall(r"#(\d+)", body)}
    assert used <= set(entities)
    senses = {}
    for body in entities.values():
        oriented = re.match(r"ORIENTED_EDGE\('',\*,\*,#(\d+),\.([TF])\.\)", body)
        if oriented:
            senses.setdefault(oriented[1], []).append(oriented[2])
    edges = {i for i, body in entities.items() if body.startswith("EDGE_CURVE")}
    assert set(senses) == edges and all(sorted(s) == ["F", "T"] for s in senses.values())
    for body in entities.values():
        if body.startswith("ADVANCED_FACE"):
            bounds = re.findall(r"#(\d+)", body.split("(", 2)[2].split(")")[0])
            kinds = [entities[b].split("(")[0] for b in bounds]
            assert kinds.count("FACE_OUTER_BOUND") == 1
    assert all(len(line) < 160 for line in text.splitlines())
    assert "-0.," not in text and "-0.)" not in text


def test_random_recipes_that_the_kernel_accepts_are_sound(folder, figures):
    wrong = []
    for trial in figures["trials"]:
        shape = read(folder / f"{trial['name']}.step")
        try:
            agree(shape, trial)
            assert not faulty(shape), "runs into itself"
        except AssertionError as error:
            wrong.append((trial["name"], str(error)[:300]))
    assert wrong == []


@pytest.mark.parametrize("name", NAMES)
def test_bounding_box(folder, figures, name):
    ours = part_figures(figures, name)
    box = Bnd_Box()
    BRepBndLib.AddOptimal_s(read(folder / f"{name}.step"), box, False, False)
    box.SetGap(0.0)
    assert corners(box) == pytest.approx(ours["low"] + ours["high"], abs=2e-5)


@pytest.mark.parametrize("name", NAMES)
def test_no_face_runs_into_another(folder, name):
    assert not faulty(read(folder / f"{name}.step"))


def document(path):
    doc = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(True)
    reader.SetMatMode(True)
    reader.SetPropsMode(True)
    assert reader.ReadFile(str(path)) == IFSelect_RetDone
    assert reader.Transfer(doc)
    return doc


def label_name(label):
    attribute = TDataStd_Name()
    assert label.FindAttribute(TDataStd_Name.GetID_s(), attribute)
    return attribute.Get().ToExtString()


def test_assembly_names_and_places_every_instance(folder, figures):
    doc = document(folder / "assembly.step")
    tool = XCAFDoc_DocumentTool.ShapeTool_s(doc.Main())
    roots = Sequence_TDF_Label()
    tool.GetFreeShapes(roots)
    names = [label_name(roots.Value(i + 1)) for i in range(roots.Length())]
    assembly = next(roots.Value(i + 1) for i, n in enumerate(names) if n == "engine")
    components = Sequence_TDF_Label()
    tool.GetComponents_s(assembly, components)
    found = []
    for i in range(components.Length()):
        component, referred = components.Value(i + 1), TDF_Label()
        assert tool.GetReferredShape_s(component, referred)
        found.append({"name": label_name(component), "part": label_name(referred)})
    assert found == figures["instances"]


def test_assembly_places(folder, figures):
    doc = document(folder / "assembly.step")
    tool = XCAFDoc_DocumentTool.ShapeTool_s(doc.Main())
    roots = Sequence_TDF_Label()
    tool.GetFreeShapes(roots)
    labels = [roots.Value(i + 1) for i in range(roots.Length())]
    assembly = next(l for l in labels if label_name(l) == "engine")
    components = Sequence_TDF_Label()
    tool.GetComponents_s(assembly, components)
    shapes = {label_name(components.Value(i + 1)): tool.GetShape_s(components.Value(i + 1))
              for i in range(components.Length())}

    def box(name):
        b = Bnd_Box()
        BRepBndLib.AddOptimal_s(shapes[name], b, False, False)
        b.SetGap(0.0)
        return corners(b)

    assert box("upper flange") == pytest.approx([-30, -30, 70, 30, 30, 80], abs=1e-5)
    assert box("drive shaft") == pytest.approx([0, 92, -8, 60, 108, 8], abs=1e-5)


def test_colour_and_material_of_a_part(folder):
    doc = document(folder / "flange.step")
    tool = XCAFDoc_DocumentTool.ShapeTool_s(doc.Main())
    roots = Sequence_TDF_Label()
    tool.GetFreeShapes(roots)
    label = roots.Value(1)
    assert roots.Length() == 1 and label_name(label) == "flange"
    colours = XCAFDoc_DocumentTool.ColorTool_s(doc.Main())
    colour = Quantity_Color()
    shape = tool.GetShape_s(label)
    assert colours.GetColor(shape, XCAFDoc_ColorSurf, colour) or colours.GetColor(shape, XCAFDoc_ColorGen, colour)
    materials = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.MaterialTool_s(doc.Main()).GetMaterialLabels(materials)
    assert materials.Length() == 1


def test_volume_and_area_come_along_for_checking(folder, figures):
    doc = document(folder / "flange.step")
    roots = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(doc.Main()).GetFreeShapes(roots)
    volume, area = XCAFDoc_Volume(), XCAFDoc_Area()
    assert roots.Value(1).FindAttribute(XCAFDoc_Volume.GetID_s(), volume)
    assert roots.Value(1).FindAttribute(XCAFDoc_Area.GetID_s(), area)
    ours = part_figures(figures, "flange")
    assert volume.Get() == pytest.approx(ours["volume_mm3"], rel=1e-12)
    assert area.Get() == pytest.approx(ours["area_mm2"], rel=1e-12)
