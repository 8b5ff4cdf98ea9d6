//! Gas paths for the tests of the full model.

#![allow(dead_code)] // each test file uses its share

use swept::catalogue::gases::gas;
use swept::sizing::cycle::path::{
    Buffer, EndSpace, Exchanger, Factors, GasPath, Leak, LeakKind, Place, Walls,
};
use swept::sizing::cycle::transfer::Surface;
use swept::sizing::cycle::{Charge, CycleError, CycleModel, CycleResult, Full};
use swept::sizing::mechanism::{Motion, SliderCrank};
use swept::sizing::volumes::{Arrangement, Displacer, Overlap, Piston, Zone, circle_mm2};

pub const HOT_K: f64 = 773.15;
pub const COLD_K: f64 = 333.15;

/// Atmospheric gamma engine with a plain displacer gap: displacer 96 × 28 mm, piston 64 × 28 mm, con rods
/// 70 mm, gap 0.6 × 110 mm, ring leak 1e-8 kg/(s Pa).
pub fn gap_engine(speed_rpm: f64) -> GasPath {
    let crank = |throw| Motion::SliderCrank(SliderCrank::new(throw, 70.0).unwrap());
    let bore = circle_mm2(96.0);
    let displacer = Displacer {
        motion: crank(14.0),
        hot_area_mm2: bore,
        cold_area_mm2: bore - circle_mm2(8.0),
        hot_clearance_m3: bore * 1.5e-9,
        cold_clearance_m3: bore * 1.5e-9,
    };
    let piston = Piston { motion: crank(14.0), area_mm2: circle_mm2(64.0), clearance_m3: 4e-6 };
    let walls = Walls::Fixed { hot_k: HOT_K, cold_k: COLD_K };
    let cold = Walls::Fixed { hot_k: COLD_K, cold_k: COLD_K };
    GasPath {
        arrangement: Arrangement::Gamma { displacer, piston },
        lead_deg: 90.0,
        hot: EndSpace::plain("hot space", 0.096, HOT_K),
        exchangers: vec![Exchanger::annular_gap("displacer gap", Zone::Between, 0.096, 0.0006, 0.110, walls)],
        cold: EndSpace::plain("cold space", 0.096, COLD_K),
        port: vec![Exchanger {
            cells: 1,
            ..Exchanger::slots("port", Zone::Cold, 1.0, [0.012, 0.040], 0.020, cold)
        }],
        power: Some(EndSpace::plain("power cylinder", 0.064, COLD_K)),
        leaks: vec![Leak { name: "rings".into(), from: Place::Power, kind: LeakKind::Conductance(1e-8) }],
        buffer: Buffer { pressure_pa: 101_325.0, temperature_k: COLD_K },
        gas: gas("air").unwrap(),
        speed_rpm,
        charge: Charge::MeanPressure(101_325.0),
        factors: Factors::default(),
    }
}

/// Beta engine with tubes and a mesh matrix, helium at 8 bar: 60 cm³ each, closed.
pub fn mesh_engine(speed_rpm: f64) -> GasPath {
    let motion = Motion::Harmonic { throw_mm: 12.0 };
    let area = 60e3 / 24.0;
    let displacer = Displacer {
        motion,
        hot_area_mm2: area,
        cold_area_mm2: area,
        hot_clearance_m3: 4e-6,
        cold_clearance_m3: 3e-6,
    };
    let piston = Piston { motion, area_mm2: area, clearance_m3: 0.0 };
    let fixed = |t| Walls::Fixed { hot_k: t, cold_k: t };
    let mesh = Surface::WovenMesh { porosity: 0.7 };
    GasPath {
        arrangement: Arrangement::Beta { displacer, piston, overlap: Overlap::Touching },
        lead_deg: 90.0,
        hot: EndSpace::plain("hot space", 0.0564, 900.0),
        exchangers: vec![
            Exchanger::tubes("heater", Zone::Hot, 24.0, 0.003, 0.090, fixed(900.0)),
            Exchanger::matrix("regenerator", mesh, 18e-4, 0.020, 1e-4, 3.9e6, [900.0, 310.0]),
            Exchanger::tubes("cooler", Zone::Cold, 120.0, 0.0012, 0.060, fixed(310.0)),
        ],
        cold: EndSpace::plain("cold space", 0.0564, 310.0),
        port: vec![],
        power: None,
        leaks: vec![],
        buffer: Buffer { pressure_pa: 8e5, temperature_k: 310.0 },
        gas: gas("helium").unwrap(),
        speed_rpm,
        charge: Charge::MeanPressure(8e5),
        factors: Factors::default(),
    }
}

pub fn solve_with(model: Full, path: &GasPath) -> Result<CycleResult, CycleError> {
    let law = path.law();
    model.solve(&path.input(&law, 360))
}

pub fn solve(path: &GasPath) -> CycleResult {
    solve_with(Full::default(), path).unwrap()
}
