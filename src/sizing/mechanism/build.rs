//! Pieces of the drive of a sized engine, for the layouts to put together.
//!
//! What the engine does not decide (friction coefficients, tension of the belt) is a
//! [`Choices`], with defaults that are common practice.

use super::masses::{Masses, hung};
use super::model::{Guides, Journals, Line, Seals};
use super::{MechanismError, SliderCrank};
use crate::catalogue::bearings::BallBearing;
use crate::sizing::engine::Engine;
use crate::sizing::losses::ball_bearing::RollingBearing;
use crate::sizing::losses::gland::RodRing;
use crate::sizing::losses::ring::Rings;
use crate::sizing::volumes::circle_mm2;

/// Standard gravity \[m/s²\].
const GRAVITY: f64 = 9.806_65;
/// Share of a con rod that goes round with the crankpin: two thirds (common practice, from memory).
pub const BIG_END: f64 = 2.0 / 3.0;

/// What the builder chooses beyond the dimensions.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choices {
    /// Friction coefficient of PTFE piston rings.
    pub ring_friction: f64,
    /// Pressure of ring or expander on the wall, of engines whose rings are not sized here \[MPa\].
    pub ring_wall_mpa: f64,
    /// Friction coefficient of the rod's O-ring.
    pub gland_friction: f64,
    /// Friction coefficient of the bushes.
    pub bush_friction: f64,
    /// Friction coefficient of the piston on its bore, where the rings guide it.
    pub skirt_friction: f64,
    /// Tension of a belt strand for each millimetre of width \[N/mm\].
    pub strand_n_mm: f64,
    /// Drag at a pulley for each newton in both strands.
    pub belt_tooth_friction: f64,
}

impl Default for Choices {
    /// Rings of filled PTFE on a light expander, O-ring with a trace of grease, PTFE-lined bushes, belt tightened so
    /// far that it does not flap (common practice, no source; coefficients as given with each loss).
    fn default() -> Self {
        Self {
            ring_friction: 0.10,
            ring_wall_mpa: 0.02,
            gland_friction: 0.20,
            bush_friction: 0.15,
            skirt_friction: 0.12,
            strand_n_mm: 2.0,
            belt_tooth_friction: 0.01,
        }
    }
}

fn rolling(bearing: &BallBearing) -> RollingBearing {
    RollingBearing::shielded(bearing.bore_mm, bearing.outer_mm)
}

/// Journals of a crank with one con rod: bearings at both faces of the bracket, carrying `steady_kg`.
pub fn journals(e: &Engine, steady_kg: f64) -> Journals {
    let d = &e.drive;
    let half = 0.5 * d.journal_bearing.width_mm;
    Journals {
        bearing: rolling(&d.journal_bearing),
        overhang_mm: 0.5 * d.con_rod_thickness_mm + 2.0 * d.side_gap_mm + d.web_mm + half,
        span_mm: (d.bracket_mm - 2.0 * half).max(half),
        steady_n: GRAVITY * steady_kg,
        drag_counted: false,
    }
}

/// As [`journals`], with what hangs on the free end of the shaft behind a bracket whose rear face is at `rear_mm` along Y: an
/// overhang a over a span l loads both bearings together with (1 + 2 a / l) times the weight.
pub fn journals_with_wheel(e: &Engine, steady_kg: f64, rear_mm: f64) -> Journals {
    with_wheel(e, journals(e, steady_kg), rear_mm)
}

/// The same for journals that are known, the rear end of whose rear bearing is at `rear_mm` along Y.
pub fn with_wheel(e: &Engine, plain: Journals, rear_mm: f64) -> Journals {
    let wheel = hung(e);
    let overhang_mm = wheel.y_mm - (rear_mm - 0.5 * e.drive.journal_bearing.width_mm);
    let steady_n = plain.steady_n + GRAVITY * wheel.kg * (1.0 + 2.0 * overhang_mm.max(0.0) / plain.span_mm);
    Journals { steady_n, ..plain }
}

/// Rings of the piston; none on a close-fitting one.
pub fn rings(e: &Engine, choices: &Choices) -> Option<Rings> {
    e.piston.seal.friction(e.piston.bore_mm, choices.ring_friction, choices.gland_friction)
}

/// The rod's O-ring with its section from the designation's groove: twice the squeeze is what the groove lacks; none
/// where the bush alone seals.
pub fn gland(e: &Engine, choices: &Choices) -> Option<RodRing> {
    let oring = e.gland.oring.as_ref()?;
    Some(ring_around(e.displacer.rod_mm, e.gland.groove_mm[0], oring, choices))
}

/// An O-ring of this designation around a rod or shaft in its groove \[mm\].
pub fn ring_around(rod_mm: f64, groove_mm: f64, oring: &str, choices: &Choices) -> RodRing {
    let depth = 0.5 * (groove_mm - rod_mm);
    let section_mm = section_mm(oring, depth);
    RodRing {
        rod_mm,
        section_mm,
        squeeze: (1.0 - depth / section_mm).max(0.0),
        youngs_mpa: 5.5,
        friction: choices.gland_friction,
    }
}

/// Section of an O-ring: the trade section that a groove of this depth squeezes by 8 to 20 %.
fn section_mm(designation: &str, depth_mm: f64) -> f64 {
    let told = designation.rsplit(['x', ' ']).next().and_then(|s| s.trim().parse::<f64>().ok());
    let trade = [1.5, 1.78, 2.0, 2.5, 2.62, 3.0, 3.53];
    let wanted = depth_mm / 0.89;
    let nearest = trade.into_iter().min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()));
    told.or(nearest).unwrap_or(wanted)
}

/// Line of the piston.
///
/// # Errors
/// [`MechanismError`] where the con rod is too short to turn.
pub fn piston_line(
    e: &Engine,
    m: &Masses,
    guides: Guides,
    journals: Journals,
    choices: &Choices,
) -> Result<Line, MechanismError> {
    Ok(Line {
        pressed_mm2: circle_mm2(e.piston.bore_mm),
        slider_kg: m.piston_kg,
        seals: Seals { rings: rings(e, choices), gland: None },
        ..line(e, m, e.drive.piston.throw_mm, guides, journals)?
    })
}

/// Line of the displacer.
///
/// # Errors
/// [`MechanismError`] where the con rod is too short to turn.
pub fn displacer_line(
    e: &Engine,
    m: &Masses,
    guides: Guides,
    journals: Journals,
    choices: &Choices,
) -> Result<Line, MechanismError> {
    Ok(Line {
        pressed_mm2: circle_mm2(e.displacer.rod_mm),
        drop_mm2: circle_mm2(e.displacer.bore_mm),
        slider_kg: m.displacer_kg,
        seals: Seals { rings: None, gland: gland(e, choices) },
        ..line(e, m, e.drive.displacer.throw_mm, guides, journals)?
    })
}

/// One upright line; seals and areas differ.
fn line(
    e: &Engine,
    m: &Masses,
    throw_mm: f64,
    guides: Guides,
    journals: Journals,
) -> Result<Line, MechanismError> {
    let d = &e.drive;
    Ok(Line {
        crank: SliderCrank::new(throw_mm, d.con_rod_mm)?,
        pressed_mm2: 0.0,
        drop_mm2: 0.0,
        slider_kg: 0.0,
        abreast: 1.0,
        con_rod_kg: m.con_rod_kg,
        con_rod_big_end: BIG_END,
        gravity: 1.0,
        seals: Seals::default(),
        guides,
        small_end: rolling(&d.small_end_bearing),
        crankpin: rolling(&d.crankpin_bearing),
        journals,
    })
}
