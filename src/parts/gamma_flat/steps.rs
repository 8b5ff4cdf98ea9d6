//! How this layout is put together.

use super::END_FLOAT_MM;
use crate::parts::part::Step;
use crate::parts::steps::{
    SEATED, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard, piston, short,
    studs, wheel,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_flat::Flat;
use crate::sizing::strength::bolt::on_metal_n;

/// All steps, in order.
pub fn steps(e: &Engine, own: &Flat) -> Vec<Step> {
    vec![
        bushes(&SEATED),
        displacer(e),
        gland(e, ["cooler-plate", "rod-guide"]),
        piston(e),
        studs(e, &own.block, ["cooler plate", "back plate"]),
        cold_cylinder(e, "cooler plate"),
        bracket(e, own),
        first_crank(e),
        lead(e),
        ends(e),
        hot_cap(e),
        stand(e),
        load_and_guard(e, true, false),
        first_run(e),
    ]
}

fn bracket(e: &Engine, own: &Flat) -> Step {
    let b = &own.bracket;
    Step::new("Crank bracket")
        .with(&["crank-bracket", "bracket-screw"])
        .line("Bracket on the cooler plate, screws finger tight; a straight edge along both rods must meet the line of the shaft.")
        .tighten("4 bracket screws", b.screw, on_metal_n(b.screw), "crosswise; both rods still run free")
        .set("bracket's front face to the displacer's axis", format!("{} mm", short(b.front_y_mm)), "depth gauge")
        .set("bearings", e.drive.journal_bearing.designation.clone(), "the shaft turns by a breath, no play")
}

/// It stands on its hot end: no base.
fn stand(e: &Engine) -> Step {
    let end = e.hot_cap.bore_mm + 2.0 * e.hot_cap.wall_mm;
    Step::new("Stand")
        .line("No base and no feet: the engine stands on the flat end of its hot cap, over a mug or on a warming plate, and is lifted off to fill the mug.")
        .line("Mug on a level, firm table, its rim under the middle of the cap; hoses laid so that they do not pull.")
        .set("mug across its rim", format!("{:.0} to {:.0} mm", (0.5 * end).ceil(), (end - 10.0).floor()), "rule: at least half of the cap, at most 10 mm less than it")
        .caution("It can be pushed off the mug, and the water scalds: keep it out of reach of small children, fill and lift it with the wheel at rest.")
}

/// What comes in with the piston's crank.
const PISTON_SIDE: [&str; 4] = ["shaft-end-ring", "piston-crank", "crank-set-screw", "con-rod"];

/// Flywheel on the shaft and lead by clamping the piston's crank.
fn lead(e: &Engine) -> Step {
    let [displacer, piston] = [e.drive.displacer.throw_mm, e.drive.piston.throw_mm];
    let step = Step::new("Flywheel, piston's crank, lead")
        .with(&PISTON_SIDE)
        .with(&["clevis", "clevis-pin", "rod-nut", "pin-screw", "pin-washer"])
        .line("Ring on the shaft behind the rear bearing, then the wheel, then the piston's crank with its set screw loose, its con rod and clevis on as the displacer's.");
    wheel(e, step)
        .line("Collar and spacer at the front bearing, ring and hub at the rear one hold the shaft lengthwise, nothing else: push the crank against the front bearing, the hub against the ring with a shim between both, tighten the hub, draw the shim. A wheel that you have is set the same way, by a ring of your own.")
        .set("end float of the shaft", format!("0.1 to {END_FLOAT_MM} mm"), "shim between ring and hub; dial gauge on the end of the shaft")
        .line("Displacer to the top of its stroke by dial gauge and held there: the top is where it is farthest from the crank. Turn the piston's crank until the piston is at its top, then on against the running direction by the lead; tighten, mark both with a scriber, spot the shaft under the screw.")
        .set("lead", format!("{} °", crate::numerals::short(e.drive.lead_deg, 1)), "degree disc on the shaft: the displacer reaches its top this much before the piston")
        .set("throws of both cranks", format!("{}, {} mm", short(displacer), short(piston)), "displacer, piston: half of the travel of each rod, by dial gauge")
}

/// Crank of the displacer with its con rod.
fn first_crank(e: &Engine) -> Step {
    Step::new("Displacer's crank, con rod, clevis")
        .with(&["displacer-crank", "shaft-spacer", "con-rod", "clevis", "clevis-pin", "rod-nut"])
        .with(&["pin-screw", "pin-washer"])
        .line("Spacer on the shaft against its collar, shaft through both bearings of the bracket.")
        .line("Pin through clevis and small end; lock nut, then clevis on the rod's thread. Con rod on the crankpin, washer and screw with thread lock.")
        .set("side play of each con rod", format!("{} mm", short(e.drive.side_gap_mm)), "feeler between rod and web")
}
