//! The moving line: how far the crown rises, the rod's gland, the yoke, the crank's height, and what must not meet.

use super::meet::{Meet, crown_rise_mm};
use super::{Cylinder, Yoke};
use crate::catalogue::bushes::Bush;
use crate::catalogue::threads::{Thread, thread, threads};
use crate::design::ColdSeal;
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::engine::{BoltCircle, Clevis, Displacer, Drive, Piston, RodGland};
use crate::sizing::layouts::common::drive::without_belt;
use crate::sizing::layouts::common::gland::{bush_length, rod_bush};
use crate::sizing::layouts::common::piston::YokeRoom;

const COMMON: &str = "common practice, no source";
/// Lead-in of the power cylinder that a ring must not enter, and what is left of the bore above it \[mm\].
const RING_INSIDE_MM: f64 = 0.5;
/// What the yoke covers beside the rod: groove and some metal \[mm\]; common practice, no source.
const GLAND_MM: f64 = 4.0;
/// Clearance between what moves past each other below the piston \[mm\]; common practice, no source.
const CLEAR_MM: f64 = 1.0;

/// Keys that this layout does not read.
pub fn unused_keys(d: &mut Decide) {
    without_belt(d, "no belt where one crankshaft moves displacer and piston");
    let design = d.design;
    let all = [
        (
            "block.length",
            design.block.length_mm.is_some(),
            "the power cylinder is as long as its piston needs",
        ),
        (
            "cooler.plate_thickness",
            design.cooler.plate_thickness_mm.is_given(),
            "there is no plate between the cylinders",
        ),
        (
            "cooler.plate_channels",
            design.cooler.plate_channels.value > 0,
            "there is no plate between the cylinders",
        ),
        (
            "cooler.port_width",
            design.cooler.port_width_mm.is_some(),
            "the gas goes through the cooler's holes",
        ),
        ("cold_end.fins", design.cold_end.fins.is_some(), "water cools the cooler"),
        ("piston.rod_diameter", design.piston.rod_diameter_mm.is_some(), "the piston has no rod"),
        (
            "joints.cold_seal",
            design.joints.cold_seal.value == ColdSeal::ORing,
            "the cooler's joints have gas and water side by side, which a gasket parts",
        ),
    ];
    for (path, _, why) in all.into_iter().filter(|(_, given, _)| *given) {
        let text = format!("{path} says nothing in the layout beta-coaxial: {why}");
        d.refuse("swept::contradiction", path, text, "left out".into(), format!("leave {path} out"));
    }
}

/// How high the crown rises above the power cylinder \[mm\].
pub fn crown_rise(d: &mut Decide, displacer: &Displacer, meet: &Meet, clearance: f64) -> f64 {
    d.solved(
        "piston.crown_rise",
        crown_rise_mm(displacer.cold_clearance_mm, displacer.stroke_mm, meet, clearance),
        "displacer and piston pass each other with piston.top_clearance, searched over the turn",
        0.0,
        &[
            "displacer.cold_clearance",
            "displacer.stroke",
            "piston.stroke",
            "drive.lead",
            "drive.con_rod_length",
            "piston.top_clearance",
        ],
    )
}

/// Bush above the rod's O-ring in the crown, and its length \[mm\].
pub fn gland_bush(d: &mut Decide, rod: f64) -> (Bush, f64) {
    let bush = rod_bush(d, rod);
    let long = bush_length(&bush, 12.0);
    d.listed("cooler.bush_length", long, &bush.from, "ISO 3547-1", "length of the rod bushes, up to 12 mm");
    (bush, long)
}

/// What the yoke wants of its piston; groove and bush in the crown are `gland` \[mm\] deep together.
pub fn yoke_room(d: &mut Decide, rod: f64, gland: f64, crown_rise: f64) -> YokeRoom {
    let bar = d.rule(
        "yoke.bar",
        round_up(gland.max(4.0 * rod), 0.5),
        (
            "4 rods, at least gland and bush of the crown, to the next 0.5 mm: the displacer leans little",
            COMMON,
        ),
        &["cooler.gland_diameter", "cooler.bush_length", "displacer.rod_diameter"],
    );
    YokeRoom {
        rod_mm: rod,
        crown_mm: gland + 2.0,
        bar_mm: bar,
        top_land_mm: (crown_rise + RING_INSIDE_MM).max(0.0),
    }
}

/// Largest screw whose head fits in a slot \[mm\].
fn yoke_screw(slot: f64) -> &'static Thread {
    let fits = |t: &&Thread| t.major_mm <= 5.0 && t.head_knurled_mm + 0.5 <= slot;
    threads().iter().rev().find(fits).or_else(|| thread("M3").ok()).unwrap_or(&threads()[0])
}

