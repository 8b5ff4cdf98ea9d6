//! How this layout is put together.

use crate::design::ROOM_PA;
use crate::numerals;
use crate::parts::part::Step;
use crate::parts::steps::{base, bushes, displacer, hot_cap, load_and_guard, piston, short};
use crate::sizing::engine::Engine;
use crate::sizing::layouts::beta_coaxial::BetaCoaxial;
use crate::sizing::strength::bolt::on_metal_n;

/// Parts of the crankshaft with its con rods.
const SHAFT: [&str; 17] = [
    "crank-web-inner",
    "crank-web-outer",
    "displacer-crankpin",
    "piston-crankpin",
    "crank-journal",
    "crank-shaft",
    "con-rod",
    "clevis",
    "clevis-pin",
    "pin-spacer",
    "pin-shim",
    "web-set-screw",
    "web-spring-pin",
    "rod-nut",
    "crankpin-bearing",
    "small-end-bearing",
    "journal-shim",
];

/// All steps, in order.
pub fn steps(e: &Engine, own: &BetaCoaxial) -> Vec<Step> {
    vec![
        bushes(&["rod-bush", "yoke-bush", "journal-bearing"]),
        pressure_test(own),
        crankshaft(e, own),
        displacer(e),
        piston_on_the_bench(e),
        yoke(e, own),
        crankcase(e, own),
        base(e, "the crankcase; the end plates clear it, and the flywheel will turn behind it"),
        cooler(e, own),
        ends(e),
        regenerator(e, own),
        hot_cap(e),
        pressure(e, own),
        load_and_guard(e, false, false),
        tightness(),
        filling(e, own),
        first_heat(e),
    ]
}

/// Crankshaft, built up with its con rods on it.
fn crankshaft(e: &Engine, own: &BetaCoaxial) -> Step {
    let d = &e.drive;
    Step::new("Crankshaft with its con rods")
        .with(&SHAFT)
        .line("Bearings into the eyes of all three rods. Displacer's pin through its rod with spacer behind and shim before the bearing, inner webs on both ends; then the piston's pins, rods and outer webs, then the journals.")
        .line("Set it up on a plate between V-blocks before the retaining compound sets. When it has set: a dimple in each pin through the thread of its set screw, set screws in with thread lock; then drill each joint and pin it as the sheets of the webs say.")
        .caution("Steel chips between rollers and races ruin a bearing: cover them while you drill.")
        .set("lead", format!("{} °", numerals::short(d.lead_deg, 1)), "degree disc on the shaft: the displacer's pin reaches its top this much before the piston's")
        .set("pins of displacer and piston apart", format!("{} mm", short(own.shaft.pins_apart_mm)), "over both pins, less one diameter")
        .set("runout of the shaft's end", "0.03 mm at most".to_owned(), "dial gauge, both journals in V-blocks")
        .set("side play of each con rod", format!("{} mm", short(d.side_gap_mm)), "feeler between rod and web")
}

/// Piston with its seal. Its cylinder does not stand yet: it comes down over the piston with the crankcase.
fn piston_on_the_bench(e: &Engine) -> Step {
    let mut step = piston(e);
    step.lines.retain(|line| !line.starts_with("Piston into the bore"));
    step.line("It stays on the bench: the cylinder comes down over it when the shaft lies in the case.")
}

/// Yoke under the piston, the displacer's rod through both.
fn yoke(e: &Engine, own: &BetaCoaxial) -> Step {
    let y = &own.yoke;
    let ring = match &e.gland.oring {
        Some(ring) => {
            format!("O-ring {ring} into its recess under the crown, yoke over it, screws only finger tight.")
        }
        None => "Yoke under the crown, screws only finger tight: the bush itself seals.".to_owned(),
    };
    Step::new("Yoke, and the displacer's rod through the piston")
        .with(&["piston-yoke", "yoke-screw", "yoke-pin", "rod-ring", "silicone-grease"])
        .line(&ring)
        .line("Slide the displacer's rod through crown and yoke, tighten while it is turned: it centres the yoke. Lock nut and clevis on its end, pin through clevis and the middle rod, pins of the yoke through the outer rods.")
        .tighten("4 screws of the yoke", y.screw, on_metal_n(y.screw), "crosswise; the rod still falls by its own weight but for the O-ring")
        .caution("O-ring dry or with a trace of silicone grease, no mineral oil: oil mist in hot compressed air can burn or explode.")
}

