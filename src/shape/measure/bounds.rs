//! The box round a solid, from the extremes of its edges, tubes and balls.

use crate::shape::loops::wrap;
use crate::shape::solid::{Arc, Curve, Face, Solid, Spline, Surface, directed};
use crate::shape::{EuclideanSpace, InnerSpace, Point3, Vector3};
use std::f64::consts::PI;

/// Least and greatest coordinates \[mm\].
pub(super) fn bounds(solid: &Solid) -> (Point3, Point3) {
    let mut low = Point3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY);
    let mut high = Point3::from_vec(-low.to_vec());
    let mut add = |p: Point3| {
        for k in 0..3 {
            low[k] = low[k].min(p[k]);
            high[k] = high[k].max(p[k]);
        }
    };
    for face in solid.faces() {
        let curves: Vec<Curve> =
            face.boundaries().iter().flat_map(|w| w.iter().map(directed).collect::<Vec<_>>()).collect();
        curves.iter().flat_map(extremes).for_each(&mut add);
        bulges(face, &curves).into_iter().for_each(&mut add);
    }
    (low, high)
}

/// Ends and extreme points of a curve along x, y and z.
fn extremes(curve: &Curve) -> Vec<Point3> {
    let mut points = vec![curve.at(0.0), curve.at(1.0)];
    match curve {
        Curve::Line { .. } => {}
        Curve::Arc(arc) => points.extend(axes().into_iter().flat_map(|e| arc_extremes(arc, e))),
        Curve::Spline(s) => points.extend((0..s.pieces()).flat_map(|i| spline_extremes(s, i))),
    }
    points
}

fn axes() -> [Vector3; 3] {
    [Vector3::unit_x(), Vector3::unit_y(), Vector3::unit_z()]
}

fn arc_extremes(arc: &Arc, e: Vector3) -> Vec<Point3> {
    let top = arc.frame.y().dot(e).atan2(arc.frame.x.dot(e));
    let on = |a: f64| Some(wrap(a) / arc.sweep).filter(|t| *t <= 1.0).map(|t| arc.at(t));
    [top, top + PI].into_iter().filter_map(on).collect()
}

/// Roots of the quadratic slope of one cubic piece, in each coordinate.
fn spline_extremes(spline: &Spline, i: usize) -> Vec<Point3> {
    let [a, b, c, d] = spline.bezier(i);
    let n = spline.pieces() as f64;
    let root = |k: usize| {
        let (p, q, r) = (b[k] - a[k], c[k] - b[k], d[k] - c[k]);
        let (square, half) = (p - 2.0 * q + r, p - q);
        let root = (half * half - square * p).max(0.0).sqrt();
        let roots = if square.abs() > 1e-12 {
            [(half + root) / square, (half - root) / square]
        } else {
            [p / (2.0 * half); 2]
        };
        roots.into_iter().filter(|s| s.is_finite() && (0.0..=1.0).contains(s))
    };
    (0..3).flat_map(root).map(|s| spline.at((i as f64 + s) / n)).collect()
}

/// Points of a torus or ball face where its normal lies along an axis.
fn bulges(face: &Face, curves: &[Curve]) -> Vec<Point3> {
    let surface = face.surface();
    let (f, major, minor) = match surface {
        Surface::Torus { frame, major, minor } => (frame, major, minor),
        Surface::Sphere { frame, radius } => (frame, 0.0, radius),
        _ => return Vec::new(),
    };
    let mut found = Vec::new();
    for e in axes().into_iter().flat_map(|e| [e, -e]) {
        let flat = e - f.z * e.dot(f.z);
        if flat.magnitude() < 1e-9 {
            continue;
        }
        let out = flat.normalize();
        for side in if major > 0.0 { vec![out, -out] } else { vec![out] } {
            let p = f.origin + side * major + e * minor;
            if inside(p, &surface, curves) {
                found.push(p);
            }
        }
    }
    found
}

/// Whether a point of the surface lies in the patch between two rings and two meridians.
fn inside(p: Point3, surface: &Surface, curves: &[Curve]) -> bool {
    let f = surface.frame();
    let round = curves.iter().find_map(|c| match c {
        Curve::Arc(a) if a.frame.z.dot(f.z).abs() > 0.5 => Some(*a),
        _ => None,
    });
    let meridian = curves.iter().find_map(|c| match c {
        Curve::Arc(a) if a.frame.z.dot(f.z).abs() < 0.5 => Some(*a),
        _ => None,
    });
    let within = |a: &Arc, angle: f64| wrap(angle + 1e-9) <= a.sweep + 2e-9;
    let (Some(round), Some(meridian)) = (round, meridian) else { return false };
    let side = round.frame.local(p);
    let turned = side.y.atan2(side.x);
    // The point is brought into the plane of the meridian before its place along it is read.
    let q = f.local(p);
    let plane = f.angle(meridian.at(0.5));
    let along = meridian.frame.local(f.origin + f.radial(plane) * q.x.hypot(q.y) + f.z * q.z);
    within(&round, turned) && within(&meridian, along.y.atan2(along.x))
}
