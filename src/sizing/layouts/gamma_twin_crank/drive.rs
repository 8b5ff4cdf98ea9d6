//! Crank centres and the belt that fixes them.

use super::envelope::{PULLEY_GAP_MM, bracket_front_y_mm};
use super::lead::{self, LeadHub};
use super::tensioner::{self, SHORT_MM, SHORT_RANGE_MM, Tensioner};
use crate::catalogue::Catalogue;
use crate::catalogue::belts::{BeltLength, BeltSection, belt_section, belt_sections};
use crate::sizing::decide::{Decide, round_up};
use crate::sizing::dimension::Unit;
use crate::sizing::engine::{Belt, Block, Drive};
use crate::sizing::layouts::common::pulley;

/// Least overlap of the bores that holds a transfer port \[mm\].
const LEAST_OVERLAP_MM: f64 = 8.0;

/// Room between what swings and the base \[mm\].
const SWING_ROOM_MM: f64 = 3.0;

/// Least crank centres at which nothing meets \[mm\], in one rule.
fn least_centres(d: &mut Decide, block: &Block, cap: f64, reach: f64, bearing_outer: f64) -> f64 {
    let free = (block.half_mm + cap / 2.0 + 1.0).max(reach).max(bearing_outer + 4.0);
    d.rule(
        "drive.least_centres",
        free,
        "room beside the rod gland, for both cranks and for the bearing seats",
        &[
            "block.half_side",
            "cooler.gland_cap_diameter",
            "displacer.stroke",
            "piston.stroke",
            "drive.journal_bearing",
        ],
    )
}

/// A belt and pulley that fit with slack for the tensioner: (teeth of a pulley, belt, centres). What the user has goes before what is sold.
fn fitting_belt<'a>(
    book: &'a Catalogue,
    section: &'a BeltSection,
    teeth: std::ops::RangeInclusive<usize>,
    [low, high]: [f64; 2],
    journal: f64,
) -> Option<(usize, &'a BeltLength, f64)> {
    let fits = |z: usize, own: bool| {
        book.belts_of(&section.name)
            .filter(move |l| l.common() && l.from.is_own() == own)
            .map(move |l| (z, l, (l.pitch_length_mm - z as f64 * section.pitch_mm) / 2.0 - SHORT_MM))
            .filter(move |(z, _, c)| *c >= lead::least_centres_mm(section, *z, journal))
            .filter(|(_, _, c)| (low..=high).contains(c))
            .min_by(|a, b| a.2.total_cmp(&b.2))
    };
    let worth = |found: &(usize, &BeltLength, f64)| found.2 + 0.5 * found.0 as f64;
    let best = |own: bool| {
        let all = teeth.clone().filter_map(|z| fits(z, own));
        all.min_by(|a, b| worth(a).total_cmp(&worth(b)))
    };
    best(true).or_else(|| best(false))
}

/// What runs between both cranks.
pub struct BeltSide {
    /// Belt.
    pub belt: Belt,
    /// Hub of the displacer's pulley.
    pub lead: LeadHub,
    /// Tensioner.
    pub tensioner: Tensioner,
    /// Distance of the crank axes \[mm\].
    pub centres_mm: f64,
}

