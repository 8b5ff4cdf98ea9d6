//! Where the parts of an exploded view stand: those on one axis are drawn out along it, each just far enough to be clear of
//! the others, and the strings that come of it are moved apart no farther than they must.

use super::order::sorted;
use super::{Line, Piece};
use crate::drawing::board::Frame;
use crate::shape::project::Flat;
use crate::shape::solid::Frame as Axes;
use crate::shape::{InnerSpace, Point2, Vector2, Vector3};
use rayon::prelude::*;
use std::f64::consts::TAU;

/// Air between the parts of a string, and between strings \[mm of the engine\].
const BETWEEN: f64 = 9.0;
const ASIDE: f64 = 16.0;
/// Step in which room is looked for \[mm of the engine\].
const STEP: f64 = 4.0;
/// Directions in which a string is moved aside.
const WAYS: usize = 16;
/// A string of so few pieces goes with the part that holds it (a con rod with the crank, a foot with its plate).
const FEW: usize = 3;
/// Pieces of a sort stand abreast within this \[mm\].
const ABREAST: f64 = 0.01;

/// All pieces moved to where none lies on another; those of one string follow one another.
pub fn spread<'a>(pieces: Vec<Piece<'a>>, eye: &Axes) -> Vec<Piece<'a>> {
    let mut strings: Vec<Vec<Piece>> = Vec::new();
    for piece in pieces {
        match strings.iter_mut().find(|s| s[0].axis.is(&piece.axis)) {
            Some(string) => string.push(piece),
            None => strings.push(vec![piece]),
        }
    }
    let mut strings = held(strings);
    for (i, string) in strings.iter_mut().enumerate() {
        string.iter_mut().for_each(|p| p.string = i);
    }
    let mut drawn_out: Vec<Vec<Piece>> = strings.into_par_iter().map(|s| draw_out(s, eye)).collect();
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

/// Strings of few pieces put to those that have a part with which they share an axis.
fn held(mut strings: Vec<Vec<Piece>>) -> Vec<Vec<Piece>> {
    // the least first, so that what holds them is whole
    strings.sort_by_key(Vec::len);
    let mut i = 0;
    while i < strings.len() {
        let few = strings[i].len() <= FEW;
        let host = |(j, other): (usize, &Vec<Piece>)| {
            (j != i && other.len() >= strings[i].len()).then(|| shared(&strings[i], other).map(|l| (j, l)))?
        };
        match strings.iter().enumerate().filter(|_| few).find_map(host) {
            Some((j, line)) => {
                let taken = std::mem::take(&mut strings[i]);
                strings[j].extend(taken.into_iter().map(|p| Piece { axis: line, ..p }));
                strings.remove(i);
            }
            None => i += 1,
        }
    }
    strings
}

/// The axis on which a string is held by a part of another: its own, or that of something round on all of it.
fn shared(string: &[Piece], other: &[Piece]) -> Option<Line> {
    let own = string[0].axis;
    let bored = || other.iter().any(|host| host.has(&own));
    let on = |host: &Piece| string.iter().all(|p| p.has(&host.axis)).then_some(host.axis);
    other.iter().find_map(on).or_else(|| bored().then_some(own))
}

/// Stretches of the axes between the pieces that follow one another on them.
pub fn axes(spread: &[Piece], eye: &Axes) -> Vec<(Point2, Point2)> {
    let mut all = Vec::new();
    for string in spread.chunk_by(|a, b| a.string == b.string) {
        let mut lines: Vec<Line> = Vec::new();
        for piece in string {
            if !lines.iter().any(|l| l.is(&piece.axis)) {
                lines.push(piece.axis);
            }
        }
        for line in &lines {
            let on: Vec<&Piece> = string.iter().filter(|p| p.has(line)).collect();
            all.extend(on.windows(2).filter_map(|w| between(w[0], w[1], line, eye)));
        }
    }
    all
}

/// The stretch of an axis from the box of one piece to that of the next.
fn between(a: &Piece, b: &Piece, line: &Line, eye: &Axes) -> Option<(Point2, Point2)> {
    let way = on_paper(line.way, eye);
    let (from, to) = (abreast(a, line, eye), abreast(b, line, eye));
    // out of one box and into the other
    let steps = ((to - from).magnitude() / 0.5).ceil() as usize;
    let on = |i: usize| from + (to - from) * (i as f64 / steps.max(1) as f64);
    let free: Vec<Point2> =
        (0..=steps).map(on).filter(|p| !a.frame.holds_point(*p) && !b.frame.holds_point(*p)).collect();
    let (first, last) = (free.first()?, free.last()?);
    let straight = (to - from).perp_dot(way).abs() < 1.0;
    (straight && (last - first).magnitude() > 1.0).then_some((*first, *last))
}

/// The point of an axis abreast of the middle of a piece, which took the axis with it.
fn abreast(piece: &Piece, line: &Line, eye: &Axes) -> Point2 {
    let (on, way) = (eye.flat(line.point) + piece.by, on_paper(line.way, eye));
    let along =
        if way.magnitude2() < 1e-12 { 0.0 } else { (piece.frame.centre() - on).dot(way) / way.magnitude2() };
    on + way * along
}

/// A direction on the paper.
fn on_paper(way: Vector3, eye: &Axes) -> Vector2 {
    Vector2::new(way.dot(eye.x), way.dot(eye.y()))
}

/// Draws the pieces of a string out along its axis, the farthest along it first.
fn draw_out<'a>(string: Vec<Piece<'a>>, eye: &Axes) -> Vec<Piece<'a>> {
    let axis = string[0].axis.way;
    // one sense for all, so that the order is that in the engine
    let axis = if axis.x + axis.y + axis.z < 0.0 { -axis } else { axis };
    let way = on_paper(axis, eye).normalize();
    let middle = |p: &Piece| Vector2::new(p.frame.centre().x, p.frame.centre().y).dot(way);
    let whole = string.iter().map(middle).sum::<f64>() / string.len() as f64;
    let mut placed: Vec<Piece> = Vec::new();
    let mut out = 0.0;
    for row in rows(sorted(string, axis), axis) {
        let taken = |f: &Frame| placed.iter().any(|p| p.frame.grown(BETWEEN).overlaps(f));
        while row.iter().any(|p| taken(&shifted(&p.frame, -way * out))) {
            out += STEP / 2.0;
        }
        placed.extend(row.into_iter().map(|p| moved(p, -way * out)));
    }
    let now = placed.iter().map(middle).sum::<f64>() / placed.len() as f64;
    placed.into_iter().map(|p| moved(p, way * (whole - now))).collect()
}

/// Pieces of a sort that stand abreast of one another stay so.
fn rows<'a>(sorted: Vec<Piece<'a>>, axis: Vector3) -> Vec<Vec<Piece<'a>>> {
    let mut rows: Vec<Vec<Piece>> = Vec::new();
    for piece in sorted {
        let abreast = |other: &Piece| {
            let along = (other.instance.origin - piece.instance.origin).dot(axis);
            other.instance.part == piece.instance.part && along.abs() < ABREAST && !other.axis.is(&piece.axis)
        };
        match rows.iter_mut().find(|row| row.iter().all(abreast)) {
            Some(row) => row.push(piece),
            None => rows.push(vec![piece]),
        }
    }
    rows
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

/// A piece moved on the paper.
fn moved<'a>(piece: Piece<'a>, by: Vector2) -> Piece<'a> {
    let lines: Vec<Flat> = piece.lines.iter().map(|l| l.placed(1.0, by)).collect();
    Piece { frame: shifted(&piece.frame, by), lines, by: piece.by + by, ..piece }
}
