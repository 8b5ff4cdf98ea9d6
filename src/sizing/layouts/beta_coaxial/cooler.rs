//! Drilled cooler around the lower end of the displacer's cylinder.

use super::{Cooler, Head};
use crate::catalogue::threads::{Thread, port_thread, thread};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{ColdCylinder, Displacer, HotCap, Joints};
use crate::sizing::layouts::common::joints;
use std::f64::consts::PI;

const COMMON: &str = "common practice, no source";
/// Metal between the gas holes and the liner's seat, and between two holes over their diameter; common practice, no source.
const SEAT_WALL_MM: f64 = 1.2;
const HOLE_PITCH: f64 = 1.6;
/// Widening of the bore where the piston's crown rises into it, on the radius \[mm\]; common practice, no source.
const BELT_MM: f64 = 1.5;
/// Metal between the gas holes and that widening \[mm\]; common practice, no source.
const BELT_WALL_MM: f64 = 1.0;
/// Gasket between gas and water \[mm\], and metal between jacket and screws \[mm\]; common practice, no source.
const LAND_MM: f64 = 3.0;
/// Metal between jacket and hot cap \[mm\]; common practice, no source.
const DECK_MM: f64 = 8.0;

/// Screw of both faces: the design's word, or M5.
pub fn screw(d: &mut Decide) -> &'static Thread {
    let design = d.design;
    if let Some(given) = &design.joints.hot_screw {
        return joints::screw(d, "joints.hot_screw", given);
    }
    let found = thread("M5").unwrap_or_else(|_| unreachable!("in the catalogue"));
    d.rule(
        "joints.hot_screw",
        found.major_mm,
        ("M5: holds the pressure, finds room beside the jacket", COMMON),
        &[],
    );
    found
}

/// Number, diameter and circle of the gas holes \[mm\].
fn holes(d: &mut Decide, head: &Head) -> (usize, f64, f64) {
    let design = d.design;
    let matrix = head.regenerator.thickness_mm;
    let hole = d.open_mm(
        "cooler.hole_diameter",
        &design.cooler.hole_diameter_mm,
        ("3 mm, or what the regenerator above covers", COMMON),
        &["regenerator.thickness"],
        (matrix - SEAT_WALL_MM).clamp(1.0, 3.0),
    );
    let circle = d.rule(
        "cooler.hole_circle",
        (head.liner_mm + (2.0 * SEAT_WALL_MM + hole).max(matrix))
            .max(d.design.displacer.bore_mm.value + 2.0 * (BELT_MM + BELT_WALL_MM) + hole),
        (
            "below the middle of the regenerator, 1.2 mm of metal to the liner's seat, 1 mm to the widened bore",
            COMMON,
        ),
        &["liner.diameter", "regenerator.thickness", "cooler.hole_diameter", "displacer.bore"],
    );
    let fit = (PI * circle / (HOLE_PITCH * hole)).floor();
    let count = d.open_count(
        "cooler.holes",
        &design.cooler.holes,
        ("pitch of 1.6 diameters, even", COMMON),
        &["cooler.hole_circle", "cooler.hole_diameter"],
        2 * (fit / 2.0).floor() as usize,
    );
    let most = (PI * circle / (hole + 0.8)).floor();
    if count as f64 > most {
        d.refuse(
            "swept::range",
            "cooler.holes",
            format!("{count} holes of {hole} mm run into each other on a circle of {circle:.1} mm"),
            format!("up to {most}"),
            "leave cooler.holes out, or drill smaller holes".into(),
        );
    }
    (count, hole, circle)
}

