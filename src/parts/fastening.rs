//! Screws as they are put in: what the checks of length, thread and reach look at.

use super::part::Instance;
use super::pattern::Pattern;
use crate::catalogue::threads::{PortThread, Thread};
use crate::shape::{InnerSpace, Point2, Point3, Vector3};
use crate::sizing::engine::{Block, Engine};

/// What a screw is tightened with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// Hexagon key in the head of a cap screw.
    Key,
    /// Spanner on a nut.
    Spanner,
    /// Spanner on a fitting with a hose.
    Fitting,
}

/// Where the thread is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hole {
    /// Full thread to a depth \[mm\].
    Blind(f64),
    /// Thread right through a thickness, with free way behind it \[mm\].
    Through {
        /// Thickness.
        thick: f64,
        /// Way that the screw's end may stick out.
        behind: f64,
    },
}

/// The screws of one joint.
#[derive(Clone, Debug, PartialEq)]
pub struct Fastening {
    /// Name of the joint.
    pub joint: String,
    /// Part with the thread.
    pub threaded: String,
    /// Its metal.
    pub metal: String,
    /// Thread; the one of the holes.
    pub thread: Screw,
    /// Length below the head \[mm\].
    pub length_mm: f64,
    /// What lies between head and thread \[mm\].
    pub grip_mm: f64,
    /// The threaded hole.
    pub hole: Hole,
    /// Where heads or nuts rest, in the engine's frame \[mm\].
    pub seats: Vec<Point3>,
    /// Direction from the seat in which the tool comes.
    pub out: Vector3,
    /// Instances that are there already when it is put in.
    pub among: Vec<String>,
    /// What it is tightened with.
    pub tool: Tool,
    /// Path of the number that decides its length.
    pub path: &'static str,
}

/// Thread with its head, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Major diameter.
    pub major_mm: f64,
    /// Pitch.
    pub pitch_mm: f64,
    /// Greatest diameter of head, washer or hexagon.
    pub head_mm: f64,
    /// Height of head or nut.
    pub high_mm: f64,
    /// Way that the key needs over the seat; 0 without a key.
    pub key_way_mm: f64,
}

impl Screw {
    /// Cap screw.
    pub fn cap(t: &Thread) -> Self {
        Self {
            major_mm: t.major_mm,
            pitch_mm: t.pitch_mm,
            head_mm: t.head_knurled_mm,
            high_mm: t.head_height_mm,
            key_way_mm: t.key_way_mm(),
        }
    }

    /// Hose fitting; its hexagon 4 mm wider than the thread, over the corners (common practice, no source).
    pub fn fitting(t: &PortThread) -> Self {
        let head_mm = 1.155 * (t.major_mm + 4.0);
        Self { major_mm: t.major_mm, pitch_mm: t.pitch_mm, head_mm, high_mm: 5.0, key_way_mm: 0.0 }
    }

    /// Nut with its washer; 0.9 d high (ISO 4032, from memory).
    pub fn nut(t: &Thread) -> Self {
        let high_mm = 0.9 * t.major_mm + t.washer_thickness_max_mm;
        Self { head_mm: t.washer_outer_mm, high_mm, key_way_mm: 0.0, ..Self::cap(t) }
    }
}

/// Thread of a hose fitting below its hexagon \[mm\] (common practice, no source).
const FITTING_MM: f64 = 8.0;

/// Places of a pattern about an axis at (x, y), at height z \[mm\].
pub fn seats(pattern: &Pattern, x: f64, y: f64, z: f64) -> Vec<Point3> {
    pattern.centres.iter().map(|c: &Point2| Point3::new(x + c.x, y + c.y, z)).collect()
}

/// Names, owned.
pub fn names(all: &[&str]) -> Vec<String> {
    all.iter().map(|name| (*name).to_owned()).collect()
}

