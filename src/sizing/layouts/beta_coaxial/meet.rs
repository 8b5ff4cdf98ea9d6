//! How displacer and piston move against each other in their common cylinder line.

use crate::sizing::engine::{Drive, Engine};
use crate::sizing::mechanism::{MechanismError, Motion, SliderCrank};
use crate::sizing::turn::{greatest, least};

/// Displacement of the piston less that of the displacer, each from its top dead centre: least and greatest over the
/// turn \[mm\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meet {
    /// Displacer and piston nearest to each other.
    pub nearest_mm: f64,
    /// Farthest apart.
    pub farthest_mm: f64,
}

impl Meet {
    /// Of a drive with its lead.
    ///
    /// # Errors
    /// When a con rod is too short to turn.
    pub fn of(drive: &Drive) -> Result<Self, MechanismError> {
        let motion = |throw: f64| SliderCrank::new(throw, drive.con_rod_mm).map(Motion::SliderCrank);
        let (displacer, piston) = (motion(drive.displacer.throw_mm)?, motion(drive.piston.throw_mm)?);
        let lead = drive.lead_deg.to_radians();
        let apart = |a: f64| piston.displacement_mm(a - lead) - displacer.displacement_mm(a);
        let slope = |a: f64| piston.slope_mm(a - lead) - displacer.slope_mm(a);
        Ok(Self { nearest_mm: least(apart, slope), farthest_mm: greatest(apart, slope) })
    }
}

/// How high the piston's crown rises above the lower plane of the displacer's cylinder \[mm\] when displacer and piston
/// pass each other with their clearance.
pub fn crown_rise_mm(cold_clearance: f64, displacer_stroke: f64, meet: &Meet, clearance: f64) -> f64 {
    cold_clearance + displacer_stroke + meet.nearest_mm - clearance
}

/// The same of a sized engine, whatever was changed of it.
///
/// # Errors
/// When a con rod is too short to turn.
pub fn crown_mm(e: &Engine) -> Result<f64, MechanismError> {
    let (d, meet) = (&e.displacer, Meet::of(&e.drive)?);
    Ok(crown_rise_mm(d.cold_clearance_mm, d.stroke_mm, &meet, e.piston.top_clearance_mm))
}
