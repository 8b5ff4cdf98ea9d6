//! Bought parts of this layout.

use super::layout;
use crate::parts::bought::{bearing, bush, buy, screw};
use crate::parts::part::Part;
use crate::parts::pin_screw;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;

/// Bearings, bushes, belt, O-ring, pins.
fn running(e: &Engine, own: &TwinCrank) -> Vec<Part> {
    let d = &e.drive;
    let b = &own.belt;
    let pin = format!("ground pin {} h6 x {} mm", e.clevis.pin_mm, e.clevis.size_mm[1]);
    vec![
        bearing("journal-bearing", "Journal bearing", &d.journal_bearing, 4),
        bearing("crankpin-bearing", "Crankpin bearing", &d.crankpin_bearing, 2),
        bearing("small-end-bearing", "Small-end bearing", &d.small_end_bearing, 2),
        bush("rod-bush", "Rod bush of the cooler plate", &e.gland.bush, e.gland.bush_length_mm, 1),
        bush("guide-bush", "Guide bush of the back plate", &own.back.bush, own.back.bush_length_mm, 2),
        buy(
            "rod-ring",
            "O-ring of the rod gland",
            format!("O-ring {}, FKM or EPDM", e.gland.oring),
            "nbr",
            1,
        ),
        buy(
            "timing-belt",
            "Timing belt",
            format!("{} belt, {} mm long, {} mm wide", b.section, b.length_mm, b.width_mm),
            "nbr",
            1,
        ),
        buy("clevis-pin", "Clevis pin", pin, "silver-steel", 2),
    ]
}

/// Screws, studs, nuts and washers.
fn fasteners(e: &Engine, own: &TwinCrank) -> Vec<Part> {
    let j = &e.joints;
    let stud = own.block.stud;
    let g = &e.gland.screws;
    let d = &e.drive;
    let t = &d.displacer.rod_end.thread.designation;
    let pin = pin_screw();
    vec![
        screw("hot-joint-screw", "Screw of the hot joint", j.hot.thread, j.hot.screw_mm, j.hot.count),
        screw("cold-joint-screw", "Screw of the cold joint", j.cold.thread, j.cold.screw_mm, j.cold.count),
        screw("gland-screw", "Screw of the gland cap", g.thread, g.screw_mm, g.count),
        screw(
            "bracket-screw",
            "Screw of the crank bracket",
            d.bracket_screw,
            layout::bracket_screw_mm(e, own),
            4,
        ),
        screw("pin-screw", "Screw in the crankpin", pin, 8.0, 2),
        buy("pin-washer", "Washer on the crankpin", format!("ISO 7089 - {}", pin.major_mm), "steel-zinc", 2),
        buy(
            "stud",
            "Stud of the power cylinder",
            format!("threaded rod {} DIN 976-1, cut to {} mm", stud.designation, own.block.stud_length_mm),
            "steel-zinc",
            4,
        ),
        buy("stud-nut", "Nut of the stud", format!("ISO 4032 {}", stud.designation), "steel-zinc", 4),
        buy("stud-washer", "Washer of the stud", format!("ISO 7089 - {}", stud.major_mm), "steel-zinc", 4),
        buy("rod-nut", "Lock nut of the rods", format!("ISO 4035 {t}"), "steel-zinc", 2),
        buy(
            "hub-set-screw",
            "Set screw of the displacer base",
            format!("ISO 4026 {}x6", e.displacer.set_screw.designation),
            "steel-zinc",
            1,
        ),
        buy(
            "pulley-set-screw",
            "Set screw of a pulley",
            format!("ISO 4026 {}x5", own.belt.set_screw.designation),
            "steel-zinc",
            2,
        ),
        buy(
            "hose-barb",
            "Hose barb",
            format!("{} hose barb with sealing washer", own.block.hose.designation),
            "brass",
            2,
        ),
    ]
}

/// The whole list.
pub fn parts(e: &Engine, own: &TwinCrank) -> Vec<Part> {
    let mut all = running(e, own);
    all.extend(fasteners(e, own));
    all
}
