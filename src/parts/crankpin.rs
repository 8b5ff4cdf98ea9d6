//! The screw in the end of a crankpin, with its washer: it keeps con rods and bearings on. Its length is decided once, for hole,
//! list and checks.

use super::fastening::{Fastening, Hole, Screw, Tool, names};
use super::part::{Instance, Part};
use crate::catalogue::Catalogue;
use crate::catalogue::threads::{Thread, thread, threads};
use crate::sizing::engine::Engine;

/// Name of the threaded hole on every crank.
pub const HOLE: &str = "pin-thread";
/// How much shorter the pin is than what stands on it, so that the washer clamps bearing or ring and not the pin \[mm\]
/// (common practice, no source).
pub const SHORT_MM: f64 = 0.1;
/// Full thread in the pin, in screw diameters.
const THREAD_OVER_D: f64 = 2.0;
/// Full thread left beyond the end of the screw \[mm\] (common practice, no source).
const SPARE_MM: f64 = 0.5;

/// The screw.
pub fn screw() -> &'static Thread {
    thread("M3").unwrap_or(&threads()[0])
}

/// Full thread in the pin \[mm\].
pub fn thread_mm() -> f64 {
    THREAD_OVER_D * screw().major_mm
}

/// Thickness of the wide washer on the pin \[mm\]: ISO 7093-1 for M3, from memory.
const WASHER_MM: f64 = 0.8;

/// Between the screw's head and the pin's end: washer and what the pin is short \[mm\].
fn grip_mm() -> f64 {
    WASHER_MM + SHORT_MM
}

/// Length below the head: the longest that leaves its end clear of the end of the thread \[mm\].
pub fn screw_mm(book: &Catalogue) -> f64 {
    let most = thread_mm() + grip_mm() - SPARE_MM;
    book.cap_screw_at_most(screw(), most).unwrap_or(most)
}

/// How the screws of all crankpins are put in, one entry for each crank.
pub fn fastenings(e: &Engine, parts: &[Part], instances: &[Instance]) -> Vec<Fastening> {
    let of = |i: &Instance| {
        let recipe = parts.iter().find(|p| p.name == i.part)?.recipe.as_ref()?;
        let hole = recipe.features.iter().find(|f| f.name == HOLE)?;
        let y = i.z_axis.cross(i.x_axis);
        let (at, into) = (hole.axis.origin, hole.axis.direction);
        let end = i.origin + i.x_axis * at.x + y * at.y + i.z_axis * at.z;
        let out = -(i.x_axis * into.x + y * into.y + i.z_axis * into.z);
        Some(Fastening {
            joint: format!("{}-pin", i.name),
            threaded: i.part.clone(),
            metal: e.drive.material.clone(),
            thread: Screw::cap(screw()),
            length_mm: screw_mm(&e.catalogue),
            grip_mm: grip_mm(),
            hole: Hole::Blind(thread_mm()),
            seats: vec![end + out * grip_mm()],
            out,
            among: names(&[&i.name, "crank-bracket", "cooler-plate", "back-plate"]),
            tool: Tool::Key,
            path: "drive.crankpin_bearing",
        })
    };
    instances.iter().filter_map(of).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// M3, 6 mm of thread, washer 0.8 mm, pin 0.1 mm short: 8 mm would reach 7.1 mm into the pin and bottom before it clamps,
    /// 6 mm reach 5.1 mm.
    #[test]
    fn the_screw_ends_before_the_thread() {
        let book = Catalogue::standard();
        assert_eq!(screw_mm(book), 6.0);
        let reach = screw_mm(book) - grip_mm();
        assert!(reach <= thread_mm() - SPARE_MM && reach >= screw().major_mm);
    }
}