/// Belt, pulleys, hub of the lead, tensioner and crank centres; `low`..`high` \[mm\] is the room for the centres.
fn belt(d: &mut Decide, low: f64, high: f64, drive: &Drive) -> BeltSide {
    let (design, journal) = (d.design, drive.journal_bearing.bore_mm);
    let s = &design.drive;
    let name = s.belt_section.value.name().to_owned();
    let sec = d.look_up("drive.belt_section", belt_section(&name)).unwrap_or(&belt_sections()[0]);
    let least_teeth = pulley::least_teeth(sec, journal);
    let (low, high) = match &s.crank_centres_mm {
        Some(given) => {
            let c = d.mm("drive.crank_centres", given);
            let [least, most] = SHORT_RANGE_MM;
            (c + least - SHORT_MM, c + most - SHORT_MM)
        }
        None => (low, high),
    };
    let teeth = match &s.pulley_teeth {
        Some(given) => {
            let z = d.count("drive.pulley_teeth", given);
            z..=z
        }
        None => least_teeth..=least_teeth + 24,
    };
    let found = fitting_belt(&design.catalogue, sec, teeth, [low, high], journal);
    let own = found.filter(|(_, belt, _)| belt.from.is_own()).map(|(_, belt, _)| &belt.from);
    let (z, length, centres) = match found {
        Some((z, belt, centres)) => (z, belt.pitch_length_mm, centres),
        None => {
            refuse_belt(d, low, high, &name);
            (least_teeth, 0.0, low)
        }
    };
    if z < least_teeth {
        d.refuse(
            "swept::range",
            "drive.pulley_teeth",
            format!("{z} teeth leave too little metal around a journal of {journal} mm"),
            format!("{least_teeth} teeth or more"),
            format!("set drive.pulley_teeth = {least_teeth} or leave it out"),
        );
    }
    let target = "a stocked belt length at which nothing meets and the bores overlap";
    let inputs = ["drive.least_centres", "displacer.bore", "piston.bore"];
    if s.pulley_teeth.is_none() {
        d.rule_in(
            "drive.pulley_teeth",
            z as f64,
            Unit::Count,
            "fewest teeth with metal around the journal and a stocked belt",
            &["drive.journal_bearing"],
        );
    }
    match own {
        Some(from) => d.listed("drive.belt_length", length, from, &sec.standard, "length of the belt"),
        None => d.solved("drive.belt_length", length, target, 0.0, &inputs),
    };
    if s.crank_centres_mm.is_none() {
        d.solved(
            "drive.crank_centres",
            centres,
            "(belt length - teeth x pitch) / 2 - 0.5 mm for the tensioner",
            0.0,
            &["drive.belt_length", "drive.pulley_teeth"],
        );
    }
    let width = d.mm("drive.belt_width", &s.belt_width_mm);
    let belt = pulley::sizes(sec, z, width, journal);
    let belt = Belt { length_mm: length, ..belt };
    let lead = lead::size(d, sec, &belt, journal);
    let centres_mm = s.crank_centres_mm.as_ref().map_or(centres, |given| given.value);
    let gap = PULLEY_GAP_MM + belt.hub_mm[1] + belt.flange_mm[0];
    let tensioner = tensioner::size(d, sec, &belt, centres_mm, gap, &drive.small_end_bearing);
    BeltSide { belt, lead, tensioner, centres_mm }
}

/// Tells which bounds the belt search had.
fn refuse_belt(d: &mut Decide, low: f64, high: f64, name: &str) {
    let (path, hint) = match &d.design.drive.crank_centres_mm {
        Some(_) => (
            "drive.crank_centres",
            "leave drive.crank_centres out, so that a stocked belt decides it".to_owned(),
        ),
        None if low > high => (
            "piston.bore",
            "enlarge displacer.bore, or make jacket and walls of the block thinner".to_owned(),
        ),
        None => {
            ("drive.belt_section", "take the other belt section or leave drive.pulley_teeth out".to_owned())
        }
    };
    let message = if low > high {
        format!(
            "the axes must stand {low:.1} mm apart or more for the parts and {high:.1} mm or less for the transfer port"
        )
    } else {
        format!("no stocked {name} belt gives crank centres between {low:.1} and {high:.1} mm")
    };
    d.refuse(
        "swept::belt",
        path,
        message,
        "centres of (belt length - teeth x pitch) / 2, less 0.25 to 1.5 mm for the tensioner".into(),
        hint,
    );
}