/// Width of the yoke along X \[mm\], with its half length, a screw's head and the metal below its pins \[mm\].
fn width(d: &mut Decide, room: &YokeRoom, piston: &Piston, half: f64, head: f64, edge: f64) -> f64 {
    let inside = piston.inside_mm / 2.0 - 0.5;
    let least = 2.0 * (head + 1.0).max(edge);
    let widest = 2.0 * (inside * inside - half * half).max(0.0).sqrt();
    let width = d.rule(
        "yoke.width",
        ((2.0 * widest).floor() / 2.0).min(round_up(2.0 * least, 0.5)),
        ("as wide as the skirt lets its corners be, 0.5 mm free, twice a screw's head at the most", COMMON),
        &["yoke.half_length", "piston.diameter", "piston.skirt_wall"],
    );
    if width < least {
        let needs = 2.0 * (half.hypot(least / 2.0) + 0.5) + (piston.bore_mm - piston.inside_mm);
        d.refuse(
            "swept::range",
            "piston.bore",
            format!(
                "the yoke of two con rods, {:.1} mm long, does not fit into a piston of {} mm",
                2.0 * half,
                piston.bore_mm
            ),
            format!("a bore of {} mm or more", round_up(needs, 1.0)),
            "take smaller crankpin and small-end bearings, or a larger piston.bore".into(),
        );
    } else if width < room.rod_mm + 2.0 * GLAND_MM {
        d.refuse(
            "swept::range",
            "displacer.rod_diameter",
            format!("the yoke, {width:.1} mm wide, does not cover the gland of a rod of {} mm", room.rod_mm),
            format!("a yoke of {:.1} mm or more", room.rod_mm + 2.0 * GLAND_MM),
            "take a thinner displacer.rod_diameter or a larger piston.bore".into(),
        );
    }
    width
}

/// The yoke below a piston.
pub fn yoke(
    d: &mut Decide,
    room: &YokeRoom,
    piston: &Piston,
    drive: &Drive,
    clevis: &Clevis,
    meet: &Meet,
) -> Yoke {
    let t = drive.con_rod_thickness_mm;
    let slot =
        d.rule("yoke.slot", t + 2.0 * drive.side_gap_mm, "con rod + 1 mm", &["drive.con_rod_thickness"]);
    let leg = d.rule(
        "yoke.leg",
        round_up(0.6 * clevis.pin_mm, 0.5),
        ("0.6 pin, to the next 0.5 mm: the pin stands in two legs", COMMON),
        &["drive.small_end_bearing"],
    );
    let rod_y = d.rule(
        "yoke.rod_place",
        clevis.size_mm[1] / 2.0 + CLEAR_MM + leg + slot / 2.0,
        "half the clevis + 1 mm + leg + half a slot",
        &["clevis.width", "yoke.leg", "yoke.slot"],
    );
    let half = d.rule(
        "yoke.half_length",
        rod_y + slot / 2.0 + leg,
        "con rod + half a slot + leg",
        &["yoke.rod_place", "yoke.slot", "yoke.leg"],
    );
    let screw = yoke_screw(slot);
    let width = width(d, room, piston, half, screw.head_knurled_mm, clevis.pin_z_mm);
    // the clevis with the thread above it comes up between the legs
    let thread_above = drive.displacer.rod_end.length_mm - 1.5 * drive.displacer.rod_end.thread.major_mm;
    let above_pin = clevis.size_mm[2] - clevis.pin_z_mm + thread_above + CLEAR_MM;
    let highest = drive.displacer.throw_mm - drive.piston.throw_mm + meet.farthest_mm;
    let depth = d.rule(
        "yoke.slot_depth",
        round_up(clevis.pin_z_mm + (highest + above_pin).max(drive.eye_r_mm[1] + 0.8), 0.5),
        "pin + the highest that clevis and rod thread come above it + 1 mm, to the next 0.5 mm",
        &["clevis.height", "displacer.stroke", "piston.stroke", "drive.lead", "drive.small_eye_radius"],
    );
    let bush = rod_bush(d, room.rod_mm);
    let bush_mm = bush_length(&bush, 12.0);
    let bite = 2.0 * screw.major_mm;
    let screw_mm = d
        .design
        .catalogue
        .cap_screw_at_least(screw, room.bar_mm + bite)
        .unwrap_or(round_up(room.bar_mm + bite, 5.0));
    d.rule(
        "yoke.screw_length",
        screw_mm,
        ("next standard length (ISO 4762) over bar + 2 diameters", "from memory"),
        &["yoke.bar"],
    );
    Yoke {
        bar_mm: room.bar_mm,
        slot_mm: slot,
        leg_mm: leg,
        rod_y_mm: rod_y,
        half_mm: half,
        width_mm: width,
        slot_depth_mm: depth,
        pin_z_mm: clevis.pin_z_mm,
        bush,
        bush_length_mm: bush_mm.min(room.bar_mm),
        screw,
        screw_xy_mm: [(width - screw.head_knurled_mm) / 2.0 - 0.5, rod_y],
        screw_mm,
    }
}

