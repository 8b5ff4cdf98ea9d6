//! Triangulation of one face.

use super::MeshError;
use super::chart::Chart;
use super::strip::strip;
use crate::shape::Point3;
use crate::shape::solid::Face;
use spade::handles::FixedFaceHandle;
use spade::{ConstrainedDelaunayTriangulation, HasPosition, Point2, PositionInTriangulation, Triangulation};

/// How far a triangle may lie from its surface, in chord errors of the edges.
const OFF: f64 = 2.0;
/// Rounds of added points; each halves what is too long, and the first points are laid so that few are needed.
const ROUNDS: usize = 12;
/// Coordinates below this count as none: the triangulation refuses numbers that are all but nothing.
const NOTHING: f64 = 1e-12;

/// A place in the plane that knows its point.
#[derive(Clone, Copy)]
struct Corner {
    at: Point2<f64>,
    number: u32,
}

impl HasPosition for Corner {
    type Scalar = f64;
    fn position(&self) -> Point2<f64> {
        self.at
    }
}

type Net = ConstrainedDelaunayTriangulation<Corner>;

fn corner(place: [f64; 2], number: u32) -> Corner {
    let [x, y] = place.map(|c| if c.abs() < NOTHING { 0.0 } else { c });
    Corner { at: Point2::new(x, y), number }
}

/// Adds the triangles of a face whose wires run through the points with these numbers.
pub(super) fn fill(
    face: &Face,
    wires: &[Vec<u32>],
    points: &mut Vec<Point3>,
    chord_mm: f64,
    triangles: &mut Vec<[u32; 3]>,
) -> Result<(), MeshError> {
    let outer: Vec<Point3> = wires.iter().flatten().map(|i| points[*i as usize]).collect();
    let chart = Chart::new(face, &outer, chord_mm);
    let parameters = unrolled(&chart, wires, points);
    let flip = chart.natural != face.orientation();
    let mut add = |[a, b, c]: [u32; 3]| triangles.push(if flip { [a, c, b] } else { [a, b, c] });
    if let ([wire], [places]) = (wires, parameters.as_slice())
        && chart.is_wall()
    {
        let flat: Vec<[f64; 2]> = places.iter().map(|p| chart.flat(*p)).collect();
        if let Some(found) = strip(&flat) {
            found.into_iter().for_each(|t| add(t.map(|i| wire[i])));
            return Ok(());
        }
    }
    let mut corners = Vec::new();
    let mut edges = Vec::new();
    for (wire, places) in wires.iter().zip(&parameters) {
        let first = corners.len();
        corners.extend(wire.iter().zip(places).map(|(i, place)| corner(chart.flat(*place), *i)));
        edges.extend((0..wire.len()).map(|k| [first + k, first + (k + 1) % wire.len()]));
    }
    let (low, high) = box_of(&parameters[0]);
    for place in chart.grid(low, high, chord_mm) {
        let flat = chart.flat(place);
        corners.push(corner(flat, points.len() as u32));
        points.push(chart.lift(flat));
    }
    let given = corners.len();
    let mut clash = false;
    let net = Net::try_bulk_load_cdt(corners, edges, |_| clash = true);
    let crossing = || MeshError::Crossing(chart.words());
    let mut net = net.map_err(|_| crossing())?;
    if clash || net.num_vertices() != given {
        return Err(crossing());
    }
    if !chart.is_flat() {
        refine(&mut net, &chart, points, OFF * chord_mm);
    }
    inside(&net).into_iter().for_each(|f| add(numbers(&net, f)));
    Ok(())
}

