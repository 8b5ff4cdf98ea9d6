//! Pistons and displacers, and how they enclose the gas.

use crate::sizing::mechanism::Motion;
use std::f64::consts::PI;

const M3_PER_MM3: f64 = 1e-9;

/// Area of a circle \[mm²\] from its diameter \[mm\].
pub fn circle_mm2(diameter_mm: f64) -> f64 {
    0.25 * PI * diameter_mm * diameter_mm
}

/// A piston with the space above it; top dead centre is where the space is least.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piston {
    /// Motion.
    pub motion: Motion,
    /// Area of its crown \[mm²\].
    pub area_mm2: f64,
    /// Volume left at top dead centre \[m³\].
    pub clearance_m3: f64,
}

/// A displacer; top dead centre is its hot end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Displacer {
    /// Motion.
    pub motion: Motion,
    /// Area of the hot face \[mm²\].
    pub hot_area_mm2: f64,
    /// Area of the cold face without the rod \[mm²\].
    pub cold_area_mm2: f64,
    /// Hot volume left at top dead centre \[m³\].
    pub hot_clearance_m3: f64,
    /// Cold volume left at bottom dead centre \[m³\].
    pub cold_clearance_m3: f64,
}

/// By how much the strokes of displacer and piston overlap in one cylinder (beta).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Overlap {
    /// So far that without clearance the two would just touch once a turn.
    Touching,
    /// By this volume \[m³\].
    Volume(f64),
}

/// Which moving parts enclose the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Arrangement {
    /// Two pistons in cylinders of their own.
    Alpha {
        /// Piston of the hot cylinder.
        hot: Piston,
        /// Piston of the cold cylinder.
        cold: Piston,
    },
    /// Displacer and piston in one cylinder.
    Beta {
        /// The displacer.
        displacer: Displacer,
        /// The power piston.
        piston: Piston,
        /// Shared length of the strokes.
        overlap: Overlap,
    },
    /// Displacer and piston in cylinders of their own.
    Gamma {
        /// The displacer.
        displacer: Displacer,
        /// The power piston.
        piston: Piston,
    },
}

/// Volume swept by one throw of a harmonic motion \[m³\].
pub(super) fn throw_m3(motion: &Motion, area_mm2: f64) -> Option<f64> {
    match motion {
        Motion::Harmonic { throw_mm } => Some(throw_mm * area_mm2 * M3_PER_MM3),
        Motion::SliderCrank(_) | Motion::FromBelow(_) => None,
    }
}

impl Piston {
    /// Volume displaced by the stroke \[m³\].
    pub fn swept_m3(&self) -> f64 {
        self.motion.stroke_mm() * self.area_mm2 * M3_PER_MM3
    }

    pub(super) fn volume_m3(&self, angle_rad: f64) -> f64 {
        self.clearance_m3 + self.motion.displacement_mm(angle_rad) * self.area_mm2 * M3_PER_MM3
    }

    pub(super) fn slope_m3(&self, angle_rad: f64) -> f64 {
        self.motion.slope_mm(angle_rad) * self.area_mm2 * M3_PER_MM3
    }
}

impl Displacer {
    /// Volume displaced by the hot face \[m³\].
    pub fn hot_swept_m3(&self) -> f64 {
        self.motion.stroke_mm() * self.hot_area_mm2 * M3_PER_MM3
    }

    /// Volume displaced by the cold face \[m³\].
    pub fn cold_swept_m3(&self) -> f64 {
        self.motion.stroke_mm() * self.cold_area_mm2 * M3_PER_MM3
    }

    pub(super) fn hot_m3(&self, angle_rad: f64) -> f64 {
        self.hot_clearance_m3 + self.motion.displacement_mm(angle_rad) * self.hot_area_mm2 * M3_PER_MM3
    }

    pub(super) fn cold_m3(&self, angle_rad: f64) -> f64 {
        let moved_mm = self.motion.stroke_mm() - self.motion.displacement_mm(angle_rad);
        self.cold_clearance_m3 + moved_mm * self.cold_area_mm2 * M3_PER_MM3
    }

    pub(super) fn hot_slope_m3(&self, angle_rad: f64) -> f64 {
        self.motion.slope_mm(angle_rad) * self.hot_area_mm2 * M3_PER_MM3
    }

    pub(super) fn cold_slope_m3(&self, angle_rad: f64) -> f64 {
        -self.motion.slope_mm(angle_rad) * self.cold_area_mm2 * M3_PER_MM3
    }
}
