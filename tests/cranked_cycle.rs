//! The numeric cycle with exact crank motion against an independent program; source in `tests/data/`.

mod cycle_support;

use cycle_support::{input, prints_as};
use swept::sizing::cycle::forced_work::ForcedWork;
use swept::sizing::cycle::{CycleModel, Isothermal};
use swept::sizing::mechanism::{Motion, SliderCrank};
use swept::sizing::volumes::{Arrangement, DeadVolume, Displacer, Piston, VolumeLaw, Zone, circle_mm2};

fn law(offset_mm: f64) -> VolumeLaw {
    let motion =
        |throw, rod, offset| Motion::SliderCrank(SliderCrank::with_offset(throw, rod, offset).unwrap());
    let displacer = Displacer {
        motion: motion(14.0, 70.0, offset_mm),
        hot_area_mm2: circle_mm2(94.0),
        cold_area_mm2: circle_mm2(94.0) - circle_mm2(8.0),
        hot_clearance_m3: 10e-6,
        cold_clearance_m3: 12e-6,
    };
    let piston =
        Piston { motion: motion(16.0, 60.0, -offset_mm), area_mm2: circle_mm2(64.0), clearance_m3: 3e-6 };
    let dead = [("gap", 40e-6, Zone::Between), ("port", 8e-6, Zone::Cold)];
    let dead = dead.map(|(name, volume_m3, zone)| DeadVolume { name: name.into(), volume_m3, zone });
    VolumeLaw::new(Arrangement::Gamma { displacer, piston }, 85.0, dead.to_vec())
}

#[test]
fn crank_motion_gives_the_figures_of_an_independent_program() {
    let data: toml::Table = toml::from_str(include_str!("data/cranked_cases.toml")).unwrap();
    for case in data["case"].as_array().unwrap() {
        let law = law(case["offset"].as_float().unwrap());
        let r = Isothermal.solve(&input(&law, 773.15, 333.15, 101_325.0)).unwrap();
        let (most, least) = law.extremes_m3();
        let figures = [
            ("mass", r.mass_kg),
            ("pressure_max", r.pressure_max_pa),
            ("pressure_min", r.pressure_min_pa),
            ("hot_work", r.hot_work_j),
            ("cold_work", r.cold_work_j),
            ("work", r.work_j),
            ("volume_max", most * 1e6),
            ("volume_min", least * 1e6),
        ];
        for (what, value) in figures {
            prints_as(value, case[what].as_str().unwrap(), what);
        }
        let forced = ForcedWork::of_total(&r, 101_325.0).forced_j;
        assert!((forced / case["forced_work"].as_float().unwrap() - 1.0).abs() < 1e-5, "{forced}");
        assert!(r.step_error.unwrap() <= 1e-11);
    }
}
