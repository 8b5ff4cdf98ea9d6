//! Cranks, con rods, clevises, bracket and the belt that fixes the crank centres.

use super::super::super::decide::{Decide, round_up};
use super::super::super::dimension::Unit;
use super::super::super::engine::{Belt, Block, Clevis, Crank, Drive, RodEnd};
use super::displacer::rod_thread;
use crate::catalogue::bearings::{BallBearing, bearing, bearings};
use crate::catalogue::belts::{BeltSection, Groove, belt_lengths, belt_section, belt_sections};
use crate::catalogue::threads::thread;

/// Least overlap of the bores that holds a transfer port \[mm\].
const LEAST_OVERLAP_MM: f64 = 8.0;

/// The three bearings: journal, crankpin, small end.
fn three_bearings(d: &mut Decide) -> [&'static BallBearing; 3] {
    let design = d.design;
    let s = &design.drive;
    let mut one = |path: &str, setting: &crate::design::Setting<String>| {
        let found = d.look_up(path, bearing(&setting.value)).unwrap_or(&bearings()[0]);
        d.standard(path, found.bore_mm, "ISO 15", &format!("bore of {}", found.designation));
        found
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

/// Depth of a pulley's groove \[mm\].
fn groove_depth(section: &BeltSection) -> f64 {
    match section.groove {
        Groove::Curvilinear { depth_mm, .. } | Groove::Straight { depth_mm, .. } => depth_mm,
    }
}

/// A belt and pulley that fit: (teeth of a pulley, belt length, centres).
fn fitting_belt(
    section: &BeltSection,
    teeth: std::ops::RangeInclusive<usize>,
    low: f64,
    high: f64,
) -> Option<(usize, f64, f64)> {
    let fits = |z: usize| {
        belt_lengths(&section.name)
            .into_iter()
            .filter(|l| l.common())
            .map(move |l| l.pitch_length_mm)
            .map(move |l| (z, l, (l - z as f64 * section.pitch_mm) / 2.0))
            .filter(|(_, _, c)| (low..=high).contains(c))
            .min_by(|a, b| a.2.total_cmp(&b.2))
    };
    teeth.filter_map(fits).min_by(|a, b| (a.2 + 0.5 * a.0 as f64).total_cmp(&(b.2 + 0.5 * b.0 as f64)))
}

/// Belt, pulley and crank centres; `low`..`high` \[mm\] is the room for the centres.
fn belt(d: &mut Decide, low: f64, high: f64, journal: f64) -> (Belt, f64) {
    let design = d.design;
    let s = &design.drive;
    let name = s.belt_section.value.name().to_owned();
    let sec = d.look_up("drive.belt_section", belt_section(&name)).unwrap_or(&belt_sections()[0]);
    let least_root = journal + 9.0;
    let least_teeth = ((least_root + 2.0 * groove_depth(sec) + sec.two_a_mm) * std::f64::consts::PI
        / sec.pitch_mm)
        .ceil() as usize;
    let (low, high) = match &s.crank_centres_mm {
        Some(given) => {
            let c = d.mm("drive.crank_centres", given);
            (c - 0.15, c + 0.15)
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
    let found = fitting_belt(sec, teeth.clone(), low, high);
    let (z, length, centres) = found.unwrap_or_else(|| {
        refuse_belt(d, low, high, &name);
        (least_teeth, 0.0, low)
    });
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
    d.solved("drive.belt_length", length, target, 0.0, &inputs);
    if s.crank_centres_mm.is_none() {
        d.solved(
            "drive.crank_centres",
            centres,
            "(belt length - teeth x pitch) / 2",
            0.0,
            &["drive.belt_length", "drive.pulley_teeth"],
        );
    }
    let width = d.mm("drive.belt_width", &s.belt_width_mm);
    let outside = z as f64 * sec.pitch_mm / std::f64::consts::PI - sec.two_a_mm;
    let root = outside - 2.0 * groove_depth(sec);
    let set_screw =
        thread(if journal >= 8.0 { "M4" } else { "M3" }).unwrap_or_else(|_| unreachable!("in the catalogue"));
    let belt = Belt {
        section: name,
        pulley_teeth: z,
        length_mm: length,
        width_mm: width,
        face_mm: width + 1.0,
        hub_mm: [(root - 1.0).floor().max(journal + 7.0), 2.0 * set_screw.major_mm],
        flange_mm: [1.5, round_up(outside + 3.0, 0.5)],
        set_screw,
    };
    (belt, centres)
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
    d.refuse("swept::belt", path, message, "centres of (belt length - teeth x pitch) / 2".into(), hint);
}

/// The whole drive but the height of the crank axes, which the stack decides.
pub fn size(
    d: &mut Decide,
    bores: [f64; 2],
    strokes: [f64; 2],
    rod: f64,
    block: &Block,
    cap: f64,
) -> (Drive, Clevis) {
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
    let reach = throws[0] + throws[1] + 2.0 * big.max(web_r[0]) + 2.0;
    let low = least_centres(d, block, cap, reach, journal.outer_mm);
    let high = (bores[0] + bores[1]) / 2.0 - LEAST_OVERLAP_MM;
    let (belt, centres) = belt(d, low, high, journal.bore_mm);
    let bracket = d.rule(
        "drive.bracket_thickness",
        round_up(2.0 * journal.width_mm + 10.0, 1.0),
        ("two bearings + 10 mm", "common practice, no source"),
        &["drive.journal_bearing"],
    );
    let thread_of = rod_thread(rod);
    let crank = |throw_mm| Crank {
        throw_mm,
        rod_end: RodEnd { thread: thread_of, length_mm: 1.5 * thread_of.major_mm + 6.0 },
    };
    let drive = Drive {
        lead_deg: lead,
        displacer: crank(throws[0]),
        piston: crank(throws[1]),
        con_rod_mm: con_rod,
        con_rod_thickness_mm: thickness,
        eye_r_mm: [big, eye],
        crankpin_bearing: crankpin,
        small_end_bearing: small,
        journal_bearing: journal,
        web_mm: round_up(crankpin.bore_mm, 1.0).max(6.0),
        web_r_mm: web_r,
        side_gap_mm: 0.5,
        centres_mm: centres,
        bracket_mm: bracket,
        bracket_screw: thread("M5").unwrap_or_else(|_| unreachable!("in the catalogue")),
        crank_z_mm: 0.0,
        material: s.material.value.to_string(),
        belt,
    };
    (drive, clevis)
}
