//! A right-handed frame in space.

use crate::shape::{EuclideanSpace, InnerSpace, Point2, Point3, Vector3};

/// Origin and two unit directions at right angles; y = z × x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Origin \[mm\].
    pub origin: Point3,
    /// Unit x.
    pub x: Vector3,
    /// Unit z.
    pub z: Vector3,
}

impl Frame {
    /// The world's frame.
    pub fn world() -> Self {
        Self { origin: Point3::origin(), x: Vector3::unit_x(), z: Vector3::unit_z() }
    }

    /// Frame with the given z; x is the hint made square to z.
    pub fn new(origin: Point3, z: Vector3, x_hint: Vector3) -> Self {
        let z = z.normalize();
        let flat = x_hint - z * x_hint.dot(z);
        Self { origin, x: flat.normalize(), z }
    }

    /// Frame about an axis of which only the direction matters: x along the world axis most square to it.
    pub fn about(origin: Point3, z: Vector3) -> Self {
        let square = |a: &Vector3, b: &Vector3| a.dot(z).abs().total_cmp(&b.dot(z).abs());
        let axes = [Vector3::unit_x(), Vector3::unit_y(), Vector3::unit_z()];
        let hint = axes.into_iter().min_by(square).unwrap_or_else(Vector3::unit_x);
        Self::new(origin, z, hint)
    }

    /// Unit y.
    pub fn y(&self) -> Vector3 {
        self.z.cross(self.x)
    }

    /// Point with the local coordinates (x, y, z) \[mm\].
    pub fn point(&self, x: f64, y: f64, z: f64) -> Point3 {
        self.origin + self.x * x + self.y() * y + self.z * z
    }

    /// Local coordinates of a point \[mm\].
    pub fn local(&self, p: Point3) -> Point3 {
        let d = p - self.origin;
        Point3::new(d.dot(self.x), d.dot(self.y()), d.dot(self.z))
    }

    /// Local x and y of a point \[mm\].
    pub fn flat(&self, p: Point3) -> Point2 {
        let q = self.local(p);
        Point2::new(q.x, q.y)
    }

    /// Unit direction at an angle \[rad\] about z, counter-clockwise from x.
    pub fn radial(&self, angle: f64) -> Vector3 {
        self.x * angle.cos() + self.y() * angle.sin()
    }

    /// Angle of a point about z \[rad\], −π..π.
    pub fn angle(&self, p: Point3) -> f64 {
        let q = self.flat(p);
        q.y.atan2(q.x)
    }

    /// The same frame moved \[mm\].
    pub fn moved(&self, by: Vector3) -> Self {
        Self { origin: self.origin + by, ..*self }
    }

    /// The same frame with its origin moved along z \[mm\].
    pub fn raised(&self, by: f64) -> Self {
        Self { origin: self.origin + self.z * by, ..*self }
    }
}
