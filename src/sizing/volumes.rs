//! Gas volumes over the turn for alpha, beta and gamma engines.
//!
//! Crank angle 0 is where the displacer (alpha: the hot piston) stands at its bottom dead centre, so
//! that with harmonic motion the hot space is V_x + ½ V_d (1 + cos θ): the phase convention of the
//! published isothermal analyses. The displacer is ahead of the piston by the lead angle.

use super::mechanism::Motion;
use super::turn;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

const M3_PER_MM3: f64 = 1e-9;

/// Area of a circle \[mm²\] from its diameter \[mm\].
pub fn circle_mm2(diameter_mm: f64) -> f64 {
    0.25 * PI * diameter_mm * diameter_mm
}

/// Which temperature the gas in a dead volume has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Zone {
    /// That of the hot end.
    Hot,
    /// The mean between hot and cold: regenerator or displacer gap.
    Between,
    /// That of the cold end.
    Cold,
}

/// A volume that stays the same over the turn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DeadVolume {
    /// Plain name, for example `transfer port`.
    pub name: String,
    /// Volume \[m³\].
    pub volume_m3: f64,
    /// Its temperature.
    pub zone: Zone,
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

/// Moving volumes at one angle \[m³\], or their derivatives by the angle \[m³ per rad\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spaces {
    /// Hot space.
    pub hot_m3: f64,
    /// Cold space; in a beta engine all of the space between displacer and piston.
    pub cold_m3: f64,
    /// Power cylinder of a gamma engine, else 0.
    pub power_m3: f64,
}

impl Spaces {
    /// All spaces at cold temperature: cold space and power cylinder.
    pub fn all_cold_m3(&self) -> f64 {
        self.cold_m3 + self.power_m3
    }

    /// All moving volumes together.
    pub fn moving_m3(&self) -> f64 {
        self.hot_m3 + self.all_cold_m3()
    }
}

/// A harmonic volume: mean + amplitude cos(θ − phase).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Harmonic {
    /// Mean \[m³\].
    pub mean_m3: f64,
    /// Amplitude \[m³\].
    pub amplitude_m3: f64,
    /// Phase \[rad\].
    pub phase_rad: f64,
}

/// Volumes over the turn.
#[derive(Clone, Debug, PartialEq)]
pub struct VolumeLaw {
    arrangement: Arrangement,
    lead_rad: f64,
    dead: Vec<DeadVolume>,
    overlap_m3: f64,
}

impl VolumeLaw {
    /// Volumes of an arrangement whose displacer (alpha: hot piston) is ahead by `lead_deg`.
    pub fn new(arrangement: Arrangement, lead_deg: f64, dead: Vec<DeadVolume>) -> Self {
        let mut law = Self { arrangement, lead_rad: lead_deg.to_radians(), dead, overlap_m3: 0.0 };
        law.overlap_m3 = law.overlap();
        law
    }

    /// Angle of the displacer's crank (alpha: of the hot piston's) from its own top \[rad\].
    pub fn displacer_angle_rad(&self, angle_rad: f64) -> f64 {
        angle_rad + PI
    }

    /// Angle of the piston's crank from its own top \[rad\].
    pub fn piston_angle_rad(&self, angle_rad: f64) -> f64 {
        angle_rad + PI - self.lead_rad
    }

    /// Which moving parts enclose the gas.
    pub fn arrangement(&self) -> &Arrangement {
        &self.arrangement
    }

    /// Volume by which the strokes overlap (beta), else 0 \[m³\].
    pub fn overlap_m3(&self) -> f64 {
        self.overlap_m3
    }

    /// Volumes that stay the same.
    pub fn dead(&self) -> &[DeadVolume] {
        &self.dead
    }

    /// Sum of the dead volumes \[m³\].
    pub fn dead_m3(&self) -> f64 {
        self.dead.iter().map(|d| d.volume_m3).sum()
    }

    /// Moving volumes at a crank angle \[m³\].
    pub fn at(&self, angle_rad: f64) -> Spaces {
        let (d, p) = (self.displacer_angle_rad(angle_rad), self.piston_angle_rad(angle_rad));
        match self.arrangement {
            Arrangement::Alpha { hot, cold } => {
                Spaces { hot_m3: hot.volume_m3(d), cold_m3: cold.volume_m3(p), power_m3: 0.0 }
            }
            Arrangement::Beta { displacer, piston, .. } => Spaces {
                hot_m3: displacer.hot_m3(d),
                cold_m3: displacer.cold_m3(d) + piston.volume_m3(p) - self.overlap_m3,
                power_m3: 0.0,
            },
            Arrangement::Gamma { displacer, piston } => Spaces {
                hot_m3: displacer.hot_m3(d),
                cold_m3: displacer.cold_m3(d),
                power_m3: piston.volume_m3(p),
            },
        }
    }

