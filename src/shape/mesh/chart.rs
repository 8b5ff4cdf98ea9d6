//! The plane in which a face is triangulated.
//!
//! * A flat face: its own plane.
//! * A cylinder or cone: the angle in steps of the chord error over a height that is pressed together to a fraction of a
//!   step, so that a Delaunay triangulation prefers triangles that are narrow round the axis; along the axis they are exact.
//! * A torus or ball: both angles in steps of the chord error.
//! * A face with a point on the axis (the tip of a drill, the pole of a ball): polar, about that point.

use super::sample::step;
use crate::shape::Point3;
use crate::shape::solid::{Face, Surface};
use std::f64::consts::{PI, TAU};

/// Height to which a cylinder or cone is pressed together, in steps.
const PRESSED: f64 = 0.25;
/// A point nearer to the axis than this lies on it \[mm\].
const ON_AXIS: f64 = 1e-9;

/// Map between a surface and a plane.
pub(super) struct Chart {
    surface: Surface,
    kind: Kind,
    /// A triangle that runs counter-clockwise in the plane shows the surface's natural side.
    pub natural: bool,
}

enum Kind {
    Flat,
    /// Scales of the two parameters.
    Sheet([f64; 2]),
    /// Value of the second parameter on the axis, and whether it falls from there.
    Polar(f64, bool),
}

/// Step on a surface that is curved both ways, so that both together stay within the chord error \[rad\].
fn double(radius: f64, chord_mm: f64) -> f64 {
    step(radius, 0.5 * chord_mm)
}

/// Second parameter of a point: height or angle \[mm or rad\], and its distance from the axis \[mm\].
fn second(surface: &Surface, q: Point3) -> (f64, f64) {
    let r = q.x.hypot(q.y);
    let v = match *surface {
        Surface::Torus { major, .. } => q.z.atan2(r - major),
        Surface::Sphere { .. } => q.z.atan2(r),
        _ => q.z,
    };
    (v, r)
}

impl Chart {
    /// The map for a face with the given boundary points.
    pub fn new(face: &Face, boundary: &[Point3], chord_mm: f64) -> Self {
        let surface = face.surface();
        let places: Vec<(f64, f64)> =
            boundary.iter().map(|p| second(&surface, surface.frame().local(*p))).collect();
        let [least, most] = [f64::min, f64::max].map(|f| places.iter().map(|p| p.0).reduce(f).unwrap_or(0.0));
        let widest = places.iter().map(|p| p.1).fold(0.0, f64::max);
        let pole = places.iter().find(|p| p.1 < ON_AXIS).map(|p| p.0);
        let (kind, natural) = match (&surface, pole) {
            (Surface::Plane(_), _) => (Kind::Flat, true),
            (Surface::Sphere { .. } | Surface::Cone { .. }, Some(v)) => {
                let falls = v > 0.5 * (least + most);
                (Kind::Polar(v, falls), falls)
            }
            (Surface::Torus { major, minor, .. }, _) => {
                let scale = [double(major + minor, chord_mm), double(*minor, chord_mm)];
                (Kind::Sheet(scale.map(f64::recip)), true)
            }
            (Surface::Sphere { radius, .. }, None) => {
                (Kind::Sheet([double(*radius, chord_mm).recip(); 2]), true)
            }
            _ => {
                let high = PRESSED / (most - least).max(ON_AXIS);
                (Kind::Sheet([step(widest, chord_mm).recip(), high]), true)
            }
        };
        Self { surface, kind, natural }
    }

    /// Both parameters of a point; angles are taken as near as can be to those of the point before.
    pub fn parameters(&self, p: Point3, before: Option<[f64; 2]>) -> [f64; 2] {
        let q = self.surface.frame().local(p);
        if matches!(self.kind, Kind::Flat) {
            return [q.x, q.y];
        }
        let near = |angle: f64, last: f64| last + (angle - last + PI).rem_euclid(TAU) - PI;
        let (v, u) = (second(&self.surface, q).0, q.y.atan2(q.x));
        match (before, &self.surface) {
            (None, _) => [u, v],
            (Some([a, b]), Surface::Torus { .. }) => [near(u, a), near(v, b)],
            (Some([a, _]), _) => [near(u, a), v],
        }
    }

