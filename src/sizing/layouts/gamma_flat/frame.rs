//! Bracket, shaft and the distance of both axes, and what must not meet.

use super::{Bracket, Flat, Shaft};
use crate::catalogue::threads::{Thread, thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{Block, BoltCircle, Drive, Engine, Flywheel, Joints, RodGland};
use crate::sizing::layouts::common::channels::Hole;
use crate::sizing::layouts::common::drive::{COLLAR_MM, web_back_mm};
use crate::sizing::layouts::common::hanging::Heights;

const PLAIN: &str = "common practice, no source";
/// Least overlap of the bores that holds a transfer port \[mm\].
const LEAST_OVERLAP_MM: f64 = 8.0;
/// Room beside the flywheel, and between what stands side by side \[mm\].
const WHEEL_GAP_MM: f64 = 3.0;
const APART_MM: f64 = 1.0;
/// Radius between upright and feet of the bracket \[mm\]: a common cutter's.
pub const CORNER_MM: f64 = 6.0;
/// Metal between the end of the shaft's seat and the pin's face of the clamped crank \[mm\]; common practice, no source.
const SEAT_END_MM: f64 = 3.0;
/// Metal between two threads, and between a thread and the gas \[mm\].
const METAL_MM: f64 = 1.5;

/// Radius that is free for the flywheel below the back plate and its nuts \[mm\].
pub fn wheel_room(d: &mut Decide, drive: &Drive, heights: &Heights, block: &Block) -> f64 {
    let nuts = block.stud.washer_thickness_mm + 0.9 * block.stud.major_mm + 2.0;
    d.rule(
        "shaft.wheel_room",
        heights.back_low_mm - nuts - WHEEL_GAP_MM - drive.crank_z_mm,
        ("from the crank axis up to the nuts of the back plate, less 3 mm", PLAIN),
        &["drive.crank_height", "stack.back_plate_low", "joints.power_screw"],
    )
}

/// Screws of the bracket's feet in the cooler plate, along Y.
pub fn feet(bracket: &Bracket, drive: &Drive) -> [Hole; 2] {
    let middle = bracket.front_y_mm + drive.bracket_mm / 2.0;
    let half_mm = bracket.screw.major_mm / 2.0;
    [-bracket.row_mm, bracket.row_mm].map(|row| Hole { at_mm: middle + row, half_mm })
}

/// The bracket, behind the displacer's web and clear of the flange of the rod's guide.
pub fn bracket(d: &mut Decide, drive: &Drive, gland: &RodGland) -> Bracket {
    let t = drive.bracket_screw;
    let front_y_mm = d.rule(
        "bracket.front",
        round_up((web_back_mm(drive) + COLLAR_MM).max(gland.cap_mm[0] / 2.0) + APART_MM, 0.5),
        "behind web and collar, clear of the rod guide's flange by 1 mm, to the next 0.5 mm",
        &["drive.con_rod_thickness", "drive.crankpin_bearing", "cooler.gland_cap_diameter"],
    );
    let row_mm = d.rule(
        "bracket.screw_row",
        drive.bracket_mm / 4.0,
        ("a quarter of the bracket on either side of its middle", "edge rule, common practice, no source"),
        &["drive.bracket_thickness"],
    );
    let screw_x_mm = d.rule(
        "bracket.screw_place",
        round_up(drive.bracket_edge_mm + CORNER_MM + t.head_knurled_mm / 2.0 + APART_MM, 0.5),
        ("upright + its corner + half a head + 1 mm, to the next 0.5 mm", PLAIN),
        &["drive.bracket_edge"],
    );
    let foot_x_mm = d.rule(
        "bracket.foot",
        screw_x_mm + 1.5 * t.major_mm + 1.0,
        ("screw + 1.5 diameters + 1 mm", "edge rule, common practice, no source"),
        &["bracket.screw_place"],
    );
    let foot_mm = d.rule(
        "bracket.foot_height",
        2.0 * t.major_mm,
        ("two screw diameters", PLAIN),
        &["bracket.screw_place"],
    );
    let needed = foot_mm + 1.5 * t.major_mm;
    let found = d.design.catalogue.cap_screw_at_least(t, needed).unwrap_or_else(|| round_up(needed, 5.0));
    let screw_mm = d.rule(
        "bracket.screw_length",
        found,
        ("next standard length (ISO 4762) over foot + 1.5 diameters", "from memory"),
        &["bracket.foot_height"],
    );
    let thread_mm = screw_mm - foot_mm + 1.0;
    Bracket { screw: t, front_y_mm, foot_x_mm, foot_mm, screw_x_mm, row_mm, screw_mm, thread_mm }
}

/// y at which the room between bracket and the piston's crank begins \[mm\].
pub fn behind_bracket_mm(drive: &Drive, bracket: &Bracket) -> f64 {
    bracket.front_y_mm + drive.bracket_mm + WHEEL_GAP_MM
}

/// Shaft with the piston's crank, which begins behind what sits on the shaft up to `end` \[mm\].
pub fn shaft(d: &mut Decide, drive: &Drive, bracket: &Bracket, end: f64, room: f64) -> Shaft {
    let journal = drive.journal_bearing.bore_mm;
    let set_screw =
        thread(if journal >= 8.0 { "M5" } else { "M4" }).unwrap_or_else(|_| unreachable!("in the catalogue"));
    let crank_mm = d.rule(
        "drive.clamped_crank",
        round_up(drive.web_mm.max(2.0 * set_screw.major_mm + 2.0) + SEAT_END_MM, 1.0),
        ("2 set screws + 2 mm, at least the web of the other crank, + 3 mm behind the seat", PLAIN),
        &["drive.journal_bearing", "drive.crankpin_bearing"],
    );
    let crank_y_mm = d.rule(
        "shaft.crank_place",
        end + WHEEL_GAP_MM,
        ("behind flywheel and pulley of the load by 3 mm", PLAIN),
        &["shaft.end"],
    );
    Shaft {
        spacer_mm: bracket.front_y_mm - web_back_mm(drive) - COLLAR_MM,
        wheel_room_mm: room,
        crank_y_mm,
        crank_mm,
        seat_mm: crank_mm - SEAT_END_MM,
        crank_r_mm: drive.web_r_mm[0].max(drive.web_r_mm[1]),
        set_screw,
    }
}

/// Distance of both axes \[mm\].
pub fn centres(
    d: &mut Decide,
    drive: &Drive,
    bracket: &Bracket,
    shaft: &Shaft,
    block: &Block,
    bores: [f64; 2],
) -> f64 {
    let design = d.design;
    let by_shaft = shaft.crank_y_mm + shaft.crank_mm + drive.side_gap_mm + drive.con_rod_thickness_mm / 2.0;
    let by_block = bracket.front_y_mm + drive.bracket_mm + APART_MM + block.half_mm;
    let least = round_up(by_shaft.max(by_block), 0.5);
    let inputs = ["shaft.crank_place", "drive.clamped_crank", "drive.con_rod_thickness", "block.half_side"];
    let formula = "piston's con rod behind its crank, block beside the bracket, to the next 0.5 mm";
    let given = &design.drive.crank_centres_mm;
    let centres = d.open_mm("drive.crank_centres", given, formula, &inputs, least);
    if centres < least {
        d.refuse(
            "swept::range",
            "drive.crank_centres",
            format!("at {centres} mm between the axes bracket, flywheel and piston's crank have no room on the shaft"),
            format!("{least} mm or more"),
            "leave drive.crank_centres out".into(),
        );
    }
    let most = (bores[0] + bores[1]) / 2.0 - LEAST_OVERLAP_MM;
    if centres > most {
        let wider = round_up(bores[0] + 2.0 * (centres - most), 1.0);
        d.refuse(
            "swept::range",
            "displacer.bore",
            format!("bracket, flywheel and cranks need {centres} mm between the axes, and the bores overlap up to {most:.1} mm"),
            format!("{wider} mm or more"),
            format!("set displacer.bore to \"{wider} mm\", or take a narrower flywheel, smaller bearings or a larger piston"),
        );
    }
    // beyond that there is no port to draw
    centres.min(most)
}

/// Height, width and depth over all \[mm\]: hot cap to the lowest turn of wheel or cranks; flanges, block and feet along
/// and across the shaft.
pub fn sides_mm(e: &Engine, own: &Flat) -> [f64; 3] {
    let d = &e.drive;
    let top = e.stack.cap_low_mm + e.hot_cap.depth_mm + e.hot_cap.end_mm;
    let displacer = d.displacer.throw_mm + d.web_r_mm[1].max(d.eye_r_mm[0]);
    let piston = d.piston.throw_mm + own.shaft.crank_r_mm.max(d.eye_r_mm[0]);
    let low =
        [displacer, piston, d.bracket_edge_mm, 0.5 * e.flywheel.diameter_mm].into_iter().fold(0.0, f64::max);
    let flange = e.cold.flange_diameter_mm / 2.0;
    let beside = flange.max(own.block.half_mm).max(own.bracket.foot_x_mm).max(0.5 * e.flywheel.diameter_mm);
    let behind = flange.max(own.centres_mm + own.block.half_mm);
    [top - d.crank_z_mm + low, 2.0 * beside, flange + behind]
}

/// Places of screws on a circle about the displacer's axis \[mm\].
fn on_circle(c: &BoltCircle) -> impl Iterator<Item = [f64; 2]> + '_ {
    (0..c.count).map(|i| {
        let angle = (c.first_deg + 360.0 * i as f64 / c.count as f64).to_radians();
        [0.5 * c.diameter_mm * angle.cos(), 0.5 * c.diameter_mm * angle.sin()]
    })
}