/// Up or down in the engine's frame.
pub fn vertical(sign: f64) -> Vector3 {
    Vector3::new(0.0, 0.0, sign)
}

/// A point of the engine's frame in the coordinates of an instance's part.
pub fn inside(i: &Instance, p: Point3) -> Point3 {
    let d = p - i.origin;
    let y = i.z_axis.cross(i.x_axis);
    Point3::new(d.dot(i.x_axis), d.dot(y), d.dot(i.z_axis))
}

/// Screws of hot and cold joint; the cold one goes into `plate` with full thread to `depth_mm`, of the metal `stuff`.
pub fn of_flanges(
    e: &Engine,
    p: &super::joints::Patterns,
    plate: &str,
    depth_mm: f64,
    stuff: &str,
) -> [Fastening; 2] {
    let (s, j) = (&e.stack, &e.joints);
    // the screws stand outside the fins: their ends have the way to the lower flange
    let behind = e.cold.length_mm - 2.0 * e.cold.flange_mm;
    let hot = Fastening {
        joint: "hot-joint".into(),
        threaded: "cold-cylinder".into(),
        metal: e.cold.material.clone(),
        thread: Screw::cap(j.hot.thread),
        length_mm: j.hot.screw_mm,
        grip_mm: e.hot_cap.flange_mm + j.hot_gasket_mm,
        hole: Hole::Through { thick: e.cold.flange_mm, behind },
        seats: seats(&p.hot, 0.0, 0.0, s.cap_low_mm + e.hot_cap.flange_mm),
        out: vertical(1.0),
        among: names(&["hot-cap", "cold-cylinder", plate]),
        tool: Tool::Key,
        path: "joints.hot_screw_length",
    };
    let cold = Fastening {
        joint: "cold-joint".into(),
        threaded: plate.into(),
        metal: stuff.into(),
        thread: Screw::cap(j.cold.thread),
        length_mm: j.cold.screw_mm,
        grip_mm: e.cold.flange_mm + j.cold_gap_mm,
        hole: Hole::Blind(depth_mm),
        seats: seats(&p.cold, 0.0, 0.0, s.cold_low_mm + e.cold.flange_mm),
        out: vertical(1.0),
        among: names(&["cold-cylinder", plate]),
        tool: Tool::Key,
        path: "joints.cold_screw_length",
    };
    [hot, cold]
}

/// Screws of the gland's cap, from below into `plate`, whose lower face stands at `z_mm`.
pub fn of_gland(e: &Engine, p: &super::joints::Patterns, plate: &str, z_mm: f64, stuff: &str) -> Fastening {
    let g = &e.gland;
    Fastening {
        joint: "gland-joint".into(),
        threaded: plate.into(),
        metal: stuff.into(),
        thread: Screw::cap(g.screws.thread),
        length_mm: g.screws.screw_mm,
        grip_mm: g.cap_mm[1],
        hole: Hole::Blind(super::gland::cap_thread_mm(e)),
        seats: seats(&p.gland, 0.0, 0.0, z_mm - g.cap_mm[1]),
        out: vertical(-1.0),
        among: names(&["gland-cap", plate]),
        tool: Tool::Key,
        path: "cooler.gland_circle",
    }
}

/// Hose fitting in a port of the block's jacket.
pub fn of_hose(b: &Block, joint: &str, seat: Point3, out: Vector3, among: &[&str]) -> Fastening {
    Fastening {
        joint: joint.into(),
        threaded: "power-cylinder-block".into(),
        metal: b.material.clone(),
        thread: Screw::fitting(b.hose),
        length_mm: FITTING_MM,
        grip_mm: 0.0,
        hole: Hole::Through {
            thick: b.half_mm - b.jacket_r_mm[1],
            behind: b.jacket_r_mm[1] - b.jacket_r_mm[0],
        },
        seats: vec![seat],
        out,
        among: names(among),
        tool: Tool::Fitting,
        path: "block.outer_wall",
    }
}
