//! Places to which a frame or a datum may be joined: ends of dimension lines for axes, lines of the views and extension lines
//! for faces.

use crate::drawing::board::{Board, Look};
use crate::drawing::pen::Pen;
use crate::shape::control::Spot;
use crate::shape::loops::Piece;
use crate::shape::project::Flat;
use crate::shape::{InnerSpace, Point2, Vector2, Vector3};

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

/// Places on the lines that show a face, and on extensions of them.
pub fn of_face(board: &Board, spot: &Spot) -> Vec<Hook> {
    let Spot::Face { at, normal, ring } = *spot else { return Vec::new() };
    let mut hooks = Vec::new();
    for (number, look) in board.views.iter().enumerate() {
        let Some(line) = Line::of(look, at, normal, ring) else { continue };
        let hook = |at: Point2| Hook { at, out: line.out, from: at };
        for (a, b) in line.shown(board, Some(number), Pen::Visible) {
            for (low, high) in line.clipped(a, b) {
                let between = |share: f64| line.at + line.along * (low + (high - low) * share);
                hooks.extend(ALONG.iter().map(|share| hook(between(*share))));
            }
        }
        for (a, b) in line.shown(board, None, Pen::Extension) {
            let out = (b - a).normalize();
            let long = (b - a).magnitude();
            hooks.extend(BEYOND.iter().filter(|d| **d < long - 1.0).map(|d| hook(a + out * *d)));
        }
    }
    hooks
}

/// A face as it appears in a view: a straight line.
struct Line {
    /// A point of it on the paper, on the axis of the face.
    at: Point2,
    along: Vector2,
    out: Vector2,
    /// Radii between which the face lies \[mm of paper\].
    ring: Option<[f64; 2]>,
}

impl Line {
    /// The line of a face in a view that looks along it.
    fn of(look: &Look, at: crate::shape::Point3, normal: Vector3, ring: Option<[f64; 2]>) -> Option<Self> {
        let frame = &look.view.frame;
        let out = Vector2::new(normal.dot(frame.x), normal.dot(frame.y()));
        if out.magnitude() < 1.0 - 1e-9 {
            return None;
        }
        let p = frame.flat(at);
        Some(Self {
            at: look.origin + Vector2::new(p.x, p.y) * look.factor,
            along: Vector2::new(-out.y, out.x),
            out,
            ring: ring.map(|r| r.map(|v| v * look.factor)),
        })
    }

    /// Straight strokes that lie on the line.
    fn shown(&self, board: &Board, view: Option<usize>, pen: Pen) -> Vec<(Point2, Point2)> {
        let on = |p: Point2| (p - self.at).dot(self.out).abs() < NEAR;
        let strokes = board.strokes.iter().filter(|s| s.view == view && s.pen == pen);
        let straight = |s: &crate::drawing::board::Stroke| match s.line {
            Flat::Piece(Piece::Line { from, to }) if on(from) && on(to) => Some((from, to)),
            _ => None,
        };
        strokes.filter_map(straight).filter(|(a, b)| (b - a).magnitude() > SHORTEST).collect()
    }

    /// Stretches along the line from `a` to `b` that belong to the face.
    fn clipped(&self, a: Point2, b: Point2) -> Vec<(f64, f64)> {
        let along = |p: Point2| (p - self.at).dot(self.along);
        let (low, high) = (along(a).min(along(b)), along(a).max(along(b)));
        let Some([r, outer]) = self.ring else { return vec![(low, high)] };
        let sides = [(r, outer), (-outer, -r)].map(|(from, to)| (low.max(from), high.min(to)));
        sides.into_iter().filter(|(from, to)| to - from > SHORTEST).collect()
    }
}
