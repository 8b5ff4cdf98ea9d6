//! Where parts have metal along lines that run with their string, so that one can tell which of two lies over the other.
//!
//! The lines stand around the axes of the string at radii between those at which anything of its parts begins or ends.

use super::{Line, Piece};
use crate::parts::fastening::inside;
use crate::parts::part::Instance;
use crate::parts::stock::envelope;
use crate::shape::loops::Loop;
use crate::shape::recipe::{Body, Kind, Recipe};
use crate::shape::{InnerSpace, Point3, Vector3};
use std::f64::consts::TAU;

/// Lines around an axis at each radius, and the turn of the first \[rad\]: away from the planes of symmetry.
const AROUND: usize = 5;
const TURNED: f64 = 0.37;
/// Radii nearer than this count as one \[mm\].
const SAME_RADIUS: f64 = 0.15;
/// Steps in which a part is looked through that does not stand along the string.
const STEPS: usize = 32;

/// Where a part has metal along a line: least and greatest place along the string \[mm\].
pub type Span = [f64; 2];

/// Points on all lines that are looked along, for the pieces of a string.
pub fn lines(string: &[Piece], way: Vector3) -> Vec<Point3> {
    let mut axes: Vec<Line> = Vec::new();
    for piece in string {
        if !axes.iter().any(|a| a.is(&piece.axis)) {
            axes.push(piece.axis);
        }
    }
    let aside = if way.x.abs() > 0.9 { Vector3::new(0.0, 1.0, 0.0) } else { Vector3::new(1.0, 0.0, 0.0) };
    let u = way.cross(aside).normalize();
    let v = way.cross(u);
    let ring = |axis: &Line, r: f64| {
        let point = axis.point;
        (0..AROUND).map(move |i| {
            let (sin, cos) = (TURNED + i as f64 * TAU / AROUND as f64).sin_cos();
            point + (u * cos + v * sin) * r
        })
    };
    axes.iter()
        .flat_map(|a| radii(string, a).into_iter().flat_map(|r| ring(a, r)).collect::<Vec<_>>())
        .collect()
}

/// Radii about an axis halfway between those at which something round on it begins or ends \[mm\].
fn radii(string: &[Piece], axis: &Line) -> Vec<f64> {
    let mut all: Vec<f64> = string.iter().filter(|p| p.has(axis)).flat_map(|p| ends(p, axis)).collect();
    all.push(0.0);
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| *a - *b < SAME_RADIUS);
    all.windows(2).map(|w| (w[0] + w[1]) / 2.0).collect()
}

/// Radii at which something of a part begins or ends about an axis \[mm\].
fn ends(piece: &Piece, axis: &Line) -> Vec<f64> {
    let lines = feature_lines(piece.instance, piece.recipe);
    let round = piece.recipe.features.iter().zip(lines).filter(|(_, l)| l.is(axis));
    let mut all: Vec<f64> = round
        .flat_map(|(f, _)| match &f.kind {
            Kind::Bore { chain, .. } | Kind::Boss { chain } => chain.iter().map(|n| n.r).collect(),
            _ => Vec::new(),
        })
        .collect();
    if piece.lines_of.first().is_some_and(|l| l.is(axis)) {
        match &piece.recipe.body {
            Body::Turned(nodes) => all.extend(nodes.iter().map(|n| n.r)),
            Body::Plate { outline, .. } => match outline.boundary() {
                Loop::Circle { radius, .. } => all.push(radius),
                Loop::Path(nodes) => all.extend(nodes.iter().map(|n| n.at.x.hypot(n.at.y))),
            },
        }
    }
    all
}

/// The line of each feature, in the order of the recipe.
pub fn feature_lines<'a>(i: &'a Instance, recipe: &'a Recipe) -> impl Iterator<Item = Line> + 'a {
    let y = i.z_axis.cross(i.x_axis);
    let out = move |v: Vector3| i.x_axis * v.x + y * v.y + i.z_axis * v.z;
    recipe.features.iter().map(move |f| Line {
        point: i.origin + out(f.axis.origin - Point3::new(0.0, 0.0, 0.0)),
        way: out(f.axis.direction),
    })
}

/// Where a piece has metal along each line.
pub fn spans(piece: &Piece, lines: &[Point3], way: Vector3) -> Vec<Option<Span>> {
    let i = piece.instance;
    let y = i.z_axis.cross(i.x_axis);
    let within = Vector3::new(way.dot(i.x_axis), way.dot(y), way.dot(i.z_axis));
    let whole = envelope(piece.recipe);
    let upright = within.z.abs() > 0.999;
    // places along the string, counted from the plane through the part's origin
    let levels = if upright { levels(piece.recipe) } else { steps([whole.low, whole.high], within) };
    let of = |point: &Point3| {
        let p = inside(i, *point);
        let p = p - within * (p - Point3::new(0.0, 0.0, 0.0)).dot(within);
        let beside = p.x < whole.low.x || p.x > whole.high.x || p.y < whole.low.y || p.y > whole.high.y;
        if upright && beside {
            return None;
        }
        let sign = if upright { within.z } else { 1.0 };
        let metal = levels.windows(2).filter(|w| {
            let middle = sign * (w[0] + w[1]) / 2.0;
            piece.metal.contains(p + within * middle)
        });
        let span = metal.fold(None, |span: Option<Span>, w| match span {
            None => Some([w[0], w[1]]),
            Some([low, high]) => Some([low.min(w[0]), high.max(w[1])]),
        })?;
        let at = (i.origin - Point3::new(0.0, 0.0, 0.0)).dot(way);
        let ends = [at + sign * span[0], at + sign * span[1]];
        Some([ends[0].min(ends[1]), ends[0].max(ends[1])])
    };
    lines.iter().map(of).collect()
}

/// Heights at which something of a recipe begins or ends \[mm\].
fn levels(recipe: &Recipe) -> Vec<f64> {
    let mut all: Vec<f64> = match &recipe.body {
        Body::Turned(nodes) => nodes.iter().map(|n| n.z).collect(),
        Body::Plate { thickness, .. } => vec![0.0, *thickness],
    };
    for f in recipe.features.iter().filter(|f| f.axis.direction.z.abs() > 0.999) {
        let far: Vec<f64> = match &f.kind {
            Kind::Bore { chain, .. } | Kind::Boss { chain } => chain.iter().map(|n| n.z).collect(),
            Kind::Pocket { depth, .. } => vec![*depth],
            Kind::Pad { height, .. } => vec![*height],
        };
        all.extend(far.into_iter().chain([0.0]).map(|z| f.axis.origin.z + f.axis.direction.z * z));
    }
    all.sort_by(f64::total_cmp);
    all.dedup_by(|a, b| *a - *b < 1e-6);
    all
}

/// Even steps through a box along a direction \[mm\].
fn steps(corners: [Point3; 2], way: Vector3) -> Vec<f64> {
    let [low, high] = corners;
    let ends =
        [[low.x * way.x, high.x * way.x], [low.y * way.y, high.y * way.y], [low.z * way.z, high.z * way.z]];
    let first: f64 = ends.iter().map(|e| e[0].min(e[1])).sum();
    let last: f64 = ends.iter().map(|e| e[0].max(e[1])).sum();
    (0..=STEPS).map(|k| first + (last - first) * k as f64 / STEPS as f64).collect()
}
