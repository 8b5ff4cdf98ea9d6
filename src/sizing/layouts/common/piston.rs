//! Piston, rings and the lengths of the power cylinder.

use super::displacer::rod_thread;
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::engine::Piston;
use std::f64::consts::PI;

/// Room behind the expander \[mm\]; common practice, no source.
const BACK_ROOM_MM: f64 = 0.3;

/// Sizes of ring and groove.
struct Groove {
    rings: usize,
    height: f64,
    width: f64,
    gap: f64,
    expander: f64,
    axial: f64,
    bottom: f64,
}

/// Closed gap of the ring \[mm\]: growth of ring less that of the bore, with 0.05 mm left.
///
/// s ≥ π d (α_ring ΔT_ring − α_bore ΔT_bore) + 0.05 mm; expansion figures of carbon-filled PTFE
/// (90e-6/K) and aluminium (23.5e-6/K) from memory; ring 40 K and bore 20 K above the cold end.
fn ring_gap(d: &mut Decide, bore: f64) -> f64 {
    let design = d.design;
    let cold = design.cold_end.temperature_k.value - 293.15;
    let growth = PI * bore * (90e-6 * (cold + 40.0) - 23.5e-6 * (cold + 20.0));
    d.open_mm(
        "piston.ring_gap",
        &design.piston.ring_gap_mm,
        (
            "growth of PTFE ring less that of bore + 0.05 mm, to the next 0.1 mm",
            "expansion figures from memory",
        ),
        &["piston.bore", "cold_end.temperature"],
        round_up(growth.max(0.0) + 0.05, 0.1),
    )
}

/// Ring and groove.
fn groove(d: &mut Decide, bore: f64) -> Groove {
    let design = d.design;
    let p = &design.piston;
    let rings = d.count("piston.rings", &p.rings);
    let height = d.mm("piston.ring_height", &p.ring_height_mm);
    let width = d.open_mm(
        "piston.ring_width",
        &p.ring_width_mm,
        ("bore / 20, to the nearest 0.5 mm, at least 1.5 mm", "common practice, no source"),
        &["piston.bore"],
        round_near(bore / 20.0, 0.5).max(1.5),
    );
    let expander = d.mm("piston.expander_thickness", &p.expander_thickness_mm);
    let axial = d.rule(
        "piston.groove_width",
        round_up(height * 1.015, 0.01),
        (
            "1.015 ring height, to the next 0.01 mm",
            "side clearance 1.2 to 1.8 % of the height, makers of PTFE compressor rings",
        ),
        &["piston.ring_height"],
    );
    let bottom = d.rule(
        "piston.groove_diameter",
        bore - 2.0 * (width + expander + BACK_ROOM_MM),
        "bore - 2 (ring + expander + 0.3 mm)",
        &["piston.bore", "piston.ring_width", "piston.expander_thickness"],
    );
    let gap = ring_gap(d, bore);
    Groove { rings, height, width, gap, expander, axial, bottom }
}

/// Lands above and between the rings \[mm\].
fn lands(d: &mut Decide, groove: f64) -> (f64, f64) {
    let design = d.design;
    let top = d.open_mm(
        "piston.top_land",
        &design.piston.top_land_mm,
        ("groove width to the next 0.5 mm, at least 3 mm", "common practice, no source"),
        &["piston.groove_width"],
        round_up(groove, 0.5).max(3.0),
    );
    let land = d.open_mm(
        "piston.land",
        &design.piston.land_mm,
        ("groove width to the next 0.5 mm", "common practice, no source"),
        &["piston.groove_width"],
        round_up(groove, 0.5),
    );
    for (path, value) in [("piston.top_land", top), ("piston.land", land)] {
        if value < groove - 1e-9 {
            d.refuse(
                "swept::land",
                path,
                format!("a ring land of {value} mm beside a groove of {groove} mm would break out"),
                format!("{groove} mm or more"),
                format!("set {path} to \"{} mm\" or take lower rings", round_up(groove, 0.5)),
            );
        }
    }
    (top, land)
}