    /// Derivatives of the moving volumes by the crank angle \[m³ per rad\].
    pub fn slope(&self, angle_rad: f64) -> Spaces {
        let (d, p) = (self.displacer_angle_rad(angle_rad), self.piston_angle_rad(angle_rad));
        match self.arrangement {
            Arrangement::Alpha { hot, cold } => {
                Spaces { hot_m3: hot.slope_m3(d), cold_m3: cold.slope_m3(p), power_m3: 0.0 }
            }
            Arrangement::Beta { displacer, piston, .. } => Spaces {
                hot_m3: displacer.hot_slope_m3(d),
                cold_m3: displacer.cold_slope_m3(d) + piston.slope_m3(p),
                power_m3: 0.0,
            },
            Arrangement::Gamma { displacer, piston } => Spaces {
                hot_m3: displacer.hot_slope_m3(d),
                cold_m3: displacer.cold_slope_m3(d),
                power_m3: piston.slope_m3(p),
            },
        }
    }

    /// Greatest and least gas volume, dead volumes included \[m³\].
    pub fn extremes_m3(&self) -> (f64, f64) {
        let value = |a: f64| self.at(a).moving_m3();
        let slope = |a: f64| self.slope(a).moving_m3();
        (self.dead_m3() + turn::greatest(value, slope), self.dead_m3() + turn::least(value, slope))
    }

    /// Hot space, and all cold spaces together, as harmonic volumes; `None` where a motion is not harmonic.
    pub fn harmonic(&self) -> Option<(Harmonic, Harmonic)> {
        let (hot, displaced, clearance, piston) = self.throws()?;
        let (sin, cos) = self.lead_rad.sin_cos();
        let (x, y) = (piston * cos - displaced, piston * sin);
        let cold = Harmonic {
            mean_m3: clearance.1 + displaced + piston - self.overlap_m3,
            amplitude_m3: x.hypot(y),
            phase_rad: y.atan2(x),
        };
        Some((Harmonic { mean_m3: clearance.0 + hot, amplitude_m3: hot, phase_rad: 0.0 }, cold))
    }

    /// Half the swept volumes of hot face, cold face and piston, with the clearances \[m³\].
    fn throws(&self) -> Option<(f64, f64, (f64, f64), f64)> {
        match self.arrangement {
            Arrangement::Alpha { hot, cold } => Some((
                throw_m3(&hot.motion, hot.area_mm2)?,
                0.0,
                (hot.clearance_m3, cold.clearance_m3),
                throw_m3(&cold.motion, cold.area_mm2)?,
            )),
            Arrangement::Beta { displacer: d, piston, .. } | Arrangement::Gamma { displacer: d, piston } => {
                Some((
                    throw_m3(&d.motion, d.hot_area_mm2)?,
                    throw_m3(&d.motion, d.cold_area_mm2)?,
                    (d.hot_clearance_m3, d.cold_clearance_m3 + piston.clearance_m3),
                    throw_m3(&piston.motion, piston.area_mm2)?,
                ))
            }
        }
    }

    /// Overlap of the strokes \[m³\]. Touching is the least of what displacer and piston leave between
    /// them; with harmonic motion that is ½(V_d+V_p) − √(¼(V_d²+V_p²) − ½ V_d V_p cos α).
    fn overlap(&self) -> f64 {
        let Arrangement::Beta { displacer, piston, overlap } = self.arrangement else { return 0.0 };
        if let Overlap::Volume(volume_m3) = overlap {
            return volume_m3;
        }
        let clearance = displacer.cold_clearance_m3 + piston.clearance_m3;
        match self.harmonic() {
            Some((_, cold)) => cold.mean_m3 - cold.amplitude_m3 - clearance,
            None => turn::least(|a| self.at(a).cold_m3, |a| self.slope(a).cold_m3) - clearance,
        }
    }
}

fn throw_m3(motion: &Motion, area_mm2: f64) -> Option<f64> {
    match motion {
        Motion::Harmonic { throw_mm } => Some(throw_mm * area_mm2 * M3_PER_MM3),
        Motion::SliderCrank(_) => None,
    }
}

impl Piston {
    /// Volume displaced by the stroke \[m³\].
    pub fn swept_m3(&self) -> f64 {
        self.motion.stroke_mm() * self.area_mm2 * M3_PER_MM3
    }

    fn volume_m3(&self, angle_rad: f64) -> f64 {
        self.clearance_m3 + self.motion.displacement_mm(angle_rad) * self.area_mm2 * M3_PER_MM3
    }

    fn slope_m3(&self, angle_rad: f64) -> f64 {
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

    fn hot_m3(&self, angle_rad: f64) -> f64 {
        self.hot_clearance_m3 + self.motion.displacement_mm(angle_rad) * self.hot_area_mm2 * M3_PER_MM3
    }

    fn cold_m3(&self, angle_rad: f64) -> f64 {
        let moved_mm = self.motion.stroke_mm() - self.motion.displacement_mm(angle_rad);
        self.cold_clearance_m3 + moved_mm * self.cold_area_mm2 * M3_PER_MM3
    }

    fn hot_slope_m3(&self, angle_rad: f64) -> f64 {
        self.motion.slope_mm(angle_rad) * self.hot_area_mm2 * M3_PER_MM3
    }

    fn cold_slope_m3(&self, angle_rad: f64) -> f64 {
        -self.motion.slope_mm(angle_rad) * self.cold_area_mm2 * M3_PER_MM3
    }
}

#[cfg(test)]
mod tests;
