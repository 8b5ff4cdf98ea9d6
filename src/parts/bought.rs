//! Bought parts: listed by standard designation, without a shape of their own.

use super::crankpin;
use super::kit::stuff_named;
use super::part::{Part, Supply};
use crate::catalogue::bearings::BallBearing;
use crate::catalogue::bushes::Bush;
use crate::catalogue::threads::Thread;
use crate::sizing::engine::{Block, Engine};
use crate::sizing::layouts::plate_channels;

/// One line of the list.
pub fn buy(name: &str, title: &str, designation: String, stuff: &str, quantity: usize) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity,
        supply: Supply::Buy { designation },
        fastener: false,
        material: stuff_named(stuff),
        recipe: None,
        flat: false,
        blank: None,
        notes: Vec::new(),
        geometry: crate::shape::control::Geometry::default(),
        cautions: Vec::new(),
    }
}

/// Ball bearings.
pub fn bearing(name: &str, title: &str, b: &BallBearing, quantity: usize) -> Part {
    let size = format!("ball bearing {} ({} x {} x {} mm)", b.designation, b.bore_mm, b.outer_mm, b.width_mm);
    buy(name, title, size, "bearing-steel", quantity)
}

/// Wrapped bushes, `long` \[mm\].
pub fn bush(name: &str, title: &str, b: &Bush, long: f64, quantity: usize) -> Part {
    let size = format!("ISO 3547 wrapped bush {} x {} x {long}, PTFE lined", b.shaft_mm, b.housing_mm);
    buy(name, title, size, "brass", quantity)
}

/// Cap screws, `long` \[mm\] below the head.
pub fn screw(name: &str, title: &str, thread: &Thread, long: f64, quantity: usize) -> Part {
    steel(name, title, super::joints::cap_screw(thread, long), quantity)
}

/// Bearings of cranks and con rods, and the pins of both clevises.
pub fn of_drive(e: &Engine, journals: usize) -> Vec<Part> {
    let d = &e.drive;
    let pin = format!("ground pin {} h6 x {} mm", e.clevis.pin_mm, e.clevis.size_mm[1]);
    vec![
        bearing("journal-bearing", "Journal bearing", &d.journal_bearing, journals),
        bearing("crankpin-bearing", "Crankpin bearing", &d.crankpin_bearing, 2),
        bearing("small-end-bearing", "Small-end bearing", &d.small_end_bearing, 2),
        buy("clevis-pin", "Clevis pin", pin, "silver-steel", 2),
    ]
}

/// Bush, and O-ring where it has one, where the displacer's rod leaves the gas through a part.
pub fn of_gland(e: &Engine, place: &str) -> Vec<Part> {
    let ring = |name: &String| {
        buy("rod-ring", "O-ring of the rod gland", format!("O-ring {name}, FKM or EPDM"), "nbr", 1)
    };
    let g = &e.gland;
    let mut all = vec![bush("rod-bush", &format!("Rod bush of the {place}"), &g.bush, g.bush_length_mm, 1)];
    all.extend(g.oring.as_ref().map(ring));
    all
}

/// Screws of both flanges and of what holds the rod's O-ring.
pub fn of_joints(e: &Engine, gland: &str) -> Vec<Part> {
    let (j, g) = (&e.joints, &e.gland.screws);
    vec![
        screw("hot-joint-screw", "Screw of the hot joint", j.hot.thread, j.hot.screw_mm, j.hot.count),
        screw("cold-joint-screw", "Screw of the cold joint", j.cold.thread, j.cold.screw_mm, j.cold.count),
        screw("gland-screw", gland, g.thread, g.screw_mm, g.count),
    ]
}

/// What holds bearings on `pins` crankpins, clevises on the rods and the displacer's base on its rod.
pub fn of_rods(e: &Engine, pins: usize) -> Vec<Part> {
    let (t, hub) = (&e.drive.displacer.rod_end.thread.designation, e.displacer.set_screw);
    let pin = crankpin::screw();
    let washer = pin_washer(pin.major_mm, e.drive.crankpin_bearing.bore_mm);
    vec![
        screw("pin-screw", "Screw in the crankpin", pin, crankpin::screw_mm(&e.catalogue), pins),
        steel("pin-washer", "Washer on the crankpin", washer, pins),
        steel("rod-nut", "Lock nut of the rods", format!("ISO 4035 {t}"), 2),
        steel(
            "hub-set-screw",
            "Set screw of the displacer base",
            format!("ISO 4026 {}x6", hub.designation),
            1,
        ),
    ]
}

