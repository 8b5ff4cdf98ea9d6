//! Steps of what runs: displacer, piston, rods, and what is set and tried at the end.

use super::standing::{capital, short};
use crate::design::{PistonSeal, ROOM_PA};
use crate::parts::flywheel::FASTEST;
use crate::parts::part::Step;
use crate::sizing::engine::{Crank, Engine};
use crate::sizing::strength::bolt::on_metal_n;

/// Displacer on its rod.
pub fn displacer(e: &Engine) -> Step {
    let d = &e.displacer;
    let step = Step::new("Displacer")
        .on_the_bench()
        .with(&["displacer-shell", "displacer-can", "displacer-base", "displacer-rod", "hub-set-screw"])
        .line("Rod into the base until it is flush with the hub; the set screw marks the rod: grind a flat there, then set screw on the flat with thread lock.")
        .line("Shell over the base with retaining compound; chuck the rod and true the shell before it sets.")
        .set("length over all", format!("{} mm", short(d.length_mm)), "base's cold face to the top")
        .set("runout of the shell", format!("{} mm at most", short((0.25 * d.gap_mm).max(0.05))), "dial gauge near the top, rod turned in its bush");
    match d.regenerator {
        Some(_) => step
            .with(&["regenerator", "regenerator-strip"])
            .line("Wind the regenerator on last, tie it, and try it in the cold cylinder: nothing may rub."),
        None => step,
    }
}

/// Piston, rod and rings.
pub fn piston(e: &Engine) -> Step {
    let (p, s) = (&e.piston, &e.piston.seal);
    let step = Step::new("Piston").on_the_bench().with(&[
        "piston",
        "piston-rod",
        "piston-ring",
        "piston-ring-free",
        "piston-ring-segment",
        "piston-o-ring",
        "ring-expander",
    ]);
    let step = if p.boss_mm[1] > 0.0 {
        step.line(
            "Rod into the boss with thread lock, against the shoulder; it must run true with the skirt.",
        )
    } else {
        step
    };
    let gap = |step: Step| {
        step.set("ring gap, cold", format!("{} mm", short(s.gap_mm)), "push the bare ring square into the bore with the piston, feeler in the gap; file the end if it is less")
    };
    let step = match s.kind {
        PistonSeal::PtfeRing => gap(step)
            .line("Expander under each ring, its gap opposite to that of the ring; ring gaps half a turn apart.")
            .caution("PTFE above 260 °C gives off harmful fumes: keep scrap and dust from flame and tobacco."),
        PistonSeal::MetalRing => gap(step).line("Slip the rings on over three strips of shim; ring gaps half a turn apart."),
        PistonSeal::GraphiteRing => gap(step)
            .line("Three segments and the expander to each groove; the joints of one ring stand between those of the next.")
            .caution("Graphite dust soils and conducts: do not breathe it, keep it from electric gear."),
        PistonSeal::ORing => step.line("Roll the O-ring on without a twist; a trace of silicone grease, no mineral oil: oil mist in hot compressed air can burn or explode."),
        PistonSeal::LipRing => step.line("Warm the ring in hot water and stretch it over the crown; lips towards both ends, no nick on them."),
        PistonSeal::Fitted => step.line("Wipe bore and piston dry: it must sink slowly with the end of the bore held shut, and drop when it is opened."),
    };
    step.line(
        "Piston into the bore from the crank's side, rings pressed in by hand or with a tapered sleeve.",
    )
    .set(
        "play in the bore, cold",
        format!("{} mm on the diameter", short(p.bore_mm - p.diameter_mm)),
        "micrometer and bore gauge, at 20 °C",
    )
}

/// Parts that come in with each crank: its con rod and what joins both to a rod.
const RODS: [&str; 7] =
    ["con-rod", "pin-spacer", "clevis", "clevis-pin", "rod-nut", "pin-screw", "pin-washer"];

/// Clevises and con rods on rods and the cranks of those names, which come in together.
pub fn rods(e: &Engine, cranks: &[&str]) -> Step {
    let [displacer, piston] = [e.drive.displacer.throw_mm, e.drive.piston.throw_mm];
    let by = "half of the travel of its rod, by dial gauge";
    let step = Step::new("Cranks, con rods, clevises")
        .with(cranks)
        .with(&RODS)
        .line("Pin through clevis and small end; lock nut, then clevis on the rod's thread.")
        .line("Con rod on the crankpin, washer and screw with thread lock. Both rods lie in one plane: nothing may bind over a whole turn.");
    // one crankpin for both
    let step = if cranks == ["crank"] && displacer == piston {
        step.set("throw of the crank", format!("{} mm", short(displacer)), by)
    } else {
        step.set("throw of the displacer's crank", format!("{} mm", short(displacer)), by).set(
            "throw of the piston's crank",
            format!("{} mm", short(piston)),
            by,
        )
    };
    step.set(
        "side play of each con rod",
        format!("{} mm", short(e.drive.side_gap_mm)),
        "feeler between rod and web",
    )
}

