//! Bought parts of this layout.

use crate::parts::bought::{bearing, bush, buy, screw};
use crate::parts::part::Part;
use crate::parts::pin_screw;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Bearings, bushes, O-ring, pins.
fn running(e: &Engine, own: &RightAngle) -> Vec<Part> {
    let d = &e.drive;
    let pin = format!("ground pin {} h6 x {} mm", e.clevis.pin_mm, e.clevis.size_mm[1]);
    vec![
        bearing("journal-bearing", "Journal bearing", &d.journal_bearing, 2),
        bearing("crankpin-bearing", "Crankpin bearing", &d.crankpin_bearing, 2),
        bearing("small-end-bearing", "Small-end bearing", &d.small_end_bearing, 2),
        bush("rod-bush", "Rod bush of the cooler plate", &e.gland.bush, e.gland.bush_length_mm, 1),
        bush("rod-guide-bush", "Bush of the rod guide", &own.guide.bush, own.guide.bush_length_mm, 1),
        bush("guide-bush", "Guide bush of the back plate", &own.back.bush, own.back.bush_length_mm, 1),
        buy(
            "rod-ring",
            "O-ring of the rod gland",
            format!("O-ring {}, FKM or EPDM", e.gland.oring),
            "nbr",
            1,
        ),
        buy("clevis-pin", "Clevis pin", pin, "silver-steel", 2),
    ]
}

/// Screws, studs, nuts, washers and plugs.
fn fasteners(e: &Engine, own: &RightAngle) -> Vec<Part> {
    let (j, g, d, b) = (&e.joints, &e.gland.screws, &e.drive, &own.bracket);
    let stud = own.block.stud;
    let t = &d.displacer.rod_end.thread.designation;
    let pin = pin_screw();
    let steel = |name: &str, title: &str, what: String, n: usize| buy(name, title, what, "steel-zinc", n);
    vec![
        screw("hot-joint-screw", "Screw of the hot joint", j.hot.thread, j.hot.screw_mm, j.hot.count),
        screw("cold-joint-screw", "Screw of the cold joint", j.cold.thread, j.cold.screw_mm, j.cold.count),
        screw("gland-screw", "Screw of the rod guide", g.thread, g.screw_mm, g.count),
        screw("bracket-screw", "Screw of cooler plate and bracket", d.bracket_screw, b.screw_mm[0], 4),
        screw("back-plate-screw", "Screw of back plate and bracket", d.bracket_screw, b.screw_mm[1], 4),
        screw("pin-screw", "Screw in the crankpin", pin, 8.0, 1),
        steel("pin-washer", "Washer on the crankpin", format!("ISO 7089 - {}", pin.major_mm), 1),
        steel(
            "stud",
            "Stud of the power cylinder",
            format!("threaded rod {} DIN 976-1, cut to {} mm", stud.designation, own.block.stud_length_mm),
            4,
        ),
        steel("stud-nut", "Nut of the stud", format!("ISO 4032 {}", stud.designation), 4),
        steel("stud-washer", "Washer of the stud", format!("ISO 7089 - {}", stud.major_mm), 4),
        steel("rod-nut", "Lock nut of the rods", format!("ISO 4035 {t}"), 2),
        steel(
            "hub-set-screw",
            "Set screw of the displacer base",
            format!("ISO 4026 {}x6", e.displacer.set_screw.designation),
            1,
        ),
        steel(
            "passage-plug",
            "Plug of the passage",
            format!("ISO 4026 {}x{}", own.passage.plug.designation, own.passage.plug.major_mm),
            1,
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
pub fn parts(e: &Engine, own: &RightAngle) -> Vec<Part> {
    let mut all = running(e, own);
    all.extend(fasteners(e, own));
    all
}
