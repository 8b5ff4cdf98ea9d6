//! Layouts: how cylinders, cranks and gas spaces are arranged. One folder for each, and what they share.
//!
//! This file is the only one in sizing that asks which layout an engine has; all others call it.

pub mod beta_coaxial;
pub mod common;
pub mod gamma_flat;
pub mod gamma_right_angle;
pub mod gamma_twin_crank;

use super::check::Check;
use super::clearance::piece::{Pair, Piece};
use super::cycle::path::GasPath;
use super::engine::{Arranged, Block, Engine};
use super::inspect::case::Case;
use super::ledger::Ledger;
use super::mechanism::{Choices, Mechanism, MechanismError};
use super::regenerator::Annulus;
use super::volumes::{VolumeLaw, circle_mm2};
use crate::design::{Design, Layout};
use crate::diagnostic::Diagnostic;
use common::balance;
use common::channels::Channels;
pub use common::path::Conditions;

/// Decides every dimension of the engine by its layout.
///
/// # Errors
/// All rules that the design breaks.
pub fn size(design: &Design) -> Result<Engine, Vec<Diagnostic>> {
    attempt(design).map_err(|refused| refused.problems)
}

/// An engine that cannot be.
#[derive(Clone, Debug)]
pub struct Refused {
    /// All rules that the design breaks.
    pub problems: Vec<Diagnostic>,
    /// What was decided all the same, so that one can tell how far off it is.
    pub ledger: Ledger,
}

/// As [`size`], for a caller who needs to know how far a design is from one that can be.
///
/// # Errors
/// [`Refused`].
pub fn attempt(design: &Design) -> Result<Engine, Refused> {
    let engine = match design.engine.layout.value {
        Layout::GammaTwinCrank => gamma_twin_crank::size(design),
        Layout::GammaRightAngle => gamma_right_angle::size(design),
        Layout::GammaFlat => gamma_flat::size(design),
        Layout::BetaCoaxial => beta_coaxial::size(design),
    }?;
    balance::decide(design, engine)
}

/// Where the water goes.
#[derive(Clone, Copy, Debug)]
pub enum WaterSide<'a> {
    /// Around the bore of the power cylinder's block.
    Block(&'a Block),
    /// Around the gas holes of the cooler; the power cylinder hangs dry below it.
    Cooler {
        /// Diameter of the wall that the gas warms, and the jacket's depth \[mm\].
        wall_mm: [f64; 2],
        /// Inner and outer radius of the jacket \[mm\].
        jacket_r_mm: [f64; 2],
        /// Outside diameter and length of the power cylinder \[mm\].
        cylinder_mm: [f64; 2],
    },
}

/// Where the water goes.
pub fn water_side(e: &Engine) -> WaterSide<'_> {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => WaterSide::Block(&own.block),
        Arranged::GammaRightAngle(own) => WaterSide::Block(&own.block),
        Arranged::GammaFlat(own) => WaterSide::Block(&own.block),
        Arranged::BetaCoaxial(own) => WaterSide::Cooler {
            wall_mm: [own.cooler.holes.2, own.cooler.jacket_depth_mm],
            jacket_r_mm: own.cooler.jacket_r_mm,
            cylinder_mm: [own.cylinder.outer_mm, -own.cylinder.low_z_mm],
        },
    }
}

/// Standing walls between hot and cold.
#[derive(Clone, Debug, PartialEq)]
pub struct HotWalls<'a> {
    /// Length of the hot cap's side that the hot gas bathes \[mm\].
    pub heated_mm: f64,
    /// Side of the hot cap down to its flange: middle diameter, wall, length \[mm\].
    pub cap_mm: [f64; 3],
    /// Bore of the joint below it \[mm\].
    pub joint_bore_mm: f64,
    /// A liner inside it: middle diameter, wall, length \[mm\].
    pub liner_mm: Option<[f64; 3]>,
    /// A standing matrix.
    pub matrix: Option<&'a Annulus>,
}

/// Room inside the hot cap \[mm³\].
pub fn hot_cap_mm3(e: &Engine) -> f64 {
    let cap = &e.hot_cap;
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) => {
            circle_mm2(cap.bore_mm) * cap.depth_mm
        }
        Arranged::BetaCoaxial(own) => {
            let [low, deep] = own.head.low_bore_mm;
            circle_mm2(cap.bore_mm) * own.head.heater_mm + circle_mm2(low) * deep
        }
    }
}

