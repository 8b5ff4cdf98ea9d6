//! How this layout is put together.

use crate::parts::part::Step;
use crate::parts::steps::{
    bushes, displacer, ends, first_run, hot_cap, load_and_guard, metal_on_metal_n, piston, short,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;

/// Parts of the crankshaft.
const SHAFT: [&str; 16] = [
    "crank-web-inner",
    "crank-web-outer",
    "displacer-crankpin",
    "piston-crankpin",
    "crank-journal",
    "crank-shaft",
    "pin-spacer",
    "pin-shim",
    "journal-shim",
    "web-set-screw",
    "web-spring-pin",
    "con-rod",
    "clevis",
    "clevis-pin",
    "yoke-pin",
    "rod-nut",
];

/// All steps, in order.
pub fn steps(e: &Engine, own: &BetaCoaxial) -> Vec<Step> {
    vec![
        bushes(&["rod-bush", "yoke-bush", "journal-bearing", "crankpin-bearing", "small-end-bearing"]),
        displacer(e),
        piston(e),
        yoke(e, own),
        crankshaft(e),
        case(e, own),
        cylinder(e, own),
        ends(e, [e.drive.displacer.rod_end.thread.pitch_mm; 2]),
        cold_side(e),
        hot_side(own),
        hot_cap(e),
        seal(e, own),
        load_and_guard(e),
        fittings(own),
        first_run(e),
    ]
}

fn yoke(e: &Engine, own: &BetaCoaxial) -> Step {
    let y = &own.yoke;
    Step::new("Yoke below the piston")
        .with(&["piston-yoke", "yoke-screw", "rod-ring"])
        .line("O-ring into the piston's groove; the displacer's rod through piston and yoke lines both up while the screws are tightened.")
        .tighten("4 yoke screws", y.screw, metal_on_metal_n(y.screw), "crosswise; the rod must slide by its own weight")
        .set("play of the rod in its bushes", format!("bush {} mm", short(e.gland.bush.shaft_mm)), "no shake to be felt, no pinch")
        .caution("No oil above the piston: oil mist in hot compressed air can burn or explode.")
}

fn crankshaft(e: &Engine) -> Step {
    let throws = [e.drive.displacer.throw_mm, e.drive.piston.throw_mm];
    Step::new("Crankshaft and con rods")
        .with(&SHAFT)
        .line("Con rods with their bearings, rings and shims go on the pins while the shaft is built: displacer's rod in the middle, one of the piston's on either side.")
        .line("Press pins into the webs over a jig, set screws in, then drill through web and pin for the spring pins when it runs true.")
        .set("lead", format!("{} °", crate::numerals::short(e.drive.lead_deg, 1)), "by the jig: angle between the displacer's pin and the piston's")
        .set("throw of the displacer's pin", format!("{} mm", short(throws[0])), "jig")
        .set("throw of the piston's pins", format!("{} mm", short(throws[1])), "jig, both in one line within 0.02 mm")
        .set("runout of both journals", "0.05 mm at most".to_owned(), "dial gauge between centres; tap the webs until it is kept")
}

fn case(e: &Engine, own: &BetaCoaxial) -> Step {
    let plate = &own.case.plate_screws;
    Step::new("Crankcase")
        .with(&["crankcase", "front-plate", "rear-plate", "front-plate-gasket", "rear-plate-gasket", "end-plate-screw"])
        .line("Shaft with its rods into the case, end plates on from both sides; the shaft turns by two fingers before and after tightening.")
        .tighten(&format!("{} screws of each end plate", plate.count), plate.thread, metal_on_metal_n(plate.thread), "crosswise; once more after an hour")
        .set("gaskets, tightened", format!("{} mm", short(e.joints.gasket_mm)), "feeler at four places")
}

fn cylinder(e: &Engine, own: &BetaCoaxial) -> Step {
    let foot = &own.cylinder.screws;
    Step::new("Power cylinder")
        .with(&["power-cylinder", "power-cylinder-gasket", "case-screw"])
        .line("Cylinder over the piston, its lower end into the case; pins through yoke and small ends from the case's opening.")
        .tighten(&format!("{} screws of the foot", foot.count), foot.thread, metal_on_metal_n(foot.thread), "crosswise; the piston runs free from end to end")
        .set("piston's skirt in the cylinder", format!("{} mm on the diameter", short(e.piston.bore_mm - e.piston.diameter_mm)), "bore gauge and micrometer")
}

fn cold_side(e: &Engine) -> Step {
    let cold = &e.joints.cold;
    Step::new("Cooler")
        .with(&["cooler", "cold-cylinder-gasket", "cooler-gasket", "cold-joint-screw", "hose-barb"])
        .line("Blow every drilling free. Gasket, cooler on the cylinder; the displacer centred in it before the screws are tightened.")
        .tighten(&format!("{} screws of the cold joint", cold.count), cold.thread, e.joints.cold_preload_n, "crosswise, then measure the gap again")
        .set("gap around the displacer", format!("{} mm", short(e.displacer.gap_mm)), "feelers at four places, within 0.1 mm of each other")
        .caution("Never heat the engine with the cooler shut or dry: steam bursts it.")
}

fn hot_side(own: &BetaCoaxial) -> Step {
    let r = &own.head.regenerator;
    Step::new("Liner and regenerator")
        .with(&["liner", "canister", "regenerator", "regenerator-strip", "regenerator-support"])
        .line("Burn the matrix clean of oil outdoors, wind it tight on the liner, canister over it, a coarse ring at either end.")
        .set("thickness of the matrix", format!("{} mm", short(r.thickness_mm)), "canister less liner, half of it")
        .set("length of the matrix", format!("{} mm", short(r.length_mm)), "rule")
        .caution("Wire ends cut: gloves. No loose wire may reach the displacer.")
}

fn seal(e: &Engine, own: &BetaCoaxial) -> Step {
    let s = &own.case.seal;
    Step::new("Seal of the shaft")
        .with(&["seal-cap", "seal-cap-screw", "shaft-ring"])
        .line(&format!(
            "O-ring {} over the polished shaft with a thin sleeve over every edge, cap on.",
            s.oring
        ))
        .tighten(
            &format!("{} screws of the seal cap", s.screws.count),
            s.screws.thread,
            metal_on_metal_n(s.screws.thread),
            "crosswise",
        )
        .set(
            "shaft",
            format!("{} mm", short(e.drive.journal_bearing.bore_mm)),
            "polished along the seal, no scratch",
        )
}

fn fittings(own: &BetaCoaxial) -> Step {
    let bar = own.case.design_pa / 1e5;
    Step::new("Valves and gauge")
        .with(&["filling-valve", "relief-valve", "pressure-gauge"])
        .line("Relief valve first: nothing is filled without it. Threads with sealant, outlets pointing away from people.")
        .set("relief valve opens at", format!("{bar:.1} bar gauge at the most"), "tried on its own with a hand pump before it is fitted")
        .caution("Under pressure this may be pressure equipment in law: local codes and licensed practice decide before it is filled. Stand clear; let the pressure off before any screw is touched.")
}
