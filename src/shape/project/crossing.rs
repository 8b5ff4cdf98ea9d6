//! Where the lines of a view are to be cut: where they cross or end on one another on the paper.

use super::scene::Line;
use crate::shape::{InnerSpace, Point2, Vector2};

/// How near an end lies to a line on which it ends \[mm\].
const ENDS_ON: f64 = 1e-5;
/// Cuts nearer than this along a line are one \[mm\].
const SAME: f64 = 1e-6;

/// For each line its cuts, as fractions from 0 to 1.
pub fn parts(lines: &[Line]) -> Vec<Vec<f64>> {
    let mut cuts: Vec<Vec<f64>> =
        lines.iter().map(|l| l.cuts.iter().copied().chain([0.0, 1.0]).collect()).collect();
    for i in 0..lines.len() {
        for j in i + 1..lines.len() {
            if lines[i].bounds.meets(&lines[j].bounds, ENDS_ON) {
                for (t, s) in crossings(&lines[i], &lines[j]) {
                    cuts[i].push(t);
                    cuts[j].push(s);
                }
                cuts[i].extend(ends_on(&lines[j], &lines[i]));
                cuts[j].extend(ends_on(&lines[i], &lines[j]));
            }
        }
    }
    for (line, list) in lines.iter().zip(&mut cuts) {
        list.sort_by(f64::total_cmp);
        let long = line.length();
        list.dedup_by(|a, b| (*a - *b) * long < SAME);
        if let Some(last) = list.last_mut() {
            *last = 1.0;
        }
    }
    cuts
}

/// Fractions of both lines at which they cross.
fn crossings(a: &Line, b: &Line) -> Vec<(f64, f64)> {
    let mut found = Vec::new();
    for p in a.chords() {
        for q in b.chords().filter(|q| q.bounds.meets(&p.bounds, 2.0 * (a.sag + b.sag) + ENDS_ON)) {
            let Some((x, y)) = meet(p.from.1, p.to.1, q.from.1, q.to.1) else { continue };
            let start = (p.from.0 + (p.to.0 - p.from.0) * x, q.from.0 + (q.to.0 - q.from.0) * y);
            found.extend(refined(a, b, start));
        }
    }
    found
}

/// Fractions at which two straight lines meet, a little beyond their ends included.
fn meet(a: Point2, b: Point2, c: Point2, d: Point2) -> Option<(f64, f64)> {
    let (u, v, w) = (b - a, d - c, c - a);
    let det = u.perp_dot(v);
    if det.abs() < 1e-9 * u.magnitude() * v.magnitude() {
        return None;
    }
    let (x, y) = (w.perp_dot(v) / det, w.perp_dot(u) / det);
    let near = |t: f64| (-0.25..=1.25).contains(&t);
    (near(x) && near(y)).then_some((x, y))
}

/// Newton's method for two curves that cross near the start.
fn refined(a: &Line, b: &Line, (mut t, mut s): (f64, f64)) -> Option<(f64, f64)> {
    for _ in 0..8 {
        let gap = b.at(s) - a.at(t);
        if gap.magnitude() < 1e-10 {
            break;
        }
        let (u, v): (Vector2, Vector2) = (a.slope(t), b.slope(s));
        let det = u.perp_dot(v);
        if det.abs() < 1e-12 * u.magnitude() * v.magnitude() {
            return None;
        }
        (t, s) = (t + gap.perp_dot(v) / det, s + gap.perp_dot(u) / det);
        if !(-0.5..=1.5).contains(&t) || !(-0.5..=1.5).contains(&s) {
            return None;
        }
    }
    let inside = |t: f64| (-1e-9..=1.0 + 1e-9).contains(&t);
    let there = (b.at(s) - a.at(t)).magnitude() < 1e-7;
    (inside(t) && inside(s) && there).then(|| (t.clamp(0.0, 1.0), s.clamp(0.0, 1.0)))
}

/// Fractions of `on` at which `line` ends on it.
fn ends_on(line: &Line, on: &Line) -> Vec<f64> {
    [0.0, 1.0].into_iter().flat_map(|t| feet(on, line.at(t))).collect()
}

/// Fractions at which a line comes within reach of a point.
fn feet(line: &Line, p: Point2) -> Vec<f64> {
    let reach = line.sag + ENDS_ON;
    let mut found = Vec::new();
    for chord in line.chords().filter(|c| c.bounds.near(p, 2.0 * reach)) {
        let d = chord.to.1 - chord.from.1;
        let share = ((p - chord.from.1).dot(d) / d.magnitude2()).clamp(0.0, 1.0);
        let mut t = chord.from.0 + (chord.to.0 - chord.from.0) * share;
        for _ in 0..6 {
            let slope = line.slope(t);
            t += (p - line.at(t)).dot(slope) / slope.magnitude2().max(1e-18);
            t = t.clamp(0.0, 1.0);
        }
        if (line.at(t) - p).magnitude() < ENDS_ON {
            found.push(t);
        }
    }
    found
}
