//! Lines along which a curved face turns away from the eye (its contour generators).
//!
//! On each surface they are where the normal n has no part towards the eye: n · z = 0. For a cylinder and a cone these are
//! generators, for a ball a great circle, for a torus seen along or across its axis circles, otherwise a curve.

use super::patch::Patch;
use super::turning;
use crate::shape::solid::{Arc, Curve, Frame, Spline, Surface};
use crate::shape::{Point3, Vector3};
use std::f64::consts::{PI, TAU};

/// Places at which a closed curve is asked whether it lies on the face.
const ASKED: usize = 96;
/// Points to a full turn of the outline of a torus.
const POINTS: f64 = 48.0;
/// Two directions at right angles, or along one another, within this.
const SQUARE: f64 = 1e-9;

/// All outlines of a face, in the coordinates of the view.
pub fn outlines(patch: &Patch) -> Vec<Curve> {
    let f = patch.surface.frame();
    let (a, b, c) = (f.x.z, f.y().z, f.z.z);
    let flat = a.hypot(b);
    match patch.surface {
        Surface::Plane(_) => Vec::new(),
        Surface::Cylinder { .. } | Surface::Cone { .. } if flat < SQUARE => Vec::new(),
        Surface::Cylinder { radius, .. } => {
            let first = (-a).atan2(b);
            [first, first + PI].into_iter().flat_map(|u| generators(patch, u, radius)).collect()
        }
        Surface::Cone { radius, half_angle, .. } => cone(patch, radius, half_angle.tan(), (a, b, c)),
        Surface::Sphere { frame, radius } => {
            circle(patch, Frame { x: Vector3::unit_x(), z: Vector3::unit_z(), ..frame }, radius)
        }
        Surface::Torus { frame, major, minor } => torus(patch, &frame, major, minor),
    }
}

/// The stretches of a cylinder's generator.
fn generators(patch: &Patch, u: f64, radius: f64) -> Vec<Curve> {
    let f = patch.surface.frame();
    let at = |z: f64| f.origin + f.radial(u) * radius + f.z * z;
    patch.stretches(u).into_iter().map(|(low, high)| Curve::Line { from: at(low), to: at(high) }).collect()
}

/// Generators of a cone: cos(u - φ) = tan α · z·eye / √(a² + b²).
fn cone(patch: &Patch, radius: f64, slope: f64, (a, b, c): (f64, f64, f64)) -> Vec<Curve> {
    let share = slope * c / a.hypot(b);
    if share.abs() >= 1.0 {
        return Vec::new();
    }
    let f = patch.surface.frame();
    let (low, high) = patch.along;
    let (middle, half) = (b.atan2(a), share.acos());
    let at = |u: f64, z: f64| f.origin + f.radial(u) * (radius + z * slope) + f.z * z;
    [middle - half, middle + half]
        .into_iter()
        .filter(|u| patch.holds(at(*u, (low + high) / 2.0)))
        .map(|u| Curve::Line { from: at(u, low), to: at(u, high) })
        .collect()
}

/// The parts of a circle that lie on the face.
fn circle(patch: &Patch, frame: Frame, radius: f64) -> Vec<Curve> {
    let at = |angle: f64| frame.origin + frame.radial(angle) * radius;
    let arc = |(from, to): (f64, f64)| {
        Curve::Arc(Arc { frame: Frame { x: frame.radial(from), ..frame }, radius, sweep: to - from })
    };
    runs(patch, &at).into_iter().map(arc).collect()
}

fn torus(patch: &Patch, f: &Frame, major: f64, minor: f64) -> Vec<Curve> {
    let (a, b, c) = (f.x.z, f.y().z, f.z.z);
    if a.hypot(b) < SQUARE {
        return [major + minor, major - minor].into_iter().flat_map(|r| circle(patch, *f, r)).collect();
    }
    if c.abs() < SQUARE {
        let first = (-a).atan2(b);
        let meridian = |u: f64| {
            let out = f.radial(u);
            circle(patch, Frame { origin: f.origin + out * major, x: out, z: out.cross(f.z) }, minor)
        };
        let crowns = [minor, -minor].into_iter().flat_map(|z| circle(patch, f.raised(z), major));
        return [first, first + PI].into_iter().flat_map(meridian).chain(crowns).collect();
    }
    [0.0, PI].into_iter().flat_map(|branch| slanted(patch, f, (major, minor), branch)).collect()
}

/// The outline of a torus seen at a slant: tan v = -(out · eye) / (axis · eye), on two branches.
fn slanted(patch: &Patch, f: &Frame, (major, minor): (f64, f64), branch: f64) -> Vec<Curve> {
    let at = |u: f64| {
        let out = f.radial(u);
        let v = (-out.z).atan2(f.z.z) + branch;
        f.origin + out * (major + minor * v.cos()) + f.z * (minor * v.sin())
    };
    let curve = |(from, to): (f64, f64)| {
        let n = ((to - from) / TAU * POINTS).ceil().max(3.0);
        let step = (to - from) / n;
        let points: Vec<Point3> = (0..=n as usize).map(|i| at(from + step * i as f64)).collect();
        let slope = |u: f64| (at(u + 1e-5) - at(u - 1e-5)) * (step / 2e-5);
        Curve::Spline(Spline::through(points, slope(from), slope(to)))
    };
    runs(patch, &at).into_iter().map(curve).collect()
}

/// The stretches of a closed curve, given by an angle, that lie on the face \[rad\].
fn runs(patch: &Patch, at: &dyn Fn(f64) -> Point3) -> Vec<(f64, f64)> {
    let on = |angle: f64| patch.holds(at(angle));
    let angle = |i: usize| TAU * (i as f64 + 0.371) / ASKED as f64;
    let asked: Vec<bool> = (0..ASKED).map(|i| on(angle(i))).collect();
    let Some(first) = asked.iter().position(|is| !is) else { return vec![(0.0, TAU)] };
    let side = |angle: f64| if on(angle) { 1.0 } else { -1.0 };
    let edge = |a: f64, b: f64| turning(a, b, &side).unwrap_or(b);
    let mut list = Vec::new();
    let mut start = None;
    for i in first..first + ASKED {
        let (here, next) = (asked[i % ASKED], asked[(i + 1) % ASKED]);
        match (here, next, start) {
            (false, true, _) => start = Some(edge(angle(i), angle(i + 1))),
            (true, false, Some(from)) => {
                list.push((from, edge(angle(i), angle(i + 1))));
                start = None;
            }
            _ => {}
        }
    }
    list
}
