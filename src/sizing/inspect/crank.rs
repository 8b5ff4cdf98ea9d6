//! Crankpin, web, journal and con rod under the forces of the turn.

use super::case::{Case, LineTurn, most_of};
use super::metal::{TO_AND_FRO, alternating_pa, cracking_pa, yield_pa, youngs_pa};
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit;
use crate::sizing::layouts;
use crate::sizing::mechanism::LineForces;
use crate::sizing::strength::buckling::Column;
use crate::sizing::strength::web::Web;
use crate::sizing::strength::{MPA, pin};

/// Buckling load over the greatest push: wanted and least (common practice, no source).
const BUCKLING: [f64; 2] = [4.0, 2.5];

/// All checks of the cranks.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let lines = case.lines();
    let (Some(m), false) = (&case.mechanism, lines.is_empty()) else { return Vec::new() };
    let (e, d) = (case.engine, &case.engine.drive);
    let allowed = alternating_pa(case.book(), &d.material, case.cold_c);
    let cracks = cracking_pa(case.book(), &d.material, case.cold_c);
    let cranks = ["displacer-crank", "piston-crank"];
    let stress = |name: &str, what: &str, value: f64, path: &str, parts: &[&str]| {
        Check::at_most(name, what, value, Unit::Pascal, allowed, cracks)
            .source(&format!("beam theory, Shigley ch. 3; {TO_AND_FRO}"))
            .at(path)
            .of(parts)
    };
    let to_web = d.side_gap_mm + 0.5 * d.con_rod_thickness_mm;
    let pin_d = d.crankpin_bearing.bore_mm;
    let apart = layouts::same_pin_mm(e);
    let pin = on_cranks(apart.is_some(), &lines, [to_web, to_web + apart.unwrap_or(0.0)]);
    let crankpin =
        pin.iter().map(|p| pin::equivalent_pa(p.force_n, p.moment_nmm, 0.0, pin_d)).fold(0.0, f64::max);
    let crankpin = crankpin / left_by_hole(case.pin_hole_mm() / pin_d);
    let web = |p: &OnCrank| Web {
        width_mm: 2.0 * d.web_r_mm[0].min(d.web_r_mm[1]),
        thickness_mm: d.web_mm,
        arm_mm: d.piston.throw_mm.max(d.displacer.throw_mm),
        overhang_mm: p.moment_nmm / p.force_n.max(1e-9) + 0.5 * d.web_mm,
    };
    let web = pin.iter().map(|p| web(p).stress_pa(p.force_n)).fold(0.0, f64::max);
    let bore = d.journal_bearing.bore_mm;
    let to_journal = [m.piston.journals.overhang_mm, m.displacer.journals.overhang_mm];
    let shaft = on_cranks(apart.is_some(), &lines, to_journal);
    let journal = shaft.iter().map(|p| pin::equivalent_pa(p.force_n, p.moment_nmm, p.torque_nmm, bore));
    let journal = journal.fold(0.0, f64::max);
    let (push, eye) = (most_of(&lines, |f| f.con_rod_n), eye_pa(case, most_of(&lines, |f| f.con_rod_n)));
    let clevis = &e.clevis;
    let leg = 0.5 * (clevis.size_mm[1] - clevis.slot_mm);
    let bent = pin::between_legs_nmm(push, clevis.slot_mm, leg, d.small_end_bearing.width_mm);
    let pin_allowed = alternating_pa(case.book(), "silver-steel", case.cold_c);
    vec![
        stress(
            "crankpin-bending",
            "bending of the overhung crankpin",
            crankpin,
            "drive.crankpin_bearing",
            &cranks,
        )
        .hint("a drive.crankpin_bearing with a larger bore"),
        stress(
            "crank-web-bending",
            "bending, pull and twist of the crank web",
            web,
            "drive.crankpin_bearing",
            &cranks,
        )
        .hint("larger crank bearings make a stouter web"),
        stress(
            "journal-bending",
            "bending and twist of the journal at its first bearing",
            journal,
            "drive.journal_bearing",
            &cranks,
        )
        .hint("a drive.journal_bearing with a larger bore"),
        stress(
            "con-rod-eye",
            "pull in the con rod beside its bearings",
            eye,
            "drive.big_eye_radius",
            &["con-rod"],
        )
        .hint("smaller bearings in the same eye, or a thicker rod"),
        buckling(
            "con-rod-buckling",
            "load that buckles the con rod over the greatest push",
            con_rod_n(case) / push.max(1e-9),
        )
        .at("drive.con_rod_length")
        .of(&["con-rod"]),
        Check::at_most(
            "clevis-pin-bending",
            "bending of the clevis pin between its legs",
            pin::equivalent_pa(0.5 * push, bent, 0.0, clevis.pin_mm),
            Unit::Pascal,
            pin_allowed,
            cracking_pa(case.book(), "silver-steel", case.cold_c),
        )
        .source(&format!("beam theory, Shigley ch. 3; {TO_AND_FRO}"))
        .at("drive.small_end_bearing")
        .of(&["clevis"])
        .hint("a drive.small_end_bearing with a larger bore"),
    ]
}