/// How deep a tapped hole with `depth` of full thread reaches, with the drill's tip of 118° \[mm\].
fn reach_mm(t: &Thread, depth: f64) -> f64 {
    depth + 3.0 * t.pitch_mm + 0.5 * t.tap_drill_mm / 59f64.to_radians().tan()
}

/// What must not meet.
pub fn check(d: &mut Decide, own: &Flat, joints: &Joints, wheel: &Flywheel) {
    let (bracket, room) = (&own.bracket, own.shaft.wheel_room_mm);
    if wheel.diameter_mm > 2.0 * room + 1e-9 {
        d.refuse(
            "swept::range",
            "flywheel.diameter",
            format!("a flywheel of {} mm meets the nuts of the back plate", wheel.diameter_mm),
            format!("{:.1} mm or less", 2.0 * room),
            "take a smaller, wider flywheel, or a longer drive.con_rod_length".into(),
        );
    }
    let t = own.cooler.thickness_mm;
    let least = reach_mm(bracket.screw, bracket.thread_mm) + METAL_MM;
    if t < least {
        d.refuse(
            "swept::range",
            "cooler.plate_thickness",
            format!("the threads of the bracket's screws would come through a cooler plate of {t} mm"),
            format!("{least:.1} mm or more"),
            format!("set cooler.plate_thickness to \"{} mm\"", round_up(least, 1.0)),
        );
    }
    let (s, centres) = (own.block.stud_mm, own.centres_mm);
    let studs = [[s, centres + s], [-s, centres + s], [s, centres - s], [-s, centres - s]];
    let apart = 0.5 * (joints.cold.thread.major_mm + own.block.stud.major_mm) + METAL_MM;
    let hit = on_circle(&joints.cold).any(|c| studs.iter().any(|s| (c[0] - s[0]).hypot(c[1] - s[1]) < apart));
    if hit {
        d.refuse(
            "swept::range",
            "joints.hot_screws",
            format!(
                "with {} screws a thread of the cold flange meets a stud of the power cylinder",
                joints.cold.count
            ),
            "a number that leaves the studs free".into(),
            "set joints.hot_screws to another even number, or enlarge displacer.bore".into(),
        );
    }
}
