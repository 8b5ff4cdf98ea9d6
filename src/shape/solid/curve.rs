//! Curves of edges: line, circular arc, and the spline in which two cylinders meet.

use super::frame::Frame;
use super::spline::Spline;
use crate::shape::{Point3, Vector3};

/// A circular arc: starts on the frame's x axis and turns counter-clockwise about its z axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Centre, direction of the start and axis.
    pub frame: Frame,
    /// Radius \[mm\].
    pub radius: f64,
    /// Turned angle \[rad\], positive.
    pub sweep: f64,
}

/// Curve of an edge, run from parameter 0 to 1.
#[derive(Clone, Debug, PartialEq)]
pub enum Curve {
    /// A straight line between two points \[mm\].
    Line {
        /// Start.
        from: Point3,
        /// End.
        to: Point3,
    },
    /// A circular arc.
    Arc(Arc),
    /// A smooth cubic.
    Spline(Spline),
}

impl Arc {
    /// Point at the fraction `t` \[mm\].
    pub fn at(&self, t: f64) -> Point3 {
        self.frame.origin + self.frame.radial(self.sweep * t) * self.radius
    }

    /// Change of the point with `t` \[mm\].
    pub fn slope(&self, t: f64) -> Vector3 {
        let a = self.sweep * t;
        (self.frame.y() * a.cos() - self.frame.x * a.sin()) * (self.radius * self.sweep)
    }

    /// The same arc run the other way.
    pub fn reversed(&self) -> Self {
        let x = self.frame.radial(self.sweep);
        Self { frame: Frame { x, z: -self.frame.z, ..self.frame }, ..*self }
    }
}

impl Curve {
    /// Point at the fraction `t` \[mm\].
    pub fn at(&self, t: f64) -> Point3 {
        match self {
            Curve::Line { from, to } => from + (to - from) * t,
            Curve::Arc(arc) => arc.at(t),
            Curve::Spline(spline) => spline.at(t),
        }
    }

    /// Change of the point with `t` \[mm\].
    pub fn slope(&self, t: f64) -> Vector3 {
        match self {
            Curve::Line { from, to } => to - from,
            Curve::Arc(arc) => arc.slope(t),
            Curve::Spline(spline) => spline.slope(t),
        }
    }

    /// The same curve moved \[mm\].
    pub fn moved(&self, by: Vector3) -> Self {
        match self {
            Curve::Line { from, to } => Curve::Line { from: from + by, to: to + by },
            Curve::Arc(arc) => Curve::Arc(Arc { frame: arc.frame.moved(by), ..*arc }),
            Curve::Spline(spline) => Curve::Spline(spline.moved(by)),
        }
    }

    /// The same curve run the other way.
    pub fn reversed(&self) -> Self {
        match self {
            Curve::Line { from, to } => Curve::Line { from: *to, to: *from },
            Curve::Arc(arc) => Curve::Arc(arc.reversed()),
            Curve::Spline(spline) => Curve::Spline(spline.reversed()),
        }
    }
}
