//! Gas volumes over the turn for alpha, beta and gamma engines.
//!
//! Crank angle 0 is where the displacer (alpha: the hot piston) stands at its bottom dead centre, so
//! that with harmonic motion the hot space is V_x + ½ V_d (1 + cos θ): the phase convention of the
//! published isothermal analyses. The displacer is ahead of the piston by the lead angle.

mod movers;

pub use movers::{Arrangement, Displacer, Overlap, Piston, circle_mm2};

use super::turn;
use movers::throw_m3;
use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

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

    /// Angle by which the displacer is ahead of the piston \[rad\].
    pub fn lead_rad(&self) -> f64 {
        self.lead_rad
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

    /// Least volume of each space over the turn \[m³\]: its clearance, as every motion begins at its dead
    /// centre; between displacer and piston of a beta engine it is searched.
    pub fn least(&self) -> Spaces {
        match self.arrangement {
            Arrangement::Alpha { hot, cold } => {
                Spaces { hot_m3: hot.clearance_m3, cold_m3: cold.clearance_m3, power_m3: 0.0 }
            }
            Arrangement::Beta { displacer, .. } => Spaces {
                hot_m3: displacer.hot_clearance_m3,
                cold_m3: turn::least(|a| self.at(a).cold_m3, |a| self.slope(a).cold_m3),
                power_m3: 0.0,
            },
            Arrangement::Gamma { displacer, piston } => Spaces {
                hot_m3: displacer.hot_clearance_m3,
                cold_m3: displacer.cold_clearance_m3,
                power_m3: piston.clearance_m3,
            },
        }
    }

    /// Swept volumes by name \[m³\]: hot face, cold face (alpha: none), piston.
    pub fn swept_m3(&self) -> Vec<(&'static str, f64)> {
        match self.arrangement {
            Arrangement::Alpha { hot, cold } => {
                vec![
                    ("swept volume of the hot piston", hot.swept_m3()),
                    ("swept volume of the cold piston", cold.swept_m3()),
                ]
            }
            Arrangement::Beta { displacer, piston, .. } | Arrangement::Gamma { displacer, piston } => vec![
                ("swept volume of the displacer's hot face", displacer.hot_swept_m3()),
                ("swept volume of the displacer's cold face", displacer.cold_swept_m3()),
                ("swept volume of the piston", piston.swept_m3()),
            ],
        }
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

#[cfg(test)]
mod tests;
