//! How this layout is put together.

use crate::parts::part::Step;
use crate::parts::steps::{
    SEATED, base, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard, piston,
    rods, studs,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;
use crate::sizing::strength::bolt::on_metal_n;

/// All steps, in order.
pub fn steps(e: &Engine, own: &TwinCrank) -> Vec<Step> {
    vec![
        bushes(&SEATED),
        displacer(e),
        gland(e, ["cooler-plate", "gland-cap"]),
        piston(e),
        bracket(e),
        studs(e, &own.block, ["cooler plate", "back plate"]),
        cold_cylinder(e, "cooler plate"),
        rods(e, &["displacer-crank", "piston-crank"]),
        ends(e),
        hot_cap(e),
        lead(e, own),
        base(e, "the bracket's lower edge; the crank must turn over it without touching"),
        load_and_guard(e),
        first_run(e),
    ]
}

fn bracket(e: &Engine) -> Step {
    let screw = e.drive.bracket_screw;
    Step::new("Crank bracket")
        .with(&["crank-bracket", "bracket-screw"])
        .line("Bracket under the back plate before the block stands on it: the block covers the heads of its screws. Ground bars of the rods' size in both guide bushes show where the con rods come: shift the bracket until the cranks stand square to them, side gaps as drawn.")
        .tighten("4 bracket screws", screw, on_metal_n(screw), "crosswise, then pin it or mark it")
}

/// Lead by the belt's teeth.
fn lead(e: &Engine, own: &TwinCrank) -> Step {
    let (lead, teeth) = (e.drive.lead_deg, own.belt.pulley_teeth as f64);
    Step::new("Belt and lead")
        .with(&["timing-pulley", "timing-belt", "pulley-set-screw"])
        .line("Both pulleys on their journals, belt on, set screws loose on one of them.")
        .line("Displacer to the top of its stroke by dial gauge. Turn the piston's crank alone until the piston is at the top, then on against the running direction by the lead. Tighten the set screw on a flat.")
        .set("lead", format!("{} °", crate::numerals::short(lead, 1)), "degree disc on the journal: the displacer reaches its top this much before the piston")
        .set("one tooth of the belt", format!("{:.1} °", 360.0 / teeth), "the coarse step; the set screw gives the fine one")
        .caution("Fingers out of the belt while the engine is turned.")
}
