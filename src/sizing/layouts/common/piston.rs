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

/// What hangs below the crown.
#[derive(Clone, Copy, Debug)]
pub enum Below {
    /// A boss with the thread of a rod of this diameter \[mm\].
    Rod(f64),
    /// A yoke for two con rods, with the displacer's rod through crown and yoke.
    Yoke(YokeRoom),
}

/// What a yoke wants of its piston \[mm\].
#[derive(Clone, Copy, Debug)]
pub struct YokeRoom {
    /// Diameter of the rod that runs through.
    pub rod_mm: f64,
    /// Least thickness of the crown, for the rod's gland and bush.
    pub crown_mm: f64,
    /// Thickness of the yoke's bar below the crown.
    pub bar_mm: f64,
    /// Least land above the first ring: the crown rises out of its bore by so much.
    pub top_land_mm: f64,
}

/// Lands above and between the rings \[mm\]; a piston without rings has none.
fn lands(d: &mut Decide, groove: f64, below: &Below) -> (f64, f64) {
    if groove <= 0.0 {
        return (0.0, 0.0);
    }
    let design = d.design;
    let plain = round_up(groove, 0.5).max(3.0);
    let common = "common practice, no source";
    let (formula, least, inputs) = match below {
        Below::Rod(_) => {
            (("groove width to the next 0.5 mm, at least 3 mm", common), plain, vec!["piston.groove_width"])
        }
        Below::Yoke(y) => (
            ("groove width, and the first ring stays in its bore, to the next 0.5 mm", common),
            round_up(y.top_land_mm, 0.5).max(plain),
            vec!["piston.groove_width", "piston.crown_rise"],
        ),
    };
    let top = d.open_mm("piston.top_land", &design.piston.top_land_mm, formula, &inputs, least);
    if let Below::Yoke(y) = below
        && top < y.top_land_mm - 1e-9
    {
        d.refuse(
            "swept::land",
            "piston.top_land",
            format!("with a top land of {top} mm the first ring leaves its bore at the top of the stroke"),
            format!("{:.2} mm or more", y.top_land_mm),
            "leave piston.top_land out".into(),
        );
    }
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

/// Stroke of the piston and its clearance at the top \[mm\]; above a yoke they are decided before the piston.
pub fn line(d: &mut Decide) -> (f64, f64) {
    let p = &d.design.piston;
    (d.mm("piston.stroke", &p.stroke_mm), d.mm("piston.top_clearance", &p.top_clearance_mm))
}

/// The piston; its rod's length is decided with the drive.
pub fn size(d: &mut Decide, below: &Below) -> Piston {
    let design = d.design;
    let p = &design.piston;
    let bore = d.mm("piston.bore", &p.bore_mm);
    let (stroke, top_clearance_mm) = match below {
        Below::Rod(_) => line(d),
        Below::Yoke(_) => (p.stroke_mm.value, p.top_clearance_mm.value),
    };
    let mut seal = rings::size::size(d, bore);
    let (top_land, land) = lands(d, seal.groove_mm, below);
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
    let ringed = top_land + seal.count as f64 * (seal.groove_mm + land);
    let crown = crown(d, bore, ringed, below, &seal);
    let skirt_wall = d.rule(
        "piston.skirt_wall",
        round_near(bore / 25.0, 0.5).max(2.0),
        ("bore / 25, to the nearest 0.5 mm, at least 2 mm", "common practice, no source"),
        &["piston.bore"],
    );
    let boss = boss(d, below);
    let length = length(d, bore, [ringed, crown, boss[1]], &seal, below);
    let (inside, rod) = match below {
        Below::Rod(rod) => (seal.groove_diameter_mm - 2.0 * skirt_wall, *rod),
        // no groove below the crown
        Below::Yoke(y) => (diameter - 2.0 * skirt_wall, y.rod_mm),
    };
    let piston = Piston {
        bore_mm: bore,
        stroke_mm: stroke,
        diameter_mm: diameter,
        length_mm: length,
        crown_mm: crown,
        inside_mm: inside,
        top_land_mm: top_land,
        land_mm: land,
        seal,
        hot_play_mm: hot_play,
        top_clearance_mm,
        bottom_clearance_mm: 0.0,
        boss_mm: boss,
        rod_mm: rod,
        rod_length_mm: 0.0,
        material: p.material.value.to_string(),
    };
    check(d, &piston, ringed);
    piston
}

/// Thickness of the crown \[mm\]; above a yoke it carries all rings.
fn crown(d: &mut Decide, bore: f64, ringed: f64, below: &Below, seal: &rings::PistonRing) -> f64 {
    let design = d.design;
    let given = &design.piston.crown_mm;
    let common = "common practice, no source";
    let Below::Yoke(room) = below else {
        let formula = ("bore / 12, to the nearest 0.5 mm, at least 4 mm", common);
        return d.open_mm(
            "piston.crown",
            given,
            formula,
            &["piston.bore"],
            round_near(bore / 12.0, 0.5).max(4.0),
        );
    };
    let least = room.crown_mm.max(ringed);
    let formula = ("room for rod gland and bush, and for all rings, to the next 0.5 mm", common);
    let mut inputs = vec!["cooler.gland_diameter", "cooler.bush_length"];
    if seal.count > 0 {
        inputs.extend(["piston.top_land", "piston.groove_width"]);
    }
    let crown = d.open_mm("piston.crown", given, formula, &inputs, round_up(least, 0.5));
    if crown < least - 1e-9 {
        d.refuse(
            "swept::range",
            "piston.crown",
            format!("a crown of {crown} mm has no room for the rod's gland, its bush and the rings"),
            format!("{least:.2} mm or more"),
            "leave piston.crown out".into(),
        );
    }
    crown
}

/// Boss for the rod: diameter and height \[mm\]; none above a yoke.
fn boss(d: &mut Decide, below: &Below) -> [f64; 2] {
    let Below::Rod(rod) = below else { return [0.0, 0.0] };
    let height = 2.0 * rod_thread(*rod).major_mm + 2.0;
    d.rule("piston.boss_height", height, "2 rod threads + 2 mm", &["piston.rod_diameter"]);
    [rod + 6.0, height]
}

/// Length of the piston \[mm\] with room for its rings, crown and boss \[mm\].
fn length(
    d: &mut Decide,
    bore: f64,
    [ringed, crown, boss]: [f64; 3],
    seal: &rings::PistonRing,
    below: &Below,
) -> f64 {
    let design = d.design;
    let given = &design.piston.length_mm;
    let common = "common practice, no source";
    let mut inputs = vec!["piston.bore", "piston.crown"];
    if seal.count > 0 {
        inputs.extend(["piston.top_land", "piston.land", "piston.groove_width"]);
    }
    match below {
        Below::Rod(_) => {
            let guided = if seal.kind == PistonSeal::Fitted { bore } else { 0.5 * bore };
            let formula =
                "half the bore (all of it for a close fit), but room for rings and rod boss, to the next mm";
            inputs.push("piston.boss_height");
            let least = round_up(guided.max(ringed).max(crown + boss + 1.0), 1.0);
            d.open_mm("piston.length", given, (formula, common), &inputs, least)
        }
        Below::Yoke(room) => {
            let formula =
                "0.9 bore, for its skirt takes the side force, but over the yoke's bar, to the next mm";
            inputs.push("yoke.bar");
            let least = round_up((0.9 * bore).max(crown + room.bar_mm + 1.0), 1.0);
            d.open_mm("piston.length", given, (formula, common), &inputs, least)
        }
    }
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
    let inside = p.inside_mm;
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
