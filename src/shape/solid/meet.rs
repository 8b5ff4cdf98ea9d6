//! The curve in which a bore meets a cylinder that it crosses at right angles.

use super::chain::{PLACE, number};
use super::curve::Curve;
use super::error::SolidError;
use super::frame::Frame;
use super::skin::{Vertex, edge};
use super::spline::Spline;
use super::surface::{Surface, short, square};
use super::turn::{Station, Turning};
use crate::shape::{InnerSpace, Point3, Vector3};

/// Distance that the curve may have from either cylinder \[mm\].
const CLOSE: f64 = 1e-7;
/// A bore must be narrower than the cylinder by this much in the radius \[mm\].
const NARROWER: f64 = 1e-3;

/// How a bore's axis crosses a cylinder.
///
/// With the bore's axis along d, the cylinder's along a and b = d × a, a point of the bore at the angle θ
/// has the lateral place y = r (x·b cos θ + y·b sin θ) and the depth c ± √(R² − y²).
#[derive(Clone, Copy)]
pub(super) struct Crossing {
    /// Depth at which the two axes cross \[mm\].
    centre: f64,
    /// +1 on the far side of the cylinder's axis, −1 on the near side.
    side: f64,
    /// Radius of the cylinder \[mm\].
    radius: f64,
    /// Direction b.
    across: Vector3,
}

impl Crossing {
    /// The crossing at depth `t` along the frame's z, if the surface is a cylinder crossed there at right angles.
    pub fn find(frame: &Frame, surface: &Surface, t: f64) -> Option<Self> {
        let Surface::Cylinder { frame: other, radius } = surface else { return None };
        let across = frame.z.cross(other.z);
        let away = other.origin - frame.origin;
        let centre = away.dot(frame.z);
        let meets = square(frame.z, other.z)
            && away.dot(across).abs() < PLACE
            && ((t - centre).abs() - radius).abs() < PLACE;
        meets.then(|| Self { centre, side: (t - centre).signum(), radius: *radius, across })
    }

    /// Direction away from the cylinder's axis where the bore's axis meets it, along the bore's axis (±1).
    pub fn outwards(&self) -> f64 {
        self.side
    }

    fn depth(&self, lateral: f64) -> f64 {
        self.centre + self.side * (self.radius * self.radius - lateral * lateral).sqrt()
    }

    /// The ring of two spline edges on a bore of radius `r`.
    pub fn station(&self, turning: &Turning, r: f64, z: f64) -> Result<Station, SolidError> {
        if r > self.radius - NARROWER {
            let problem = format!(
                "bore of {} mm diameter is not narrower than the cylinder of {} mm diameter that it crosses",
                short(2.0 * r),
                short(2.0 * self.radius)
            );
            return Err(number(turning.what, problem));
        }
        let vertices: Vec<Vertex> =
            turning.angles.iter().map(|a| Vertex::new(self.at(turning, r, *a).0)).collect();
        let edges = (0..2)
            .map(|k| edge(&vertices[k], &vertices[(k + 1) % 2], Curve::Spline(self.spline(turning, r, k))))
            .collect::<Result<Vec<_>, _>>()?;
        let (a, b) = (self.depth(0.0), self.depth(r));
        Ok(Station { r, z, reach: [a.min(b), a.max(b)], vertices, edges })
    }

    /// Point and its change with the angle \[mm, mm/rad\].
    fn at(&self, turning: &Turning, r: f64, angle: f64) -> (Point3, Vector3) {
        let f = &turning.frame;
        let (out, round) = (f.radial(angle), f.radial(angle + std::f64::consts::FRAC_PI_2));
        let (lateral, turned) = (r * out.dot(self.across), r * round.dot(self.across));
        let depth = self.depth(lateral);
        let steeper = -lateral * turned / (depth - self.centre);
        (f.origin + out * r + f.z * depth, round * r + f.z * steeper)
    }

    /// One part of the ring, with as many pieces as closeness asks for.
    fn spline(&self, turning: &Turning, r: f64, k: usize) -> Spline {
        let (start, span) = (turning.angles[k], turning.span(k));
        let mut n = 16;
        loop {
            let step = span / n as f64;
            let at = |i: usize| self.at(turning, r, start + step * i as f64);
            let points = (0..=n).map(|i| at(i).0).collect();
            let spline = Spline::through(points, at(0).1 * step, at(n).1 * step);
            if n >= 1024 || self.off(turning, r, &spline) < CLOSE {
                return spline;
            }
            n *= 2;
        }
    }

    /// Greatest distance of the spline from both cylinders, seen between its points \[mm\].
    fn off(&self, turning: &Turning, r: f64, spline: &Spline) -> f64 {
        let f = &turning.frame;
        let n = 4 * spline.pieces();
        let off = |i: usize| {
            let q = f.local(spline.at((i as f64 + 0.5) / n as f64));
            let own = (q.x.hypot(q.y) - r).abs();
            let lateral = (f.x * q.x + f.y() * q.y).dot(self.across);
            own.max((lateral.hypot(q.z - self.centre) - self.radius).abs())
        };
        (0..n).map(off).fold(0.0, f64::max)
    }
}
