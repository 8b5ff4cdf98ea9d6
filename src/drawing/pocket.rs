//! How the outline of a pocket or pad is told: circle, rectangle, slot, or the corners of any other loop.

use super::texts;
use crate::shape::loops::{Leave, Loop, Node, Piece};
use crate::shape::recipe::{Feature, Kind};
use crate::shape::{InnerSpace, Point2};
use std::f64::consts::{PI, TAU};

/// Centre, radius and angle of an arc.
type Ring = (Point2, f64, f64);

/// What a pocket or pad looks like from above.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A circle of this diameter.
    Circle(f64),
    /// A rectangle: width, height, corner radius.
    Rectangle(f64, f64, f64),
    /// A slot: overall length, width, and whether its length runs along the local x.
    Slot(f64, f64, bool),
    /// A slot along an arc: width, radius of its middle line, angle between the centres of its ends \[deg\].
    Curved(f64, f64, f64),
    /// Anything else: its corners are told in a table.
    Free,
}

/// The outline of a pocket or pad.
pub fn outline(f: &Feature) -> Option<&Loop> {
    match &f.kind {
        Kind::Pocket { outline, .. } | Kind::Pad { outline, .. } => Some(outline),
        Kind::Bore { .. } | Kind::Boss { .. } => None,
    }
}

/// Middle of an outline in its own coordinates.
fn middle(outline: &Loop) -> Point2 {
    let pieces = outline.pieces();
    if let Some(Figure::Curved(_, r, _)) = curved(&pieces) {
        // on the middle line of the slot, which the call-out tells: the middle of its bounds lies beside it
        let outer = pieces.iter().find_map(|p| match *p {
            Piece::Arc { centre, radius, .. } if radius > r => Some((centre, p.at(0.5) - centre)),
            _ => None,
        });
        if let Some((centre, way)) = outer {
            return centre + way * (r / way.magnitude());
        }
    }
    let axis = Point2::new(0.0, 0.0);
    if figure(outline) == Figure::Free && outline.contains(axis) {
        // a shape around its own axis is told from there
        return axis;
    }
    let (low, high) = outline.bounds();
    Point2::new((low.x + high.x) / 2.0, (low.y + high.y) / 2.0)
}

/// Place of a feature on the part: its axis, or the middle of its outline \[mm\].
pub fn place(f: &Feature) -> Point2 {
    let m = outline(f).map_or(Point2::new(0.0, 0.0), middle);
    let at = f.axis.origin + f.x_axis * m.x + f.axis.direction.cross(f.x_axis) * m.y;
    Point2::new(at.x, at.y)
}

/// Recognises an outline.
pub fn figure(outline: &Loop) -> Figure {
    let (low, high) = outline.bounds();
    let (w, h) = (high.x - low.x, high.y - low.y);
    let Loop::Path(nodes) = outline else { return Figure::Circle(w) };
    if let Some(curved) = curved(&outline.pieces()) {
        return curved;
    }
    let (mut radii, mut straight) = (Vec::new(), 0.0);
    for piece in outline.pieces() {
        match piece {
            Piece::Arc { radius, .. } => radii.push(radius),
            Piece::Line { from, to } if (from.x - to.x).abs() < 1e-9 || (from.y - to.y).abs() < 1e-9 => {
                straight += (to - from).magnitude();
            }
            Piece::Line { .. } => return Figure::Free,
        }
    }
    let r = radii.first().copied().unwrap_or(0.0);
    let even = radii.iter().all(|q| (q - r).abs() < 1e-9);
    let fits = |length: f64| even && (straight - length).abs() < 1e-6;
    match (nodes.len(), radii.len()) {
        (4, 0) | (8, 4) if fits(2.0 * (w + h) - 8.0 * r) => Figure::Rectangle(w, h, r),
        (4, 2) if fits(2.0 * (w - 2.0 * r)) && (h - 2.0 * r).abs() < 1e-6 => Figure::Slot(w, h, true),
        (4, 2) if fits(2.0 * (h - 2.0 * r)) && (w - 2.0 * r).abs() < 1e-6 => Figure::Slot(h, w, false),
        _ => Figure::Free,
    }
}

/// A slot along an arc: two arcs about one centre, joined by two half circles.
fn curved(pieces: &[Piece]) -> Option<Figure> {
    let arc = |p: &Piece| match *p {
        Piece::Arc { centre, radius, sweep, .. } => Some((centre, radius, sweep.abs())),
        Piece::Line { .. } => None,
    };
    let arcs: Vec<_> = pieces.iter().filter_map(arc).collect();
    let [a, b, c, d] = arcs[..] else { return None };
    let matches = |(a, b, c, d): (Ring, Ring, Ring, Ring)| {
        let ((one, r1, s1), (_, cap, s2), (other, r2, s3), (_, end, s4)) = (a, b, c, d);
        let even = (one - other).magnitude() < 1e-6 && (s1 - s3).abs() < 1e-6 && (cap - end).abs() < 1e-6;
        let round = [s2, s4].iter().all(|s| (s - PI).abs() < 1e-6);
        let wide = (r1 - r2).abs();
        (even && round && (wide - 2.0 * cap).abs() < 1e-6)
            .then(|| Figure::Curved(wide, 0.5 * (r1 + r2), s1.to_degrees()))
    };
    (pieces.len() == 4).then(|| matches((a, b, c, d)).or_else(|| matches((b, c, d, a)))).flatten()
}

