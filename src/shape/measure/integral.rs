//! Integrals over a face: Green's theorem on the parameter domain of its surface.
//!
//! With surface parameters (u, v) and the flux density g of a field through the surface,
//! ∬ g du dv = −∮ G du with G = ∫ g dv. The loops run counter-clockwise seen from outside, so the sign is
//! that of the outward flux whichever side of the surface the metal lies on. Lines and arcs contribute
//! trigonometric polynomials that the rules below integrate to the last digit.

use super::gauss::rule;
use crate::shape::solid::{Curve, Face, Frame, Surface, directed};
use crate::shape::{EuclideanSpace, InnerSpace, Point3, Vector3};
use std::f64::consts::{PI, TAU};

/// Volume, first and second moments of volume, and area.
pub(super) const TERMS: usize = 11;
/// Values of the integrals.
pub(super) type Sums = [f64; TERMS];

/// Points and weights used in one direction.
pub(super) struct Rules {
    long: [(f64, f64); 24],
    short: [(f64, f64); 6],
}

impl Rules {
    pub fn new() -> Self {
        Self { long: rule(), short: rule() }
    }
}

/// Adds the integrals over a face; places are taken from `base` \[mm\].
pub(super) fn add(sums: &mut Sums, face: &Face, base: Point3, rules: &Rules) {
    let surface = face.surface();
    let chart = Chart { surface, base, v0: first_v(face, &surface) };
    let mut own = [0.0; TERMS];
    for wire in face.boundaries() {
        for edge in wire.iter() {
            boundary(&mut own, &chart, &directed(edge), rules);
        }
    }
    own[TERMS - 1] = own[TERMS - 1].abs();
    sums.iter_mut().zip(own).for_each(|(s, o)| *s += o);
}

/// A surface with the place from which v is counted.
struct Chart {
    surface: Surface,
    base: Point3,
    v0: f64,
}

/// The v from which is counted: in the middle of a torus or ball face \[rad\], so that v does not jump
/// inside the face, but at the pole of a ball face that has one. There the edge of the parameter domain
/// is no edge of the face and must give nothing; the same holds for a cone, counted from its small end.
fn first_v(face: &Face, surface: &Surface) -> f64 {
    if !matches!(surface, Surface::Torus { .. } | Surface::Sphere { .. }) {
        return 0.0;
    }
    let f = surface.frame();
    let curves: Vec<Curve> = face.edge_iter().map(|e| directed(&e)).collect();
    let on_axis = |p: &Point3| f.flat(*p).to_vec().magnitude() < 1e-9;
    if let Some(pole) = curves.iter().map(|c| c.at(0.0)).find(on_axis) {
        return raw_v(surface, pole);
    }
    let along = |c: &&Curve| matches!(c, Curve::Arc(a) if a.frame.z.dot(f.z).abs() < 0.5);
    curves.iter().find(along).map_or(0.0, |c| raw_v(surface, c.at(0.5)))
}

/// Second parameter of a point on the surface.
fn raw_v(surface: &Surface, p: Point3) -> f64 {
    let q = surface.frame().local(p);
    match *surface {
        Surface::Plane(_) => q.y,
        Surface::Cylinder { .. } | Surface::Cone { .. } => q.z,
        Surface::Torus { major, .. } => q.z.atan2(q.x.hypot(q.y) - major),
        Surface::Sphere { .. } => q.z.atan2(q.x.hypot(q.y)),
    }
}

fn boundary(sums: &mut Sums, chart: &Chart, curve: &Curve, rules: &Rules) {
    match curve {
        Curve::Spline(s) => {
            let n = s.pieces() as f64;
            for i in 0..s.pieces() {
                stretch(sums, chart, curve, (i as f64 / n, 1.0 / n), &rules.short, rules);
            }
        }
        Curve::Line { .. } => stretch(sums, chart, curve, (0.0, 1.0), &rules.short, rules),
        Curve::Arc(_) => {
            stretch(sums, chart, curve, (0.0, 0.5), &rules.long, rules);
            stretch(sums, chart, curve, (0.5, 0.5), &rules.long, rules);
        }
    }
}