    /// Place in the plane.
    pub fn flat(&self, [u, v]: [f64; 2]) -> [f64; 2] {
        match self.kind {
            Kind::Flat => [u, v],
            Kind::Sheet([a, b]) => [u * a, v * b],
            Kind::Polar(pole, _) => [u.cos(), u.sin()].map(|c| c * (v - pole).abs()),
        }
    }

    /// Point of the surface over a place in the plane \[mm\].
    pub fn lift(&self, [x, y]: [f64; 2]) -> Point3 {
        match self.kind {
            Kind::Flat => self.surface.frame().point(x, y, 0.0),
            Kind::Sheet([a, b]) => self.point([x / a, y / b]),
            Kind::Polar(pole, falls) => {
                let out = x.hypot(y);
                self.point([y.atan2(x), if falls { pole - out } else { pole + out }])
            }
        }
    }

    fn point(&self, [u, v]: [f64; 2]) -> Point3 {
        let f = self.surface.frame();
        let (r, z) = match self.surface {
            Surface::Plane(_) => return f.point(u, v, 0.0),
            Surface::Cylinder { radius, .. } => (radius, v),
            Surface::Cone { radius, half_angle, .. } => (radius + v * half_angle.tan(), v),
            Surface::Torus { major, minor, .. } => (major + minor * v.cos(), minor * v.sin()),
            Surface::Sphere { radius, .. } => (radius * v.cos(), radius * v.sin()),
        };
        f.origin + f.radial(u) * r + f.z * z
    }

    /// How far a triangle lies from the surface at the middles of its sides and of itself \[mm\].
    pub fn off(&self, corners: [Point3; 3]) -> f64 {
        if matches!(self.kind, Kind::Flat) {
            return 0.0;
        }
        let [a, b, c] = corners;
        let (ab, ac) = (b - a, c - a);
        let places = [ab * 0.5, ac * 0.5, (ab + ac) * 0.5, (ab + ac) / 3.0];
        places.into_iter().map(|d| self.surface.side(a + d).abs()).fold(0.0, f64::max)
    }

    /// Points to begin with inside a torus or ball face, whose parameters fill the rectangle `low`..`high`.
    pub fn grid(&self, low: [f64; 2], high: [f64; 2], chord_mm: f64) -> Vec<[f64; 2]> {
        let (wide, tube) = match (&self.kind, self.surface) {
            (Kind::Sheet(_), Surface::Torus { major, minor, .. }) => (major + minor, minor),
            (Kind::Sheet(_), Surface::Sphere { radius, .. }) => (radius, radius),
            _ => return Vec::new(),
        };
        let count =
            |i: usize, radius: f64| ((high[i] - low[i]) / double(radius, chord_mm)).ceil().max(1.0) as usize;
        let (n, m) = (count(0, wide), count(1, tube));
        let at = move |i: usize, k: usize, n: usize| low[i] + (high[i] - low[i]) * k as f64 / n as f64;
        (1..m).flat_map(|j| (1..n).map(move |i| [at(0, i, n), at(1, j, m)])).collect()
    }

    /// Whether triangles on two rows across the axis lie as near to the surface as the rows.
    pub fn is_wall(&self) -> bool {
        let round = matches!(self.surface, Surface::Cylinder { .. } | Surface::Cone { .. });
        round && matches!(self.kind, Kind::Sheet(_))
    }

    /// Whether every triangle lies in the surface.
    pub fn is_flat(&self) -> bool {
        matches!(self.kind, Kind::Flat)
    }

    /// What the face is, for a message.
    pub fn words(&self) -> String {
        self.surface.words()
    }
}