/// The words for an outline; `what` is `pocket` or `pad`.
pub fn text(f: &Feature, what: &str) -> String {
    let p = texts::plain;
    let Some(outline) = outline(f) else { return what.to_owned() };
    let turned = f.x_axis.y.atan2(f.x_axis.x).to_degrees().rem_euclid(180.0);
    let angle = |along: f64| match (turned + along).rem_euclid(180.0) {
        a if a.abs() < 1e-6 || (a - 180.0).abs() < 1e-6 => String::new(),
        a => format!(" at {}°", texts::number(a)),
    };
    match figure(outline) {
        Figure::Circle(d) => format!("{what} ⌀{}", p(d)),
        Figure::Rectangle(w, h, r) => {
            let corners = if r > 1e-9 { format!(", R{}", p(r)) } else { String::new() };
            format!("{what} {} × {}{corners}{}", p(w), p(h), angle(0.0))
        }
        Figure::Slot(l, w, along_x) => {
            let name = if what == "pocket" { "slot" } else { "ridge" };
            format!("{name} {} × {}{}", p(l), p(w), angle(if along_x { 0.0 } else { 90.0 }))
        }
        Figure::Curved(w, r, sweep) => {
            let name = if what == "pocket" { "curved slot" } else { "curved ridge" };
            format!(
                "{name} {} wide, middle line R{}, {}° between its ends' centres",
                p(w),
                p(r),
                texts::number(sweep)
            )
        }
        Figure::Free => match outline {
            Loop::Path(nodes) if repeats(nodes) > 1 => {
                let name = if what == "pad" { "toothed rim" } else { what };
                format!("{name} of {} teeth, one in the table", repeats(nodes))
            }
            _ => format!("{what}, corners in table"),
        },
    }
}

/// Corners of a free outline from the middle of it, in the part's X and Y: name of the size and what is told.
/// Arcs turn left or right as seen from the top.
pub fn corners(f: &Feature) -> Vec<(String, String)> {
    let Some(outline) = outline(f).filter(|o| figure(o) == Figure::Free) else { return Vec::new() };
    let Loop::Path(nodes) = outline else { return Vec::new() };
    let repeats = repeats(nodes);
    // what repeats about the axis is told from the axis, anything else from its middle
    let m = if repeats > 1 { Point2::new(0.0, 0.0) } else { middle(outline) };
    let p = |v: f64| texts::plain(v);
    let mirrored = f.axis.direction.z < 0.0;
    let y_axis = f.axis.direction.cross(f.x_axis);
    let told = |i: usize| {
        let n = &nodes[i];
        let next = match n.leave {
            Leave::Line => String::new(),
            Leave::Arc { centre, ccw } => {
                let r = (n.at - centre).magnitude();
                format!(", then R{} {}", p(r), if ccw != mirrored { "left" } else { "right" })
            }
        };
        let from_middle = f.x_axis * (n.at.x - m.x) + y_axis * (n.at.y - m.y);
        let at = format!("X {} Y {}{next}", p(from_middle.x), p(from_middle.y));
        (format!("{}-corner-{}", f.name, i + 1), at)
    };
    let step = texts::number(360.0 / repeats as f64);
    let again = (repeats > 1)
        .then(|| (format!("{}-repeated", f.name), format!("{repeats}× at {step}° about the axis")));
    (0..nodes.len() / repeats).map(told).chain(again).collect()
}

/// How often an outline repeats itself in one turn about its origin: 1, or a number of teeth.
fn repeats(nodes: &[Node]) -> usize {
    let n = nodes.len();
    let turned = |p: Point2, angle: f64| {
        let (sin, cos) = angle.sin_cos();
        Point2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos)
    };
    let repeated = |k: usize| {
        let angle = TAU / k as f64;
        (0..n).all(|i| (turned(nodes[i].at, angle) - nodes[(i + n / k) % n].at).magnitude() < 1e-6)
    };
    (3..=n).rev().find(|k| n.is_multiple_of(*k) && repeated(*k)).unwrap_or(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::outline::{hull, rectangle};

    #[test]
    fn rectangles_slots_and_circles_are_recognised() {
        let r = rectangle(Point2::new(-5.0, -3.0), Point2::new(5.0, 3.0), 1.0);
        assert_eq!(figure(&r), Figure::Rectangle(10.0, 6.0, 1.0));
        assert_eq!(figure(&Loop::circle(1.0, 2.0, 4.0)), Figure::Circle(8.0));
        let slot = hull(&[(Point2::new(0.0, 0.0), 2.0), (Point2::new(0.0, 9.0), 2.0)]);
        assert!(
            matches!(figure(&slot), Figure::Slot(l, w, false) if (l - 13.0).abs() < 1e-9 && (w - 4.0).abs() < 1e-9)
        );
        let drop = hull(&[(Point2::new(0.0, 0.0), 2.0), (Point2::new(9.0, 0.0), 3.0)]);
        assert_eq!(figure(&drop), Figure::Free);
    }
}
