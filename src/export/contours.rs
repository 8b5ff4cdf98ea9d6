//! Nominal contours of a flat part, read off its recipe.

use super::cutfile::Contour;
use crate::parts::part::Part;
use crate::shape::loops::{Leave, Loop};
use crate::shape::recipe::{Body, End, Feature, Kind, ProfileNode};
use crate::shape::{InnerSpace, Point2, Vector2};

/// Pieces shorter than this \[mm\] are no pieces: a slot made of a rounded rectangle has such sides.
const NOTHING_MM: f64 = 1e-7;

/// Nominal contours in the part's own coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Contours {
    /// The outside.
    pub outline: Contour,
    /// What is cut right through.
    pub holes: Vec<Contour>,
    /// Names of the features that a flat cut cannot make (blind, radial, raised).
    pub not_cut: Vec<String>,
}

/// The contours of a part marked flat with a plate or a plain ring as body; `None` for any other part.
pub fn of(part: &Part) -> Option<Contours> {
    let recipe = part.recipe.as_ref().filter(|_| part.flat)?;
    let mut found = body(&recipe.body)?;
    for feature in &recipe.features {
        match through(feature) {
            Some(boundary) => found.holes.push(Contour { name: feature.name.clone(), boundary }),
            None if found.not_cut.contains(&feature.name) => {}
            None => found.not_cut.push(feature.name.clone()),
        }
    }
    Some(found)
}

/// Contours of the body alone.
fn body(body: &Body) -> Option<Contours> {
    let contour = |name: &str, boundary: Loop| Contour { name: name.to_owned(), boundary };
    match body {
        Body::Plate { outline, .. } => Some(Contours {
            outline: contour("outline", tidy(&outline.boundary())),
            holes: Vec::new(),
            not_cut: Vec::new(),
        }),
        Body::Turned(profile) => {
            let (inner, outer) = ring(profile)?;
            let hole = (inner > 0.0).then(|| contour("bore", Loop::circle(0.0, 0.0, inner)));
            Some(Contours {
                outline: contour("outline", Loop::circle(0.0, 0.0, outer)),
                holes: hole.into_iter().collect(),
                not_cut: Vec::new(),
            })
        }
    }
}

/// Inner and outer radius of a profile that is a plain rectangle (a washer, a ring blank).
fn ring(profile: &[ProfileNode]) -> Option<(f64, f64)> {
    let next = |i: usize| &profile[(i + 1) % profile.len()];
    let square =
        |(i, n): (usize, &ProfileNode)| n.leave == Leave::Line && (n.r == next(i).r || n.z == next(i).z);
    let plain = profile.len() == 4 && profile.iter().enumerate().all(square);
    let radii = || profile.iter().map(|n| n.r);
    plain.then(|| (radii().fold(f64::INFINITY, f64::min), radii().fold(0.0, f64::max)))
}

/// The contour of a feature that goes right through along Z.
fn through(feature: &Feature) -> Option<Loop> {
    let d = feature.axis.direction;
    if d.x.abs() > 1e-9 || d.y.abs() > 1e-9 {
        return None;
    }
    let at = Point2::new(feature.axis.origin.x, feature.axis.origin.y);
    match &feature.kind {
        Kind::Bore { chain, end: End::Through, .. } => {
            let radius = chain.iter().map(|n| n.r).fold(f64::INFINITY, f64::min);
            Some(Loop::Circle { centre: at, radius })
        }
        Kind::Pocket { outline, through: true, .. } => {
            let x = Vector2::new(feature.x_axis.x, feature.x_axis.y);
            // Local y = direction × x, and direction is ±Z.
            let y = Vector2::new(-x.y, x.x) * d.z.signum();
            Some(tidy(&outline.mapped(|p| at + x * p.x + y * p.y, d.z < 0.0)))
        }
        _ => None,
    }
}

/// The loop without straight pieces of no length.
fn tidy(l: &Loop) -> Loop {
    let Loop::Path(nodes) = l else { return l.clone() };
    let n = nodes.len();
    let real = |i: &usize| {
        let (a, b) = (&nodes[*i], &nodes[(i + 1) % n]);
        a.leave != Leave::Line || (b.at - a.at).magnitude() > NOTHING_MM
    };
    Loop::Path((0..n).filter(real).map(|i| nodes[i]).collect())
}