/// The cooler, `length` \[mm\] long; the piston's crown rises `rise` \[mm\] above its lower face.
pub fn size(d: &mut Decide, head: &Head, displacer: &Displacer, length: f64, rise: f64) -> Cooler {
    let design = d.design;
    let holes = holes(d, head);
    let (count, hole, circle) = holes;
    let manifold = d.rule(
        "cooler.manifold_diameter",
        circle + hole + 1.0,
        "hole circle + hole + 1 mm",
        &["cooler.hole_circle", "cooler.hole_diameter"],
    );
    let area = count as f64 * PI / 4.0 * hole * hole;
    let deep = d.rule(
        "cooler.manifold_depth",
        round_up((area / (PI * displacer.bore_mm)).max(2.0), 0.5),
        ("as much area round the bore as the holes have, at least 2 mm, to the next 0.5 mm", COMMON),
        &["cooler.holes", "cooler.hole_diameter", "displacer.bore"],
    );
    let belt = d.rule(
        "cooler.belt_diameter",
        displacer.bore_mm + 2.0 * BELT_MM,
        ("bore + 3 mm: gas passes the crown", COMMON),
        &["displacer.bore"],
    );
    let high = d.rule(
        "cooler.belt_height",
        round_up((rise + 1.0).max(deep + 1.0), 0.5),
        ("1 mm above the crown and the recess, to the next 0.5 mm", COMMON),
        &["piston.crown_rise", "joints.gasket_thickness", "cooler.manifold_depth"],
    );
    let inner = d.rule(
        "cooler.jacket_inner_radius",
        manifold / 2.0 + LAND_MM,
        ("recess + 3 mm of gasket between gas and water", COMMON),
        &["cooler.manifold_diameter"],
    );
    let width = d.mm("cooler.jacket_width", &design.cooler.jacket_width_mm);
    let outer = d.rule(
        "cooler.jacket_outer_radius",
        inner + width,
        "inner radius + jacket width",
        &["cooler.jacket_inner_radius", "cooler.jacket_width"],
    );
    let depth = d.rule(
        "cooler.jacket_depth",
        length - DECK_MM,
        ("cooler - 8 mm deck", COMMON),
        &["cold_end.cylinder_length"],
    );
    let hose = d.look_up("cooler.hose_thread", port_thread(&design.cooler.hose_thread.value.to_string()));
    let hose = hose.or_else(|| port_thread("M10").ok());
    let hose = hose.unwrap_or_else(|| unreachable!("M10 is in the catalogue"));
    if depth < 2.0 * hose.major_mm {
        d.refuse(
            "swept::range",
            "cold_end.cylinder_length",
            format!("a jacket {depth:.1} mm deep has no room for two hose ports"),
            format!("{:.1} mm or more", 2.0 * hose.major_mm + DECK_MM),
            "take a smaller cooler.hose_thread or a longer cold_end.cylinder_length".into(),
        );
    }
    Cooler {
        holes,
        manifold_mm: [manifold, deep],
        belt_mm: [belt, high],
        jacket_r_mm: [inner, outer],
        jacket_depth_mm: depth,
        hose,
    }
}

/// Diameter of the bolt circle of both faces \[mm\].
pub fn circle(d: &mut Decide, cooler: &Cooler, head: &Head, cap: &HotCap, screw: &Thread) -> f64 {
    let beside_jacket = 2.0 * (cooler.jacket_r_mm[1] + LAND_MM) + screw.clearance_medium_mm;
    let beside_cap = head.low_bore_mm[0] + 2.0 * (cap.wall_mm + 3.0) + screw.head_knurled_mm + 1.0;
    d.rule(
        "joints.hot_circle",
        round_up(beside_jacket.max(beside_cap), 1.0),
        ("3 mm of metal beside the jacket, heads clear of the hot cap, to the next mm", COMMON),
        &["cooler.jacket_outer_radius", "hot_end.lower_bore", "hot_end.wall", "joints.hot_screw"],
    )
}

/// The cooler as the engine's cold cylinder: no fins, and the flange of the power cylinder below it.
pub fn body(d: &mut Decide, bore: f64, length: f64, screw: &Thread, circle: f64) -> ColdCylinder {
    let design = d.design;
    let flange = d.rule(
        "cold_end.flange_thickness",
        2.0 * screw.major_mm,
        ("2 screw diameters", COMMON),
        &["joints.hot_screw"],
    );
    let diameter = d.rule(
        "cold_end.flange_diameter",
        circle + 3.0 * screw.major_mm,
        ("bolt circle + 3 screw diameters", "edge rule, common practice, no source"),
        &["joints.hot_circle", "joints.hot_screw"],
    );
    ColdCylinder {
        temperature_k: d.setting("cold_end.temperature", &design.cold_end.temperature_k, Unit::Kelvin),
        length_mm: length,
        wall_mm: (diameter - bore) / 2.0,
        flange_mm: flange,
        flange_diameter_mm: diameter,
        fins: 0,
        fin_mm: 0.0,
        fin_gap_mm: 0.0,
        fin_diameter_mm: diameter,
        material: design.cold_end.material.value.to_string(),
    }
}

/// Depth of full thread at the upper and the lower face \[mm\].
pub fn thread_depths_mm(joints: &Joints, cold: &ColdCylinder, cap_flange: f64) -> [f64; 2] {
    [
        joints.hot.screw_mm - cap_flange - joints.hot_gasket_mm + 1.0,
        joints.cold.screw_mm - cold.flange_mm - joints.gasket_mm + 1.0,
    ]
}

/// Threads from both faces must not meet.
pub fn check(d: &mut Decide, cooler: &Cooler, joints: &Joints, cold: &ColdCylinder, cap_flange: f64) {
    let t = joints.hot.thread;
    let drilled: f64 =
        thread_depths_mm(joints, cold, cap_flange).iter().map(|deep| deep + 4.0 * t.pitch_mm).sum();
    let least = (drilled + 2.0).max(cooler.belt_mm[1] + 10.0);
    if cold.length_mm < least {
        d.refuse(
            "swept::range",
            "cold_end.cylinder_length",
            format!(
                "a cooler of {} mm has no room for the screws from both faces and for the liner's seat",
                cold.length_mm
            ),
            format!("{least:.1} mm or more"),
            format!("set cold_end.cylinder_length to \"{} mm\"", round_up(least, 5.0)),
        );
    }
}
