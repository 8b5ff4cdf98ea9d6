//! How this layout is put together.

use super::END_FLOAT_MM;
use crate::parts::part::Step;
use crate::parts::steps::{
    SEATED, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard, piston, rods,
    short, studs,
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
        rods(e, &["displacer-crank", "shaft-spacer"]),
        lead(e),
        ends(e),
        hot_cap(e),
        stand(e),
        load_and_guard(e),
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

/// Lead by clamping the piston's crank.
fn lead(e: &Engine) -> Step {
    Step::new("Lead")
        .with(&["piston-crank", "crank-set-screw", "shaft-end-ring"])
        .line("Ring on the shaft behind the rear bearing, then the flywheel with its hub, then the piston's crank with its set screw loose.")
        .line("Collar and spacer at the front bearing, ring and hub at the rear one hold the shaft lengthwise, nothing else: push the crank against the front bearing, the hub against the ring with a shim between both, tighten the hub, draw the shim. A wheel that you have is set the same way, by a ring of your own.")
        .set("end float of the shaft", format!("0.1 to {END_FLOAT_MM} mm"), "shim between ring and hub; dial gauge on the end of the shaft")
        .line("Displacer to the top of its stroke by dial gauge and held there. Turn the piston's crank until the piston is at the top, then on against the running direction by the lead; tighten, mark both with a scriber.")
        .set("lead", format!("{} °", crate::numerals::short(e.drive.lead_deg, 1)), "degree disc on the shaft: the displacer reaches its top this much before the piston")
}
