//! The part of a surface that a face covers: asked of points on the surface.

use crate::shape::loops::{Inside, Leave, Loop, Node, wrap};
use crate::shape::solid::{Arc, Curve, Face, Frame, Surface, Wire, directed};
use crate::shape::{InnerSpace, Point2, Point3, Vector3};
use std::f64::consts::{PI, TAU};

/// How near to its boundary a point still counts as lying on the face \[mm\].
const ON: f64 = 1e-6;
/// Chords that stand for a spline where a cylinder is unrolled.
const CHORDS: usize = 64;

/// A face in the coordinates of the view.
#[derive(Clone, Debug)]
pub struct Patch {
    /// Its surface.
    pub surface: Surface,
    domain: Domain,
    /// Ends of the curves around it along the surface's axis \[mm\], least and greatest.
    pub along: (f64, f64),
}

/// What of the surface is covered.
#[derive(Clone, Debug)]
enum Domain {
    /// Loops in the plane or on the unrolled cylinder, the outer one first, and the middle angle of the latter.
    Loops { loops: Vec<(Loop, Inside)>, middle: f64 },
    /// Between two angles about the axis and two places along the meridian, both as start and turned angle \[rad\] (a cone's
    /// places are along its axis, see [`Patch::along`]).
    Turned { round: (f64, f64), meridian: Option<(f64, f64)> },
}

/// A curve in the coordinates of a frame.
pub fn into_frame(curve: &Curve, view: &Frame) -> Curve {
    match curve {
        Curve::Line { from, to } => Curve::Line { from: view.local(*from), to: view.local(*to) },
        Curve::Arc(arc) => Curve::Arc(Arc { frame: frame_into(&arc.frame, view), ..*arc }),
        Curve::Spline(spline) => Curve::Spline(spline.mapped(&|p| view.local(p), &|v| turned(v, view))),
    }
}

/// A surface in the coordinates of a frame.
pub fn surface_into(surface: &Surface, view: &Frame) -> Surface {
    let mut moved = *surface;
    match &mut moved {
        Surface::Plane(frame)
        | Surface::Cylinder { frame, .. }
        | Surface::Cone { frame, .. }
        | Surface::Torus { frame, .. }
        | Surface::Sphere { frame, .. } => *frame = frame_into(frame, view),
    }
    moved
}

fn turned(v: Vector3, view: &Frame) -> Vector3 {
    Vector3::new(v.dot(view.x), v.dot(view.y()), v.dot(view.z))
}

fn frame_into(frame: &Frame, view: &Frame) -> Frame {
    Frame { origin: view.local(frame.origin), x: turned(frame.x, view), z: turned(frame.z, view) }
}

impl Patch {
    /// A face seen in a frame.
    pub fn of(face: &Face, view: &Frame) -> Self {
        let surface = surface_into(&face.surface(), view);
        let wires: Vec<Vec<Curve>> = face.boundaries().iter().map(|w| curves(w, view)).collect();
        let f = surface.frame();
        let ends = wires.iter().flatten().map(|c| f.local(c.at(0.0)).z);
        let along = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |e, z| (e.0.min(z), e.1.max(z)));
        let domain = match surface {
            Surface::Plane(_) => Domain::loops(wires.iter().map(|w| flat_loop(w, f)).collect(), 0.0),
            Surface::Cylinder { radius, .. } => {
                let middle = middle(&wires[0], f);
                let place = |p: Point3| unrolled(f, middle, radius, p);
                Domain::loops(wires.iter().map(|w| unrolled_loop(w, &place)).collect(), middle)
            }
            _ => Domain::turned(&wires[0], f),
        };
        Self { surface, domain, along }
    }

    /// Whether a point of the surface lies on the face, its boundary included.
    pub fn holds(&self, p: Point3) -> bool {
        let f = self.surface.frame();
        match (&self.domain, &self.surface) {
            (Domain::Loops { loops, middle }, Surface::Cylinder { radius, .. }) => {
                in_loops(loops, unrolled(f, *middle, *radius, p))
            }
            (Domain::Loops { loops, .. }, _) => in_loops(loops, f.flat(p)),
            (Domain::Turned { round, meridian }, _) => {
                let q = f.local(p);
                let r = q.x.hypot(q.y);
                let on_axis = r < ON;
                let round = on_axis || within(*round, q.y.atan2(q.x), ON / r);
                round && self.on_meridian(*meridian, r, q.z)
            }
        }
    }

    /// Whether a place along the meridian belongs to the face.
    fn on_meridian(&self, meridian: Option<(f64, f64)>, r: f64, z: f64) -> bool {
        match (self.surface, meridian) {
            (Surface::Torus { major, minor, .. }, Some(m)) => within(m, z.atan2(r - major), ON / minor),
            (Surface::Sphere { radius, .. }, Some(m)) => within(m, z.atan2(r), ON / radius),
            _ => z > self.along.0 - ON && z < self.along.1 + ON,
        }
    }

    /// The stretches of the generator at an angle \[rad\] of a cylinder that lie on the face, along the axis \[mm\].
    pub fn stretches(&self, angle: f64) -> Vec<(f64, f64)> {
        let (Domain::Loops { loops, middle }, Surface::Cylinder { radius, .. }) =
            (&self.domain, self.surface)
        else {
            return Vec::new();
        };
        let x = (wrap(angle - middle + PI) - PI) * radius;
        let mut cuts: Vec<f64> =
            loops.iter().flat_map(|(l, _)| heights(l, x)).chain([self.along.0, self.along.1]).collect();
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < ON);
        let inside = |w: &&[f64]| {
            let p = Point2::new(x, (w[0] + w[1]) / 2.0);
            loops[0].1.contains(p) && !loops[1..].iter().any(|l| l.1.contains(p))
        };
        let near_edge = |w: &&[f64]| loops[0].0.distance(Point2::new(x, (w[0] + w[1]) / 2.0)) > ON;
        cuts.windows(2).filter(inside).filter(near_edge).map(|w| (w[0], w[1])).collect()
    }
}

