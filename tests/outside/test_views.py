"""Every view of every drawing against the hidden-line projection of the same STEP by OpenCASCADE.

The paths of an SVG sheet say from where the part is seen (data-right, data-up), where the origin of the view lies, its scale
and the depth of a cut. Edges that OpenCASCADE sees must be drawn, and what is drawn must be seen by it, both within 0.02 mm of
the part. A full section whose features are turned into its plane (ISO 128-3) has no one projection: each of its lines must
lie in the section of the part at the angle of one of its holes, or be a shoulder seen beyond it.
"""

import math
import re

import numpy as np
import shapely
import svgelements
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Section
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakeWire
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakePrism
from OCP.GC import GC_MakeArcOfCircle, GC_MakeSegment
from OCP.GeomAbs import GeomAbs_Circle
from OCP.GCPnts import GCPnts_QuasiUniformDeflection
from OCP.gp import gp_Ax2, gp_Dir, gp_Lin, gp_Pln, gp_Pnt, gp_Vec
from OCP.IntCurvesFace import IntCurvesFace_ShapeIntersector
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import (
    HLRBRep_Algo,
    HLRBRep_HLRToShape,
    HLRBRep_OutLine,
    HLRBRep_Rg1Line,
    HLRBRep_RgNLine,
    HLRBRep_Sharp,
)
from OCP.TopAbs import TopAbs_EDGE
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

import occ

NEAR = 0.02
STEP = 0.4


def numbers(text):
    return np.array([float(x) for x in text.split()])


def groups(svg):
    """Name of the pen and its paths."""
    for name, body in re.findall(r'<g [^>]*id="([\w-]+)"[^>]*>(.*?)</g>', svg, re.S):
        for path in re.findall(r"<path ([^>]*)/>", body):
            yield name, dict(re.findall(r'([\w-]+)="([^"]*)"', path))


def drawn_views(svg):
    """(attributes, lines) of each view; lines are arrays of points in the plane of the view."""
    found = {}
    for pen, a in groups(svg):
        if "data-view" in a and pen != "hidden-edges":
            key = (a["data-view"], a["data-origin"])
            found.setdefault(key, (a, []))[1].extend(polylines(a))
    return list(found.values())


def polylines(a):
    origin, scale = numbers(a["data-origin"]), float(a["data-scale"])
    lines = []
    for segment in svgelements.Path(a["d"]):
        if isinstance(segment, (svgelements.Move, svgelements.Close)):
            continue
        n = 2 if isinstance(segment, svgelements.Line) else 129
        at = np.array([(p.x, p.y) for p in (segment.point(t) for t in np.linspace(0, 1, n))])
        lines.append((at - origin) * [1, -1] / scale)
    return lines


def sampled(edges):
    """Edges of OpenCASCADE as arrays of points, chords within 2 µm."""
    found = []
    for edge in edges:
        curve = BRepAdaptor_Curve(edge)
        points = GCPnts_QuasiUniformDeflection(curve, 2e-3)
        if points.IsDone() and points.NbPoints() > 1:
            xyz = [points.Value(i + 1) for i in range(points.NbPoints())]
            found.append(np.array([(p.X(), p.Y(), p.Z()) for p in xyz]))
    return found


def edges_of(shape):
    found, explorer = [], TopExp_Explorer(shape, TopAbs_EDGE)
    while explorer.More():
        found.append(TopoDS.Edge(explorer.Current()))
        explorer.Next()
    return found


def frame(a):
    right, up = numbers(a["data-right"]), numbers(a["data-up"])
    return right, up, np.cross(right, up)


def seen(shape, right, towards):
    """Visible lines: (sharp edges and outlines, smooth edges), with x and y of the view and the height towards the eye."""
    algorithm = HLRBRep_Algo()
    algorithm.Add(shape, 0)
    algorithm.Projector(HLRAlgo_Projector(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*towards), gp_Dir(*right))))
    algorithm.Update()
    algorithm.Hide()
    shapes = HLRBRep_HLRToShape(algorithm)
    axes = np.stack([right, np.cross(towards, right), towards], axis=1)

    def lines(kind):
        # in space, where they are exact: on the paper all but lines and circles become chords
        compound = shapes.CompoundOfEdges(kind, True, True)
        if compound is None or compound.IsNull():
            return []
        return [p @ axes for p in sampled(edges_of(compound))]

    must = lines(HLRBRep_Sharp) + lines(HLRBRep_OutLine)
    return must, lines(HLRBRep_Rg1Line) + lines(HLRBRep_RgNLine)