/// What a washer must reach over the bore of the bearing that it holds, on the diameter \[mm\]; common practice, no source.
const OVER_BORE_MM: f64 = 1.0;

/// Washer for a screw of a size that holds a bearing of a bore \[mm\]: of the large series (ISO 7093-1, from memory: three
/// times as wide as the screw), or turned where that would slip through.
fn pin_washer(screw_mm: f64, bore_mm: f64) -> String {
    let large = 3.0 * screw_mm;
    if large >= bore_mm + OVER_BORE_MM {
        return format!("ISO 7093-1 - {screw_mm} (outside {large} mm)");
    }
    format!(
        "washer turned to {} mm, hole {:.1} mm, 0.8 mm thick",
        bore_mm + 2.0 * OVER_BORE_MM,
        screw_mm + 0.2
    )
}

/// Water channels of the cooler plate.
fn channels(e: &Engine) -> usize {
    plate_channels(e).map_or(0, |c| c.at_mm.len())
}

/// Studs of the power cylinder with nuts and washers, and the hose barbs of its jacket and of the cooler plate.
pub fn of_block(e: &Engine, block: &Block) -> Vec<Part> {
    let stud = block.stud;
    let rod = format!("threaded rod {} DIN 976-1, cut to {} mm", stud.designation, block.stud_length_mm);
    let barb = format!("{} hose barb with sealing washer", block.hose.designation);
    vec![
        steel("stud", "Stud of the power cylinder", rod, 4),
        steel("stud-nut", "Nut of the stud", format!("ISO 4032 {}", stud.designation), 4),
        steel("stud-washer", "Washer of the stud", format!("ISO 7089 - {}", stud.major_mm), 4),
        buy("hose-barb", "Hose barb", barb, "brass", 2 + 2 * channels(e)),
    ]
}

/// A fastener of zinc-plated steel.
pub fn steel(name: &str, title: &str, designation: String, quantity: usize) -> Part {
    Part { fastener: true, ..buy(name, title, designation, "steel-zinc", quantity) }
}

/// What holds, seals and greases beyond the parts themselves, and the hoses.
pub fn supplies(e: &Engine, block: &Block) -> Vec<Part> {
    let hose = format!("hose for a barb {}, length to suit the water; with clips", block.hose.designation);
    let mut all = vec![
        buy("hose", "Hose for the cooling water", hose, "nbr", 2 + channels(e)),
        buy(
            "hose-clip",
            "Hose clip",
            "hose clip to suit the hose".to_owned(),
            "stainless-304",
            2 + 2 * channels(e),
        ),
    ];
    all.extend(consumed(e));
    all
}

/// What is used up: compounds, paste and grease that the steps name.
pub fn consumed(e: &Engine) -> Vec<Part> {
    let mut all = vec![
        buy(
            "thread-lock",
            "Thread-locking compound",
            "thread-locking compound, medium, small bottle (set screws, studs, pin screws)".to_owned(),
            "compound",
            1,
        ),
        buy(
            "retaining-compound",
            "Retaining compound",
            "retaining compound for slip fits, small bottle (bearings, displacer base)".to_owned(),
            "compound",
            1,
        ),
        buy(
            "thread-paste",
            "Thread paste",
            "copper or ceramic paste for hot threads, small tube (screws of the hot joint)".to_owned(),
            "compound",
            1,
        ),
    ];
    if e.gland.oring.is_some() {
        let grease = "silicone grease, a trace for the rod's O-ring: no mineral oil".to_owned();
        all.push(buy("silicone-grease", "Silicone grease", grease, "compound", 1));
    }
    all
}

/// Sealant for tapered and pipe threads, for `what`.
pub fn thread_sealant(what: &str) -> Part {
    let sealant = format!("thread sealant, small tube ({what})");
    buy("thread-sealant", "Thread sealant", sealant, "compound", 1)
}

/// Compound that seals as it holds, for `what`.
pub fn sealing_compound(what: &str) -> Part {
    let compound = format!("gas-tight retaining compound, small bottle ({what})");
    buy("sealing-compound", "Gas-tight retaining compound", compound, "compound", 1)
}
