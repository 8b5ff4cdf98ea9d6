//! Offset of a loop with arcs kept: for the kerf of a laser, the blade of a knife, a fit.
//!
//! Circles are offset exactly. Other loops go through `cavalier_contours`, whose result is then tested
//! against the loop it came from, so that a lost or broken contour is an error and not a bad part.
//! An offset is always taken from the nominal loop, never from another offset: errors would add up.

use super::loops::{Leave, Loop, Node, Piece, polar, wrap};
use super::{InnerSpace, Point2};
use cavalier_contours::core::math::bulge_from_angle;
use cavalier_contours::polyline::{PlineOffsetOptions, PlineSource, PlineSourceMut, PlineVertex, Polyline};
use std::f64::consts::{PI, TAU};

/// Two places closer than this \[mm\] are one; smaller than any length that a shop can cut, and far
/// larger than the rounding of coordinates up to a metre.
const SAME_MM: f64 = 1e-7;

/// How far the result may be from its true distance \[mm\] before it is refused.
const WRONG_MM: f64 = 1e-5;

/// Why a loop cannot be offset.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum OffsetError {
    /// Nothing is left of it.
    #[error("nothing is left of the outline when it is offset inwards by {0} mm")]
    Vanishes(f64),
    /// It falls into several loops, or closes upon itself and leaves an eye.
    #[error("the outline falls into {loops} loops when it is offset by {by_mm} mm")]
    Splits {
        /// Offset \[mm\], positive outwards.
        by_mm: f64,
        /// How many loops came out.
        loops: usize,
    },
    /// The distance or the loop is not usable (not a number, no area).
    #[error("the outline cannot be offset: {0}")]
    Unusable(String),
}

/// The loop offset by `outwards_mm` \[mm\]: positive makes the enclosed area larger, whichever way the
/// loop runs; the direction of the loop is kept. Outside corners are rounded by the distance, which is
/// the path that a round tool or beam must follow to leave a sharp corner.
///
/// # Errors
/// [`OffsetError`] when the loop vanishes, falls apart, closes upon itself, or has no area.
pub fn offset(l: &Loop, outwards_mm: f64) -> Result<Loop, OffsetError> {
    if !outwards_mm.is_finite() {
        return Err(OffsetError::Unusable("the distance is not a number".to_owned()));
    }
    match l {
        Loop::Circle { centre, radius } => circle(*centre, radius + outwards_mm, outwards_mm),
        Loop::Path(_) if outwards_mm == 0.0 => Ok(l.clone()),
        Loop::Path(_) => path(l, outwards_mm),
    }
}

/// A circle of the new radius \[mm\], if any is left.
fn circle(centre: Point2, radius: f64, by: f64) -> Result<Loop, OffsetError> {
    if radius <= SAME_MM {
        return Err(OffsetError::Vanishes(-by));
    }
    Ok(Loop::Circle { centre, radius })
}

/// Offset of a chain of lines and arcs.
fn path(l: &Loop, by: f64) -> Result<Loop, OffsetError> {
    let area = l.area();
    if !area.is_finite() || area.abs() < SAME_MM {
        return Err(OffsetError::Unusable("it encloses no area".to_owned()));
    }
    if let Some((centre, radius)) = round(l) {
        return circle(centre, radius + by, by);
    }
    let source = polyline(l);
    let options = PlineOffsetOptions { pos_equal_eps: SAME_MM, offset_dist_eps: 1e-6, ..Default::default() };
    // The crate's positive side is the left of the direction of travel.
    let found = source.parallel_offset_opt(-by * area.signum(), &options);
    let [only] = found.as_slice() else {
        return Err(match found.len() {
            0 => OffsetError::Vanishes(-by),
            loops => OffsetError::Splits { by_mm: by, loops },
        });
    };
    let result = loop_of(only, &centres(l));
    verify(l, &result, by)?;
    Ok(result)
}

/// Centre and radius when a path is really one full circle in several arcs.
fn round(l: &Loop) -> Option<(Point2, f64)> {
    let mut first = None;
    for piece in l.pieces() {
        let Piece::Arc { centre, radius, sweep, .. } = piece else { return None };
        let (c, r, s) = *first.get_or_insert((centre, radius, sweep));
        if (c - centre).magnitude() > SAME_MM || (r - radius).abs() > SAME_MM || s * sweep < 0.0 {
            return None;
        }
    }
    first.map(|(c, r, _)| (c, r))
}

/// The loop as a polyline with bulges; arcs of half a turn and more are cut in equal parts, because a
/// bulge may not exceed 1.
fn polyline(l: &Loop) -> Polyline {
    let mut out = Polyline::new_closed();
    for piece in l.pieces() {
        match piece {
            Piece::Line { from, to } if (to - from).magnitude() > SAME_MM => {
                out.add_vertex(PlineVertex::new(from.x, from.y, 0.0));
            }
            Piece::Arc { sweep, .. } if piece.length() > SAME_MM => {
                let parts = if sweep.abs() > PI - 1e-3 { (sweep.abs() / PI).floor() as usize + 1 } else { 1 };
                for i in 0..parts {
                    let at = piece.at(i as f64 / parts as f64);
                    out.add_vertex(PlineVertex::new(at.x, at.y, bulge_from_angle(sweep / parts as f64)));
                }
            }
            _ => {}
        }
    }
    out
}