def points_on(lines):
    """Points along polylines, their ends left out (where a line becomes hidden is met from either side)."""
    found = []
    for line in lines:
        steps = np.hypot(*np.diff(line[:, :2], axis=0).T)
        length = steps.sum()
        if length < 4 * NEAR:
            continue
        at = np.concatenate([[0], np.cumsum(steps)])
        n = max(3, int(length / STEP))
        where = np.linspace(NEAR, length - NEAR, n)
        found.append(np.stack([np.interp(where, at, line[:, k]) for k in range(line.shape[1])], axis=1))
    return np.concatenate(found) if found else np.zeros((0, 2))


def astray(points, lines):
    """Points farther than NEAR from all lines."""
    if not len(points):
        return points
    # a line is cut into its chords, so that the tree finds near ones
    chords = np.concatenate([np.stack([l[:-1, :2], l[1:, :2]], axis=1) for l in lines])
    tree = shapely.STRtree(shapely.linestrings(chords))
    places = shapely.points(points[:, :2])
    near = np.unique(tree.query(places, predicate="dwithin", distance=NEAR)[0])
    return np.delete(points, near, axis=0)


def cut_away(shape, towards, depth):
    """The half of a solid that lies behind a plane across the view."""
    size = 1000.0
    z = np.array(towards)
    x = np.array([1.0, 0, 0]) if abs(z[0]) < 0.9 else np.array([0, 1.0, 0])
    x = np.cross(np.cross(z, x), z)
    y = np.cross(z, x)
    corner = z * (depth - size) - x * size / 2 - y * size / 2
    box = BRepPrimAPI_MakeBox(gp_Ax2(gp_Pnt(*corner), gp_Dir(*z), gp_Dir(*x)), size, size, size).Shape()
    common = BRepAlgoAPI_Common(shape, box)
    assert common.IsDone()
    return common.Shape()


def pieces_of(path):
    """Lines and arcs of a loop of a view, y up."""
    return [s for s in svgelements.Path(path) if not isinstance(s, (svgelements.Move, svgelements.Close))]


def wire(path, place):
    """A loop of a view as a wire in space."""
    maker = BRepBuilderAPI_MakeWire()
    for piece in pieces_of(path):
        a, middle, b = (place(piece.point(t)) for t in (0, 0.5, 1))
        straight = isinstance(piece, svgelements.Line)
        curve = GC_MakeSegment(a, b) if straight else GC_MakeArcOfCircle(a, middle, b)
        maker.Add(BRepBuilderAPI_MakeEdge(curve.Value()).Edge())
    return maker.Wire()


def without(shape, a, right, up, towards):
    """What is left of a solid when everything in front of planes is taken away, inside loops of the view."""
    for depth, path in zip(numbers(a["data-cut"]), a["data-within"].split(";")):
        def place(p):
            return gp_Pnt(*(right * p.x - up * p.y + towards * depth))
        face = BRepBuilderAPI_MakeFace(wire(path, place)).Face()
        prism = BRepPrimAPI_MakePrism(face, gp_Vec(*(towards * 1000.0))).Shape()
        cut = BRepAlgoAPI_Cut(shape, prism)
        assert cut.IsDone()
        shape = cut.Shape()
    return shape


def borders(a):
    """Borders of what is taken away, as lines of the view: walls seen on edge there are no edges of the part."""
    loops = a.get("data-within", "").split(";")
    pieces = [piece for path in loops if path for piece in pieces_of(path)]
    return [np.array([(p.x, -p.y) for p in map(piece.point, np.linspace(0, 1, 65))]) for piece in pieces]


def section(shape, point, normal):
    cut = BRepAlgoAPI_Section(shape, gp_Pln(gp_Pnt(*point), gp_Dir(*normal)), False)
    cut.Build()
    assert cut.IsDone()
    return sampled(edges_of(cut.Shape()))


