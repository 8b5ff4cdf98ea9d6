//! Bearings, con rods, clevises and cranks.

use super::displacer::rod_thread;
use crate::catalogue::bearings::BallBearing;
use crate::catalogue::threads::thread;
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Clevis, Crank, Displacer, Drive, Piston, RodEnd};

/// Height of the collar between web and journal bearing \[mm\]; common practice, no source.
pub const COLLAR_MM: f64 = 1.0;

/// Thread of a rod above its clevis, for the lock nut and for setting \[mm\]; common practice, no source.
const ABOVE_CLEVIS_MM: f64 = 6.0;

/// Way between a clevis at its dead centre and the bush behind it \[mm\]: thread and lock nut never enter the bush, and 1 mm is
/// left; common practice, no source.
pub const CLEVIS_CLEAR_MM: f64 = ABOVE_CLEVIS_MM + 1.0;

/// Shoulder of the bracket between the seats of both journal bearings, on the radius \[mm\]; common practice, no source.
pub const SHOULDER_MM: f64 = 1.5;

/// Gap between shaft and bracket in the bore between both journal bearings \[mm\].
pub fn shaft_in_bracket_mm(drive: &Drive) -> f64 {
    let b = &drive.journal_bearing;
    0.5 * (b.outer_mm - b.bore_mm) - SHOULDER_MM
}

/// From the middle of a con rod to the far face of its web \[mm\].
pub fn web_back_mm(drive: &Drive) -> f64 {
    drive.con_rod_thickness_mm / 2.0 + drive.side_gap_mm + drive.web_mm
}

/// The three bearings: journal, crankpin, small end.
fn three_bearings(d: &mut Decide) -> [BallBearing; 3] {
    let design = d.design;
    let s = &design.drive;
    let mut one = |path: &str, setting: &crate::design::Setting<String>| {
        let book = &design.catalogue;
        let found = d.look_up(path, book.bearing(&setting.value)).unwrap_or(&book.bearings[0]);
        d.listed(path, found.bore_mm, &found.from, "ISO 15", &format!("bore of {}", found.designation));
        found.clone()
    };
    [
        one("drive.journal_bearing", &s.journal_bearing),
        one("drive.crankpin_bearing", &s.crankpin_bearing),
        one("drive.small_end_bearing", &s.small_end_bearing),
    ]
}

/// Clevis around the small end; sizes \[mm\].
fn clevis(d: &mut Decide, rod: f64, thickness: f64, eye_r: f64, pin: f64) -> Clevis {
    let slot = d.rule("clevis.slot", thickness + 1.0, "con rod + 1 mm", &["drive.con_rod_thickness"]);
    let pin_z = d.rule("clevis.pin_height", pin + 1.0, "pin + 1 mm", &["drive.small_end_bearing"]);
    let depth = d.rule(
        "clevis.slot_depth",
        round_up(pin_z + eye_r + 0.8, 0.5),
        "pin height + small eye + 0.8 mm, to the next 0.5 mm",
        &["clevis.pin_height", "drive.small_eye_radius"],
    );
    let thread = rod_thread(rod);
    let height = d.rule(
        "clevis.height",
        round_up(depth + 1.5 * thread.major_mm + 3.0, 1.0),
        "slot + 1.5 rod threads + 3 mm, to the next mm",
        &["clevis.slot_depth", "displacer.rod_diameter"],
    );
    let leg = d.rule(
        "clevis.leg",
        round_up(0.8 * pin, 0.5),
        ("0.8 pin, to the next 0.5 mm", "common practice, no source"),
        &["drive.small_end_bearing"],
    );
    let width = d.rule(
        "clevis.width",
        round_up((2.0 * pin_z).max(thread.major_mm + 6.0), 1.0),
        "twice the pin height, to the next mm",
        &["clevis.pin_height"],
    );
    Clevis {
        size_mm: [width, slot + 2.0 * leg, height],
        slot_mm: slot,
        slot_depth_mm: depth,
        pin_z_mm: pin_z,
        pin_mm: pin,
    }
}

