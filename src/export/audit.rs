//! Whether contours can be cut cleanly, with numbered findings. A finding is an error and stops the build.

use super::cutfile::{Contour, CutFile};
use crate::shape::crossing::{Meeting, finite, meeting};
use crate::shape::loops::{Leave, Loop, Piece, piece};
use crate::shape::{InnerSpace, Point2};
use std::fmt;

/// Two places closer than this \[mm\] are one: a tenth of the distance by which hole centres of mating
/// parts may differ. A larger value would take thin webs for contacts.
const SAME_MM: f64 = 1e-7;

/// The largest sheet that is believed \[mm\]; beyond it nine decimals would not be kept either.
const SHEET_MM: f64 = 1e5;

/// What can be wrong with a contour.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Code {
    /// An arc does not end where the next piece starts, so the contour is open.
    Open = 101,
    /// A piece has no length.
    NoLength = 102,
    /// A stretch is run over twice.
    Twice = 103,
    /// Contours cross or touch.
    Crossing = 104,
    /// A hole lies outside the outline.
    HoleOutside = 105,
    /// A hole lies inside another hole.
    HoleInHole = 106,
    /// The contour runs the wrong way round, or encloses nothing.
    Direction = 107,
    /// A coordinate is negative, beyond any sheet, or not a number.
    Coordinate = 108,
}

/// One finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// What is wrong.
    pub code: Code,
    /// Names of the contours concerned.
    pub contours: Vec<String>,
    /// Where \[mm\], if at a place.
    pub at: Option<Point2>,
}

impl Code {
    /// The finding in words.
    pub fn words(self) -> &'static str {
        match self {
            Code::Open => "the contour is not closed",
            Code::NoLength => "a piece has no length",
            Code::Twice => "a stretch would be cut twice",
            Code::Crossing => "contours cross or touch",
            Code::HoleOutside => "a hole lies outside the outline",
            Code::HoleInHole => "a hole lies inside another hole",
            Code::Direction => "a contour runs the wrong way round or encloses nothing",
            Code::Coordinate => "a coordinate is negative, beyond any sheet, or not a number",
        }
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "cut-{}: {} ({})", self.code as u16, self.code.words(), self.contours.join(", "))?;
        match self.at {
            Some(p) => write!(f, " at ({:.3}, {:.3}) mm", p.x, p.y),
            None => Ok(()),
        }
    }
}

/// All findings of a cut file; none when it can be cut.
pub fn audit(file: &CutFile) -> Vec<Finding> {
    let all: Vec<&Contour> = file.contours().collect();
    let mut found: Vec<Finding> = all.iter().flat_map(|c| single(c)).collect();
    if !found.is_empty() {
        // Pieces that are broken in themselves would only give follow-up findings below.
        return found;
    }
    found.extend(directions(file));
    for (i, a) in all.iter().enumerate() {
        found.extend(within(a));
        found.extend(all[i + 1..].iter().flat_map(|b| between(a, b)));
    }
    found.extend(nesting(file));
    found
}

/// A finding at a contour.
fn finding(code: Code, contours: &[&Contour], at: Option<Point2>) -> Finding {
    Finding { code, contours: contours.iter().map(|c| c.name.clone()).collect(), at }
}

/// Findings of the pieces one by one.
fn single(c: &Contour) -> Vec<Finding> {
    let mut out = Vec::new();
    for (from, leave, to) in steps(&c.boundary) {
        if !finite(from) || !finite(to) {
            out.push(finding(Code::Coordinate, &[c], None));
            continue;
        }
        if let Leave::Arc { centre, .. } = leave
            && ((from - centre).magnitude() - (to - centre).magnitude()).abs() > SAME_MM
        {
            out.push(finding(Code::Open, &[c], Some(to)));
        }
        let closed_arc = matches!(leave, Leave::Arc { .. }) && (to - from).magnitude() <= SAME_MM;
        if closed_arc || piece(from, leave, to).length() <= SAME_MM {
            out.push(finding(Code::NoLength, &[c], Some(from)));
        }
    }
    let (low, high) = c.boundary.bounds();
    let on_the_sheet = low.x >= 0.0 && low.y >= 0.0 && high.x <= SHEET_MM && high.y <= SHEET_MM;
    if !finite(low) || !finite(high) || !on_the_sheet {
        out.push(finding(Code::Coordinate, &[c], None));
    }
    out
}