/// Shaft into the case, both end plates, seal, power cylinder.
fn crankcase(e: &Engine, own: &BetaCoaxial) -> Step {
    let (c, j) = (&own.case, &e.joints);
    let (plate, foot, cap) = (&c.plate_screws, &own.cylinder.screws, &c.seal.screws);
    let half = |t| on_metal_n(t);
    Step::new("Crankcase, end plates, shaft seal, power cylinder")
        .with(&["crankcase", "front-plate", "rear-plate", "end-plate-gasket", "end-plate-screw"])
        .with(&["seal-cap", "seal-cap-screw", "shaft-ring", "power-cylinder", "cylinder-gasket", "case-screw"])
        .line("Shaft with rods, piston and displacer through the upper opening and the bore, gaskets and end plates from both ends; shims beside the bearings.")
        .line(&format!("O-ring {} over the shaft into its groove, wrapped over the edge of the shaft with foil; cap on it.", c.seal.oring))
        .line("Gasket on the case, piston at its upper end; power cylinder down over the piston, its ring eased by hand into the lead-in of the lower end of the bore. Never force it: take it off and look.")
        .set("end play of the crankshaft", "0.1 to 0.2 mm".to_owned(), "dial gauge on the shaft's end; choose the shims beside the bearings from the set, alike at both ends")
        .tighten(&format!("{} screws of each end plate", plate.count), plate.thread, half(plate.thread), "crosswise; once more after an hour, the gasket settles")
        .tighten(&format!("{} screws of the power cylinder", foot.count), foot.thread, half(foot.thread), "crosswise; the piston still moves by hand")
        .tighten(&format!("{} screws of the seal's cap", cap.count), cap.thread, half(cap.thread), "evenly")
        .set("gasket, tightened", format!("{} mm", short(j.gasket_mm)), "feeler at four places, all alike")
}

/// Cooler with the liner on the power cylinder.
fn cooler(e: &Engine, own: &BetaCoaxial) -> Step {
    let cold = &e.joints.cold;
    Step::new("Cooler and liner")
        .with(&["cooler", "cooler-gasket", "cold-joint-screw", "liner", "hose-barb"])
        .line(&format!("Liner into its seat in the cooler, {} mm deep, with retaining compound; run the displacer through until it has set.", short(own.head.seat_mm)))
        .line("Gasket and cooler on the power cylinder, screws from below finger tight; shift it until the displacer runs free all round.")
        .line("Blow through the jacket from one port to the other; fill it with water and look for drips, outside and in the bore.")
        .set("gap around the displacer", format!("{} mm", short(e.displacer.gap_mm)), "feelers at four places, top and bottom of the stroke, within 0.1 mm of each other")
        .tighten(&format!("{} screws of the cold joint", cold.count), cold.thread, e.joints.cold_preload_n, "crosswise; measure the gap again")
        .caution("Never heat the engine with the jacket shut or dry: steam bursts it.")
}

/// End clearances, by the thread of the displacer's rod.
fn ends(e: &Engine) -> Step {
    let (d, p) = (&e.displacer, &e.piston);
    let turn = format!(
        "one turn of the rod in the clevis shifts it by {} mm",
        short(e.drive.displacer.rod_end.thread.pitch_mm)
    );
    Step::new("End clearances")
        .line("Turn the displacer's rod in its clevis until both clearances are right, then lock it with its nut. Putty on the piston's crown tells how near both pass.")
        .set("displacer to plate, where it comes nearest", format!("{} mm", short(d.cold_clearance_mm)), &format!("its base above the cooler's lower end; {turn}"))
        .set("piston to its inner end", format!("{} mm", short(p.top_clearance_mm)), "crown to displacer where both pass; a thinner or thicker gasket under the cooler shifts nothing here, the rod's thread does")
}

/// Regenerator around the liner.
fn regenerator(e: &Engine, own: &BetaCoaxial) -> Step {
    let (h, r) = (&own.head, &own.head.regenerator);
    Step::new("Regenerator")
        .with(&["regenerator", "regenerator-strip", "regenerator-canister", "regenerator-support"])
        .line("Ring of coarse mesh on the cooler, matrix wound tight on the liner, canister over it, second ring of coarse mesh on top.")
        .set("canister in the hot cap", format!("{} mm on the radius", short(r.clearance_mm)), "try the cap over it before the matrix goes in: it slides and does not rattle")
        .set("liner above the matrix", format!("{} mm", short(e.hot_cap.depth_mm - h.turn_mm - h.low_bore_mm[1])), "depth gauge: the way of the hot gas is free")
        .caution("Loose wire ends cut fingers and lodge in the bore: gloves, and blow it out before the cap goes on.")
}

