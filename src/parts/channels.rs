//! Water channels through the cooler plate, and the hose connectors in their ends.

use super::fastening::{Fastening, Hole, Screw, Tool, names};
use super::kit::{at, feature, named};
use super::part::Part;
use crate::shape::recipe::{End, Feature, InsideThread, Kind, Place, Tag};
use crate::shape::{InnerSpace, Point3, Vector3};
use crate::sizing::layouts::common::channels::Channels;

/// Thread of a hose fitting below its hexagon \[mm\] (common practice, no source).
const FITTING_MM: f64 = 8.0;

/// What stands beside the plate when its hoses go on.
pub const PLATE_HOSES: [&str; 6] =
    ["cooler-plate", "crank-bracket", "cold-cylinder", "hot-cap", "power-cylinder-block", "back-plate"];

/// Square to the line of both axes.
fn across(line: Vector3) -> Vector3 {
    Vector3::new(-line.y, line.x, 0.0)
}

/// A point of the plate's edge: on the line, across it, above the lower face \[mm\].
fn edge(c: &Channels, line: Vector3, along: f64, end: f64) -> Point3 {
    Point3::new(0.0, 0.0, c.height_mm) + line * along + across(line) * end
}

/// The drillings, of a plate whose datum is its lower face on the displacer's axis; `line` points to the piston's axis.
pub fn features(c: &Channels, line: Vector3) -> Vec<Feature> {
    let (r, long) = (c.hose.tap_drill_mm / 2.0, c.length_mm());
    let one = |along: &f64| {
        let chain =
            vec![named(r, 0.0, Tag::new("water-channel").origin("cooler.channel_diameter")), at(r, long)];
        let inside = InsideThread {
            designation: c.hose.designation.clone(),
            depth: Some(c.thread_mm),
            both_ends: true,
        };
        let kind = Kind::Bore { chain, end: End::Through, thread: Some(inside) };
        let from = edge(c, line, *along, c.ends_mm[0]);
        feature("water-channel", from, across(line), kind).placed(Place::Coordinates)
    };
    c.at_mm.iter().map(one).collect()
}

/// What the plate's drawing says of them.
pub fn told(part: Part, c: &Channels) -> Part {
    part.note(&format!(
        "Water channels: drill {} right through, from both edges to the middle; tap {} {} mm deep in both ends; wash the chips out.",
        c.hose.tap_drill_mm, c.hose.designation, c.thread_mm
    ))
    .caution("Never heat the engine with its water shut off: steam in a shut channel bursts it.")
}

/// Hose connectors in both ends; the plate's lower face stands at `low` \[mm\].
pub fn screws(c: &Channels, line: Vector3, stuff: &str, low: f64, among: &[&str]) -> [Fastening; 2] {
    let one = |joint: &str, end: f64| {
        let out = across(line) * end.signum();
        let seats = c.at_mm.iter().map(|along| edge(c, line, *along, end) + Vector3::new(0.0, 0.0, low));
        Fastening {
            joint: joint.into(),
            threaded: "cooler-plate".into(),
            metal: stuff.into(),
            thread: Screw::fitting(c.hose),
            length_mm: FITTING_MM,
            grip_mm: 0.0,
            hole: Hole::Blind(c.thread_mm),
            seats: seats.collect(),
            out: out / out.magnitude(),
            among: names(among),
            tool: Tool::Fitting,
            path: "cooler.plate_channels",
        }
    };
    [one("plate-hose-front", c.ends_mm[0]), one("plate-hose-rear", c.ends_mm[1])]
}