/// Corner, way and next corner of a path; a circle has none.
fn steps(l: &Loop) -> Vec<(Point2, Leave, Point2)> {
    match l {
        Loop::Circle { .. } => Vec::new(),
        Loop::Path(n) => (0..n.len()).map(|i| (n[i].at, n[i].leave, n[(i + 1) % n.len()].at)).collect(),
    }
}

/// The outline counter-clockwise, holes clockwise (a circle has no direction of its own).
fn directions(file: &CutFile) -> Vec<Finding> {
    let wrong = |c: &&Contour| {
        let sense = if std::ptr::eq(*c, &file.outline) { 1.0 } else { -1.0 };
        match c.boundary {
            Loop::Circle { radius, .. } => radius <= SAME_MM,
            Loop::Path(_) => c.boundary.area() * sense <= SAME_MM,
        }
    };
    file.contours().filter(wrong).map(|c| finding(Code::Direction, &[c], None)).collect()
}

/// Pieces of one contour that meet elsewhere than at their common corner.
fn within(c: &Contour) -> Vec<Finding> {
    let pieces = c.boundary.pieces();
    let n = pieces.len();
    let mut out = Vec::new();
    for i in 0..n {
        for j in i + 1..n {
            let corners: Vec<Point2> = [(i, j), (j, i)]
                .into_iter()
                .filter(|(a, b)| (a + 1) % n == *b)
                .map(|(_, b)| pieces[b].at(0.0))
                .collect();
            out.extend(clash(&pieces[i], &pieces[j], &corners).map(|(code, at)| finding(code, &[c], at)));
        }
    }
    out
}

/// Pieces of two contours that meet at all.
fn between(a: &Contour, b: &Contour) -> Vec<Finding> {
    let mut out = Vec::new();
    for p in a.boundary.pieces() {
        for q in b.boundary.pieces() {
            out.extend(clash(&p, &q, &[]).map(|(code, at)| finding(code, &[a, b], at)));
        }
    }
    out
}

/// How two pieces clash, if they meet anywhere but at the allowed corners.
fn clash(a: &Piece, b: &Piece, allowed: &[Point2]) -> Option<(Code, Option<Point2>)> {
    match meeting(a, b, SAME_MM) {
        Meeting::Stretch(_) => Some((Code::Twice, Some(a.at(0.5)))),
        Meeting::Points(points) => points
            .into_iter()
            .find(|p| allowed.iter().all(|c| (c - p).magnitude() > 10.0 * SAME_MM))
            .map(|p| (Code::Crossing, Some(p))),
    }
}

/// Holes inside the outline and not inside one another.
fn nesting(file: &CutFile) -> Vec<Finding> {
    let start = |c: &Contour| c.boundary.pieces()[0].at(0.0);
    let mut out = Vec::new();
    for (i, hole) in file.holes.iter().enumerate() {
        if !file.outline.boundary.contains(start(hole)) {
            out.push(finding(Code::HoleOutside, &[hole], Some(start(hole))));
        }
        for (j, other) in file.holes.iter().enumerate() {
            if i != j && other.boundary.contains(start(hole)) {
                out.push(finding(Code::HoleInHole, &[hole, other], Some(start(hole))));
            }
        }
    }
    for mark in file.punch.iter().filter(|m| !file.outline.boundary.contains(m.at)) {
        out.push(Finding { code: Code::HoleOutside, contours: vec![mark.name.clone()], at: Some(mark.at) });
    }
    out
}
