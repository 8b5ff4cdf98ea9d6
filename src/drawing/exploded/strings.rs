//! Where the parts of an exploded view stand: those on one axis are drawn out along it, each just far enough to be clear of
//! the others, and the strings that come of it are moved apart no farther than they must.

use super::Piece;
use crate::drawing::board::Frame;
use crate::shape::project::{Flat, View};
use crate::shape::{InnerSpace, Point2, Vector2};
use std::f64::consts::TAU;

/// Air between the parts of a string, and between strings \[mm of the engine\].
const BETWEEN: f64 = 9.0;
const ASIDE: f64 = 16.0;
/// Step in which room is looked for \[mm of the engine\].
const STEP: f64 = 4.0;
/// Two axes are one within this \[mm\].
const ONE_AXIS: f64 = 0.01;
/// Directions in which a string is moved aside.
const WAYS: usize = 16;

/// All pieces moved to where none lies on another; those of one axis follow one another.
pub fn spread(pieces: Vec<Piece>) -> Vec<Piece> {
    let mut strings: Vec<Vec<Piece>> = Vec::new();
    for piece in pieces {
        match strings.iter_mut().find(|s| on_one_axis(&s[0], &piece)) {
            Some(string) => string.push(piece),
            None => strings.push(vec![piece]),
        }
    }
    for (i, string) in strings.iter_mut().enumerate() {
        string.iter_mut().for_each(|p| p.string = i);
    }
    let mut drawn_out: Vec<Vec<Piece>> = strings.into_iter().map(draw_out).collect();
    // the largest stay where they are
    let size = |s: &Vec<Piece>| s.iter().map(|p| p.frame.width() * p.frame.height()).sum::<f64>();
    drawn_out.sort_by(|a, b| size(b).total_cmp(&size(a)));
    let mut placed: Vec<Piece> = Vec::new();
    for string in drawn_out {
        let by = room(&placed, &string);
        placed.extend(string.into_iter().map(|p| moved(p, by)));
    }
    placed
}

/// Stretches of the axes between the pieces that follow one another.
pub fn axes(spread: &[Piece]) -> Vec<(Point2, Point2)> {
    let pairs = spread.windows(2).filter(|w| w[0].string == w[1].string);
    pairs.filter_map(|w| between(&w[0], &w[1])).collect()
}

/// The stretch of the axis from the box of one piece to that of the next.
fn between(a: &Piece, b: &Piece) -> Option<(Point2, Point2)> {
    let way = direction(a);
    let (from, to) = (along_axis(a), along_axis(b));
    let way = if (to - from).dot(way) < 0.0 { -way } else { way };
    // out of one box and into the other
    let steps = ((to - from).magnitude() / 0.5).ceil() as usize;
    let on = |i: usize| from + (to - from) * (i as f64 / steps.max(1) as f64);
    let free: Vec<Point2> =
        (0..=steps).map(on).filter(|p| !a.frame.holds_point(*p) && !b.frame.holds_point(*p)).collect();
    let (first, last) = (free.first()?, free.last()?);
    let straight = (to - from).perp_dot(way).abs() < 1.0;
    (straight && (last - first).magnitude() > 1.0).then_some((*first, *last))
}

/// The point of the axis abreast of the middle of a piece.
fn along_axis(piece: &Piece) -> Point2 {
    let (on, way) = (anchor(piece), direction(piece));
    let along =
        if way.magnitude2() < 1e-12 { 0.0 } else { (piece.frame.centre() - on).dot(way) / way.magnitude2() };
    on + way * along
}

/// The origin of a piece on the paper.
fn anchor(piece: &Piece) -> Point2 {
    View::isometric().frame.flat(piece.axis.0)
}

/// The direction of its axis on the paper.
fn direction(piece: &Piece) -> Vector2 {
    let eye = View::isometric().frame;
    Vector2::new(piece.axis.1.dot(eye.x), piece.axis.1.dot(eye.y()))
}

fn on_one_axis(a: &Piece, b: &Piece) -> bool {
    let ((p, u), (q, v)) = (a.axis, b.axis);
    u.cross(v).magnitude() < 1e-6 && (q - p).cross(u).magnitude() < ONE_AXIS
}

/// Draws the pieces of one axis out along it.
fn draw_out(mut string: Vec<Piece>) -> Vec<Piece> {
    let axis = string[0].axis.1;
    // one sense for all, so that the order is that in the engine
    let axis = if axis.x + axis.y + axis.z < 0.0 { -axis } else { axis };
    let eye = View::isometric().frame;
    let way = Vector2::new(axis.dot(eye.x), axis.dot(eye.y()));
    let way = way.normalize();
    let middle = |p: &Piece| Vector2::new(p.frame.centre().x, p.frame.centre().y).dot(way);
    string.sort_by(|a, b| middle(a).total_cmp(&middle(b)));
    let whole = string.iter().map(middle).sum::<f64>() / string.len() as f64;
    let mut placed: Vec<Piece> = Vec::new();
    let mut out = 0.0;
    for piece in string {
        while placed.iter().any(|p| p.frame.grown(BETWEEN).overlaps(&shifted(&piece.frame, way * out))) {
            out += STEP / 2.0;
        }
        placed.push(moved(piece, way * out));
    }
    let now = placed.iter().map(middle).sum::<f64>() / placed.len() as f64;
    placed.into_iter().map(|p| moved(p, way * (whole - now))).collect()
}

/// The shortest way that takes a string clear of what stands already.
fn room(placed: &[Piece], string: &[Piece]) -> Vector2 {
    let clear = |by: Vector2| {
        string.iter().all(|s| {
            let f = shifted(&s.frame, by).grown(ASIDE);
            !placed.iter().any(|p| p.frame.overlaps(&f))
        })
    };
    let rings = (0..).map(|i| STEP * f64::from(i));
    let ways = |d: f64| (0..WAYS).map(move |k| polar(d, TAU * k as f64 / WAYS as f64));
    rings.flat_map(ways).find(|by| clear(*by)).unwrap_or(Vector2::new(0.0, 0.0))
}

fn polar(distance: f64, angle: f64) -> Vector2 {
    Vector2::new(angle.cos(), angle.sin()) * distance
}

fn shifted(f: &Frame, by: Vector2) -> Frame {
    Frame { low: f.low + by, high: f.high + by }
}

/// A piece moved on the paper; its axis goes with it.
fn moved(piece: Piece, by: Vector2) -> Piece {
    let eye = View::isometric().frame;
    let axis = (piece.axis.0 + eye.x * by.x + eye.y() * by.y, piece.axis.1);
    let lines: Vec<Flat> = piece.lines.iter().map(|l| l.placed(1.0, by)).collect();
    Piece { frame: shifted(&piece.frame, by), lines, axis, ..piece }
}
