//! Where a ray towards the eye meets a face.

use super::patch::Patch;
use super::turning;
use crate::shape::solid::{Frame, Surface};
use crate::shape::{Point3, Vector3};

/// Places at which the distance to a torus is taken along a ray, before its roots are enclosed.
const STEPS: usize = 64;

/// A ray in the coordinates of a surface: start, direction.
struct Ray {
    q: Point3,
    d: Vector3,
}

impl Ray {
    /// From `p` towards the eye (+z of the view).
    fn of(p: Point3, f: &Frame) -> Self {
        Self { q: f.local(p), d: Vector3::new(f.x.z, f.y().z, f.z.z) }
    }

    fn at(&self, s: f64) -> Point3 {
        self.q + self.d * s
    }
}

/// Whether the face hides `p`: it is met between `from` and `to` \[mm\] above it.
pub fn hides(patch: &Patch, p: Point3, from: f64, to: f64) -> bool {
    let on_face = |s: f64| s > from && s < to && patch.holds(Point3::new(p.x, p.y, p.z + s));
    let ray = Ray::of(p, patch.surface.frame());
    meets(&patch.surface, &ray).into_iter().any(on_face)
}

/// Distances along the ray at which it meets the surface \[mm\].
fn meets(surface: &Surface, ray: &Ray) -> Vec<f64> {
    let Ray { q, d } = ray;
    match *surface {
        Surface::Plane(_) => {
            if d.z.abs() < 1e-9 {
                Vec::new()
            } else {
                vec![-q.z / d.z]
            }
        }
        Surface::Cylinder { radius, .. } => {
            let flat = d.x * d.x + d.y * d.y;
            roots(flat, q.x * d.x + q.y * d.y, q.x * q.x + q.y * q.y - radius * radius)
        }
        Surface::Cone { radius, half_angle, .. } => {
            let t = half_angle.tan();
            let r = radius + q.z * t;
            let (a, b) = (d.x * d.x + d.y * d.y - (d.z * t).powi(2), q.x * d.x + q.y * d.y - r * d.z * t);
            let real = |s: &f64| radius + (q.z + s * d.z) * t >= 0.0;
            roots(a, b, q.x * q.x + q.y * q.y - r * r).into_iter().filter(real).collect()
        }
        Surface::Sphere { radius, .. } => {
            let b = q.x * d.x + q.y * d.y + q.z * d.z;
            roots(1.0, b, q.x * q.x + q.y * q.y + q.z * q.z - radius * radius)
        }
        Surface::Torus { major, minor, .. } => torus(ray, major, minor),
    }
}

/// Roots of a s² + 2 b s + c.
fn roots(a: f64, b: f64, c: f64) -> Vec<f64> {
    if a.abs() < 1e-12 {
        return if b.abs() < 1e-12 { Vec::new() } else { vec![-c / (2.0 * b)] };
    }
    let d = b * b - a * c;
    if d < 0.0 {
        return Vec::new();
    }
    let root = d.sqrt();
    vec![(-b - root) / a, (-b + root) / a]
}

/// Roots along a torus, enclosed by steps inside its ball and halved.
fn torus(ray: &Ray, major: f64, minor: f64) -> Vec<f64> {
    let away = |s: f64| {
        let p = ray.at(s);
        (p.x.hypot(p.y) - major).hypot(p.z) - minor
    };
    let q = ray.q;
    let b = q.x * ray.d.x + q.y * ray.d.y + q.z * ray.d.z;
    let reach = major + minor + 1e-6;
    let [from, to] = roots(1.0, b, q.x * q.x + q.y * q.y + q.z * q.z - reach * reach)[..] else {
        return Vec::new();
    };
    let at = |i: usize| from + (to - from) * i as f64 / STEPS as f64;
    (0..STEPS).filter_map(|i| turning(at(i), at(i + 1), &away)).collect()
}