/// Adds −∫ G du along a stretch of a boundary curve.
fn stretch(
    sums: &mut Sums,
    chart: &Chart,
    curve: &Curve,
    (from, span): (f64, f64),
    rule: &[(f64, f64)],
    rules: &Rules,
) {
    for (x, w) in rule {
        let t = from + span * x;
        let (p, slope) = (curve.at(t), curve.slope(t));
        let (u, v, du) = chart.place(p, slope);
        if du.abs() > 0.0 {
            let g = chart.inner(u, v, rules);
            sums.iter_mut().zip(g).for_each(|(s, g)| *s -= g * du * w * span);
        }
    }
}

impl Chart {
    /// Parameters of a point and the change of u along a slope.
    fn place(&self, p: Point3, slope: Vector3) -> (f64, f64, f64) {
        let f = self.surface.frame();
        let q = f.local(p);
        let (dx, dy) = (slope.dot(f.x), slope.dot(f.y()));
        if matches!(self.surface, Surface::Plane(_)) {
            return (q.x, q.y, dx);
        }
        let r2 = q.x * q.x + q.y * q.y;
        let du = if r2 > 1e-18 { (q.x * dy - q.y * dx) / r2 } else { 0.0 };
        let v = raw_v(&self.surface, p);
        let round = matches!(self.surface, Surface::Torus { .. } | Surface::Sphere { .. });
        let v = if round { (v - self.v0 + PI).rem_euclid(TAU) - PI + self.v0 } else { v };
        (q.y.atan2(q.x), v, du)
    }

    /// ∫ g dv from v0 to v.
    fn inner(&self, u: f64, v: f64, rules: &Rules) -> Sums {
        let round = matches!(self.surface, Surface::Torus { .. } | Surface::Sphere { .. });
        let rule: &[(f64, f64)] = if round { &rules.long } else { &rules.short };
        let span = v - self.v0;
        let mut sums = [0.0; TERMS];
        for (x, w) in rule {
            let (p, normal) = self.point(u, self.v0 + span * x);
            let g = densities(p - self.base, normal);
            sums.iter_mut().zip(g).for_each(|(s, g)| *s += g * w * span);
        }
        sums
    }

    /// Point and S_u × S_v.
    fn point(&self, u: f64, v: f64) -> (Point3, Vector3) {
        let f = self.surface.frame();
        let out = f.radial(u);
        match self.surface {
            Surface::Plane(_) => (f.point(u, v, 0.0), f.z),
            Surface::Cylinder { radius, .. } => (ring(f, out, radius, v), out * radius),
            Surface::Cone { radius, half_angle, .. } => {
                let r = radius + v * half_angle.tan();
                (ring(f, out, r, v), (out - f.z * half_angle.tan()) * r)
            }
            Surface::Torus { major, minor, .. } => tube(f, out, major, minor, v),
            Surface::Sphere { radius, .. } => tube(f, out, 0.0, radius, v),
        }
    }
}

fn ring(f: &Frame, out: Vector3, r: f64, z: f64) -> Point3 {
    f.origin + out * r + f.z * z
}

fn tube(f: &Frame, out: Vector3, major: f64, minor: f64, v: f64) -> (Point3, Vector3) {
    let r = major + minor * v.cos();
    let normal = out * v.cos() + f.z * v.sin();
    (ring(f, out, r, minor * v.sin()), normal * (minor * r))
}

/// Flux densities whose integrals over the whole shell are the moments, by the divergence theorem.
fn densities(d: Vector3, n: Vector3) -> Sums {
    let p = Point3::from_vec(d);
    [
        d.dot(n) / 3.0,
        p.x * p.x * n.x / 2.0,
        p.y * p.y * n.y / 2.0,
        p.z * p.z * n.z / 2.0,
        p.x.powi(3) * n.x / 3.0,
        p.y.powi(3) * n.y / 3.0,
        p.z.powi(3) * n.z / 3.0,
        p.x * p.x * p.y * n.x / 2.0,
        p.y * p.y * p.z * n.y / 2.0,
        p.z * p.z * p.x * n.z / 2.0,
        n.magnitude(),
    ]
}