/// What acts on one crank at one angle.
struct OnCrank {
    force_n: f64,
    moment_nmm: f64,
    torque_nmm: f64,
}

/// Force on each crank over the turn and its moment about a place so far from the piston's and the displacer's con rod
/// \[mm\]. Where both share a pin their loads are added as if they pulled the same way, to the safe side.
fn on_cranks(same_pin: bool, lines: &[LineTurn<'_>], arms_mm: [f64; 2]) -> Vec<OnCrank> {
    let one = |f: &LineForces, share: f64, arm: f64| OnCrank {
        force_n: f.crankpin_n.abs() / share,
        moment_nmm: f.crankpin_n.abs() / share * arm,
        torque_nmm: f.crank_nmm,
    };
    let each =
        |(l, arm): (&LineTurn<'_>, f64)| l.forces.iter().map(|f| one(f, l.abreast, arm)).collect::<Vec<_>>();
    let mut all: Vec<Vec<OnCrank>> = lines.iter().zip(arms_mm).map(each).collect();
    if same_pin && all.len() == 2 {
        let far = all.remove(1);
        for (near, far) in all[0].iter_mut().zip(far) {
            near.force_n += far.force_n;
            near.moment_nmm += far.moment_nmm;
            near.torque_nmm += far.torque_nmm;
        }
    }
    all.into_iter().flatten().collect()
}

/// A check of buckling.
pub fn buckling(name: &str, what: &str, safety: f64) -> Check {
    Check::at_least(name, what, safety.min(1e4), Unit::Ratio, BUCKLING[0], BUCKLING[1])
        .source("Euler and Johnson, Shigley 4-12, 4-13; factors common practice, no source")
        .hint("a stouter rod, or a shorter one")
}

/// Share of the section modulus that a hole along the axis leaves, by its share of the diameter.
fn left_by_hole(share: f64) -> f64 {
    1.0 - share.powi(4)
}

/// Push that buckles the con rod, in its plane or across it \[N\]; its bearings let it turn in both.
fn con_rod_n(case: &Case<'_>) -> f64 {
    let d = &case.engine.drive;
    let (stiff, gives) =
        (youngs_pa(case.book(), &d.material, case.cold_c), yield_pa(case.book(), &d.material, case.cold_c));
    let (wide, thick) = (2.0 * d.eye_r_mm[0].min(d.eye_r_mm[1]), d.con_rod_thickness_mm);
    let bar = |width: f64, depth: f64| Column::bar(width, depth, d.con_rod_mm, stiff, gives).critical_n();
    bar(wide, thick).min(bar(thick, wide))
}

/// Stress beside a bearing seat \[Pa\]: the force on both sides of the hole, three times over for the curved beam (common
/// practice, no source).
fn eye_pa(case: &Case<'_>, force_n: f64) -> f64 {
    let d = &case.engine.drive;
    let beside = |eye: f64, outer: f64| eye - outer / 2.0;
    let wall = beside(d.eye_r_mm[0], d.crankpin_bearing.outer_mm)
        .min(beside(d.eye_r_mm[1], d.small_end_bearing.outer_mm));
    3.0 * force_n / (2.0 * wall * d.con_rod_thickness_mm) * MPA
}

impl Case<'_> {
    /// Drill of the thread in the crankpin's end \[mm\].
    fn pin_hole_mm(&self) -> f64 {
        crate::catalogue::threads::thread("M3").map_or(2.5, |t| t.tap_drill_mm)
    }
}
