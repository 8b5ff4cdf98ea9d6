//! Water channels drilled straight through the cooler plate, from edge to edge and square to the line of both axes. None meets
//! another hole: hoses outside lead the water from one to the next.

use crate::catalogue::threads::{PortThread, port_thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Block, BoltCircle, RodGland};

const PLAIN: &str = "common practice, no source";
/// Metal between a channel and any other hole \[mm\]; common practice, no source.
const METAL_MM: f64 = 2.0;
/// Radius of the plate's corners \[mm\]: a connector's hexagon lies on the straight of the edge.
pub const CORNER_MM: f64 = 8.0;
/// Stride of the places looked at \[mm\].
const STRIDE_MM: f64 = 0.5;

/// The channels of a plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Channels {
    /// Places on the line from the displacer's axis to the piston's \[mm\].
    pub at_mm: Vec<f64>,
    /// Both edges of the plate, across that line \[mm\].
    pub ends_mm: [f64; 2],
    /// Height of their axes above the plate's lower face \[mm\].
    pub height_mm: f64,
    /// Thread of the hose connectors in both ends; its drill goes right through.
    pub hose: &'static PortThread,
    /// Full thread in either end \[mm\].
    pub thread_mm: f64,
}

impl Channels {
    /// Length of each \[mm\].
    pub fn length_mm(&self) -> f64 {
        self.ends_mm[1] - self.ends_mm[0]
    }
}

/// Another hole of the plate, as a channel meets it: its middle on the line, and half its width \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// Middle.
    pub at_mm: f64,
    /// Half width.
    pub half_mm: f64,
}

/// Room of a plate.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// Thickness \[mm\].
    pub thickness_mm: f64,
    /// Its extent along the line \[mm\].
    pub along_mm: [f64; 2],
    /// Its edges across the line \[mm\].
    pub ends_mm: [f64; 2],
    /// What is in the way.
    pub holes: Vec<Hole>,
}

/// Screws on a circle about the displacer's axis, seen along a line at `line_deg` from X.
pub fn on_circle(screws: &BoltCircle, line_deg: f64) -> impl Iterator<Item = Hole> {
    let (half_mm, r, count) = (screws.thread.major_mm / 2.0, screws.diameter_mm / 2.0, screws.count);
    let first = screws.first_deg - line_deg;
    (0..count).map(move |i| {
        let angle = (first + 360.0 * i as f64 / count as f64).to_radians();
        Hole { at_mm: r * angle.cos(), half_mm }
    })
}

/// Rod bore with its gland's screws, and the screws of the cold flange.
pub fn around_rod(gland: &RodGland, cold: &BoltCircle, line_deg: f64) -> Vec<Hole> {
    let wide = gland.bush.housing_mm.max(gland.groove_mm[0]);
    let mut all = vec![Hole { at_mm: 0.0, half_mm: wide / 2.0 }];
    all.extend(on_circle(&gland.screws, line_deg).chain(on_circle(cold, line_deg)));
    all
}

/// A rectangular plate below flange and block, whose cylinder is at `centres` \[mm\] on the line: extent along it and across.
pub fn rectangle_mm(flange: f64, centres: f64, block: &Block) -> [[f64; 2]; 2] {
    let half = (flange / 2.0).max(block.half_mm);
    [[-flange / 2.0, centres + block.half_mm], [-half, half]]
}

/// Places of up to `count` channels, the nearest to the displacer's axis first.
fn places(count: usize, room: &Room, hose: &PortThread, hexagon: f64) -> Vec<f64> {
    let half = hose.major_mm / 2.0;
    let inset = CORNER_MM + hexagon / 2.0;
    let [low, high] = [room.along_mm[0] + inset, room.along_mm[1] - inset];
    let steps = ((high - low) / STRIDE_MM).max(0.0) as i64;
    let free =
        |at: &f64| room.holes.iter().all(|h| (h.at_mm - at).abs() >= h.half_mm + half + METAL_MM - 1e-9);
    let first = (low / STRIDE_MM).ceil();
    let mut all: Vec<f64> =
        (0..=steps).map(|i| (first + i as f64) * STRIDE_MM).filter(|at| *at <= high && free(at)).collect();
    all.sort_by(|a, b| a.abs().total_cmp(&b.abs()).then(a.total_cmp(b)));
    let mut taken: Vec<f64> = Vec::new();
    for at in all {
        if taken.len() < count && taken.iter().all(|t| (t - at).abs() >= hexagon + METAL_MM) {
            taken.push(at);
        }
    }
    taken.sort_by(f64::total_cmp);
    taken
}

