//! Spaces with a moving wall: hot space, cold space, power cylinder.

use serde::{Deserialize, Serialize};
use std::f64::consts::PI;

/// Which space.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Place {
    /// Hot space.
    Hot,
    /// Cold space.
    Cold,
    /// Power cylinder.
    Power,
}

/// A cylinder space with its walls.
#[derive(Clone, Debug, PartialEq)]
pub struct EndSpace {
    /// Plain name.
    pub name: String,
    /// Cylinder bore \[m\].
    pub diameter_m: f64,
    /// Cylinders side by side; 1 but for engines with several power pistons.
    pub cylinders: f64,
    /// Mean temperature of its walls \[K\].
    pub wall_k: f64,
    /// Volume that belongs to the space besides its clearance: port recesses, gasket steps \[m³\].
    pub dead_m3: f64,
    /// Wetted area besides both ends and the bore, for example fins \[m²\].
    pub extra_area_m2: f64,
}

impl EndSpace {
    /// A plain cylinder.
    pub fn plain(name: &str, diameter_m: f64, wall_k: f64) -> Self {
        Self { name: name.into(), diameter_m, cylinders: 1.0, wall_k, dead_m3: 0.0, extra_area_m2: 0.0 }
    }

    /// Cross-section of all cylinders \[m²\].
    pub fn section_m2(&self) -> f64 {
        self.cylinders * PI / 4.0 * self.diameter_m * self.diameter_m
    }

    /// Wetted area at a gas volume \[m²\]: both ends, the bore in between, and what is besides.
    pub fn area_m2(&self, volume_m3: f64) -> f64 {
        2.0 * self.section_m2() + 4.0 * volume_m3 / self.diameter_m + self.extra_area_m2
    }

    /// Quantities that must be positive.
    pub(super) fn positive(&self) -> [(&'static str, f64); 3] {
        [
            ("diameter of a space", self.diameter_m),
            ("number of cylinders", self.cylinders),
            ("wall temperature of a space", self.wall_k),
        ]
    }
}
