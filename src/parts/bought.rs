//! Bought parts: listed by standard designation, without a shape of their own.

use super::kit::material;
use super::layout;
use super::part::{Part, Supply};
use crate::sizing::engine::Engine;

/// One line of the list.
fn buy(name: &str, title: &str, designation: String, stuff: &str, quantity: usize) -> Part {
    Part {
        name: name.to_owned(),
        title: title.to_owned(),
        quantity,
        supply: Supply::Buy { designation },
        material: material(stuff),
        recipe: None,
        flat: false,
        blank: None,
        notes: Vec::new(),
        cautions: Vec::new(),
    }
}

/// Bearings, bushes, belt, O-ring, pins.
fn running(e: &Engine) -> Vec<Part> {
    let d = &e.drive;
    let bearing = |name: &str, title: &str, b: &crate::catalogue::bearings::BallBearing, n: usize| {
        let size =
            format!("ball bearing {} ({} x {} x {} mm)", b.designation, b.bore_mm, b.outer_mm, b.width_mm);
        buy(name, title, size, "bearing-steel", n)
    };
    let bush = |name: &str, title: &str, b: &crate::catalogue::bearings::Bush, l: f64, n: usize| {
        buy(
            name,
            title,
            format!("ISO 3547 wrapped bush {} x {} x {l}, PTFE lined", b.shaft_mm, b.housing_mm),
            "brass",
            n,
        )
    };
    let b = &d.belt;
    let pin = format!("ground pin {} h6 x {} mm", e.clevis.pin_mm, e.clevis.size_mm[1]);
    vec![
        bearing("journal-bearing", "Journal bearing", d.journal_bearing, 4),
        bearing("crankpin-bearing", "Crankpin bearing", d.crankpin_bearing, 2),
        bearing("small-end-bearing", "Small-end bearing", d.small_end_bearing, 2),
        bush("rod-bush", "Rod bush of the cooler plate", e.cooler.bush, e.cooler.bush_length_mm, 1),
        bush("guide-bush", "Guide bush of the back plate", e.back.bush, e.back.bush_length_mm, 2),
        buy(
            "rod-ring",
            "O-ring of the rod gland",
            format!("O-ring {}, FKM or EPDM", e.cooler.oring),
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
fn fasteners(e: &Engine) -> Vec<Part> {
    let screw = |name: &str, title: &str, t: &str, l: f64, n: usize| {
        buy(name, title, format!("ISO 4762 {t}x{l}"), "steel-zinc", n)
    };
    let j = &e.joints;
    let stud = e.block.stud;
    let g = &e.cooler.gland_screws;
    let d = &e.drive;
    let t = &d.displacer.rod_end.thread.designation;
    let pin = super::pin_screw();
    vec![
        screw(
            "hot-joint-screw",
            "Screw of the hot joint",
            &j.hot.thread.designation,
            j.hot.screw_mm,
            j.hot.count,
        ),
        screw(
            "cold-joint-screw",
            "Screw of the cold joint",
            &j.cold.thread.designation,
            j.cold.screw_mm,
            j.cold.count,
        ),
        screw("gland-screw", "Screw of the gland cap", &g.thread.designation, g.screw_mm, g.count),
        screw(
            "bracket-screw",
            "Screw of the crank bracket",
            &d.bracket_screw.designation,
            layout::bracket_screw_mm(e),
            4,
        ),
        screw("pin-screw", "Screw in the crankpin", &pin.designation, 8.0, 2),
        buy("pin-washer", "Washer on the crankpin", format!("ISO 7089 - {}", pin.major_mm), "steel-zinc", 2),
        buy(
            "stud",
            "Stud of the power cylinder",
            format!("threaded rod {} DIN 976-1, cut to {} mm", stud.designation, e.block.stud_length_mm),
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
            format!("ISO 4026 {}x5", d.belt.set_screw.designation),
            "steel-zinc",
            2,
        ),
        buy(
            "hose-barb",
            "Hose barb",
            format!("{} hose barb with sealing washer", e.block.hose.designation),
            "brass",
            2,
        ),
    ]
}

/// The whole list.
pub fn parts(e: &Engine) -> Vec<Part> {
    let mut all = running(e);
    all.extend(fasteners(e));
    all
}