/// The channels that the design asks for.
pub fn size(d: &mut Decide, room: &Room, inputs: &[&str]) -> Option<Channels> {
    let design = d.design;
    let asked = &design.cooler.plate_channels;
    if asked.value == 0 {
        return None;
    }
    let count = d.count("cooler.plate_channels", asked);
    let hose = port_thread(&design.cooler.hose_thread.value).ok()?;
    // over the corners, 4 mm wider than the thread
    let hexagon = 1.155 * (hose.major_mm + 4.0);
    let at_mm = places(count, room, hose, hexagon);
    if at_mm.len() < count {
        d.refuse(
            "swept::range",
            "cooler.plate_channels",
            format!(
                "between the other holes of the cooler plate is room for {} channels, not {count}",
                at_mm.len()
            ),
            format!("{} at the most", at_mm.len()),
            "ask for fewer, or take a smaller cooler.hose_thread".into(),
        );
    }
    for (i, at) in at_mm.iter().enumerate() {
        d.rule(
            &format!("cooler.channel_{}", i + 1),
            *at,
            (
                "from the displacer's axis: as near as 2 mm of metal beside every other hole and room for the connectors allow",
                PLAIN,
            ),
            inputs,
        );
    }
    d.standard(
        "cooler.channel_diameter",
        hose.tap_drill_mm,
        "ISO 261, ISO 228-1",
        &format!("drill of the connector's thread {}, right through", hose.designation),
    );
    let thread_mm = d.rule(
        "cooler.channel_thread",
        round_up(1.2 * hose.major_mm, 1.0),
        ("1.2 threads in either end, to the next mm", PLAIN),
        &["cooler.channel_diameter"],
    );
    let least = hose.major_mm + 2.0 * METAL_MM;
    if room.thickness_mm < least {
        d.refuse(
            "swept::range",
            "cooler.plate_thickness",
            format!(
                "a cooler plate of {} mm has no room for channels with {}",
                room.thickness_mm, hose.designation
            ),
            format!("{least:.1} mm or more"),
            format!("set cooler.plate_thickness to \"{} mm\"", round_up(least, 1.0)),
        );
    }
    Some(Channels { at_mm, ends_mm: room.ends_mm, height_mm: room.thickness_mm / 2.0, hose, thread_mm })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room(holes: Vec<Hole>) -> Room {
        Room { thickness_mm: 20.0, along_mm: [-60.0, 60.0], ends_mm: [-50.0, 50.0], holes }
    }

    /// By hand: M8, hexagon 13.86 mm: places end 14.93 mm before the edges; a rod bore of 10 mm radius keeps 16 mm free.
    #[test]
    fn they_keep_clear_of_holes_edges_and_each_other() {
        let hose = port_thread("M8").unwrap();
        let rod = Hole { at_mm: 0.0, half_mm: 10.0 };
        assert_eq!(places(2, &room(vec![rod]), hose, 13.86), [-16.0, 16.0]);
        assert_eq!(places(8, &room(vec![rod]), hose, 13.86), [-32.0, -16.0, 16.0, 32.0]);
        let beside = Hole { at_mm: 20.0, half_mm: 2.0 };
        assert_eq!(places(8, &room(vec![rod, beside]), hose, 13.86), [-32.0, -16.0, 28.0, 44.0]);
        assert!(places(8, &room(vec![Hole { at_mm: 0.0, half_mm: 60.0 }]), hose, 13.86).is_empty());
    }
}
