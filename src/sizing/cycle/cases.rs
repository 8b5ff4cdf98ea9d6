//! A small gamma engine for the tests of this module.

use super::{Charge, CycleInput, MeanTemperature, Temperatures};
use crate::sizing::mechanism::{Motion, SliderCrank};
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone};

const CM3: f64 = 1e-6;

/// Displacer 50 cm³, piston 25 cm³, lead 90°; harmonic, or with con rods of this length \[mm\].
pub(super) fn gamma(con_rod_mm: Option<f64>) -> VolumeLaw {
    let motion = |throw_mm: f64| match con_rod_mm {
        None => Motion::Harmonic { throw_mm },
        Some(rod) => Motion::SliderCrank(SliderCrank::new(throw_mm, rod).unwrap()),
    };
    let displacer = Displacer {
        motion: motion(12.5),
        hot_area_mm2: 2000.0,
        cold_area_mm2: 2000.0,
        hot_clearance_m3: 2.0 * CM3,
        cold_clearance_m3: 3.0 * CM3,
    };
    let piston = Piston { motion: motion(12.5), area_mm2: 1000.0, clearance_m3: 1.0 * CM3 };
    let dead = [("cooler", 5.0, Zone::Cold), ("gap", 10.0, Zone::Between), ("heater", 6.0, Zone::Hot)];
    let dead = dead.map(|(name, cm3, zone)| DeadVolume { name: name.into(), volume_m3: cm3 * CM3, zone });
    VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 90.0, dead.to_vec())
}

/// Air at 101325 Pa between 650 and 330 K.
pub(super) fn input(volumes: &VolumeLaw) -> CycleInput<'_> {
    CycleInput {
        volumes,
        temperatures: Temperatures { hot_k: 650.0, cold_k: 330.0, mean: MeanTemperature::Logarithmic },
        gas_constant_j_kg_k: 287.05,
        heat_capacity_ratio: 1.4,
        path: None,
        charge: Charge::MeanPressure(101_325.0),
        points: 360,
    }
}
