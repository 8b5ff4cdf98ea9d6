//! Checks of what several layouts share: block and its studs, seats of bearings and bushes in the frame.

use crate::catalogue::bushes::Bush;
use crate::sizing::check::Check;
use crate::sizing::clearance::fit::{bush_hold_mm, play_mm};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::Block;
use crate::sizing::inspect::case::Case;
use crate::sizing::inspect::joints::ring_seal;
use crate::sizing::inspect::metal::{LASTING, lasting_pa};
use crate::sizing::layouts::common::seat::Flange;
use crate::sizing::strength::bolt::preload_most_n;
use crate::sizing::strength::cylinder;

/// Play of a bearing in its seat that retaining compound still fills, wanted and most \[mm on the diameter\] (makers' sheets,
/// from memory).
const PLAY_MM: [f64; 2] = [0.06, 0.10];
/// Hold of a pressed bush, wanted and least \[mm on the diameter\].
const HOLD_MM: [f64; 2] = [0.003, 0.0];
/// Hoop stress of the power cylinder.
pub fn block_wall(case: &Case<'_>, b: &Block) -> Check {
    let bore = case.engine.piston.bore_mm;
    let hoop = cylinder::hoop_pa(case.over_air_pa, bore, b.jacket_r_mm[0] - bore / 2.0);
    let allowed = lasting_pa(case.book(), &b.material, case.cold_c);
    Check::at_most(
        "cylinder-hoop-stress",
        "hoop stress in the power cylinder's wall",
        hoop,
        Unit::Pascal,
        allowed,
        allowed,
    )
    .source(&format!("Lamé, 1833; {LASTING}"))
    .at("block.wall")
    .of(&["power-cylinder-block"])
    .hint("a thicker block.wall")
}

/// Load and gaskets of the power cylinder; its parts are named.
pub fn studs(case: &Case<'_>, b: &Block, parts: [&str; 2]) -> Vec<Check> {
    let e = case.engine;
    let Ok(sheet) = case.book().gasket_sheet(&e.joints.cold_sheet) else { return Vec::new() };
    let face = Flange::square(e.piston.bore_mm, b.half_mm, b.stud);
    let ring = b.ring.iter().flat_map(|ring| {
        let all = ring_seal(case, "power-joint", ring, 4.0 * preload_most_n(b.stud), &parts);
        // the jacket's gasket under the same studs asks for more
        all.into_iter().filter(|check| check.name != "power-joint-load")
    });
    let needed = face.needed_n(sheet, case.over_air_pa);
    let pressed = 4.0 * b.stud_preload_n / face.area_mm2 * 1e6;
    let most = sheet.assembly_max_mpa * 1e6;
    let mut all = vec![
        Check::at_least(
            "power-joint-load",
            "what the four studs of the power cylinder hold",
            4.0 * preload_most_n(b.stud),
            Unit::Newton,
            needed,
            needed,
        )
        .source("ASME VIII-1 Appendix 2 (from memory); class 8.8, ISO 898-1, tightened to 70 % of proof")
        .at("joints.power_screw")
        .of(&parts)
        .hint("a larger joints.power_screw"),
        Check::at_most(
            "power-joint-gasket-stress",
            "pressing of the power cylinder's gaskets",
            pressed,
            Unit::Pascal,
            most,
            most,
        )
        .source("greatest assembly stress of the sheet, data/gaskets.toml")
        .at("joints.power_screw")
        .of(&["power-cylinder-gasket", "jacket-gasket"])
        .hint("less torque, or a firmer sheet"),
    ];
    all.extend(ring);
    all
}

/// Seats of bearings in what holds the crank and in the con rod, and of the rod bushes.
pub fn seats(case: &Case<'_>, frame: &str, bush: &Bush, holder: &str, parts: &[&str]) -> Vec<Check> {
    let e = case.engine;
    let journal = &e.drive.journal_bearing;
    let play = |name: &str, what: &str, outer: f64, metal: &str, path: &str, part: &str| {
        let mm = play_mm(case.book(), outer, "H7", metal, case.cold_c)?;
        let check = Check::at_most(name, what, mm, Unit::Millimetre, PLAY_MM[0], PLAY_MM[1])
            .source("ISO 286, ISO 492; growth by heat; gap that retaining compound fills, from memory")
            .at(path)
            .of(&[part])
            .hint("a closer seat, or a frame of steel");
        Some(check)
    };
    let rod = &e.drive.material;
    let seats = [
        play(
            "journal-bearing-seat",
            "play of the journal bearing in its warm seat",
            journal.outer_mm,
            frame,
            "drive.journal_bearing",
            holder,
        ),
        play(
            "crankpin-bearing-seat",
            "play of the crankpin bearing in its warm seat",
            e.drive.crankpin_bearing.outer_mm,
            rod,
            "drive.crankpin_bearing",
            "con-rod",
        ),
    ];
    let hold = bush_hold_mm(case.book(), bush, frame, case.cold_c);
    let bush = Check::at_least(
        "rod-bush-seat",
        "what still holds the rod bushes in their warm seats",
        hold,
        Unit::Millimetre,
        HOLD_MM[0],
        HOLD_MM[1],
    )
    .source("ISO 286, ISO 3547-1 (outside of the bush from memory); growth by heat")
    .at("cold_end.temperature")
    .of(parts)
    .hint("retaining compound in the seats, or a colder engine");
    seats.into_iter().flatten().chain([bush]).collect()
}