def half_sections(shape, angles):
    """Sections through the axis at several angles, as (z, r) with r on the side of the angle."""
    found = []
    for angle in angles:
        out = np.array([math.cos(angle), math.sin(angle), 0.0])
        for line in section(shape, (0, 0, 0), np.cross(out, [0, 0, 1])):
            found.append(np.stack([line[:, 2], line @ out], axis=1))
    return found


def shoulders(shape):
    """Circles seen on edge behind the cut: straight lines, on both sides of the axis."""
    found = []
    for edge in edges_of(shape):
        curve = BRepAdaptor_Curve(edge)
        if curve.GetType() != GeomAbs_Circle:
            continue
        circle = curve.Circle()
        centre, way, r = circle.Location(), circle.Axis().Direction(), circle.Radius()
        off, z = math.hypot(centre.X(), centre.Y()), centre.Z()
        for side in (1, -1):
            if abs(way.Z()) > 1 - 1e-9:
                found.append(np.array([(z, side * off - r), (z, side * off + r)]))
            elif abs(way.Z()) < 1e-9:
                found.append(np.array([(z - r, side * off), (z + r, side * off)]))
    return found


def open_to_the_eye(shape, points, right, up, towards):
    """Points from which a ray towards the eye meets nothing: the projection sees some edges through metal."""
    rays = IntCurvesFace_ShapeIntersector()
    rays.Load(shape, 1e-6)
    found = []
    for x, y, z in points:
        p = right * x + up * y + towards * (z + 5e-3)
        rays.Perform(gp_Lin(gp_Pnt(*p), gp_Dir(*towards)), 0.0, 1e4)
        if rays.NbPnt() == 0:
            found.append((x, y, z))
    return np.array(found)


def check_turned_section(shape, holes, lines):
    # the first of each group of equal holes is the one that is shown
    first = [h for h in holes if h["label"][1:] in ("", "1")]
    turned = {math.atan2(*h["at_mm"][1::-1]) for h in first if math.hypot(*h["at_mm"][:2]) > 1e-6}
    turned |= {math.atan2(*h["direction"][1::-1]) for h in first if abs(h["direction"][2]) < 0.5}
    angles = {a + k for a in turned | {0.1234} for k in (0, math.pi)}
    return astray(points_on(lines), half_sections(shape, angles) + shoulders(shape))


def limited(points, a):
    """Those inside the circle of a detail; all of a whole view."""
    if "data-limit" not in a:
        return points
    x, y, radius = numbers(a["data-limit"])
    return points[np.hypot(points[:, 0] - x, points[:, 1] - y) < radius - NEAR]


def check(shape, holes, a, lines):
    """(drawn but not there, there but not drawn) in millimetres of the part."""
    up = numbers(a["data-up"])
    # OpenCASCADE takes a minute to halve a piston at a slant: its sections are taken instead
    slanted = a["data-view"] == "section" and not np.isclose(np.abs(up), 1).any()
    if a["data-view"] == "turned-section" or slanted:
        return check_turned_section(shape, holes, lines), []
    right, up, towards = frame(a)
    behind = shape
    if "data-within" in a:
        behind = without(shape, a, right, up, towards)
    elif "data-cut" in a:
        behind = cut_away(shape, towards, float(a["data-cut"]))
    must, may = seen(behind, right, towards)
    missing = astray(limited(points_on(must), a), lines + borders(a))
    return astray(points_on(lines), must + may), open_to_the_eye(behind, missing, right, up, towards)


def test_every_view_is_the_projection_of_the_part(sample):
    _, folder, manifest = sample
    checked = 0
    for part in manifest["parts"]:
        sheet = folder / "drawings" / f"{part['name']}.svg"
        if not sheet.exists():
            continue
        shape = occ.read(folder / "step" / f"{part['name']}.step")
        for a, lines in drawn_views(sheet.read_text()):
            beyond, missing = check(shape, part["holes"], a, lines)
            where = f"{part['name']}, {a['data-view']}"
            assert not len(beyond), f"{where}: drawn, but not seen at {beyond[:3]}"
            assert not len(missing), f"{where}: seen, but not drawn at {missing[:3]}"
            checked += 1
    assert checked > 40
