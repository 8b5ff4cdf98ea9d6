//! How this layout is put together.

use crate::parts::part::Step;
use crate::parts::steps::{
    SEATED, base, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard, piston,
    rods, short, studs,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_right_angle::RightAngle;
use crate::sizing::strength::bolt::on_metal_n;

/// All steps, in order.
pub fn steps(e: &Engine, own: &RightAngle) -> Vec<Step> {
    vec![
        bushes(&SEATED),
        displacer(e),
        gland(e, ["cooler-plate", "rod-guide"]),
        piston(e),
        studs(e, &own.block, ["back plate", "head plate"]),
        cold_cylinder(e, "cooler plate"),
        bracket(e),
        passage(own),
        rods(e, &["crank"]),
        ends(e),
        hot_cap(e),
        base(e, "the bracket's lower edge; the crank must turn over it without touching"),
        load_and_guard(e, false, false),
        first_run(e),
    ]
}

fn bracket(e: &Engine) -> Step {
    let screw = e.drive.bracket_screw;
    Step::new("Crank bracket")
        .with(&["crank-bracket", "bracket-screw", "back-plate-screw"])
        .line("Cooler plate on the bracket, then the back plate with the power cylinder at its end; screws finger tight.")
        .line("Line up: a straight edge along each rod must point at the middle of the journal. Then tighten.")
        .tighten("8 bracket screws", screw, on_metal_n(screw), "crosswise, plate by plate; both rods still run free")
        .set("angle between the cylinders", "90 °".to_owned(), "square on cooler plate and back plate: it is the lead, nothing else sets it")
}

fn passage(own: &RightAngle) -> Step {
    let p = &own.passage;
    Step::new("Passage between the cylinders")
        .with(&["transfer-tube", "passage-plug", "thread-sealant", "sealing-compound"])
        .line("Tube into cooler plate and head plate with gas-tight retaining compound while the cylinders are lined up; plug with thread sealant.")
        .line("Blow through it before the hot cap goes on: no compound may have run inside.")
        .set("tube in each plate", format!("{} mm", short(p.spigot_mm)), "mark on the tube")
}
