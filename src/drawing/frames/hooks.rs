//! Places to which a frame or a datum may be joined: ends of dimension lines for axes, lines of the views and extension lines
//! for faces.

use super::openings::Opening;
use crate::drawing::board::{Board, Look, Stroke};
use crate::drawing::pen::Pen;
use crate::shape::control::Spot;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{EuclideanSpace, InnerSpace, Point2, Point3, Vector2, Vector3};

/// A place to be joined to.
#[derive(Clone, Copy, Debug)]
pub struct Hook {
    /// Where the arrow head or the triangle stands.
    pub at: Point2,
    /// Which way the leader runs from there.
    pub out: Vector2,
    /// From here the leader is drawn: beyond a dimension line that is already there.
    pub from: Point2,
}

/// Shortest line of a view that a frame may point at \[mm of paper\].
const SHORTEST: f64 = 1.5;
/// Places along a line of a view, as shares of it.
const ALONG: [f64; 5] = [0.5, 0.3, 0.7, 0.15, 0.85];
/// Places along an extension line, from its foot \[mm\]: before the first dimension line and beyond it.
const BEYOND: [f64; 4] = [4.0, 6.0, 13.5, 20.5];
/// How near a point lies to a line that it belongs to \[mm of paper\].
const NEAR: f64 = 2e-3;

/// Both ends of every dimension that tells a size.
pub fn of_dimension(board: &Board, name: &str) -> Vec<Hook> {
    let told = board.dimensions.iter().filter(|d| d.sizes.iter().any(|s| s == name));
    told.flat_map(|d| {
        let ahead = (d.ends[1] - d.ends[0]).normalize();
        [(0, -ahead), (1, ahead)].map(|(i, out)| {
            let beyond = (d.reach[i] - d.ends[i]).dot(out) > 1e-6;
            Hook { at: d.ends[i], out, from: if beyond { d.reach[i] } else { d.ends[i] } }
        })
    })
    .collect()
}

/// Places on the lines that show a face, but where it is open, and on extensions of them.
pub fn of_face(board: &Board, spot: &Spot, openings: &[Opening]) -> Vec<Hook> {
    let Spot::Face { at, normal, ring } = *spot else { return Vec::new() };
    let mut hooks = Vec::new();
    for (number, look) in board.views.iter().enumerate() {
        let parts = ring.map(|[r, outer]| vec![(r, outer), (-outer, -r)]);
        let Some(line) = Line::of(look, at, normal, parts) else { continue };
        // where the view is cut, the face shows only where the cut meets it
        let closed = |h: &Hook| {
            let p = Point2::from_vec((h.at - look.origin) / look.factor);
            look.view.depth(p).is_none_or(|cut| {
                let there = look.view.frame.point(p.x, p.y, cut);
                !openings.iter().any(|o| o.holds(there))
            })
        };
        hooks.extend(line.hooks(board, number).into_iter().filter(closed));
    }
    hooks
}

/// Places on the outlines of a boss or shaft seen from the side, on extensions of them, and around the circle as which it is
/// seen along its axis.
pub fn of_cylinder(board: &Board, spot: &Spot) -> Vec<Hook> {
    let Spot::Axis { origin, direction, radius, length } = *spot else { return Vec::new() };
    let mut hooks = Vec::new();
    for (number, look) in board.views.iter().enumerate() {
        if direction.cross(look.view.frame.z).magnitude() < 1e-9 {
            hooks.extend(around(look, origin, radius));
            continue;
        }
        let across = direction.cross(look.view.frame.z);
        for side in [1.0, -1.0] {
            let out = across * side;
            // on one side the line runs with the axis, on the other against it
            let span = vec![if side > 0.0 { (0.0, length) } else { (-length, 0.0) }];
            let line = Line::of(look, origin + out * radius, out, Some(span));
            hooks.extend(line.into_iter().flat_map(|l| l.hooks(board, number)));
        }
    }
    hooks
}

/// Places around a circle, clear of its centre lines.
fn around(look: &Look, centre: Point3, radius: f64) -> Vec<Hook> {
    let centre = look.place(centre);
    let hook = |i: u32| {
        let (sin, cos) = (f64::from(i) * 15.0 + 7.5).to_radians().sin_cos();
        let out = Vector2::new(cos, sin);
        let at = centre + out * (radius * look.factor);
        Hook { at, out, from: at }
    };
    (0..24).map(hook).collect()
}

/// A surface as it appears in a view: a straight line.
struct Line {
    /// A point of it on the paper.
    at: Point2,
    along: Vector2,
    out: Vector2,
    /// Stretches along it that belong to the surface \[mm of paper\]; all of it where none are given.
    parts: Option<Vec<(f64, f64)>>,
}

impl Line {
    /// The line of a surface in a view that looks along it; `parts` are stretches of it \[mm\].
    fn of(look: &Look, at: Point3, normal: Vector3, parts: Option<Vec<(f64, f64)>>) -> Option<Self> {
        let frame = &look.view.frame;
        let out = Vector2::new(normal.dot(frame.x), normal.dot(frame.y()));
        if out.magnitude() < 1.0 - 1e-9 {
            return None;
        }
        let scaled = |(a, b): (f64, f64)| (a * look.factor, b * look.factor);
        Some(Self {
            at: look.place(at),
            along: Vector2::new(-out.y, out.x),
            out,
            parts: parts.map(|list| list.into_iter().map(scaled).collect()),
        })
    }

    /// Places along what a view shows of the line, and along extension lines that go on from it.
    fn hooks(&self, board: &Board, view: usize) -> Vec<Hook> {
        let hook = |at: Point2| Hook { at, out: self.out, from: at };
        let mut hooks = Vec::new();
        for (a, b) in self.shown(board, Some(view), Pen::Visible) {
            for (low, high) in self.clipped(a, b) {
                let between = |share: f64| self.at + self.along * (low + (high - low) * share);
                hooks.extend(ALONG.iter().map(|share| hook(between(*share))));
            }
        }
        for (a, b) in self.shown(board, None, Pen::Extension) {
            let (out, long) = ((b - a).normalize(), (b - a).magnitude());
            hooks.extend(BEYOND.iter().filter(|d| **d < long - 1.0).map(|d| hook(a + out * *d)));
        }
        hooks
    }

    /// Straight strokes that lie on the line.
    fn shown(&self, board: &Board, view: Option<usize>, pen: Pen) -> Vec<(Point2, Point2)> {
        let on = |p: Point2| (p - self.at).dot(self.out).abs() < NEAR;
        let strokes = board.strokes.iter().filter(|s| s.view == view && s.pen == pen);
        let straight = |s: &Stroke| match s.line {
            Flat::Piece(Piece::Line { from, to }) if on(from) && on(to) => Some((from, to)),
            _ => None,
        };
        strokes.filter_map(straight).filter(|(a, b)| (b - a).magnitude() > SHORTEST).collect()
    }

    /// Stretches along the line from `a` to `b` that belong to the surface.
    fn clipped(&self, a: Point2, b: Point2) -> Vec<(f64, f64)> {
        let along = |p: Point2| (p - self.at).dot(self.along);
        let (low, high) = (along(a).min(along(b)), along(a).max(along(b)));
        let Some(parts) = &self.parts else { return vec![(low, high)] };
        let common = parts.iter().map(|(from, to)| (low.max(*from), high.min(*to)));
        common.filter(|(from, to)| to - from > SHORTEST).collect()
    }
}
