//! Exact distances and crossings between lines and arcs.

use super::loops::{Loop, Piece, wrap};
use super::{InnerSpace, Point2, Vector2};

/// Two points closer than this are one \[mm\].
const SAME: f64 = 1e-9;

/// Points in which two pieces meet or touch; where they run over each other, ends that lie on the other \[mm\].
pub fn crossings(a: &Piece, b: &Piece) -> Vec<Point2> {
    let mut found: Vec<Point2> = match (*a, *b) {
        (Piece::Line { from, to }, Piece::Line { from: p, to: q }) => {
            lines(from, to, p, q).into_iter().collect()
        }
        (Piece::Line { from, to }, Piece::Arc { centre, radius, .. })
        | (Piece::Arc { centre, radius, .. }, Piece::Line { from, to }) => {
            line_circle(from, to, centre, radius)
        }
        (Piece::Arc { centre, radius, .. }, Piece::Arc { centre: c, radius: r, .. }) => {
            circles(centre, radius, c, r)
        }
    };
    found.extend([a.at(0.0), a.at(1.0), b.at(0.0), b.at(1.0)]);
    found.retain(|p| a.distance(*p) < SAME && b.distance(*p) < SAME);
    found
}

/// Least distance between two pieces \[mm\], 0 where they meet.
pub fn gap(a: &Piece, b: &Piece) -> f64 {
    if !crossings(a, b).is_empty() {
        return 0.0;
    }
    let ends = [b.distance(a.at(0.0)), b.distance(a.at(1.0)), a.distance(b.at(0.0)), a.distance(b.at(1.0))];
    feet(a, b).into_iter().chain(ends).fold(f64::INFINITY, f64::min)
}

/// Least distance between two loops \[mm\].
pub fn loop_gap(a: &Loop, b: &Loop) -> f64 {
    let (pa, pb) = (with_balls(a), with_balls(b));
    let mut least = f64::INFINITY;
    for (x, (c, r)) in &pa {
        for (y, (d, s)) in &pb {
            if (d - c).magnitude() - r - s < least {
                least = least.min(gap(x, y));
            }
        }
    }
    least
}

/// Pieces with a circle (centre, radius) that holds each, so that far pairs need no exact look.
fn with_balls(l: &Loop) -> Vec<(Piece, (Point2, f64))> {
    l.pieces().into_iter().map(|p| (p, (p.at(0.5), 0.5 * p.length()))).collect()
}

/// First place where a closed run of pieces meets itself elsewhere than in its joints \[mm\].
pub fn self_crossing(pieces: &[Piece]) -> Option<Point2> {
    let n = pieces.len();
    let apart =
        |a: &Piece, b: &Piece| (b.at(0.5) - a.at(0.5)).magnitude() > 0.5 * (a.length() + b.length()) + SAME;
    let pair = |i: usize, j: usize| {
        if apart(&pieces[i], &pieces[j]) {
            return None;
        }
        let mut joints = Vec::new();
        if j == i + 1 {
            joints.push(pieces[i].at(1.0));
        }
        if i == 0 && j == n - 1 {
            joints.push(pieces[0].at(0.0));
        }
        let apart = |p: &Point2| joints.iter().all(|q| (p - q).magnitude() > 1e-5);
        crossings(&pieces[i], &pieces[j]).into_iter().find(apart)
    };
    (0..n).flat_map(|i| (i + 1..n).map(move |j| (i, j))).find_map(|(i, j)| pair(i, j))
}

fn cross(a: Vector2, b: Vector2) -> f64 {
    a.x * b.y - a.y * b.x
}

fn lines(a: Point2, b: Point2, p: Point2, q: Point2) -> Option<Point2> {
    let (u, v) = (b - a, q - p);
    let d = cross(u, v);
    (d.abs() > 1e-12 * u.magnitude() * v.magnitude()).then(|| a + u * (cross(p - a, v) / d))
}

fn line_circle(a: Point2, b: Point2, c: Point2, r: f64) -> Vec<Point2> {
    let u = (b - a).normalize();
    let foot = a + u * (c - a).dot(u);
    let half = r * r - (foot - c).magnitude2();
    if half < 0.0 { vec![foot] } else { vec![foot + u * half.sqrt(), foot - u * half.sqrt()] }
}

