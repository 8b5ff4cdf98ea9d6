//! Ends of rods, shared by both rods.

use super::kit::{at, fit, named};
use crate::catalogue::threads::Thread;
use crate::shape::recipe::{ProfileNode, Tag};

/// Chamfer at the end of a rod \[mm\].
const CHAMFER_MM: f64 = 0.5;

/// Diameter of the relief behind a thread \[mm\]: 0.2 mm below the core, down to the next tenth (common practice, no source).
fn relief_mm(thread: &Thread) -> f64 {
    ((thread.minor_mm - 0.2) * 10.0).floor() / 10.0
}

/// Outside of a rod from its axis at z = 0: chamfer, thread, relief, shoulder and the rod's own surface.
pub fn threaded_end(thread: &Thread, length: f64, rod: f64, z: f64) -> Vec<ProfileNode> {
    let (r, relief, width) = (thread.major_mm / 2.0, relief_mm(thread) / 2.0, 2.0 * thread.pitch_mm);
    vec![
        at(0.0, z),
        named(r - CHAMFER_MM, z, Tag::new("lower-end-chamfer")),
        named(r, z + CHAMFER_MM, Tag::new("lower-thread").thread(&thread.designation)),
        named(r, z + length - width, Tag::new("lower-relief-start")),
        named(relief, z + length - width, Tag::new("lower-relief-diameter")),
        named(relief, z + length, Tag::new("lower-thread-length")),
        named(rod / 2.0, z + length, fit("rod-diameter", rod, "h6").origin("displacer.rod_diameter").ra(0.4)),
    ]
}

/// Upper plain end at z = `length`, down to the axis.
pub fn plain_end(rod: f64, length: f64) -> Vec<ProfileNode> {
    vec![
        named(rod / 2.0, length - CHAMFER_MM, Tag::new("upper-end-chamfer")),
        named(rod / 2.0 - CHAMFER_MM, length, Tag::new("length").origin("displacer.rod_length")),
        at(0.0, length),
    ]
}

/// Upper threaded end, from the rod's surface to the axis at z = `length`.
pub fn upper_thread(thread: &Thread, long: f64, rod: f64, length: f64) -> Vec<ProfileNode> {
    let (r, relief, width) = (thread.major_mm / 2.0, relief_mm(thread) / 2.0, 2.0 * thread.pitch_mm);
    let shoulder = length - long;
    vec![
        named(rod / 2.0, shoulder, Tag::new("upper-thread-length").from_z(length)),
        named(relief, shoulder, Tag::new("upper-relief-diameter")),
        named(relief, shoulder + width, Tag::new("upper-relief-end").from_z(shoulder)),
        named(r, shoulder + width, Tag::new("upper-thread").thread(&thread.designation)),
        named(r, length - CHAMFER_MM, Tag::new("upper-end-chamfer")),
        named(r - CHAMFER_MM, length, Tag::new("length").origin("piston.rod_length")),
        at(0.0, length),
    ]
}