/// Parameters along every wire, without jumps; inner wires beside the outer one and not a turn away.
fn unrolled(chart: &Chart, wires: &[Vec<u32>], points: &[Point3]) -> Vec<Vec<[f64; 2]>> {
    let mut middle = None;
    let mut all = Vec::with_capacity(wires.len());
    for wire in wires {
        let mut before = middle;
        let mut places = Vec::with_capacity(wire.len());
        for number in wire {
            let place = chart.parameters(points[*number as usize], before);
            before = Some(place);
            places.push(place);
        }
        if middle.is_none() && !places.is_empty() {
            let (low, high) = box_of(&places);
            middle = Some([0, 1].map(|i| 0.5 * (low[i] + high[i])));
        }
        all.push(places);
    }
    all
}

fn box_of(places: &[[f64; 2]]) -> ([f64; 2], [f64; 2]) {
    let least = |i: usize| places.iter().map(|p| p[i]).fold(f64::INFINITY, f64::min);
    let most = |i: usize| places.iter().map(|p| p[i]).fold(f64::NEG_INFINITY, f64::max);
    ([least(0), least(1)], [most(0), most(1)])
}

/// Adds points where triangles lie farther from the surface than `off_mm`.
fn refine(net: &mut Net, chart: &Chart, points: &mut Vec<Point3>, off_mm: f64) {
    for _ in 0..ROUNDS {
        let far: Vec<Point2<f64>> =
            inside(net).into_iter().filter_map(|f| too_far(net, f, chart, points, off_mm)).collect();
        let mut added = false;
        for at in far {
            let taken = match net.locate(at) {
                PositionInTriangulation::OnFace(_) => false,
                PositionInTriangulation::OnEdge(edge) => net.is_constraint_edge(edge.as_undirected()),
                _ => true,
            };
            if !taken && net.insert(corner([at.x, at.y], points.len() as u32)).is_ok() {
                points.push(chart.lift([at.x, at.y]));
                added = true;
            }
        }
        if !added {
            return;
        }
    }
}

/// Where to add a point in a triangle that lies too far off: in the middle of its longest side that is no edge of the face.
fn too_far(
    net: &Net,
    face: FixedFaceHandle<spade::handles::InnerTag>,
    chart: &Chart,
    points: &[Point3],
    off_mm: f64,
) -> Option<Point2<f64>> {
    let corners = numbers(net, face).map(|i| points[i as usize]);
    if chart.off(corners) <= off_mm {
        return None;
    }
    let sides = net.face(face).adjacent_edges();
    let free = sides.iter().filter(|e| !e.is_constraint_edge());
    let middles = free.map(|e| {
        let [a, b] = e.positions();
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        (dx * dx + dy * dy, Point2::new(0.5 * (a.x + b.x), 0.5 * (a.y + b.y)))
    });
    middles.max_by(|a, b| a.0.total_cmp(&b.0)).map(|found| found.1)
}

fn numbers(net: &Net, face: FixedFaceHandle<spade::handles::InnerTag>) -> [u32; 3] {
    net.face(face).vertices().map(|v| v.data().number)
}

/// Triangles inside the wires: those that an odd number of wires parts from the outside.
fn inside(net: &Net) -> Vec<FixedFaceHandle<spade::handles::InnerTag>> {
    let mut state: Vec<Option<bool>> = vec![None; net.num_all_faces()];
    let outer = net.outer_face().fix();
    state[outer.index()] = Some(false);
    let mut open: Vec<(FixedFaceHandle<spade::handles::PossiblyOuterTag>, bool)> = Vec::new();
    for edge in net.convex_hull() {
        let edge = if edge.face().is_outer() { edge } else { edge.rev() };
        open.push((edge.rev().face().fix(), edge.is_constraint_edge()));
    }
    while let Some((face, is_inside)) = open.pop() {
        if state[face.index()].is_some() {
            continue;
        }
        state[face.index()] = Some(is_inside);
        if let Some(face) = net.face(face).as_inner() {
            for edge in face.adjacent_edges() {
                open.push((edge.rev().face().fix(), is_inside != edge.is_constraint_edge()));
            }
        }
    }
    net.inner_faces().map(|f| f.fix()).filter(|f| state[f.index()] == Some(true)).collect()
}
