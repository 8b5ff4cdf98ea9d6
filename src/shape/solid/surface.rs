//! Surfaces of faces: plane, cylinder, cone, torus and sphere, with exact frames.

use super::frame::Frame;
use crate::shape::{InnerSpace, Point3, Vector3};

/// Surface of a face. The natural side of a plane is the frame's z; of all others it points away from
/// the axis, the centre or the tube's centre line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Surface {
    /// The plane through the frame's origin, square to its z.
    Plane(Frame),
    /// A cylinder about the frame's z.
    Cylinder {
        /// Axis.
        frame: Frame,
        /// Radius \[mm\].
        radius: f64,
    },
    /// A cone about the frame's z, growing with z.
    Cone {
        /// Axis.
        frame: Frame,
        /// Radius at the frame's origin \[mm\].
        radius: f64,
        /// Angle between axis and surface \[rad\], 0..π/2.
        half_angle: f64,
    },
    /// A torus about the frame's z with the tube's centre line in the frame's plane.
    Torus {
        /// Axis and plane of symmetry.
        frame: Frame,
        /// Radius of the tube's centre line \[mm\].
        major: f64,
        /// Radius of the tube \[mm\].
        minor: f64,
    },
    /// A sphere about the frame's origin.
    Sphere {
        /// Centre.
        frame: Frame,
        /// Radius \[mm\].
        radius: f64,
    },
}

impl Surface {
    /// The frame of the surface.
    pub fn frame(&self) -> &Frame {
        match self {
            Surface::Plane(frame)
            | Surface::Cylinder { frame, .. }
            | Surface::Cone { frame, .. }
            | Surface::Torus { frame, .. }
            | Surface::Sphere { frame, .. } => frame,
        }
    }

    /// The same surface moved \[mm\].
    pub fn moved(mut self, by: Vector3) -> Self {
        match &mut self {
            Surface::Plane(frame)
            | Surface::Cylinder { frame, .. }
            | Surface::Cone { frame, .. }
            | Surface::Torus { frame, .. }
            | Surface::Sphere { frame, .. } => *frame = frame.moved(by),
        }
        self
    }

    /// What it is, in one word.
    pub fn kind(&self) -> &'static str {
        match self {
            Surface::Plane(_) => "plane",
            Surface::Cylinder { .. } => "cylinder",
            Surface::Cone { .. } => "cone",
            Surface::Torus { .. } => "torus",
            Surface::Sphere { .. } => "sphere",
        }
    }

    /// Distance of a point from the surface \[mm\], positive on the natural side.
    pub fn side(&self, p: Point3) -> f64 {
        let q = self.frame().local(p);
        let r = q.x.hypot(q.y);
        match *self {
            Surface::Plane(_) => q.z,
            Surface::Cylinder { radius, .. } => r - radius,
            Surface::Cone { radius, half_angle, .. } => {
                (r - radius) * half_angle.cos() - q.z * half_angle.sin()
            }
            Surface::Torus { major, minor, .. } => (r - major).hypot(q.z) - minor,
            Surface::Sphere { radius, .. } => r.hypot(q.z) - radius,
        }
    }

    /// What the workshop would call it, with its place.
    pub fn words(&self) -> String {
        match self {
            Surface::Plane(frame) => flat_words(frame),
            Surface::Cylinder { radius, .. } => format!("cylinder of {} mm diameter", short(2.0 * radius)),
            Surface::Cone { .. } => "cone".to_owned(),
            Surface::Torus { minor, .. } => format!("fillet of {} mm radius", short(*minor)),
            Surface::Sphere { radius, .. } => format!("ball of {} mm radius", short(*radius)),
        }
    }
}

/// "flat face at z = 12 mm".
fn flat_words(frame: &Frame) -> String {
    let axes = [
        ("x", frame.z.x, frame.origin.x),
        ("y", frame.z.y, frame.origin.y),
        ("z", frame.z.z, frame.origin.z),
    ];
    match axes.iter().find(|(_, n, _)| n.abs() > 1.0 - 1e-9) {
        Some((name, _, at)) => format!("flat face at {name} = {} mm", short(*at)),
        None => {
            let o = frame.origin;
            format!("flat face through ({}, {}, {})", short(o.x), short(o.y), short(o.z))
        }
    }
}

/// A number for a sentence: at most four decimals.
pub(super) fn short(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// Whether two unit directions are square to each other.
pub(super) fn square(a: Vector3, b: Vector3) -> bool {
    a.dot(b).abs() < 1e-9
}
