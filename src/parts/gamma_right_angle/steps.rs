//! How this layout is put together.

use crate::parts::part::Step;
use crate::parts::steps::{
    base, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard,
    metal_on_metal_n, piston, rods, short, studs,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;

/// Parts of the power cylinder.
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
/// Parts of crank and rods.
const RODS: [&str; 8] =
    ["crank", "con-rod", "pin-spacer", "clevis", "clevis-pin", "rod-nut", "pin-screw", "pin-washer"];

/// All steps, in order.
pub fn steps(e: &Engine, own: &RightAngle) -> Vec<Step> {
    let pitch = [e.drive.displacer.rod_end.thread.pitch_mm, e.drive.piston.rod_end.thread.pitch_mm];
    vec![
        bushes(&[
            "rod-bush",
            "rod-guide-bush",
            "guide-bush",
            "journal-bearing",
            "crankpin-bearing",
            "small-end-bearing",
        ]),
        displacer(e),
        gland(e, ["cooler-plate", "rod-guide"]),
        piston(e),
        studs(e, &own.block, &POWER, ["back plate", "head plate"]),
        cold_cylinder(e, "cooler plate"),
        bracket(e),
        passage(own),
        rods(e, &RODS),
        ends(e, pitch),
        hot_cap(e),
        base(e),
        load_and_guard(e),
        first_run(e),
    ]
}

fn bracket(e: &Engine) -> Step {
    let screw = e.drive.bracket_screw;
    Step::new("Crank bracket")
        .with(&["crank-bracket", "bracket-screw", "back-plate-screw"])
        .line("Cooler plate on the bracket, then the back plate with the power cylinder at its end; screws finger tight.")
        .line("Line up: a straight edge along each rod must point at the middle of the journal. Then tighten.")
        .tighten("8 bracket screws", screw, metal_on_metal_n(screw), "crosswise, plate by plate; both rods still run free")
        .set("angle between the cylinders", "90 °".to_owned(), "square on cooler plate and back plate: it is the lead, nothing else sets it")
}

fn passage(own: &RightAngle) -> Step {
    let p = &own.passage;
    Step::new("Passage between the cylinders")
        .with(&["transfer-tube", "passage-plug"])
        .line("Tube into cooler plate and head plate with gas-tight retaining compound while the cylinders are lined up; plug with thread sealant.")
        .line("Blow through it before the hot cap goes on: no compound may have run inside.")
        .set("tube in each plate", format!("{} mm", short(p.spigot_mm)), "mark on the tube")
}