fn circles(a: Point2, r: f64, b: Point2, s: f64) -> Vec<Point2> {
    let d = b - a;
    let l = d.magnitude();
    if l < SAME {
        return Vec::new();
    }
    let along = (l * l + r * r - s * s) / (2.0 * l);
    let (u, half) = (d / l, (r * r - along * along).max(0.0).sqrt());
    let side = Vector2::new(-u.y, u.x) * half;
    vec![a + u * along + side, a + u * along - side]
}

/// Distances between inner points where a common normal meets both pieces.
fn feet(a: &Piece, b: &Piece) -> Vec<f64> {
    match (a, b) {
        (Piece::Line { .. }, Piece::Line { .. }) => Vec::new(),
        (Piece::Line { from, to }, arc @ Piece::Arc { centre, .. })
        | (arc @ Piece::Arc { centre, .. }, Piece::Line { from, to }) => line_foot(*from, *to, *centre, arc),
        // Arcs about one centre are as far apart everywhere as at an end of one that faces the other.
        (Piece::Arc { centre, .. }, Piece::Arc { centre: c, .. }) if (c - centre).magnitude() < SAME => {
            Vec::new()
        }
        (Piece::Arc { centre, radius, .. }, Piece::Arc { centre: c, radius: r, .. }) => {
            let u = (c - centre).normalize();
            let on = |p: Point2, q: Point2| (on_arc(a, p) && on_arc(b, q)).then(|| (p - q).magnitude());
            let signs = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
            signs.iter().filter_map(|(s, t)| on(centre + u * (radius * s), c + u * (r * t))).collect()
        }
    }
}

fn line_foot(from: Point2, to: Point2, centre: Point2, arc: &Piece) -> Vec<f64> {
    let u = to - from;
    let t = (centre - from).dot(u) / u.magnitude2();
    if !(0.0..=1.0).contains(&t) {
        return Vec::new();
    }
    let foot = from + u * t;
    if on_arc(arc, foot) { vec![arc.distance(foot)] } else { Vec::new() }
}

/// Whether the direction from the arc's centre to the point lies within the arc.
fn on_arc(piece: &Piece, p: Point2) -> bool {
    let Piece::Arc { centre, start, sweep, .. } = *piece else { return false };
    let v = p - centre;
    wrap((v.y.atan2(v.x) - start) * sweep.signum()) <= sweep.abs()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::loops::Node;

    #[test]
    fn circle_inside_a_square_keeps_the_web_of_arithmetic() {
        let square = Loop::Path(vec![
            Node::line(0.0, 0.0),
            Node::line(20.0, 0.0),
            Node::line(20.0, 20.0),
            Node::line(0.0, 20.0),
        ]);
        assert!((loop_gap(&square, &Loop::circle(8.0, 10.0, 5.0)) - 3.0).abs() < 1e-12);
        assert!(loop_gap(&square, &Loop::circle(3.0, 10.0, 5.0)) < 1e-12);
    }

    #[test]
    fn circles_outside_and_inside_each_other() {
        let a = Loop::circle(0.0, 0.0, 10.0);
        assert!((loop_gap(&a, &Loop::circle(3.0, 4.0, 2.0)) - 3.0).abs() < 1e-12);
        assert!((loop_gap(&a, &Loop::circle(12.0, 16.0, 4.0)) - 6.0).abs() < 1e-12);
        assert!((loop_gap(&a, &Loop::circle(0.0, 0.0, 4.0)) - 6.0).abs() < 1e-12);
    }

    #[test]
    fn a_bow_tie_crosses_itself_and_a_tangent_slot_does_not() {
        let tie = Loop::Path(vec![
            Node::line(0.0, 0.0),
            Node::line(10.0, 10.0),
            Node::line(10.0, 0.0),
            Node::line(0.0, 10.0),
        ]);
        let at = self_crossing(&tie.pieces()).expect("crosses");
        assert!((at - Point2::new(5.0, 5.0)).magnitude() < 1e-9);
        let slot =
            crate::shape::outline::hull(&[(Point2::new(0.0, 0.0), 3.0), (Point2::new(40.0, 7.0), 3.0)]);
        assert_eq!(self_crossing(&slot.pieces()), None);
    }
}
