//! Features that would run into something inside the metal.
//!
//! Three looks, each for what the others may miss: lines along the border of the new space against all
//! faces, edges that are already there against the new space, and bores against bores as exact convex bodies.

use super::curve::Curve;
use super::error::SolidError;
use super::frame::Frame;
use super::skin::{Skin, directed};
use super::space::Space;
use super::surface::Surface;
use crate::shape::loops::{Loop, Piece};
use crate::shape::{InnerSpace, Point2, Point3};

/// Steps along a line in which a crossing is looked for.
const STEPS: u32 = 40;

/// A space already made, with the number of its feature.
pub(super) struct Made {
    pub maker: usize,
    pub bodies: Vec<Frustum>,
}

/// A convex turned body: a step of a bore.
#[derive(Clone)]
pub(super) struct Frustum {
    frame: Frame,
    corners: [Point2; 4],
}

/// Looks for any face or edge inside the new space; `hosts` are the faces it starts and ends on.
pub(super) fn with_faces(
    skins: &[Skin],
    hosts: &[usize],
    space: &Space,
    what: &str,
    names: &dyn Fn(usize) -> String,
) -> Result<(), SolidError> {
    let (centre, radius) = space.ball();
    let lines = space.lines();
    for (i, skin) in skins.iter().enumerate() {
        if hosts.contains(&i) || beyond(skin, centre, radius) {
            continue;
        }
        let hit = lines.iter().find_map(|l| crossing(skin, l)).or_else(|| edge_inside(skin, space));
        if let Some(depth) = hit {
            let second = format!("{} ({})", names(skin.maker), skin.surface.words());
            return Err(SolidError::Clash { first: what.to_owned(), second, overlap_mm: depth });
        }
    }
    Ok(())
}

/// Whether a face lies wholly on one side of its surface seen from the ball, so that it cannot be met.
fn beyond(skin: &Skin, centre: Point3, radius: f64) -> bool {
    skin.surface.side(centre).abs() > radius + 1e-9
}

/// How much of the line lies behind the face it crosses \[mm\].
fn crossing(skin: &Skin, [a, b]: &[Point3; 2]) -> Option<f64> {
    let at = |t: f64| a + (b - a) * t;
    let side = |t: f64| skin.surface.side(at(t));
    let length = (b - a).magnitude();
    let mut before = (0.0, side(0.0));
    // A line crosses a plane once, and both its ends tell.
    let steps = if matches!(skin.surface, Surface::Plane(_)) { 1 } else { STEPS };
    for i in 1..=steps {
        let t = f64::from(i) / f64::from(steps);
        let now = (t, side(t));
        if before.1.abs() > 1e-6 && now.1.abs() > 1e-6 && before.1 * now.1 < 0.0 {
            let t = halve(&side, before.0, now.0);
            if within(skin, at(t)) {
                return Some(length * t.min(1.0 - t));
            }
        }
        if now.1.abs() > 1e-6 {
            before = now;
        }
    }
    None
}

fn halve(side: &dyn Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let start = side(a);
    for _ in 0..50 {
        let middle = 0.5 * (a + b);
        if side(middle) * start > 0.0 { a = middle } else { b = middle }
    }
    0.5 * (a + b)
}

/// Whether a point of the surface lies inside the face.
fn within(skin: &Skin, p: Point3) -> bool {
    let f = skin.surface.frame();
    match &skin.surface {
        Surface::Plane(_) | Surface::Cylinder { .. } => {
            let place = skin.place(p);
            let inside = |w| skin.outline(w).contains(place);
            inside(&skin.loops[0]) && !skin.loops[1..].iter().any(inside)
        }
        _ => {
            let q = f.local(p);
            let place = Point2::new(q.x.hypot(q.y), q.z);
            let meridian = skin.loops[0].iter().map(directed).find_map(|c| meridian(f, &c));
            meridian.is_some_and(|m| m.distance(place) < 1e-6)
        }
    }
}

/// A curve in a plane through the axis, as a piece in (r, z).
fn meridian(f: &Frame, curve: &Curve) -> Option<Piece> {
    let flat = |p: Point3| {
        let q = f.local(p);
        Point2::new(q.x.hypot(q.y), q.z)
    };
    match curve {
        Curve::Line { from, to } => Some(Piece::Line { from: flat(*from), to: flat(*to) }),
        Curve::Arc(arc) if arc.frame.z.dot(f.z).abs() < 0.5 => {
            let centre = flat(arc.frame.origin);
            let (a, b) = (flat(arc.at(0.0)) - centre, flat(arc.at(1e-3)) - centre);
            let turn = (a.x * b.y - a.y * b.x).signum();
            Some(Piece::Arc { centre, radius: arc.radius, start: a.y.atan2(a.x), sweep: arc.sweep * turn })
        }
        _ => None,
    }
}