impl Domain {
    fn loops(loops: Vec<Loop>, middle: f64) -> Self {
        let ready = loops.into_iter().map(|l| {
            let inside = Inside::of(&l);
            (l, inside)
        });
        Domain::Loops { loops: ready.collect(), middle }
    }

    /// The patch between two rings (or a ring and a pole) and two meridians.
    fn turned(wire: &[Curve], f: &Frame) -> Self {
        let ring = wire.iter().find_map(|c| match c {
            Curve::Arc(a) if a.frame.z.dot(f.z).abs() > 0.5 => Some(a),
            _ => None,
        });
        let meridian = wire.iter().find_map(|c| match c {
            Curve::Arc(a) if a.frame.z.dot(f.z).abs() < 0.5 => Some(a),
            _ => None,
        });
        let start = |a: &Arc| f.angle(a.at(0.0));
        let round = ring.map_or((0.0, TAU), |a| (start(a), a.sweep * a.frame.z.dot(f.z).signum()));
        let meridian = meridian.map(|a| {
            // angle about the middle of the arc, in the half plane of the meridian
            let out = f.radial(f.angle(a.at(0.5)));
            let angle = |p: Point3| {
                let d = p - a.frame.origin;
                d.dot(f.z).atan2(d.dot(out))
            };
            let sense = a.frame.z.dot(out.cross(f.z)).signum();
            (angle(a.at(0.0)), a.sweep * sense)
        });
        Domain::Turned { round, meridian }
    }
}

/// Whether an angle lies within a turn, or at most `air` \[rad\] beside it.
fn within((start, sweep): (f64, f64), angle: f64, air: f64) -> bool {
    let turned = wrap((angle - start) * sweep.signum() + air);
    turned <= sweep.abs() + 2.0 * air
}

fn curves(wire: &Wire, view: &Frame) -> Vec<Curve> {
    wire.iter().map(|e| into_frame(&directed(e), view)).collect()
}

fn in_loops(loops: &[(Loop, Inside)], p: Point2) -> bool {
    let open = |l: &(Loop, Inside)| l.1.contains(p) && l.0.distance(p) > ON;
    let (outer, holes) = (&loops[0], &loops[1..]);
    (outer.1.contains(p) || outer.0.distance(p) < ON) && !holes.iter().any(open)
}

/// A wire in the plane of its face.
fn flat_loop(wire: &[Curve], f: &Frame) -> Loop {
    let node = |c: &Curve| Node {
        at: f.flat(c.at(0.0)),
        leave: match c {
            Curve::Arc(arc) => {
                Leave::Arc { centre: f.flat(arc.frame.origin), ccw: arc.frame.z.dot(f.z) > 0.0 }
            }
            _ => Leave::Line,
        },
    };
    Loop::Path(wire.iter().map(node).collect())
}

/// Angle of the middle of a cylinder's face about its axis \[rad\].
fn middle(wire: &[Curve], f: &Frame) -> f64 {
    let round = wire.iter().find(|c| !matches!(c, Curve::Line { .. }));
    round.map_or(0.0, |c| f.angle(c.at(0.5)))
}

fn unrolled(f: &Frame, middle: f64, radius: f64, p: Point3) -> Point2 {
    let q = f.local(p);
    Point2::new((wrap(q.y.atan2(q.x) - middle + PI) - PI) * radius, q.z)
}

fn unrolled_loop(wire: &[Curve], place: &dyn Fn(Point3) -> Point2) -> Loop {
    let points = |c: &Curve| {
        let n = if matches!(c, Curve::Spline(_)) { CHORDS } else { 1 };
        (0..n).map(|i| place(c.at(i as f64 / n as f64))).collect::<Vec<_>>()
    };
    Loop::Path(wire.iter().flat_map(points).map(|p| Node { at: p, leave: Leave::Line }).collect())
}

/// Heights at which a polygon crosses the upright through `x`.
fn heights(polygon: &Loop, x: f64) -> Vec<f64> {
    let cross = |piece: crate::shape::loops::Piece| {
        let (a, b) = (piece.at(0.0), piece.at(1.0));
        // a corner right on it belongs to one of its two sides only
        ((a.x <= x) != (b.x <= x)).then(|| a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x))
    };
    polygon.pieces().into_iter().filter_map(cross).collect()
}
