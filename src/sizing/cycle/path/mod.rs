//! The gas path of any of these engines, from the hot end to the power piston: what the full model needs
//! to know, independent of layout and design file. SI units.
//!
//! In line: hot space – exchangers – cold space – port – power cylinder (gamma only). Every element in
//! parallel is one with the sum of areas; a displacer gap beside a regenerator must be left out or lumped.

pub mod exchanger;
pub mod leak;
pub mod space;

pub use exchanger::{Exchanger, Walls};
pub use leak::{Leak, LeakKind};
pub use space::{EndSpace, Place};

use super::{Charge, CycleError, CycleInput, MeanTemperature, Temperatures};
use crate::catalogue::gases::Gas;
use crate::sizing::volumes::{Arrangement, DeadVolume, VolumeLaw, Zone};
use std::f64::consts::TAU;

/// Space behind the piston and around the rods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buffer {
    /// Its pressure, taken as constant \[Pa\].
    pub pressure_pa: f64,
    /// Temperature at which gas comes back from it \[K\].
    pub temperature_k: f64,
}

/// Multipliers for what is uncertain; 1 is the correlation as published.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// Heat transfer in exchangers, gap and matrix.
    pub heat_transfer: f64,
    /// Heat transfer in the spaces.
    pub end_heat_transfer: f64,
    /// Flow friction.
    pub friction: f64,
    /// Leakage.
    pub leak: f64,
}

impl Default for Factors {
    fn default() -> Self {
        Self { heat_transfer: 1.0, end_heat_transfer: 1.0, friction: 1.0, leak: 1.0 }
    }
}

/// Everything between the hot end and the buffer space.
#[derive(Clone, Debug, PartialEq)]
pub struct GasPath {
    /// Moving parts.
    pub arrangement: Arrangement,
    /// Lead of the displacer (alpha: of the hot piston) \[degree\].
    pub lead_deg: f64,
    /// Hot space.
    pub hot: EndSpace,
    /// Exchangers from the hot to the cold space.
    pub exchangers: Vec<Exchanger>,
    /// Cold space.
    pub cold: EndSpace,
    /// Elements between cold space and power cylinder (gamma with a power cylinder of its own).
    pub port: Vec<Exchanger>,
    /// Power cylinder of a gamma engine; left out, it is one space with the cold space. Others have none.
    pub power: Option<EndSpace>,
    /// Ways to the buffer space.
    pub leaks: Vec<Leak>,
    /// Buffer space.
    pub buffer: Buffer,
    /// Working gas; its heat capacity is taken at the logarithmic mean of hot and cold and stays constant.
    pub gas: Gas,
    /// Speed \[rpm\].
    pub speed_rpm: f64,
    /// Amount of gas. With a leak it is only where the search begins: the mean pressure settles.
    pub charge: Charge,
    /// Multipliers.
    pub factors: Factors,
}

impl GasPath {
    /// Volumes over the turn, with everything that stays the same as dead volumes: what the ideal models see.
    pub fn law(&self) -> VolumeLaw {
        let dead = |name: &str, volume_m3: f64, zone| DeadVolume { name: name.into(), volume_m3, zone };
        let spaces = [(&self.hot, Zone::Hot), (&self.cold, Zone::Cold)];
        let spaces = spaces.into_iter().chain(self.power.iter().map(|p| (p, Zone::Cold)));
        let spaces = spaces.filter(|(s, _)| s.dead_m3 != 0.0).map(|(s, zone)| dead(&s.name, s.dead_m3, zone));
        let elements = self.exchangers.iter().map(|e| dead(&e.name, e.volume_m3, e.zone));
        let port = self.port.iter().map(|e| dead(&e.name, e.volume_m3, Zone::Cold));
        VolumeLaw::new(self.arrangement, self.lead_deg, spaces.chain(elements).chain(port).collect())
    }

    /// Temperatures of the ends.
    pub fn temperatures(&self) -> Temperatures {
        Temperatures { hot_k: self.hot.wall_k, cold_k: self.cold.wall_k, mean: MeanTemperature::Logarithmic }
    }

    /// Ratio of the heat capacities at the mean temperature.
    pub fn heat_capacity_ratio(&self) -> f64 {
        self.gas.gamma(self.temperatures().between_k())
    }

    /// Input for every model of the cycle.
    pub fn input<'a>(&'a self, law: &'a VolumeLaw, points: usize) -> CycleInput<'a> {
        CycleInput {
            volumes: law,
            temperatures: self.temperatures(),
            gas_constant_j_kg_k: self.gas.r_j_kg_k,
            heat_capacity_ratio: self.heat_capacity_ratio(),
            charge: self.charge,
            path: Some(self),
            points,
        }
    }

    /// Gas mass \[kg\] when filled to a pressure \[Pa\] with everything at one temperature \[K\] and the engine at
    /// the mean of its greatest and least volume.
    pub fn cold_fill(&self, pressure_pa: f64, temperature_k: f64) -> Charge {
        let (most, least) = self.law().extremes_m3();
        Charge::Mass(pressure_pa * 0.5 * (most + least) / (self.gas.r_j_kg_k * temperature_k))
    }

    /// Angular speed \[rad/s\].
    pub fn omega_rad_s(&self) -> f64 {
        self.speed_rpm / 60.0 * TAU
    }

    /// Every element cut into so many times more cells.
    pub fn refined(&self, times: usize) -> Self {
        let mut path = self.clone();
        path.exchangers.iter_mut().chain(&mut path.port).for_each(|e| e.cells *= times.max(1));
        path
    }

    /// Refuses what is no path.
    ///
    /// # Errors
    /// [`CycleError::NotPositive`], [`CycleError::PowerSpace`].
    pub fn check(&self) -> Result<(), CycleError> {
        let is_gamma = matches!(self.arrangement, Arrangement::Gamma { .. });
        if (!is_gamma || self.power.is_none()) && (self.power.is_some() || !self.port.is_empty()) {
            return Err(CycleError::PowerSpace);
        }
        let fixed = [
            ("speed", self.speed_rpm),
            ("buffer pressure", self.buffer.pressure_pa),
            ("buffer temperature", self.buffer.temperature_k),
            ("gas constant", self.gas.r_j_kg_k),
        ];
        let spaces = [Some(&self.hot), Some(&self.cold), self.power.as_ref()];
        let spaces = spaces.into_iter().flatten().flat_map(EndSpace::positive);
        let elements = self.exchangers.iter().chain(&self.port).flat_map(Exchanger::positive);
        let leaks = self.leaks.iter().flat_map(Leak::positive);
        let mut all = fixed.into_iter().chain(spaces).chain(elements).chain(leaks);
        if let Some((what, value)) = all.find(|(_, v)| !(*v > 0.0 && v.is_finite())) {
            return Err(CycleError::NotPositive { what, value });
        }
        let f = &self.factors;
        let factors = [f.heat_transfer, f.end_heat_transfer, f.friction, f.leak];
        match factors.into_iter().find(|v| !(*v >= 0.0 && v.is_finite())) {
            Some(value) => Err(CycleError::NotPositive { what: "factor", value }),
            None => Ok(()),
        }
    }
}
