//! Time of one turn of the isothermal cycle, closed and numeric.

use swept::sizing::cycle::forced_work::ForcedWork;
use swept::sizing::cycle::isothermal::ClosedForm;
use swept::sizing::cycle::numeric::Numeric;
use swept::sizing::cycle::{Charge, CycleInput, CycleModel, MeanTemperature, Temperatures};
use swept::sizing::mechanism::{Motion, SliderCrank};
use swept::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone, circle_mm2};

fn main() {
    divan::main();
}

/// Gamma engine with a 96 mm displacer and a 64 mm piston.
fn law(motion: impl Fn(f64) -> Motion) -> VolumeLaw {
    let displacer = Displacer {
        motion: motion(14.0),
        hot_area_mm2: circle_mm2(94.0),
        cold_area_mm2: circle_mm2(94.0) - circle_mm2(8.0),
        hot_clearance_m3: 10e-6,
        cold_clearance_m3: 10e-6,
    };
    let piston = Piston { motion: motion(16.0), area_mm2: circle_mm2(64.0), clearance_m3: 3e-6 };
    let gap = DeadVolume { name: "displacer gap".into(), volume_m3: 40e-6, zone: Zone::Between };
    VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 90.0, vec![gap])
}

fn harmonic() -> VolumeLaw {
    law(|throw_mm| Motion::Harmonic { throw_mm })
}

fn cranked() -> VolumeLaw {
    law(|throw_mm| Motion::SliderCrank(SliderCrank::new(throw_mm, 70.0).expect("a crank that turns")))
}

fn input(volumes: &VolumeLaw) -> CycleInput<'_> {
    CycleInput {
        volumes,
        temperatures: Temperatures { hot_k: 773.15, cold_k: 333.15, mean: MeanTemperature::Logarithmic },
        gas_constant_j_kg_k: 287.05,
        heat_capacity_ratio: 1.4,
        path: None,
        charge: Charge::MeanPressure(101_325.0),
        points: 360,
    }
}

#[divan::bench]
fn closed_form(bencher: divan::Bencher) {
    let law = harmonic();
    bencher.bench(|| ClosedForm.solve(&input(&law)));
}

#[divan::bench]
fn numeric_with_con_rods(bencher: divan::Bencher) {
    let law = cranked();
    bencher.bench(|| Numeric::default().solve(&input(&law)));
}

#[divan::bench]
fn forced_work(bencher: divan::Bencher) {
    let law = cranked();
    let cycle = Numeric::default().solve(&input(&law)).expect("an engine that turns");
    bencher.bench(|| ForcedWork::of_total(&cycle, 101_325.0));
}
