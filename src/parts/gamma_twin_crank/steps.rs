//! How this layout is put together.

use crate::numerals;
use crate::parts::part::Step;
use crate::parts::steps::{
    SEATED, base, bushes, cold_cylinder, displacer, ends, first_run, gland, hot_cap, load_and_guard, piston,
    rods, short, studs,
};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::gamma_twin_crank::TwinCrank;
use crate::sizing::layouts::gamma_twin_crank::lead::SCALE_DEG;
use crate::sizing::layouts::gamma_twin_crank::tensioner::deflection;
use crate::sizing::mechanism::Choices;
use crate::sizing::strength::bolt::on_metal_n;

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;

/// All steps, in order.
pub fn steps(e: &Engine, own: &TwinCrank) -> Vec<Step> {
    vec![
        bushes(&SEATED),
        displacer(e),
        rod_gland(e),
        piston(e),
        bracket(e),
        studs(e, &own.block, ["cooler plate", "back plate"]).without("back-plate"),
        cold_cylinder(e, "cooler plate"),
        rods(e, &["displacer-crank", "piston-crank"]),
        ends(e),
        hot_cap(e),
        lead(e, own),
        base(e, "the bracket's lower edge; the crank must turn over it without touching"),
        load_and_guard(e, false, true),
        first_run(e),
    ]
}

/// Ring and cap of the rod's gland; the plate alone where the bush seals.
fn rod_gland(e: &Engine) -> Step {
    if e.gland.oring.is_some() {
        return gland(e, ["cooler-plate", "gland-cap"]);
    }
    Step::new("Gland of the displacer rod")
        .with(&["cooler-plate"])
        .line("No ring and no cap here: the bush itself seals. Slide the displacer rod through: it must sink slowly by its own weight, without a hard spot.")
        .caution("No oil on the rod: oil mist in hot compressed air can burn or explode.")
}

fn bracket(e: &Engine) -> Step {
    let screw = e.drive.bracket_screw;
    Step::new("Crank bracket")
        .with(&["back-plate", "crank-bracket", "bracket-screw"])
        .line("Bracket under the back plate before the block stands on it: the block covers the heads of its screws. Ground bars of the rods' size in both guide bushes show where the con rods come: shift the bracket until each crank, in its bearings for a trial, stands square to its bar and its pin passes over the middle of it.")
        .tighten("4 bracket screws", screw, on_metal_n(screw), "crosswise, then pin it or mark it")
}

/// Lead by the belt's teeth, then by the slots of the hub.
fn lead(e: &Engine, own: &TwinCrank) -> Step {
    let (lead, h) = (numerals::short(e.drive.lead_deg, 1), &own.lead);
    let [way, force] = deflection(own.centres_mm, Choices::default().strand_n_mm * own.belt.width_mm);
    let tooth = 360.0 / own.belt.pulley_teeth as f64;
    Step::new("Belt and lead")
        .with(&["timing-pulley", "pulley-set-screw", "lead-pulley", "lead-hub", "lead-set-screw"])
        .with(&["lead-screw", "lead-washer", "timing-belt", "tensioner-plate", "tensioner-roller"])
        .with(&["tensioner-spacer", "tensioner-bearing", "tensioner-pin", "tensioner-screw", "tensioner-washer"])
        .line("Timing pulley on the piston's journal, hub to the bracket; the set screw marks it, file a flat there. Tensioner's plate on the bracket, pushed up, screws just tight.")
        .line("Degree disc on the piston's journal, where the flywheel will sit. Displacer to the top of its stroke by dial gauge, piston to the lead behind its top. Belt round the lead pulley, pulley on the displacer's journal and belt over the open side of the other at the nearest tooth; then the lead hub, set screws on a flat as before, clamping screws in the middle of their slots.")
        .line("Roller down on the belt until its lower strand gives as told below, screws tight; turn the engine twice and try again.")
        .line("Turn by hand and read the disc at the top of each stroke, each time as the middle between two equal readings of the gauge on either side. What is missing, turn on the scale of the hub: clamping screws loose, belt and piston held, displacer's crank on by so many degrees; clamp, and measure again.")
        .line("Note the reading of scale and vernier in the engine's book: it tells whether the clamp has slipped.")
        .set(
            "belt",
            format!("{way:.1} mm under {:.0} g", 1e3 * force / GRAVITY),
            "hung from the middle of the lower strand, engine cold",
        )
        .set("roller into the belt", format!("{} mm", short(own.tensioner.depth_mm)), "about: the belt's length has its tolerance")
        .tighten("2 screws of the tensioner", own.tensioner.screw, on_metal_n(own.tensioner.screw), "after the last try")
        .set("lead", format!("{lead} °"), "the displacer reaches its top this much before the piston, within 1 °")
        .set("one tooth of the belt", format!("{} °", numerals::short(tooth, 1)), "the coarse step")
        .set(
            "scale of the hub",
            format!("{} ° to either side", numerals::short(h.range_deg, 0)),
            &format!("marks every {} °, the vernier tells {} °", numerals::short(SCALE_DEG, 0), numerals::short(h.step_deg(), 1)),
        )
        .tighten("3 clamping screws of the lead pulley", h.screw, on_metal_n(h.screw), "evenly, thread lock when the lead is final")
        .caution("Fingers out of the belt while the engine is turned.")
}