/// Standing walls between hot and cold.
pub fn hot_walls(e: &Engine) -> HotWalls<'_> {
    let cap = &e.hot_cap;
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) => {
            let bathed = e.displacer.stroke_mm + e.displacer.hot_clearance_mm;
            HotWalls {
                heated_mm: bathed.min(cap.depth_mm),
                cap_mm: [
                    cap.bore_mm + cap.wall_mm,
                    cap.wall_mm,
                    (cap.depth_mm - bathed).max(0.1 * cap.depth_mm),
                ],
                joint_bore_mm: cap.bore_mm,
                liner_mm: None,
                matrix: None,
            }
        }
        Arranged::BetaCoaxial(own) => {
            let (head, [bore, length]) = (&own.head, own.head.low_bore_mm);
            HotWalls {
                heated_mm: head.heater_mm,
                cap_mm: [bore + cap.wall_mm, cap.wall_mm, length],
                joint_bore_mm: bore,
                liner_mm: Some([head.liner_mm - head.liner_wall_mm, head.liner_wall_mm, length]),
                matrix: Some(&head.regenerator),
            }
        }
    }
}

/// What hangs below the piston beside a rod with its clevis \[kg\].
pub fn below_piston_kg(e: &Engine) -> Option<f64> {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) => None,
        Arranged::BetaCoaxial(own) => Some(beta_coaxial::mechanism::yoke_kg(e, &own.yoke)),
    }
}

/// What must be said of an engine that holds pressure.
pub const HELD: &str = "it holds pressure, and in many places that makes it pressure equipment in law: have it checked under your local code by licensed practice before it is filled, test with water and not with air, fit a relief valve and a gauge, no oil where the gas is air";

/// Whether the space behind the piston is closed and holds pressure.
pub fn holds_pressure(e: &Engine) -> bool {
    matches!(e.arranged, Arranged::BetaCoaxial(_))
}

/// Heat for each kelvin through what holds the block, where it does not stand on the cooler plate itself \[W/K\].
pub fn frame_w_k(e: &Engine) -> Option<f64> {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => None,
        Arranged::GammaRightAngle(own) => Some(gamma_right_angle::frame::bracket_w_k(e, own)),
    }
}

/// Water channels through the cooler plate, where it has any.
pub fn plate_channels(e: &Engine) -> Option<&Channels> {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => own.channels.as_ref(),
        Arranged::GammaRightAngle(own) => own.channels.as_ref(),
        Arranged::GammaFlat(own) => own.channels.as_ref(),
        Arranged::BetaCoaxial(_) => None,
    }
}

/// Volume of the passage between the cylinders, or of the cooler's passages \[mm³\].
pub fn port_mm3(e: &Engine) -> f64 {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => common::port::volume_mm3(&own.cooler),
        Arranged::GammaRightAngle(own) => gamma_right_angle::passage::volume_mm3(own),
        Arranged::GammaFlat(own) => common::port::volume_mm3(&own.cooler),
        Arranged::BetaCoaxial(own) => beta_coaxial::path::cooler_mm3(e, &own.cooler),
    }
}

/// Estimated height, width and depth over all \[mm\].
pub fn sides_mm(e: &Engine) -> [f64; 3] {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::envelope::sides_mm(e, own),
        Arranged::GammaRightAngle(own) => gamma_right_angle::frame::sides_mm(e, own),
        Arranged::GammaFlat(own) => gamma_flat::frame::sides_mm(e, own),
        Arranged::BetaCoaxial(own) => beta_coaxial::sides_mm(e, own),
    }
}

/// The volumes over the turn.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn volume_law(e: &Engine) -> Result<VolumeLaw, MechanismError> {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) => {
            common::spaces::gamma_law(e, port_mm3(e))
        }
        Arranged::BetaCoaxial(own) => beta_coaxial::path::law(e, own),
    }
}

/// The gas path, for the full model of the cycle.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn gas_path(e: &Engine, run: Conditions) -> Result<GasPath, MechanismError> {
    let (law, cold_k) = (volume_law(e)?, e.cold.temperature_k);
    let port = match &e.arranged {
        Arranged::GammaTwinCrank(own) => vec![common::port::exchanger(&own.cooler, cold_k)],
        Arranged::GammaRightAngle(own) => vec![gamma_right_angle::passage::exchanger(own, cold_k)],
        Arranged::GammaFlat(own) => vec![common::port::exchanger(&own.cooler, cold_k)],
        Arranged::BetaCoaxial(own) => return beta_coaxial::path::gas_path(e, own, run),
    };
    Ok(common::path::gamma_path(e, &law, port, run))
}