/// End clearances, by the threads of the rods.
pub fn ends(e: &Engine) -> Step {
    let (d, p) = (&e.displacer, &e.piston);
    let turn = |crank: &Crank| {
        format!("one turn of the rod in the clevis shifts it by {} mm", short(crank.rod_end.thread.pitch_mm))
    };
    Step::new("End clearances")
        .line("Turn each rod in its clevis until the clearance is right, then lock it with its nut. Measure with soft solder or putty between the faces, or by the shim that just goes in.")
        .set("displacer to plate, where it comes nearest", format!("{} mm", short(d.cold_clearance_mm)), &turn(&e.drive.displacer))
        .set("piston to its inner end", format!("{} mm", short(p.top_clearance_mm)), &format!("crown to the plate that closes the cylinder; {}", turn(&e.drive.piston)))
        .set("piston to its outer end", format!("{} mm", short(p.bottom_clearance_mm)), "towards the crank: what is left; a thicker gasket beside the block brings more")
}

/// Parts of the flywheel.
const WHEEL: [&str; 4] = ["flywheel", "flywheel-hub", "flywheel-screw", "flywheel-set-screw"];
/// Parts that drive the load.
const LOAD: [&str; 4] = ["output-pulley", "output-belt", "load-pulley", "output-pulley-set-screw"];

/// How a wheel comes on a shaft: in words and with what is to be set, put to a step.
pub fn wheel(e: &Engine, step: Step) -> Step {
    let mut step = step
        .with(&WHEEL)
        .line("Flywheel on its hub, then the hub on the shaft: one set screw marks the shaft; file a flat there, then both set screws with thread lock. The rim runs true.");
    if let Some(holes) = e.flywheel.made.as_ref().and_then(|made| made.balance.as_ref()) {
        let pin = if holes.angles_deg.iter().sum::<f64>().abs() < 1e-6 {
            "on the side of the crankpin"
        } else {
            "as drawn from the crankpin"
        };
        step = step.line(&format!("The balance holes of the wheel stand {pin}: mark the pin's side on the end of the shaft and set the hub by it, within 5 degrees."));
    }
    if let Some(made) = &e.flywheel.made {
        let screws = &made.hub.screws;
        let name = format!("{} screws of the flywheel's hub", screws.count);
        step = step.tighten(&name, screws.thread, on_metal_n(screws.thread), "crosswise").set(
            "fastest that the wheel may turn",
            format!("{:.0} rpm", made.fastest_rpm),
            FASTEST,
        );
    }
    step
}

/// Flywheel, unless it is on the shaft already, load and guard; `belts` run in the open.
pub fn load_and_guard(e: &Engine, wheel_is_on: bool, belts: bool) -> Step {
    let loaded = e.shaft_end.output.is_some();
    let words = [(!wheel_is_on, "flywheel"), (loaded, "load"), (true, "guard")];
    let words: Vec<&str> = words.into_iter().filter(|(said, _)| *said).map(|(_, word)| word).collect();
    let mut step = Step::new(&capital(&words.join(", ")));
    if !wheel_is_on {
        step = wheel(e, step);
    }
    if let Some(output) = &e.shaft_end.output {
        step = step
            .with(&LOAD)
            .line("Pulley of the load behind the wheel, on a flat as the hub, belt on, load slid away until the belt is tight.")
            .set(
                "shaft to the load's shaft",
                format!("{} mm", short(output.centres_mm)),
                "rule, before the last pull",
            );
    }
    // an engine without a base is lifted off what it stands on
    let first = if e.base.is_some() { "Bolt the engine down, then a" } else { "A" };
    let over = if belts || loaded { "cranks, belts and flywheel" } else { "cranks and flywheel" };
    step.line(&format!("{first} guard over {over} that only a tool opens."))
        .caution("Spinning parts seize hair, sleeves and fingers, and a loose wheel flies: never run without the guard.")
}

/// Turning by hand, leak test, first heat.
pub fn first_run(e: &Engine) -> Step {
    let over_air_bar = (e.charge_pa - ROOM_PA) / 1e5;
    let step = Step::new("Turn by hand, try for leaks, first heat")
        .with(&["hose", "hose-clip"])
        .line("Turn ten times by hand, cold: no hard spot, no knock at either end, no ring that squeaks.")
        .line("Brush soap water on every joint with a little over-pressure in the gas; bubbles at the gland or past the rings are slow, at a joint none.")
        .line("Water on, then heat; flick the wheel when the cap is hot. Stop after ten minutes, let it cool, tighten the hot joint once more.")
        .set("wall of the hot end", format!("{:.0} °C", e.hot_cap.temperature_k - 273.15), "thermocouple on the cap; never above what the design says")
        .caution("Keep water running until the cap is below 60 °C. Stand clear of cap and wheel.");
    if over_air_bar > 0.05 {
        return step.set("test pressure", format!("{:.1} bar over the air's", 1.5 * over_air_bar), "with water, not air, behind a screen: 1.5 times the charge (common practice; local codes decide)")
            .caution("A charged engine stores energy and may count as pressure equipment in law: local codes and licensed practice decide, with a relief valve and a gauge.");
    }
    step.set(
        "test pressure",
        "0.1 bar at most".to_owned(),
        "by mouth or a bulb: the engine is not a pressure vessel",
    )
}
