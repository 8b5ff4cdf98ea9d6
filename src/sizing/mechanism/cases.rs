//! A small drive and gas loop for the tests of this module.

use super::{GasLoop, Guide, Guides, Journals, Line, Mechanism, Riding, Seals, SliderCrank};
use crate::sizing::cycle::{
    Charge, CycleInput, CycleModel, CycleResult, Isothermal, MeanTemperature, Temperatures,
};
use crate::sizing::losses::ball_bearing::RollingBearing;
use crate::sizing::losses::belt::BeltDrive;
use crate::sizing::losses::bush::Bush;
use crate::sizing::losses::gland::RodRing;
use crate::sizing::losses::ring::Rings;
use crate::sizing::losses::shaft_seal::ShaftSeal;
use crate::sizing::losses::windage::Disc;
use crate::sizing::mechanism::Motion;
use crate::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone, circle_mm2};

pub(super) const BORE_MM: f64 = 64.0;
pub(super) const BUFFER_PA: f64 = 101_325.0;
const ROD_MM: f64 = 6.0;
const DISPLACER_MM: f64 = 96.0;

fn crank(throw_mm: f64) -> SliderCrank {
    SliderCrank::new(throw_mm, 70.0).unwrap()
}

fn line(throw_mm: f64, area_mm2: f64, slider_kg: f64) -> Line {
    let guide = Guide::Bush(Bush { friction: 0.15 });
    let bearing = RollingBearing::shielded(8.0, 16.0);
    Line {
        crank: crank(throw_mm),
        pressed_mm2: area_mm2,
        drop_mm2: 0.0,
        slider_kg,
        abreast: 1.0,
        con_rod_kg: 0.06,
        con_rod_big_end: 2.0 / 3.0,
        gravity: 1.0,
        seals: Seals::default(),
        guides: Guides {
            lower: guide,
            upper: guide,
            overhang_mm: 20.0,
            span_mm: 70.0,
            riding: Riding::Still,
        },
        small_end: bearing,
        crankpin: bearing,
        journals: Journals {
            bearing: RollingBearing::shielded(8.0, 22.0),
            overhang_mm: 18.0,
            span_mm: 20.0,
            steady_n: 15.0,
            drag_counted: false,
        },
    }
}

/// Gamma drive of 96 × 40 mm displacer and 64 × 32 mm piston.
pub(crate) fn mechanism() -> Mechanism {
    let rings =
        Rings { count: 2, bore_mm: BORE_MM, height_mm: 3.0, wall_mpa: 0.02, gas_share: 0.5, friction: 0.1 };
    let gland = RodRing { rod_mm: ROD_MM, section_mm: 1.78, squeeze: 0.1, youngs_mpa: 5.5, friction: 0.2 };
    let piston =
        Line { seals: Seals { rings: Some(rings), gland: None }, ..line(16.0, circle_mm2(BORE_MM), 0.35) };
    let displacer =
        Line { seals: Seals { rings: None, gland: Some(gland) }, ..line(20.0, circle_mm2(ROD_MM), 0.30) };
    let belt =
        BeltDrive { radius_mm: 15.0, width_mm: 9.0, back_mm: 1.2, strand_n: 18.0, tooth_friction: 0.01 };
    Mechanism {
        piston,
        displacer,
        lead_deg: 90.0,
        belt: Some(belt),
        shaft_seal: Some(ShaftSeal { ring: gland, room_pa: BUFFER_PA }),
        turning_kg_m2: 5e-3,
        discs: [Disc::in_room(80.0), Disc::in_room(30.0)],
    }
}

/// The same with a displacer rod of no thickness, so that all gas works on the piston.
pub(super) fn without_rod() -> Mechanism {
    let mut m = mechanism();
    m.displacer.pressed_mm2 = 0.0;
    m
}

fn volumes(rod_mm: f64) -> VolumeLaw {
    let bore = circle_mm2(DISPLACER_MM);
    let displacer = Displacer {
        motion: Motion::SliderCrank(crank(20.0)),
        hot_area_mm2: bore,
        cold_area_mm2: bore - circle_mm2(rod_mm),
        hot_clearance_m3: 10e-6,
        cold_clearance_m3: 12e-6,
    };
    let area_mm2 = circle_mm2(BORE_MM);
    let piston = Piston { motion: Motion::SliderCrank(crank(16.0)), area_mm2, clearance_m3: 4e-6 };
    let dead = DeadVolume { name: "gap".into(), volume_m3: 30e-6, zone: Zone::Between };
    VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 90.0, vec![dead])
}

fn solve(rod_mm: f64, points: usize) -> CycleResult {
    let input = CycleInput {
        volumes: &volumes(rod_mm),
        temperatures: Temperatures { hot_k: 600.0, cold_k: 330.0, mean: MeanTemperature::Logarithmic },
        gas_constant_j_kg_k: 287.05,
        heat_capacity_ratio: 1.4,
        path: None,
        charge: Charge::MeanPressure(BUFFER_PA),
        points,
    };
    Isothermal.solve(&input).unwrap()
}

/// Cycle of the drive without rod.
pub(super) fn cycle(points: usize) -> CycleResult {
    solve(0.0, points)
}

/// Indicated work of the drive with its rod \[J\].
pub(super) fn indicated_j() -> f64 {
    solve(ROD_MM, 16).work_j
}

/// Loop of the drive with its rod.
pub(super) fn gas_loop(points: usize) -> GasLoop {
    let pressure_pa = solve(ROD_MM, points).points.iter().map(|p| p.pressure_pa).collect();
    GasLoop { pressure_pa, drop_pa: vec![], buffer_pa: BUFFER_PA }
}

/// Loop of [`cycle`].
pub(super) fn gas_loop_without_rod(points: usize) -> GasLoop {
    let pressure_pa = cycle(points).points.iter().map(|p| p.pressure_pa).collect();
    GasLoop { pressure_pa, drop_pa: vec![], buffer_pa: BUFFER_PA }
}
