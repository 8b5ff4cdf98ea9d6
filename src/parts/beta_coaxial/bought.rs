//! Bought parts of this layout.

use super::crank::SPRING_PIN_MM;
use crate::parts::bought::{bearing, bush, buy, consumed, of_gland, screw, steel, thread_sealant};
use crate::parts::part::Part;
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Bearings, bushes, O-rings, pins, shims.
fn running(e: &Engine, own: &BetaCoaxial) -> Vec<Part> {
    let (d, y, s) = (&e.drive, &own.yoke, &own.shaft);
    let pin = e.clevis.pin_mm;
    let ground = |long: f64| format!("ground pin {pin} h6 x {long} mm");
    let shim = |b: f64, t: f64| format!("DIN 988 shim ring {b} x {} x {t} mm", b + 6.0);
    let bore = d.journal_bearing.bore_mm;
    let stack = format!(
        "DIN 988 shim rings {bore} x {}, a set of 0.1, 0.2, 0.3, 0.5 and 1 mm: {} mm in all beside each bearing, more or less for the end play",
        bore + 6.0,
        s.shim_mm
    );
    let ring = format!("O-ring {}, FKM or EPDM", own.case.seal.oring);
    let mut all = of_gland(e, "piston");
    all.extend([
        bearing("journal-bearing", "Journal bearing", &d.journal_bearing, 2),
        bearing("crankpin-bearing", "Crankpin bearing", &d.crankpin_bearing, 3),
        bearing("small-end-bearing", "Small-end bearing", &d.small_end_bearing, 3),
        bush("yoke-bush", "Rod bush of the yoke", &y.bush, y.bush_length_mm, 1),
        buy("shaft-ring", "O-ring of the shaft", ring, "nbr", 1),
        buy("clevis-pin", "Clevis pin", ground(e.clevis.size_mm[1]), "silver-steel", 1),
        buy("yoke-pin", "Pin of the yoke", ground(y.slot_mm + 2.0 * y.leg_mm), "silver-steel", 2),
        steel(
            "pin-shim",
            "Shim beside a crankpin bearing",
            shim(d.crankpin_bearing.bore_mm, d.side_gap_mm),
            3,
        ),
        steel("journal-shim", "Shim set beside a journal bearing", stack, 2),
        steel(
            "web-set-screw",
            "Set screw of a crank web",
            format!("ISO 4027 {}x4, with a cone point", s.set_screw.designation),
            8,
        ),
        steel(
            "web-spring-pin",
            "Spring pin of a crank web",
            format!("ISO 8752 - {} x {}", SPRING_PIN_MM[0], SPRING_PIN_MM[1]),
            8,
        ),
    ]);
    all
}

/// Screws, nuts, hoses.
fn fasteners(e: &Engine, own: &BetaCoaxial) -> Vec<Part> {
    let (j, c, y) = (&e.joints, &own.case, &own.yoke);
    let (foot, plate, cap) = (&own.cylinder.screws, &c.plate_screws, &c.seal.screws);
    let hose = format!("{} hose barb, with thread sealant", own.cooler.hose.designation);
    let tube = format!("hose for a barb {}, length to suit the water", own.cooler.hose.designation);
    let nut = format!("ISO 4035 {}", e.drive.displacer.rod_end.thread.designation);
    let hub = format!("ISO 4026 {}x6", e.displacer.set_screw.designation);
    vec![
        screw("hot-joint-screw", "Screw of the hot joint", j.hot.thread, j.hot.screw_mm, j.hot.count),
        screw(
            "cold-joint-screw",
            "Screw of cooler and power cylinder",
            j.cold.thread,
            j.cold.screw_mm,
            j.cold.count,
        ),
        screw("case-screw", "Screw of power cylinder and crankcase", foot.thread, foot.screw_mm, foot.count),
        screw("end-plate-screw", "Screw of an end plate", plate.thread, plate.screw_mm, 2 * plate.count),
        screw("yoke-screw", "Screw of the yoke", y.screw, y.screw_mm, 4),
        screw("seal-cap-screw", "Screw of the seal cap", cap.thread, cap.screw_mm, cap.count),
        steel("rod-nut", "Lock nut of the displacer's rod", nut, 1),
        steel("hub-set-screw", "Set screw of the displacer base", hub, 1),
        buy("hose-barb", "Hose barb", hose, "brass", 2),
        buy("hose", "Hose for the cooling water", tube, "nbr", 2),
        buy("hose-clip", "Hose clip", "hose clip to suit the hose".to_owned(), "stainless-304", 2),
    ]
}

/// What fills the engine, shows its pressure and lets it off.
fn pressure(own: &BetaCoaxial) -> Vec<Part> {
    let (port, bar) = (&own.case.port.designation, own.case.design_pa / 1e5);
    vec![
        buy(
            "filling-valve",
            "Filling valve",
            format!("{port} filling valve with non-return and cap"),
            "brass",
            1,
        ),
        buy(
            "relief-valve",
            "Relief valve",
            format!("{port} relief valve, set to {bar:.1} bar gauge at the most"),
            "brass",
            1,
        ),
        buy(
            "pressure-gauge",
            "Pressure gauge",
            format!("{port} gauge to {:.0} bar", (2.0 * bar).ceil()),
            "brass",
            1,
        ),
    ]
}

/// Coarse mesh beside the matrix.
fn supports(own: &BetaCoaxial) -> Part {
    let h = &own.head;
    let (inner, outer) = (h.liner_mm, h.liner_mm + 2.0 * h.regenerator.thickness_mm);
    let what =
        format!("coarse woven mesh {} mm thick, cut to a ring {inner:.1} / {outer:.1} mm", h.plenum_mm);
    buy("regenerator-support", "Support of the regenerator", what, &h.regenerator.material, 2)
}

/// The whole list.
pub fn parts(e: &Engine, own: &BetaCoaxial) -> Vec<Part> {
    let mut all = running(e, own);
    all.extend(fasteners(e, own));
    all.extend(pressure(own));
    all.push(supports(own));
    all.extend(consumed(e));
    all.push(thread_sealant("hose barbs, valves, gauge"));
    all
}