/// What fills the case and keeps it safe.
fn pressure(_: &Engine, own: &BetaCoaxial) -> Step {
    Step::new("Valves and gauge")
        .with(&["filling-valve", "relief-valve", "pressure-gauge", "thread-sealant"])
        .line("Relief valve and gauge on one side of the case, filling valve on the other, with thread sealant.")
        .set("relief valve", format!("{:.1} bar over the air's at the most", own.case.design_pa / 1e5), "on a bench with a gauge, before it goes in")
        .caution("Filled, this engine holds pressure and may be pressure equipment in law: have it checked under your local code, by licensed practice, before it is filled. Never open a joint under pressure.")
}

/// A hydrostatic test over the pressure that the relief valve lets off (common practice, no source; local codes decide).
const PROOF: f64 = 1.5;
/// Share of its charge that an engine may lose in an hour, shut off and at one temperature (common practice, no source).
const LEAK_AN_HOUR: f64 = 0.05;

/// Gas, cold, the engine whole.
fn tightness() -> Step {
    Step::new("Turn by hand, leak test")
        .with(&["hose", "hose-clip"])
        .line("Turn ten times by hand, cold: no hard spot, no knock at either end, no ring that squeaks.")
        .line("Leak test: relief valve and gauge in place, valve of the bottle only just open. Half the charge first, soap water on every joint, port and the seal of the shaft: bubbles at a joint mean let it down and tighten it. Then the whole charge, shut off.")
        .set("loss when shut off", format!("{:.0} % of the charge in an hour at most", 100.0 * LEAK_AN_HOUR), "gauge, at one temperature, the shaft at rest")
        .caution("Gas under pressure stores energy: stand aside of cap and gauge, wear goggles, never tighten or open a joint under pressure, let it down to nothing first.")
}

/// Water, then the charge.
fn filling(e: &Engine, own: &BetaCoaxial) -> Step {
    let (over, relief) = ((e.charge_pa - ROOM_PA) / 1e5, own.case.design_pa / 1e5);
    Step::new("Water and charge")
        .line("Hoses on both barbs with clips: water in at the lower port of the cooler, out at the upper one. Let it run until no bubble comes; it must run whenever the engine is hot.")
        .line("Engine cold, regulator of the bottle turned back, hose on the filling valve. Open the bottle, bring the pressure up slowly, shut the valve and take the hose off; cap on the valve.")
        .set("charge, cold", format!("{:.1} bar over the air's", over.max(0.0)), "gauge on the case, at 20 °C; heat raises it")
        .set("relief valve", format!("{relief:.1} bar over the air's at the most"), "it must have blown off on the bench")
        .caution("Through a regulator only, set no higher than the relief valve; no oxygen, no gas that burns. Gas in a closed room takes the place of air: ventilate.")
        .caution("No mineral oil or grease in the case: oil mist in hot compressed air can burn or explode. Bearings are greased for life; rings and seal take a trace of silicone grease.")
}

/// The first heat.
fn first_heat(e: &Engine) -> Step {
    Step::new("First heat")
        .line("Guard on, water running, charge at the gauge, nobody in line with the flywheel. Small flame; flick the wheel when the cap is hot.")
        .line("Watch gauge and thermocouple. Stop after ten minutes: flame off, water on until the cap is cold. Let the charge down, tighten the hot joint once more, look for leaks again.")
        .set("wall of the hot end", format!("{:.0} °C", e.hot_cap.temperature_k - 273.15), "thermocouple on the cap; never above what the design says")
        .caution("The cap burns skin long after the flame is out. Keep water running until it is below 60 °C, and never open the engine hot or under pressure.")
        .caution("Fuel and flame by local code; ventilate, with an alarm for carbon monoxide: it kills. A charged engine may be pressure equipment in law: licensed practice decides.")
}

/// The vessel alone, with water.
fn pressure_test(own: &BetaCoaxial) -> Step {
    let relief_bar = own.case.design_pa / 1e5;
    Step::new("Pressure test of the bare vessel")
        .line("Before anything moves in it, and after every change: cap, cooler, cylinder and case without shaft, rods and matrix, a plug in place of the relief valve and of the seal; full of water, no air left in it, pumped up slowly from behind a screen and held for ten minutes. Nothing may weep or stay bent. Dry all of it, put it together again.")
        .set("pressure test", format!("{:.1} bar over the air's", PROOF * relief_bar), "with water, never with gas: 1.5 times what the relief valve is set to (common practice; local codes decide)")
        .caution("Water only: gas at this pressure throws pieces. Nobody beside it while it is under pressure; goggles. It may be pressure equipment in law: licensed practice decides.")
}