/// Keys that cannot be sought, since the layout ties them to others.
pub fn tied(layout: Layout) -> &'static [&'static str] {
    match layout {
        Layout::GammaTwinCrank | Layout::GammaFlat | Layout::BetaCoaxial => &[],
        Layout::GammaRightAngle => &["drive.lead", "displacer.stroke", "piston.stroke"],
    }
}

/// Whether one crankpin moves piston and displacer, so that lead and strokes cannot be chosen apart.
pub fn one_crankpin(e: &Engine) -> bool {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => false,
        Arranged::GammaRightAngle(_) => true,
    }
}

/// The drive, for forces and friction.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn mechanism(e: &Engine, choices: &Choices) -> Result<Mechanism, MechanismError> {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::mechanism::mechanism(e, own, choices),
        Arranged::GammaRightAngle(own) => gamma_right_angle::mechanism::mechanism(e, own, choices),
        Arranged::GammaFlat(own) => gamma_flat::mechanism::mechanism(e, own, choices),
        Arranged::BetaCoaxial(own) => beta_coaxial::mechanism::mechanism(e, own, choices),
    }
}

/// Metal of what stands between crank and cylinders.
pub fn frame_material(e: &Engine) -> &str {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => &own.block.material,
        Arranged::GammaRightAngle(own) => &own.block.material,
        Arranged::GammaFlat(own) => &own.block.material,
        Arranged::BetaCoaxial(own) => &own.case.material,
    }
}

/// How much farther from the web the displacer's con rod stands than the piston's, where both share a crankpin \[mm\].
pub fn same_pin_mm(e: &Engine) -> Option<f64> {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) | Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => None,
        Arranged::GammaRightAngle(own) => Some(own.places.piston_y_mm),
    }
}

/// Whether both lines load the bearings of one shaft.
pub fn one_shaft(e: &Engine) -> bool {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) => false,
        Arranged::GammaRightAngle(_) | Arranged::GammaFlat(_) | Arranged::BetaCoaxial(_) => true,
    }
}

/// What moves and what it could meet, at a crank angle counted from the displacer's top dead centre \[deg\].
pub fn pieces(e: &Engine, angle_deg: f64) -> Vec<Piece> {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::moving::pieces(e, own, angle_deg),
        Arranged::GammaRightAngle(own) => gamma_right_angle::moving::pieces(e, own, angle_deg),
        Arranged::GammaFlat(own) => gamma_flat::moving::pieces(e, own, angle_deg),
        Arranged::BetaCoaxial(own) => beta_coaxial::moving::pieces(e, own, angle_deg),
    }
}

/// The engine with every length grown to its running temperature.
pub fn warm(e: &Engine) -> Engine {
    match &e.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::moving::warm(e, own),
        Arranged::GammaRightAngle(own) => gamma_right_angle::moving::warm(e, own),
        Arranged::GammaFlat(own) => gamma_flat::moving::warm(e, own),
        Arranged::BetaCoaxial(own) => beta_coaxial::moving::warm(e, own),
    }
}

/// Pairs of them that pass each other, with the clearance wanted.
pub fn pairs(e: &Engine) -> Vec<Pair> {
    match &e.arranged {
        Arranged::GammaTwinCrank(_) => gamma_twin_crank::moving::pairs(e),
        Arranged::GammaRightAngle(_) => gamma_right_angle::moving::pairs(e),
        Arranged::GammaFlat(_) => gamma_flat::moving::pairs(e),
        Arranged::BetaCoaxial(_) => beta_coaxial::moving::pairs(e),
    }
}

/// Checks that only this layout has.
pub fn checks(case: &Case<'_>) -> Vec<Check> {
    match &case.engine.arranged {
        Arranged::GammaTwinCrank(own) => gamma_twin_crank::checks::checks(case, own),
        Arranged::GammaRightAngle(own) => gamma_right_angle::checks::checks(case, own),
        Arranged::GammaFlat(own) => gamma_flat::checks::checks(case, own),
        Arranged::BetaCoaxial(own) => beta_coaxial::checks::checks(case, own),
    }
}
