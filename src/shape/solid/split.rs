//! Where full turns are split, so that no hole that comes in from the side lies across the split.

use super::chain::PLACE;
use super::frame::Frame;
use super::surface::square;
use crate::shape::InnerSpace;
use crate::shape::loops::wrap;
use crate::shape::recipe::{Feature, Kind};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Clearance that makes two opposite splits good enough \[rad\].
const ENOUGH: f64 = 0.05;

/// Two angles \[rad\] about the frame's z that stay clear of all bores crossing that axis.
///
/// Opposite angles are preferred; where holes leave no room for them the two are chosen each by itself.
pub(super) fn angles(frame: &Frame, features: &[Feature]) -> [f64; 2] {
    let holes: Vec<(f64, f64)> = features.iter().flat_map(|f| sides(frame, f)).collect();
    let clear = |a: f64| holes.iter().map(|(at, half)| apart(a, *at) - half).fold(PI, f64::min);
    let both = |a: f64| clear(a).min(clear(a + PI));
    let first = best(180, |a| Some(both(a)));
    if both(first) > ENOUGH {
        return [first, first + PI];
    }
    let first = best(360, |a| Some(clear(a)));
    let second = best(360, |a| (apart(a, first) > PI / 3.0).then(|| clear(a)));
    if first < second { [first, second] } else { [second, first] }
}

/// The whole degree with the greatest score, the first of equals \[rad\].
fn best(degrees: u32, score: impl Fn(f64) -> Option<f64>) -> f64 {
    let mut found = (0.0, f64::NEG_INFINITY);
    for angle in (0..degrees).map(|d| f64::from(d).to_radians()) {
        match score(angle) {
            Some(s) if s > found.1 + 1e-9 => found = (angle, s),
            _ => {}
        }
    }
    found.0
}

/// Angle between two directions \[rad\], 0..π.
fn apart(a: f64, b: f64) -> f64 {
    let d = wrap(a - b);
    d.min(TAU - d)
}

/// Angles (and half widths) at which a bore may come through cylinders about the axis \[rad\].
fn sides(frame: &Frame, feature: &Feature) -> Vec<(f64, f64)> {
    let Kind::Bore { chain, .. } = &feature.kind else { return Vec::new() };
    let (o, d) = (feature.axis.origin, feature.axis.direction);
    let Some(last) = chain.last() else { return Vec::new() };
    if !square(d, frame.z) || (frame.origin - o).dot(d.cross(frame.z)).abs() > PLACE {
        return Vec::new();
    }
    let centre = (frame.origin - o).dot(d);
    let widest = chain.iter().map(|n| n.r).fold(0.0, f64::max);
    let side = |t: f64| {
        let out = t - centre;
        let half = if widest < out.abs() { (widest / out.abs()).asin() } else { FRAC_PI_2 };
        (frame.angle(frame.origin + d * out.signum()), half)
    };
    vec![side(0.0), side(last.z)]
}
