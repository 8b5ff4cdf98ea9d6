"""Reading STEP with OpenCASCADE, with every complaint of the reader kept."""

import itertools

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepBndLib import BRepBndLib
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
from OCP.collections import Sequence_TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_FACE, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

KINDS = {
    GeomAbs_Plane: "plane",
    GeomAbs_Cylinder: "cylinder",
    GeomAbs_Cone: "cone",
    GeomAbs_Torus: "torus",
    GeomAbs_Sphere: "sphere",
}


def read(path):
    """One shape from a STEP file; the reader must have nothing to say against it."""
    reader = STEPControl_Reader()
    assert reader.ReadFile(str(path)) == IFSelect_RetDone, path
    model = reader.WS().Model()
    loading = model.GlobalCheck(True)
    assert loading.NbFails() == 0 and loading.NbWarnings() == 0, path
    for i in range(1, model.NbEntities() + 1):
        check = model.Check(i, True)
        assert check.NbFails() == 0 and check.NbWarnings() == 0, f"{path}: entity {i}"
    assert reader.TransferRoots() > 0, path
    assert reader.WS().TransferReader().LastCheckList().IsEmpty(True), f"{path}: complaints in transfer"
    return reader.OneShape()


def solids(shape):
    found, explorer = [], TopExp_Explorer(shape, TopAbs_SOLID)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def faces(shape):
    found, explorer = [], TopExp_Explorer(shape, TopAbs_FACE)
    while explorer.More():
        found.append(BRepAdaptor_Surface(TopoDS.Face(explorer.Current())))
        explorer.Next()
    return found


def volume(shape):
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, properties, 1e-9)
    return properties.Mass()


def box(shape):
    bounds = Bnd_Box()
    BRepBndLib.AddOptimal_s(shape, bounds, False, False)
    return bounds


def instances(path):
    """Name → placed solid of every instance of an assembly file."""
    document = TDocStd_Document(TCollection_ExtendedString("doc"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    assert reader.ReadFile(str(path)) == IFSelect_RetDone, path
    assert reader.Transfer(document), path
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    roots = Sequence_TDF_Label()
    tool.GetFreeShapes(roots)
    assert roots.Length() == 1, "one root: the assembly"
    parts = Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetComponents_s(roots.Value(1), parts, False)
    found = {}
    for i in range(1, parts.Length() + 1):
        label = parts.Value(i)
        name = TDataStd_Name()
        assert label.FindAttribute(TDataStd_Name.GetID_s(), name), "an instance without a name"
        name = name.Get().ToExtString()
        assert name not in found, f"two instances called {name}"
        found[name] = XCAFDoc_ShapeTool.GetShape_s(label)
    return found


def shared_mm3(a, b):
    """Volume that two solids share, in mm³."""
    common = BRepAlgoAPI_Common(a, b)
    assert common.IsDone()
    return sum(abs(volume(s)) for s in solids(common.Shape()))


def overlaps(placed, allowed, pairs=None):
    """Pairs of placed solids that share more than 1 mm³, but for pairs in `allowed` (frozensets of names)."""
    boxes = {name: box(shape) for name, shape in placed.items()}
    found = []
    for a, b in pairs or itertools.combinations(sorted(placed), 2):
        if frozenset((a, b)) not in allowed and not boxes[a].IsOut(boxes[b]):
            shared = shared_mm3(placed[a], placed[b])
            if shared > 1.0:
                found.append((a, b, shared))
    return found


def distance_mm(a, b):
    """Least distance of two solids, in mm; 0 where they touch or share metal."""
    found = BRepExtrema_DistShapeShape(a, b)
    assert found.IsDone()
    return found.Value()
