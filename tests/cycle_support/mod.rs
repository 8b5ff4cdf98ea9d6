//! Engines with harmonic motion from swept volumes, and comparison to printed digits.

#![allow(dead_code)] // each test file uses its share

use swept::sizing::cycle::{Charge, CycleInput, MeanTemperature, Temperatures};
use swept::sizing::mechanism::Motion;
use swept::sizing::volumes::{Arrangement, DeadVolume, Displacer, Overlap, Piston, VolumeLaw, Zone};

/// Harmonic engine from swept volumes and clearances, all in cm³.
pub struct Engine<'a> {
    pub arrangement: &'a str,
    pub hot_swept: f64,
    pub cold_swept: f64,
    pub hot_clearance: f64,
    pub cold_clearance: f64,
    pub dead: [(Zone, f64); 3],
    pub lead_deg: f64,
}

impl Engine<'_> {
    pub fn law(&self) -> VolumeLaw {
        // With 10 mm of throw an area of 50 mm² sweeps 1 cm³.
        let motion = Motion::Harmonic { throw_mm: 10.0 };
        let displacer = Displacer {
            motion,
            hot_area_mm2: 50.0 * self.hot_swept,
            cold_area_mm2: 50.0 * self.hot_swept,
            hot_clearance_m3: self.hot_clearance * 1e-6,
            cold_clearance_m3: self.cold_clearance * 1e-6,
        };
        let piston = |swept, clearance_m3| Piston { motion, area_mm2: 50.0 * swept, clearance_m3 };
        let power = piston(self.cold_swept, 0.0);
        let arrangement = match self.arrangement {
            "alpha" => Arrangement::Alpha {
                hot: piston(self.hot_swept, self.hot_clearance * 1e-6),
                cold: piston(self.cold_swept, self.cold_clearance * 1e-6),
            },
            "beta" => Arrangement::Beta { displacer, piston: power, overlap: Overlap::Touching },
            "gamma" => Arrangement::Gamma { displacer, piston: power },
            other => panic!("no arrangement {other}"),
        };
        let dead =
            self.dead.map(|(zone, cm3)| DeadVolume { name: "dead".into(), volume_m3: cm3 * 1e-6, zone });
        VolumeLaw::new(arrangement, self.lead_deg, dead.to_vec())
    }
}

pub fn input(volumes: &VolumeLaw, hot_k: f64, cold_k: f64, mean_pa: f64) -> CycleInput<'_> {
    CycleInput {
        volumes,
        temperatures: Temperatures { hot_k, cold_k, mean: MeanTemperature::Logarithmic },
        gas_constant_j_kg_k: 287.05,
        heat_capacity_ratio: 1.4,
        path: None,
        charge: Charge::MeanPressure(mean_pa),
        points: 4000,
    }
}

/// Half a unit in the last digit of a printed number, with a little room for the rounding itself.
pub fn half_digit(printed: &str) -> f64 {
    let (mantissa, power) = printed.split_once('e').unwrap_or((printed, "0"));
    let decimals = mantissa.split_once('.').map_or(0, |(_, d)| d.len());
    0.500_001 * 10.0_f64.powi(power.parse::<i32>().unwrap() - i32::try_from(decimals).unwrap())
}

pub fn prints_as(value: f64, printed: &str, what: &str) {
    let expected: f64 = printed.parse().unwrap();
    assert!((value - expected).abs() <= half_digit(printed), "{what}: {value} does not print as {printed}");
}

/// Place of the greatest value between two bounds, by golden section.
pub fn greatest_at(mut low: f64, mut high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    while high - low > 1e-6 {
        let (a, b) = (high - golden * (high - low), low + golden * (high - low));
        if f(a) > f(b) { high = b } else { low = a }
    }
    0.5 * (low + high)
}
