//! Hole patterns of joints: one object makes the holes of both parts and of the gasket between them.

use super::kit::{along, lift, tapped, tapped_through, through};
use crate::catalogue::threads::Thread;
use crate::shape::Point2;
use crate::shape::loops::polar;
use crate::shape::recipe::{Feature, Place, Tag};
use crate::sizing::engine::BoltCircle;

/// Centres of the screws of one joint, in the coordinates of the joint \[mm\].
#[derive(Clone, Debug)]
pub struct Pattern {
    /// Screw thread.
    pub thread: &'static Thread,
    /// Centres \[mm\].
    pub centres: Vec<Point2>,
    /// Circle of the centres, if they lie on one: diameter \[mm\] and angles \[deg\].
    circle: Option<(f64, Vec<f64>)>,
}

impl Pattern {
    /// Evenly on a circle about the joint's origin.
    pub fn circle(bolts: &BoltCircle) -> Self {
        let angles: Vec<f64> =
            (0..bolts.count).map(|i| bolts.first_deg + 360.0 * i as f64 / bolts.count as f64).collect();
        let centre = |deg: &f64| polar(Point2::new(0.0, 0.0), bolts.diameter_mm / 2.0, deg.to_radians());
        Self {
            thread: bolts.thread,
            centres: angles.iter().map(centre).collect(),
            circle: Some((bolts.diameter_mm, angles)),
        }
    }

    /// In the four corners of a square of half side `half` \[mm\].
    pub fn square(thread: &'static Thread, half: f64) -> Self {
        let corners = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)];
        let centres = corners.iter().map(|(x, y)| Point2::new(x * half, y * half)).collect();
        Self { thread, centres, circle: None }
    }

    /// At given places.
    pub fn points(thread: &'static Thread, centres: Vec<Point2>) -> Self {
        Self { thread, centres, circle: None }
    }

    /// Features at every centre, moved by (dx, dy) into the part's coordinates, at height z.
    fn each(&self, dx: f64, dy: f64, z: f64, make: impl Fn(crate::shape::Point3) -> Feature) -> Vec<Feature> {
        let place = match &self.circle {
            Some((diameter, angles)) => {
                Place::Circle { centre: Point2::new(dx, dy), diameter: *diameter, angles_deg: angles.clone() }
            }
            None => Place::Coordinates,
        };
        let moved = |c: &Point2| lift(Point2::new(c.x + dx, c.y + dy), z);
        self.centres.iter().map(|c| make(moved(c)).placed(place.clone())).collect()
    }

    /// Clearance holes (ISO 273 medium) from the face at `z` down through `length` \[mm\].
    pub fn clearance(&self, name: &str, dx: f64, dy: f64, z: f64, length: f64) -> Vec<Feature> {
        let d = self.thread.clearance_medium_mm;
        self.each(dx, dy, z, |o| through(o, along(0.0, 0.0, -1.0), d, length, Tag::new(name)))
    }

    /// Plain holes of a diameter from the face at `z` down through `length` \[mm\].
    pub fn holes(&self, name: &str, diameter: f64, z: f64, length: f64) -> Vec<Feature> {
        let tag = || Tag::new(name).origin("joints.access_hole");
        self.each(0.0, 0.0, z, |o| through(o, along(0.0, 0.0, -1.0), diameter, length, tag()))
    }

    /// Tapped blind holes from the face at `z`; `down` is -1 for the upper face, +1 for the lower.
    pub fn tapped(&self, name: &str, dx: f64, dy: f64, z: f64, down: f64, depth: f64) -> Vec<Feature> {
        self.each(dx, dy, z, |o| tapped(name, o, along(0.0, 0.0, down), self.thread, depth))
    }

    /// Holes tapped right through `length` \[mm\] from the face at `z` downwards.
    pub fn tapped_through(&self, name: &str, z: f64, length: f64) -> Vec<Feature> {
        let t = self.thread;
        let down = along(0.0, 0.0, -1.0);
        self.each(0.0, 0.0, z, |o| tapped_through(name, o, down, &t.designation, t.tap_drill_mm, length))
    }

    /// Counterbored clearance holes from the face at `z` downwards.
    pub fn counterbored(&self, name: &str, dx: f64, dy: f64, z: f64, length: f64) -> Vec<Feature> {
        let down = along(0.0, 0.0, -1.0);
        self.each(dx, dy, z, |o| super::kit::counterbored(name, o, down, self.thread, length))
    }

    /// Clearance holes from the face at `z` downwards whose heads are sunk by `deep` \[mm\].
    pub fn sunk(&self, name: &str, z: f64, deep: f64, length: f64) -> Vec<Feature> {
        let down = along(0.0, 0.0, -1.0);
        self.each(0.0, 0.0, z, |o| super::kit::sunk(name, o, down, self.thread, deep, length))
    }

    /// Centres for the manifest \[mm\].
    pub fn list(&self) -> Vec<[f64; 2]> {
        self.centres.iter().map(|c| [c.x, c.y]).collect()
    }
}