/// How far below the crown the piston's pins are \[mm\].
pub fn pin_below_crown_mm(piston: &Piston, yoke: &Yoke) -> f64 {
    piston.crown_mm + yoke.height_mm() - yoke.pin_z_mm
}

/// Height of the crank axis in the engine frame \[mm\].
pub fn crank_height(d: &mut Decide, piston: &Piston, yoke: &Yoke, drive: &Drive, crown: f64) -> f64 {
    d.rule(
        "drive.crank_height",
        crown - pin_below_crown_mm(piston, yoke) - drive.con_rod_mm - drive.piston.throw_mm,
        "crown at its top, less crown, yoke, con rod and throw",
        &[
            "piston.crown_rise",
            "piston.crown",
            "yoke.bar",
            "yoke.slot_depth",
            "drive.con_rod_length",
            "drive.piston_throw",
        ],
    )
}

/// The gland as the engine's: the yoke is its cap.
pub fn gland_of(
    yoke: &Yoke,
    groove_mm: [f64; 2],
    oring: Option<String>,
    (bush, bush_length_mm): (Bush, f64),
) -> RodGland {
    let [x, y] = yoke.screw_xy_mm;
    RodGland {
        bush,
        bush_length_mm,
        groove_mm,
        oring,
        cap_mm: [yoke.width_mm, yoke.bar_mm],
        screws: BoltCircle {
            thread: yoke.screw,
            diameter_mm: 2.0 * x.hypot(y),
            count: 4,
            first_deg: y.atan2(x).to_degrees(),
            screw_mm: yoke.screw_mm,
        },
    }
}

/// What must not meet around the piston.
pub fn check(
    d: &mut Decide,
    piston: &Piston,
    yoke: &Yoke,
    cylinder: &Cylinder,
    drive: &Drive,
    displacer: &Displacer,
) {
    if piston.bore_mm > displacer.bore_mm + 1e-9 {
        d.refuse(
            "swept::contradiction",
            "piston.bore",
            format!(
                "the piston's crown rises into the displacer's cylinder of {} mm and cannot be {} mm",
                displacer.bore_mm, piston.bore_mm
            ),
            format!("{} mm at the most", displacer.bore_mm),
            format!("set piston.bore to \"{} mm\", one bore for both", displacer.bore_mm),
        );
    }
    let reach = drive.piston.throw_mm.max(drive.displacer.throw_mm) + drive.eye_r_mm[0] + 2.0;
    let free = cylinder.low_z_mm - drive.crank_z_mm;
    if free < reach {
        d.refuse(
            "swept::range",
            "drive.con_rod_length",
            format!("the crank reaches {reach:.1} mm up and meets the power cylinder at {free:.1} mm"),
            format!("{:.1} mm or more", drive.con_rod_mm + reach - free),
            format!("set drive.con_rod_length to \"{} mm\"", round_up(drive.con_rod_mm + reach - free, 1.0)),
        );
    }
    // the widest place of a con rod that is still inside the cylinder at the top of the stroke
    let pin = drive.crank_z_mm + drive.con_rod_mm + drive.piston.throw_mm;
    let slant = drive.piston.throw_mm / (drive.con_rod_mm.powi(2) - drive.piston.throw_mm.powi(2)).sqrt();
    let aside = (pin - cylinder.low_z_mm).max(0.0) * slant + drive.eye_r_mm[0].max(drive.eye_r_mm[1]);
    let room = ((piston.bore_mm / 2.0).powi(2) - yoke.rod_y_mm.powi(2)).max(0.0).sqrt() - CLEAR_MM;
    if pin > cylinder.low_z_mm && aside > room {
        d.refuse(
            "swept::range",
            "drive.con_rod_length",
            format!("the con rods swing {aside:.1} mm aside inside the power cylinder and have {room:.1} mm"),
            "a longer con rod or a larger bore".into(),
            "make drive.con_rod_length longer".into(),
        );
    }
}
