//! Piston, rings and the lengths of the power cylinder.

use super::displacer::rod_thread;
use crate::design::PistonSeal;
use crate::sizing::decide::{Decide, round_near, round_up};
use crate::sizing::engine::Piston;
use crate::sizing::rings::size::growth;
use crate::sizing::rings::{self};

/// Least play of a close-fitting piston when hot, on the diameter: 1/2000 of the bore, 15 µm at the least \[mm\]; common
/// practice, no source.
fn close_play(bore: f64) -> f64 {
    (bore / 2000.0).max(0.015)
}

/// Lands above and between the rings \[mm\]; a piston without rings has none.
fn lands(d: &mut Decide, groove: f64) -> (f64, f64) {
    if groove <= 0.0 {
        return (0.0, 0.0);
    }
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

/// Play between piston and bore on the diameter, cold and hot \[mm\].
fn play(d: &mut Decide, bore: f64, kind: PistonSeal) -> [f64; 2] {
    let design = d.design;
    let closes = growth(d, bore, &design.piston.material.value).diameter_mm();
    let common = "common practice, no source";
    let (value, formula) = match kind {
        PistonSeal::Fitted => (
            round_up(close_play(bore) + closes.max(0.0), 0.005),
            ("bore / 2000, at least 0.015 mm, when hot, to the next 0.005 mm", common),
        ),
        // a moving O-ring is pressed into a wider gap (seen in a maker's table)
        PistonSeal::ORing => {
            (0.13, ("the most that an O-ring of 2.62 mm bears", "a maker's table of moving seals"))
        }
        _ => (
            round_up(0.006 * bore, 0.05),
            ("0.6 % of the bore, to the next 0.05 mm: the rings seal, the rod guides", common),
        ),
    };
    let cold = d.open_mm(
        "piston.side_clearance",
        &design.piston.side_clearance_mm,
        formula,
        &["piston.bore", "cold_end.temperature"],
        value,
    );
    [cold, cold - closes]
}

/// The piston; its rod's length is decided with the drive.
pub fn size(d: &mut Decide, rod: f64) -> Piston {
    let design = d.design;
    let p = &design.piston;
    let bore = d.mm("piston.bore", &p.bore_mm);
    let stroke = d.mm("piston.stroke", &p.stroke_mm);
    let mut seal = rings::size::size(d, bore);
    let (top_land, land) = lands(d, seal.groove_mm);
    let [clearance, hot_play] = play(d, bore, seal.kind);
    let diameter = d.rule(
        "piston.diameter",
        bore - clearance,
        "bore - side clearance",
        &["piston.bore", "piston.side_clearance"],
    );
    if seal.count == 0 {
        seal.groove_diameter_mm = diameter;
    }
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
    let ringed = top_land + seal.count as f64 * (seal.groove_mm + land);
    let guided = if seal.kind == PistonSeal::Fitted { bore } else { 0.5 * bore };
    let mut inputs = vec!["piston.bore", "piston.crown", "piston.boss_height"];
    if seal.count > 0 {
        inputs.extend(["piston.top_land", "piston.land", "piston.groove_width"]);
    }
    let length = d.open_mm(
        "piston.length",
        &p.length_mm,
        (
            "half the bore (all of it for a close fit), but room for rings and rod boss, to the next mm",
            "common practice, no source",
        ),
        &inputs,
        round_up(guided.max(ringed).max(crown + boss[1] + 1.0), 1.0),
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
        seal,
        hot_play_mm: hot_play,
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
    if p.hot_play_mm <= 0.0 {
        let jams = p.bore_mm - p.diameter_mm - p.hot_play_mm;
        d.refuse(
            "swept::range",
            "piston.side_clearance",
            format!("hot, the piston grows by {jams:.3} mm more than its bore and jams"),
            format!("more than {jams:.3} mm"),
            "leave piston.side_clearance out, or make piston and block of one material".into(),
        );
    }
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
    let inside = p.seal.groove_diameter_mm - 2.0 * p.skirt_wall_mm;
    if inside < p.boss_mm[0] + 4.0 {
        d.refuse(
            "swept::range",
            "piston.ring_width",
            format!("behind the ring grooves {inside:.2} mm are left inside the skirt, too little around the rod boss of {} mm", p.boss_mm[0]),
            format!("{:.2} mm or more inside the skirt", p.boss_mm[0] + 4.0),
            "take narrower rings, a thinner rod or a larger bore".into(),
        );
    }
    if p.seal.gap_mm > 0.1 * p.bore_mm {
        d.refuse(
            "swept::range",
            "piston.ring_gap",
            format!("a ring gap of {} mm is no seal", p.seal.gap_mm),
            format!("up to {:.1} mm", 0.1 * p.bore_mm),
            "leave piston.ring_gap out".into(),
        );
    }
}
