//! Steps of what stands still: bushes, gland, cylinders, hot cap.

use crate::parts::part::Step;
use crate::sizing::engine::{Block, Engine};
use crate::sizing::layouts::plate_channels;
use crate::sizing::strength::bolt::on_metal_n;

/// What is pressed into the seats of an engine whose rods run through bushes; [`super::kept`] leaves out what it has not.
pub const SEATED: [&str; 6] =
    ["rod-bush", "rod-guide-bush", "guide-bush", "journal-bearing", "crankpin-bearing", "small-end-bearing"];
/// Which port is the lower one.
const STANDS: &str = ", as the engine stands in use";
/// Parts of the power cylinder on studs.
const POWER: [&str; 9] = [
    "power-cylinder-block",
    "power-cylinder-gasket",
    "jacket-gasket",
    "back-plate",
    "head-plate",
    "stud",
    "stud-nut",
    "stud-washer",
    "hose-barb",
];

/// Bushes and bearings into their seats.
pub fn bushes(parts: &[&str]) -> Step {
    Step::new("Bushes and bearings into their seats")
        .with(parts)
        .with(&["retaining-compound", "thread-lock"])
        .line("Deburr and wash every part first: a chip in the gas ends in the rings.")
        .line("Press bushes in square with a stepped mandrel, the seam away from the side load; run the rod through: it must fall by its own weight.")
        .line("Ball bearings with retaining compound, pressed on the ring that is held, never through the balls.")
}

/// O-ring and cap of the displacer rod's gland.
pub fn gland(e: &Engine, parts: [&str; 2]) -> Step {
    let (g, holder) = (&e.gland, parts[1].replace('-', " "));
    let step = Step::new("Gland of the displacer rod").with(&parts).with(&[
        "rod-ring",
        "gland-screw",
        "silicone-grease",
    ]);
    let step = match &g.oring {
        Some(ring) => step
            .line(&format!("O-ring {ring} into its recess, {holder} over it, screws only finger tight."))
            .caution("O-ring dry or with a trace of silicone grease, no mineral oil: oil mist in hot compressed air can burn or explode."),
        None => step
            .line(&format!("No ring here: the bush itself seals. {} on, screws only finger tight.", capital(&holder)))
            .caution("No oil on the rod: oil mist in hot compressed air can burn or explode."),
    };
    step.line("Slide the displacer rod through, then tighten while the rod is turned: it centres what is below the plate.")
        .tighten(&format!("{} gland screws", g.screws.count), g.screws.thread, on_metal_n(g.screws.thread), "crosswise; the rod must still turn by two fingers")
}

/// Power cylinder block on its plate, and what closes its far end, on studs.
pub fn studs(e: &Engine, block: &Block, plates: [&str; 2]) -> Step {
    let thread = block.stud;
    Step::new("Power cylinder")
        .with(&POWER)
        .line(&format!("Studs into the {} with thread lock, {} mm deep; let it set.", plates[0], short(block.stud_depth_mm)))
        .line(&match &block.ring {
            None => format!("Gasket, block with its bore square to the joint, gasket, {}; washers and nuts.", plates[1]),
            Some(ring) => format!("O-ring {} with a trace of silicone grease into the block's groove, block with its bore square to the joint and bare on the metal, jacket gasket, {}; washers and nuts.", ring.designation, plates[1]),
        })
        .line("Blow through the jacket from one hose port to the other; fill it with water and look for drips before any heat comes near.")
        .line(&match plate_channels(e) {
            None => format!("Water in at the jacket's lower port, out at its upper one{STANDS}."),
            Some(c) if c.at_mm.len() == 1 => format!("Water in at the cooler plate, through its channel, by a hose to the jacket's lower port, out at its upper one{STANDS}."),
            Some(c) => format!("Water in at the cooler plate, through its {} channels one after the other, from there to the jacket's lower port, out at its upper one{STANDS}: a hose between each two.", c.at_mm.len()),
        })
        .tighten("4 stud nuts", thread, block.stud_preload_n, "crosswise; once more after an hour, the gasket settles")
        .set(if block.ring.is_some() { "jacket gasket, tightened" } else { "gasket, tightened" }, format!("{} mm", short(e.joints.gasket_mm)), "feeler at the four corners, all alike")
        .caution("Never heat the engine with the jacket shut or dry: steam bursts it.")
}

/// Base plate with its feet, `under` what stands on it.
pub fn base(e: &Engine, under: &str) -> Step {
    let step = Step::new("Base").with(&[
        "base-plate",
        "base-screw",
        "base-foot",
        "foot-screw",
        "hold-down-screw",
        "hold-down-washer",
    ]);
    let Some(b) = &e.base else { return step };
    let step = step.line(&format!("Feet on the plate, plate under {under}.")).tighten(
        "4 base screws",
        b.screw,
        on_metal_n(b.screw),
        "crosswise",
    );
    match &b.foot {
        Some(_) => step.line("Bolt the feet down through the bench from below, washers under the heads."),
        None => step.line("Bolt the plate down on the bench."),
    }
    .caution("An engine that falls over while it is hot starts a fire: never run it loose.")
}

/// Cold cylinder on its plate.
pub fn cold_cylinder(e: &Engine, plate: &str) -> Step {
    let cold = &e.joints.cold;
    Step::new("Cold cylinder")
        .with(&["cold-cylinder", "cold-cylinder-gasket", "cold-joint-screw"])
        .line(&match &e.joints.cold_ring {
            None => format!("Gasket and cold cylinder on the {plate}; screws finger tight, then shift the cylinder until the displacer runs free all round."),
            Some(ring) => format!("O-ring {} with a trace of silicone grease into the cylinder's groove, cylinder bare on the {plate}; screws finger tight, then shift the cylinder until the displacer runs free all round.", ring.designation),
        })
        .set("gap around the displacer", format!("{} mm", short(e.displacer.gap_mm)), "feelers at four places, top and bottom of the stroke, within 0.1 mm of each other")
        .tighten(&format!("{} screws of the cold joint", cold.count), cold.thread, e.joints.cold_preload_n, "crosswise; measure the gap again")
}

/// Hot cap on the cold cylinder.
pub fn hot_cap(e: &Engine) -> Step {
    let hot = &e.joints.hot;
    Step::new("Hot cap")
        .with(&["hot-cap", "hot-cap-gasket", "hot-joint-screw"])
        .with(&["thread-paste"])
        .line("Gasket dry, cap over the displacer, screws with copper or ceramic paste on the thread only.")
        .tighten(&format!("{} screws of the hot joint", hot.count), hot.thread, e.joints.hot_preload_n, "crosswise; once more when cold after the first heating")
        .set("hot gasket, tightened", format!("{} mm", short(e.joints.hot_gasket_mm)), "feeler at four places, all alike")
        .set("hot clearance", format!("{} mm", short(e.displacer.hot_clearance_mm)), "depth gauge before the cap goes on: depth of the cap and gasket, less the displacer's top at the top of its stroke")
        .caution(if e.hot_cap.flame {
            "The cap burns skin long after the flame is out. Fuel and flame by local code; ventilate: carbon monoxide kills."
        } else {
            "The cap burns skin long after the heat is off. An electric heater needs an earth, a fuse and a cut-out, by local code."
        })
}

/// A length in as few digits as it needs.
pub fn short(mm: f64) -> String {
    crate::numerals::short(mm, 2)
}

/// With a capital letter first.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