/// Con rods, clevis and throws; thickness of the bracket and height of the crank axes are decided later.
pub fn size(d: &mut Decide, strokes: [f64; 2], rod: f64) -> (Drive, Clevis) {
    let design = d.design;
    let s = &design.drive;
    let lead = d.setting("drive.lead", &s.lead_deg, Unit::Degree);
    let [journal, crankpin, small] = three_bearings(d);
    let thickness = d.rule(
        "drive.con_rod_thickness",
        crankpin.width_mm.max(small.width_mm) + 1.0,
        "widest bearing + 1 mm shoulder",
        &["drive.crankpin_bearing", "drive.small_end_bearing"],
    );
    let big = d.rule(
        "drive.big_eye_radius",
        crankpin.outer_mm / 2.0 + 3.0,
        ("bearing / 2 + 3 mm", "common practice, no source"),
        &["drive.crankpin_bearing"],
    );
    let eye = d.rule(
        "drive.small_eye_radius",
        small.outer_mm / 2.0 + 3.0,
        ("bearing / 2 + 3 mm", "common practice, no source"),
        &["drive.small_end_bearing"],
    );
    let throws = [strokes[0] / 2.0, strokes[1] / 2.0];
    d.rule("drive.displacer_throw", throws[0], "stroke / 2", &["displacer.stroke"]);
    d.rule("drive.piston_throw", throws[1], "stroke / 2", &["piston.stroke"]);
    let web_r = [journal.bore_mm / 2.0 + 6.0, crankpin.bore_mm / 2.0 + 4.0];
    let clevis = clevis(d, rod, thickness, eye, small.bore_mm);
    let longest = throws[0].max(throws[1]);
    let free = 2.0 * longest + clevis.pin_z_mm + web_r[1].max(big) + 2.0;
    let con_rod = d.open_mm(
        "drive.con_rod_length",
        &s.con_rod_length_mm,
        ("3.5 throws, but clevis clear of the crank, to the next mm", "common practice, no source"),
        &["drive.displacer_throw", "drive.piston_throw", "clevis.pin_height"],
        round_up((3.5 * longest).max(free), 1.0),
    );
    if con_rod < free {
        d.refuse(
            "swept::range",
            "drive.con_rod_length",
            format!("with a con rod of {con_rod} mm the clevis meets the crank web"),
            format!("{free:.1} mm or more"),
            "leave drive.con_rod_length out".into(),
        );
    }
    let thread_of = rod_thread(rod);
    let crank = |throw_mm| Crank {
        throw_mm,
        rod_end: RodEnd { thread: thread_of, length_mm: 1.5 * thread_of.major_mm + ABOVE_CLEVIS_MM },
    };
    let drive = Drive {
        lead_deg: lead,
        displacer: crank(throws[0]),
        piston: crank(throws[1]),
        con_rod_mm: con_rod,
        con_rod_thickness_mm: thickness,
        eye_r_mm: [big, eye],
        web_mm: round_up(crankpin.bore_mm, 1.0).max(6.0),
        crankpin_bearing: crankpin,
        small_end_bearing: small,
        journal_bearing: journal,
        web_r_mm: web_r,
        side_gap_mm: 0.5,
        bracket_mm: 0.0,
        bracket_edge_mm: 0.0,
        bracket_screw: thread("M5").unwrap_or_else(|_| unreachable!("in the catalogue")),
        crank_z_mm: 0.0,
        material: s.material.value.to_string(),
    };
    (drive, clevis)
}

/// Length of the displacer's rod \[mm\], from the hub's upper face to 1.5 threads inside the clevis.
pub fn displacer_rod(d: &mut Decide, drive: &Drive, clevis: &Clevis, displacer: &Displacer) -> f64 {
    let engaged = 1.5 * drive.displacer.rod_end.thread.major_mm;
    let clevis_top =
        drive.crank_z_mm + drive.con_rod_mm + drive.displacer.throw_mm + clevis.size_mm[2] - clevis.pin_z_mm;
    let top = displacer.cold_clearance_mm + displacer.stroke_mm + displacer.base_mm + displacer.hub_mm[1];
    d.rule(
        "displacer.rod_length",
        round_near(top - clevis_top + engaged, 0.01),
        "from the hub's upper face to 1.5 threads inside the clevis",
        &[
            "drive.crank_height",
            "drive.con_rod_length",
            "clevis.height",
            "displacer.stroke",
            "displacer.base_thickness",
            "displacer.hub_height",
            "displacer.cold_clearance",
        ],
    )
}

/// Length of the piston's rod \[mm\], from 1.5 threads inside the piston boss to 1.5 threads inside the clevis; `head` \[mm\]
/// is the place of the cylinder's head along its line from the crank axis, which `of_head` and `also` decide.
pub fn piston_rod(
    d: &mut Decide,
    drive: &Drive,
    clevis: &Clevis,
    piston: &Piston,
    head: f64,
    (of_head, also): (&str, &[&str]),
) -> f64 {
    let engaged = 1.5 * drive.displacer.rod_end.thread.major_mm;
    let rod_low = drive.con_rod_mm + drive.piston.throw_mm + clevis.size_mm[2] - clevis.pin_z_mm - engaged;
    let boss = head - piston.top_clearance_mm - piston.crown_mm - piston.boss_mm[1];
    let mut inputs = vec![of_head, "drive.con_rod_length", "clevis.height", "piston.stroke", "piston.crown"];
    inputs.extend(["piston.boss_height", "piston.top_clearance"]);
    inputs.extend(also);
    d.rule(
        "piston.rod_length",
        round_near(boss + engaged - rod_low, 0.01),
        "from 1.5 threads inside the piston boss to 1.5 threads inside the clevis",
        &inputs,
    )
}

/// Keys of a belt say nothing where there is none, for the reason of `why`.
pub fn without_belt(d: &mut Decide, why: &str) {
    let s = &d.design.drive;
    let belts = [
        ("drive.pulley_teeth", s.pulley_teeth.is_some()),
        ("drive.belt_section", s.belt_section.is_given()),
        ("drive.belt_width", s.belt_width_mm.is_given()),
    ];
    for (path, _) in belts.into_iter().filter(|(_, told)| *told) {
        d.refuse(
            "swept::contradiction",
            path,
            format!("{path} belongs to a belt, and this layout has none"),
            why.into(),
            format!("leave {path} out"),
        );
    }
}

/// Thickness of the bracket that holds both bearings of a crank, and its metal around them.
pub fn bracket(d: &mut Decide, drive: &mut Drive) {
    drive.bracket_mm = d.rule(
        "drive.bracket_thickness",
        round_up(2.0 * drive.journal_bearing.width_mm + 10.0, 1.0),
        ("two bearings + 10 mm", "common practice, no source"),
        &["drive.journal_bearing"],
    );
    drive.bracket_edge_mm = d.rule(
        "drive.bracket_edge",
        drive.journal_bearing.outer_mm / 2.0 + 7.0,
        ("bearing / 2 + 7 mm, from the crank axis", "common practice, no source"),
        &["drive.journal_bearing"],
    );
}