/// An edge of the face that runs inside the space: by how long a stretch \[mm\].
fn edge_inside(skin: &Skin, space: &Space) -> Option<f64> {
    let stretch = |curve: Curve| {
        let n = 48;
        let inside = (1..n).filter(|i| space.contains(curve.at(f64::from(*i) / f64::from(n)))).count();
        let step = (curve.at(0.5) - curve.at(0.5 - 1.0 / f64::from(n))).magnitude();
        (inside > 0).then_some(inside as f64 * step)
    };
    skin.loops.iter().flat_map(|w| w.iter()).find_map(|e| stretch(directed(e)))
}

/// Steps of a bore as convex bodies.
pub(super) fn bodies(space: &Space) -> Vec<Frustum> {
    let Space::Turned { frame, run, region, .. } = space else { return Vec::new() };
    let ring = matches!(region, Loop::Path(nodes) if nodes.iter().all(|n| n.at.x > 0.0));
    let step = |p: &Piece| {
        let (a, b) = (p.at(0.0), p.at(1.0));
        let corners = [Point2::new(0.0, a.y), a, b, Point2::new(0.0, b.y)];
        ((a.y - b.y).abs() > 1e-9).then_some(Frustum { frame: *frame, corners })
    };
    if ring { Vec::new() } else { run.iter().filter_map(step).collect() }
}

/// Looks for bores that share space with the new one; those whose faces it starts or ends on are meant to.
pub(super) fn with_bores(
    made: &[Made],
    meant: &[usize],
    new: &[Frustum],
    what: &str,
    names: &dyn Fn(usize) -> String,
) -> Result<(), SolidError> {
    for other in made.iter().filter(|m| !meant.contains(&m.maker)) {
        for (a, b) in new.iter().flat_map(|a| other.bodies.iter().map(move |b| (a, b))) {
            if let Some(overlap_mm) = a.overlap(b) {
                return Err(SolidError::Clash {
                    first: what.to_owned(),
                    second: names(other.maker),
                    overlap_mm,
                });
            }
        }
    }
    Ok(())
}

impl Frustum {
    /// Overlap of radii at the narrowest place between the axes \[mm\], if the two bodies share space.
    fn overlap(&self, other: &Self) -> Option<f64> {
        let reach = self.widest() + other.widest();
        let axes = axis_gap(&self.axis(), &other.axis());
        if axes > reach {
            return None;
        }
        let mut p = self.axis()[0];
        for _ in 0..400 {
            let q = other.nearest(p);
            let next = self.nearest(q);
            let (gap, step) = ((next - q).magnitude(), (next - p).magnitude());
            p = next;
            if gap < 1e-6 {
                return Some(reach - axes);
            }
            if step < 1e-9 {
                return None;
            }
        }
        None
    }

    fn widest(&self) -> f64 {
        self.corners[1].x.max(self.corners[2].x)
    }

    fn axis(&self) -> [Point3; 2] {
        [0, 3].map(|i| self.frame.raised(self.corners[i].y).origin)
    }

    /// Nearest point of the body.
    fn nearest(&self, p: Point3) -> Point3 {
        let q = self.frame.local(p);
        let r = q.x.hypot(q.y);
        let inside = self.region().contains(Point2::new(r.max(1e-12), q.z));
        if inside {
            return p;
        }
        let flat = nearest_on(&self.corners, Point2::new(r, q.z));
        let out = if r > 1e-12 { (self.frame.x * q.x + self.frame.y() * q.y) / r } else { self.frame.x };
        self.frame.origin + out * flat.x + self.frame.z * flat.y
    }

    fn region(&self) -> Loop {
        Loop::Path(self.corners.iter().map(|c| crate::shape::loops::Node::line(c.x, c.y)).collect())
    }
}

/// Nearest point on the border of a polygon.
fn nearest_on(corners: &[Point2; 4], p: Point2) -> Point2 {
    let foot = |i: usize| {
        let (a, b) = (corners[i], corners[(i + 1) % 4]);
        let d = b - a;
        let t = if d.magnitude2() > 0.0 { ((p - a).dot(d) / d.magnitude2()).clamp(0.0, 1.0) } else { 0.0 };
        a + d * t
    };
    let near = |a: &Point2, b: &Point2| (p - a).magnitude2().total_cmp(&(p - b).magnitude2());
    (0..4).map(foot).min_by(near).unwrap_or(p)
}

/// Least distance between two segments, by alternate feet \[mm\].
fn axis_gap(a: &[Point3; 2], b: &[Point3; 2]) -> f64 {
    let foot = |s: &[Point3; 2], p: Point3| {
        let d = s[1] - s[0];
        let t = if d.magnitude2() > 0.0 { ((p - s[0]).dot(d) / d.magnitude2()).clamp(0.0, 1.0) } else { 0.0 };
        s[0] + d * t
    };
    let mut p = a[0];
    let mut gap = f64::INFINITY;
    for _ in 0..200 {
        let q = foot(b, p);
        p = foot(a, q);
        let now = (p - q).magnitude();
        if (gap - now).abs() < 1e-12 {
            break;
        }
        gap = now;
    }
    gap
}