/// The piston; its rod's length is decided with the drive.
pub fn size(d: &mut Decide, rod: f64) -> Piston {
    let design = d.design;
    let p = &design.piston;
    let bore = d.mm("piston.bore", &p.bore_mm);
    let stroke = d.mm("piston.stroke", &p.stroke_mm);
    let g = groove(d, bore);
    let (top_land, land) = lands(d, g.axial);
    let clearance = d.open_mm(
        "piston.side_clearance",
        &p.side_clearance_mm,
        (
            "0.6 % of the bore, to the next 0.05 mm: the rings seal, the rod guides",
            "common practice, no source",
        ),
        &["piston.bore"],
        round_up(0.006 * bore, 0.05),
    );
    let diameter = d.rule(
        "piston.diameter",
        bore - clearance,
        "bore - side clearance",
        &["piston.bore", "piston.side_clearance"],
    );
    let crown = d.open_mm(
        "piston.crown",
        &p.crown_mm,
        ("bore / 12, to the nearest 0.5 mm, at least 4 mm", "common practice, no source"),
        &["piston.bore"],
        round_near(bore / 12.0, 0.5).max(4.0),
    );
    let skirt_wall = d.rule(
        "piston.skirt_wall",
        round_near(bore / 25.0, 0.5).max(2.0),
        ("bore / 25, to the nearest 0.5 mm, at least 2 mm", "common practice, no source"),
        &["piston.bore"],
    );
    let thread = rod_thread(rod);
    let boss = [rod + 6.0, 2.0 * thread.major_mm + 2.0];
    d.rule("piston.boss_height", boss[1], "2 rod threads + 2 mm", &["piston.rod_diameter"]);
    let ringed = top_land + g.rings as f64 * g.axial + (g.rings as f64 - 1.0) * land + land;
    let length = d.open_mm(
        "piston.length",
        &p.length_mm,
        ("half the bore, but room for rings and rod boss, to the next mm", "common practice, no source"),
        &[
            "piston.bore",
            "piston.top_land",
            "piston.land",
            "piston.groove_width",
            "piston.crown",
            "piston.boss_height",
        ],
        round_up((0.5 * bore).max(ringed).max(crown + boss[1] + 1.0), 1.0),
    );
    let piston = Piston {
        bore_mm: bore,
        stroke_mm: stroke,
        diameter_mm: diameter,
        length_mm: length,
        crown_mm: crown,
        skirt_wall_mm: skirt_wall,
        top_land_mm: top_land,
        land_mm: land,
        rings: g.rings,
        ring_height_mm: g.height,
        ring_width_mm: g.width,
        ring_gap_mm: g.gap,
        expander_mm: g.expander,
        groove_mm: g.axial,
        groove_diameter_mm: g.bottom,
        top_clearance_mm: d.mm("piston.top_clearance", &p.top_clearance_mm),
        bottom_clearance_mm: 0.0,
        boss_mm: boss,
        rod_mm: rod,
        rod_length_mm: 0.0,
        material: p.material.value.to_string(),
    };
    check(d, &piston, ringed);
    piston
}

/// What a piston cannot be.
fn check(d: &mut Decide, p: &Piston, ringed: f64) {
    if p.length_mm < ringed.max(p.crown_mm + p.boss_mm[1]) {
        let least = ringed.max(p.crown_mm + p.boss_mm[1] + 1.0);
        d.refuse(
            "swept::range",
            "piston.length",
            format!("a piston of {} mm has no room for its rings and the rod boss", p.length_mm),
            format!("{least:.2} mm or more"),
            format!("set piston.length to \"{} mm\"", round_up(least, 1.0)),
        );
    }
    let inside = p.groove_diameter_mm - 2.0 * p.skirt_wall_mm;
    if inside < p.boss_mm[0] + 4.0 {
        d.refuse(
            "swept::range",
            "piston.ring_width",
            format!("behind the ring grooves {inside:.2} mm are left inside the skirt, too little around the rod boss of {} mm", p.boss_mm[0]),
            format!("{:.2} mm or more inside the skirt", p.boss_mm[0] + 4.0),
            "take narrower rings, a thinner rod or a larger bore".into(),
        );
    }
    if p.ring_gap_mm > 0.1 * p.bore_mm {
        d.refuse(
            "swept::range",
            "piston.ring_gap",
            format!("a ring gap of {} mm is no seal", p.ring_gap_mm),
            format!("up to {:.1} mm", 0.1 * p.bore_mm),
            "leave piston.ring_gap out".into(),
        );
    }
}