/// Centres that arcs of the offset may have: those of the arcs, and the corners.
fn centres(l: &Loop) -> Vec<Point2> {
    let of = |piece: Piece| match piece {
        Piece::Arc { centre, .. } => [centre, piece.at(0.0)],
        Piece::Line { from, .. } => [from, from],
    };
    l.pieces().into_iter().flat_map(of).collect()
}

/// Centre of the arc from `a` to `b` with a bulge: on the middle normal of the chord, at the distance
/// c·(1 − b²)/(4·b) to the left.
pub fn bulge_centre(a: Point2, b: Point2, bulge: f64) -> Point2 {
    let chord = b - a;
    let k = (1.0 - bulge * bulge) / (4.0 * bulge);
    Point2::new((a.x + b.x) / 2.0 - chord.y * k, (a.y + b.y) / 2.0 + chord.x * k)
}

/// Back from polyline to loop; a centre within reach of a known one becomes that one exactly.
fn loop_of(line: &Polyline, known: &[Point2]) -> Loop {
    let n = line.vertex_count();
    let at = |i: usize| Point2::new(line.at(i % n).x, line.at(i % n).y);
    let node = |i: usize| {
        let bulge = line.at(i).bulge;
        if bulge == 0.0 {
            return Node { at: at(i), leave: Leave::Line };
        }
        let rough = bulge_centre(at(i), at(i + 1), bulge);
        let centre = known.iter().copied().find(|c| (c - rough).magnitude() < 1e-6).unwrap_or(rough);
        Node { at: at(i), leave: Leave::Arc { centre, ccw: bulge > 0.0 } }
    };
    Loop::Path(joined((0..n).map(node).collect()))
}

/// Arcs that were cut in parts become one arc again (but never a full turn in a path).
fn joined(nodes: Vec<Node>) -> Vec<Node> {
    let mut out: Vec<Node> = Vec::new();
    let mut turned = 0.0;
    for (i, node) in nodes.iter().enumerate() {
        let next = nodes[(i + 1) % nodes.len()].at;
        let sweep = match node.leave {
            Leave::Line => 0.0,
            Leave::Arc { .. } => sweep_of(node, next),
        };
        let same =
            matches!(node.leave, Leave::Arc { .. }) && out.last().is_some_and(|p| p.leave == node.leave);
        if same && turned + sweep < TAU - 1e-3 {
            turned += sweep;
        } else {
            out.push(*node);
            turned = sweep;
        }
    }
    out
}

/// Turned angle of the arc that leaves a node \[rad\], without sign.
fn sweep_of(node: &Node, next: Point2) -> f64 {
    match super::loops::piece(node.at, node.leave, next) {
        Piece::Arc { sweep, .. } => sweep.abs(),
        Piece::Line { .. } => 0.0,
    }
}

/// Tests of the result against the loop it came from: the sense of turn is kept, every piece keeps its
/// distance, and every part of the true offset is there.
fn verify(from: &Loop, result: &Loop, by: f64) -> Result<(), OffsetError> {
    let (old, new) = (from.area(), result.area());
    if old * new <= 0.0 {
        return Err(OffsetError::Vanishes(-by));
    }
    if (new.abs() - old.abs()) * by <= 0.0 {
        return Err(OffsetError::Unusable("the offset has the wrong area".to_owned()));
    }
    let samples = |l: &Loop| -> Vec<Point2> {
        l.pieces().iter().flat_map(|p| [0.05, 0.275, 0.5, 0.725, 0.95].map(|t| p.at(t))).collect()
    };
    if samples(result).iter().any(|p| (from.distance(*p) - by.abs()).abs() > WRONG_MM) {
        return Err(OffsetError::Unusable("the offset does not keep its distance".to_owned()));
    }
    let lost = true_offset(from, by, old.signum())
        .into_iter()
        .filter(|p| from.distance(*p) > by.abs() - SAME_MM)
        .any(|p| result.distance(p) > WRONG_MM);
    if lost { Err(OffsetError::Splits { by_mm: by, loops: 2 }) } else { Ok(()) }
}

/// Points on the raw offset of each piece: on the outward normal (right of travel when the loop runs
/// counter-clockwise).
fn true_offset(from: &Loop, by: f64, sense: f64) -> Vec<Point2> {
    let shift = |piece: Piece, t: f64| match piece {
        Piece::Line { from, to } => {
            let d = (to - from).normalize() * (by * sense);
            let at = piece.at(t);
            Point2::new(at.x + d.y, at.y - d.x)
        }
        Piece::Arc { centre, radius, start, sweep } => {
            polar(centre, radius + by * sense * sweep.signum(), wrap(start + sweep * t))
        }
    };
    let usable = |piece: &Piece| match *piece {
        Piece::Line { .. } => piece.length() > SAME_MM,
        Piece::Arc { radius, sweep, .. } => radius + by * sense * sweep.signum() > SAME_MM,
    };
    let pieces = from.pieces();
    pieces.into_iter().filter(usable).flat_map(|p| [0.1, 0.3, 0.5, 0.7, 0.9].map(|t| shift(p, t))).collect()
}

#[cfg(test)]
#[path = "offset_tests.rs"]
mod tests;