/// What runs between both cranks; `cap` \[mm\] is the gland cap's diameter.
pub fn size(d: &mut Decide, bores: [f64; 2], block: &Block, cap: f64, drive: &Drive) -> BeltSide {
    let around = drive.eye_r_mm[0].max(drive.web_r_mm[0]);
    let reach = drive.displacer.throw_mm + drive.piston.throw_mm + 2.0 * around + 2.0;
    let low = least_centres(d, block, cap, reach, drive.journal_bearing.outer_mm);
    let high = (bores[0] + bores[1]) / 2.0 - LEAST_OVERLAP_MM;
    belt(d, low, high, drive)
}

/// Least x of the back plate, and where the bracket's screws stand beside each crank axis \[mm\].
pub fn over_bracket(d: &mut Decide, drive: &Drive) -> [f64; 2] {
    let x_low = d.rule(
        "back.x_low",
        -(drive.bracket_edge_mm + 4.0),
        ("4 mm beyond the bracket's edge", "common practice, no source"),
        &["drive.bracket_edge"],
    );
    let screw = d.rule(
        "drive.bracket_screw_place",
        1.8 * drive.bracket_screw.major_mm,
        (
            "1.8 screw diameters on either side of each crank axis: both heads and a key pass",
            "common practice, no source",
        ),
        &[],
    );
    [x_low, screw]
}

/// Metal left between the notch and the bracket's screws \[mm\]; common practice, no source.
const BESIDE_SCREW_MM: f64 = 3.0;

/// Notch in the bracket's upper edge where the nut of the stud between both cranks would stand in it: from, to and depth
/// \[mm\]; `None` where none is needed, or none has room between the bracket's screws.
pub fn notch(d: &mut Decide, drive: &Drive, block: &Block, centres: f64, screws: f64) -> Option<[f64; 3]> {
    let (front, washer) = (bracket_front_y_mm(drive), 0.5 * block.stud.washer_outer_mm);
    let rear = front + drive.bracket_mm;
    if block.stud_mm + washer + 0.5 < front || block.stud_mm - washer - 0.5 > rear {
        return None;
    }
    let middle = centres - block.stud_mm;
    // a spanner's head is some 2.4 screw diameters to both sides of the nut
    let wide = 2.4 * block.stud.major_mm;
    let beside = screws + 0.5 * drive.bracket_screw.major_mm + BESIDE_SCREW_MM;
    let from = (middle - wide).max(beside);
    let to = (middle + wide).min(centres - beside);
    if (middle - from).min(to - middle) < washer + 0.5 {
        // no room for it: the check of what can be reached says so
        return None;
    }
    let inputs = ["block.stud_place", "drive.crank_centres", "drive.bracket_screw_place"];
    let common = "common practice, no source";
    d.rule(
        "drive.bracket_notch",
        to - from,
        ("room for the nut of a stud and its spanner, 3 mm beside the bracket's screws", common),
        &inputs,
    );
    let deep = d.rule(
        "drive.bracket_notch_depth",
        round_up(3.5 * block.stud.major_mm, 0.5),
        ("3.5 stud diameters, to the next 0.5 mm: nut and spanner", common),
        &["joints.power_screw"],
    );
    Some([from, to, deep])
}

/// How far the bracket reaches below the crank axes \[mm\]: to the base, over which cranks and con rods swing.
pub fn bracket_low(d: &mut Decide, drive: &Drive, lead: &LeadHub) -> f64 {
    let longest = drive.displacer.throw_mm.max(drive.piston.throw_mm);
    let swing = (longest + drive.web_r_mm[1].max(drive.eye_r_mm[0])).max(0.5 * lead.pulley_flange_mm[0]);
    d.rule(
        "drive.bracket_low",
        round_up((swing + SWING_ROOM_MM).max(drive.bracket_edge_mm), 1.0),
        (
            "cranks, con rods and the displacer's pulley turn over the base with 3 mm of room, to the next mm",
            "common practice, no source",
        ),
        &[
            "drive.displacer_throw",
            "drive.piston_throw",
            "drive.crankpin_bearing",
            "drive.bracket_edge",
            "lead.pulley_flange_diameter",
        ],
    )
}
