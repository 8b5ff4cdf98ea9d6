//! Running clearances hot and cold: displacer against its ends and its wall, ring gap, piston in its bore.
//!
//! Temperatures are those of the layout's running engine. The gap of a plain bush lets the displacer lean.

use super::case::Case;
use crate::catalogue::bushes::Bush;
use crate::catalogue::fits::limits;
use crate::design::PistonSeal;
use crate::sizing::check::Check;
use crate::sizing::dimension::Unit::Millimetre;
use crate::sizing::rings::closed_gap::MARGIN_MM;

/// Way left at an end, wanted and least \[mm\] (common practice, no source).
const END_MM: [f64; 2] = [0.5, 0.2];
/// Way left at the wall, wanted and least \[mm\] (common practice, no source).
const WALL_MM: [f64; 2] = [0.15, 0.05];
/// Way left beside a piston with rings, and beside one without, wanted and least \[mm on the radius\] (common practice, no
/// source).
const FREE_MM: [f64; 2] = [0.03, 0.01];
const FILM_MM: [f64; 2] = [0.007, 0.003];
/// Source of all growth.
const GROWTH: &str =
    "growth by heat, expansion of the catalogue's materials; clearance common practice, no source";

/// All checks of clearances by heat that every layout has.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    let mut all = displacer_ends(case);
    all.push(displacer_wall(case));
    all.extend(ring_gap(case));
    all.push(piston_wall(case));
    all
}

fn end(name: &str, what: &str, mm: f64, path: &str, parts: &[&str]) -> Check {
    Check::at_least(name, what, mm, Millimetre, END_MM[0], END_MM[1])
        .source(GROWTH)
        .at(path)
        .of(parts)
        .hint("enlarge the clearance")
}

/// Displacer shell, with its name.
fn shell_name(case: &Case<'_>) -> &'static str {
    if case.engine.displacer.bought_can { "displacer-can" } else { "displacer-shell" }
}

fn displacer_ends(case: &Case<'_>) -> Vec<Check> {
    let (w, d) = (&case.warm(), &case.engine.displacer);
    let lift = w.lift_mm(-case.engine.drive.crank_z_mm);
    let running = d.hot_clearance_mm + w.cylinder_mm(case.hot_c) - w.shell_mm() - lift;
    // the flame is out: the cap has lost its heat to the air, the shell inside has not
    let cooling = d.hot_clearance_mm + w.cylinder_mm(case.cold_c) - w.shell_mm() - lift;
    let parts = [shell_name(case), "hot-cap"];
    let path = "displacer.hot_clearance";
    vec![
        end("displacer-hot-end", "displacer to hot cap at the top of the stroke, hot", running, path, &parts),
        end(
            "displacer-hot-end-cooling",
            "the same when the cap has cooled and the shell has not",
            cooling,
            path,
            &parts,
        ),
        end("displacer-hot-end-cold", "the same, cold", d.hot_clearance_mm, path, &parts),
        end(
            "displacer-cold-end",
            "displacer to cooler plate at the bottom of the stroke, hot or cold",
            (d.cold_clearance_mm + lift).min(d.cold_clearance_mm),
            "displacer.cold_clearance",
            &["displacer-base", "cooler-plate"],
        ),
    ]
}

/// Greatest running play of a rod in its wrapped bush \[mm on the diameter\]: widest housing, thinnest wall, smallest rod.
pub fn bush_play_mm(bush: &Bush) -> f64 {
    let housing = limits(bush.housing_mm, &bush.housing_fit).map_or(0.0, |l| l.upper_mm);
    let rod = limits(bush.shaft_mm, "h6").map_or(0.0, |l| l.lower_mm);
    bush.housing_mm + housing - 2.0 * bush.wall_min_mm - bush.shaft_mm - rod
}

/// How far the top of the displacer can lean aside by the play of its two bushes \[mm\].
fn lean_mm(case: &Case<'_>) -> f64 {
    let Some(m) = &case.mechanism else { return 0.0 };
    let d = &case.engine.displacer;
    let (play, span) = (bush_play_mm(&case.engine.gland.bush), m.displacer.guides.span_mm);
    let above = d.cold_clearance_mm + d.stroke_mm + d.length_mm + 0.5 * case.engine.gland.bush_length_mm;
    play * (0.5 + above / span)
}

/// Least gap at the wall, hot, leaning.
fn displacer_wall(case: &Case<'_>) -> Check {
    let left = case.warm().gap_mm() - lean_mm(case);
    let what = "displacer to its wall, hot, leaning by the play of its bushes";
    Check::at_least("displacer-wall", what, left, Millimetre, WALL_MM[0], WALL_MM[1])
        .source(GROWTH)
        .at("displacer.gap")
        .of(&[shell_name(case), "hot-cap", "cold-cylinder"])
        .hint("a wider displacer.gap, or bushes farther apart")
}

/// Gap of a split ring when ring and bore are warm: it must never close.
fn ring_gap(case: &Case<'_>) -> Option<Check> {
    let ring = &case.engine.piston.seal;
    let check = Check::at_least(
        "ring-gap-hot",
        "gap of the piston ring when it is warm",
        ring.gap_hot_mm,
        Millimetre,
        MARGIN_MM,
        0.2 * MARGIN_MM,
    )
    .source("growth by heat; 0.05 mm common practice, no source")
    .at("piston.ring_gap")
    .of(&["piston-ring"])
    .hint("leave piston.ring_gap out, or make it wider");
    (ring.gaps > 0).then_some(check)
}

/// Piston in its bore when both are warm; a close-fitting one has only its film of gas.
fn piston_wall(case: &Case<'_>) -> Check {
    let p = &case.engine.piston;
    let [wanted, least] = if p.seal.kind == PistonSeal::Fitted { FILM_MM } else { FREE_MM };
    let what = "piston to its bore, on the radius, when both are warm";
    Check::at_least("piston-wall", what, 0.5 * p.hot_play_mm, Millimetre, wanted, least)
        .source(GROWTH)
        .at("piston.side_clearance")
        .of(&["piston"])
        .hint("leave piston.side_clearance out, or make it wider")
}

/// Piston at both ends of its stroke; `frame_mm` is the way between crank axis and cylinder head along its axis.
pub fn piston_ends(case: &Case<'_>, frame_mm: f64, head: &str, back: &str) -> Vec<Check> {
    let p = &case.engine.piston;
    let lift = case.warm().lift_mm(frame_mm);
    vec![
        end(
            "piston-head",
            "piston to the head at the top of the stroke, hot or cold",
            (p.top_clearance_mm - lift).min(p.top_clearance_mm),
            "piston.top_clearance",
            &["piston", head],
        ),
        end(
            "piston-back",
            "piston to the back plate at the bottom of the stroke, hot or cold",
            (p.bottom_clearance_mm + lift).min(p.bottom_clearance_mm),
            "piston.bottom_clearance",
            &["piston", back],
        ),
    ]
}
