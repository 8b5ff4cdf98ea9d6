//! The full cycle in its limits, its sums and its fineness.

mod path_support;

use path_support::{gap_engine, mesh_engine, solve, solve_with};
use swept::sizing::cycle::path::{EndSpace, Factors, GasPath, LeakKind, Walls};
use swept::sizing::cycle::transfer::ends;
use swept::sizing::cycle::{
    Adiabatic, Charge, CycleError, CycleInput, CycleModel, CycleResult, Full, Isothermal,
};
use swept::sizing::mechanism::Motion;
use swept::sizing::volumes::{Arrangement, Piston};

/// Perfect exchangers with walls at given temperatures, no leak; cold space and power cylinder one space, as the
/// ideal models have it.
fn ideal(mut path: GasPath, end_heat_transfer: f64) -> GasPath {
    path.leaks.clear();
    path.port.clear();
    path.power = None;
    path.factors = Factors { heat_transfer: 1e6, end_heat_transfer, ..Factors::default() };
    for e in &mut path.exchangers {
        let [hot_k, cold_k] = e.walls.ends_k();
        e.walls = Walls::Fixed { hot_k, cold_k };
    }
    path
}

fn engines() -> [GasPath; 2] {
    [gap_engine(300.0), mesh_engine(1800.0)]
}

fn with(model: &dyn CycleModel, path: &GasPath) -> CycleResult {
    let law = path.law();
    model.solve(&path.input(&law, 360)).unwrap()
}

fn near(a: f64, b: f64, share: f64, what: &str) {
    assert!((a / b - 1.0).abs() < share, "{what}: {a} against {b}");
}

#[test]
fn with_perfect_exchangers_and_idle_spaces_it_is_the_adiabatic_cycle() {
    for path in engines() {
        let path = ideal(path, 0.0);
        let (full, ideal) = (solve(&path), with(&Adiabatic::default(), &path));
        near(full.work_j, ideal.work_j, 5e-4, "work");
        near(full.hot_work_j, ideal.hot_work_j, 5e-4, "hot work");
        near(full.pressure_max_pa, ideal.pressure_max_pa, 5e-4, "greatest pressure");
        near(full.mass_kg, ideal.mass_kg, 5e-4, "mass");
    }
}

/// The heat too, where there are a heater and a cooler to take it.
#[test]
fn with_a_heater_the_heat_is_that_of_the_adiabatic_cycle_too() {
    let path = ideal(mesh_engine(1800.0), 0.0);
    near(solve(&path).heat_in_j, with(&Adiabatic::default(), &path).heat_in_j, 1e-3, "heat in");
}

#[test]
fn with_perfect_heat_transfer_everywhere_it_is_the_isothermal_cycle() {
    for path in engines() {
        let path = ideal(path, 1e6);
        let (full, ideal) = (solve(&path), with(&Isothermal, &path));
        near(full.work_j, ideal.work_j, 5e-4, "work");
        near(full.heat_in_j, ideal.heat_in_j, 5e-4, "heat in");
        near(full.efficiency.unwrap(), ideal.efficiency.unwrap(), 5e-4, "Carnot's efficiency");
    }
}

#[test]
fn energy_and_mass_close_over_the_turn() {
    let speeds = [30.0, 120.0, 600.0, 3000.0];
    let paths = speeds.into_iter().flat_map(|s| [gap_engine(s), mesh_engine(s)]);
    for path in paths {
        let r = solve(&path);
        let c = r.detail.closure.unwrap();
        assert!(c.energy < 1e-3 && c.mass.abs() < 1e-5, "{} rpm: {c:?}", path.speed_rpm);
        let leaked: f64 = r.detail.leaks.iter().map(|l| l.enthalpy_out_j).sum();
        let open = r.heat_in_j - r.heat_out_j - r.work_j - leaked;
        assert!(open.abs() < 1e-3 * r.hot_work_j.abs(), "{} rpm: {open}", path.speed_rpm);
        let area: f64 = {
            let next = r.points.iter().cycle().skip(1);
            let side = |(a, b): (&swept::sizing::cycle::CyclePoint, &swept::sizing::cycle::CyclePoint)| {
                0.5 * (a.pressure_pa + b.pressure_pa) * (b.total_m3 - a.total_m3)
            };
            r.points.iter().zip(next).map(side).sum()
        };
        assert!((area - r.work_j).abs() < 1e-3 * r.hot_work_j.abs(), "loop {area}, work {}", r.work_j);
    }
}

#[test]
fn twice_the_cells_and_steps_move_the_work_by_less_than_one_percent() {
    let fine = Full { steps: 2 * Full::default().steps, ..Full::default() };
    for path in
        [gap_engine(120.0), gap_engine(300.0), gap_engine(900.0), mesh_engine(900.0), mesh_engine(3000.0)]
    {
        let (a, b) = (solve(&path).work_j, solve_with(fine, &path.refined(2)).unwrap().work_j);
        near(a, b, 0.01, &format!("{} rpm", path.speed_rpm));
    }
}

#[test]
fn without_a_temperature_difference_there_is_no_work() {
    for mut path in engines() {
        for k in [0.1, 1.0, 10.0] {
            let cold = path.cold.wall_k;
            path.hot.wall_k = cold;
            path.factors.heat_transfer = k;
            for e in &mut path.exchangers {
                e.walls = match e.walls {
                    Walls::Fixed { .. } => Walls::Fixed { hot_k: cold, cold_k: cold },
                    Walls::Matrix { capacity_j_k, .. } => {
                        Walls::Matrix { capacity_j_k, hot_k: cold, cold_k: cold }
                    }
                };
            }
            let r = solve(&path);
            assert!(r.work_j < 0.0 && r.detail.friction_j() > 0.0, "{}", r.work_j);
        }
    }
}

/// Ever faster there is less and less time for heat: the work of a turn falls towards nothing or below, and nothing
/// runs away. It falls slowly, for a film that grows as speed^0.8 leaves each turn speed^−0.2 of its heat.
#[test]
fn at_high_speed_work_fades_and_stays_finite() {
    let work = |rpm| solve(&gap_engine(rpm)).work_j;
    let works: Vec<f64> = [600.0, 2000.0, 10_000.0, 100_000.0].into_iter().map(work).collect();
    assert!(works.windows(2).all(|w| w[1] < w[0]), "{works:?}");
    assert!(works[3].abs() < 0.2 * works[0], "{works:?}");
}

/// In a linear leak as much goes out as comes in only if the mean pressure is the buffer's.
#[test]
fn an_engine_of_the_room_breathes_around_the_pressure_of_the_room() {
    for (leak, begin) in [(1e-8, 1.5e5), (1e-10, 0.7e5), (1e-12, 1.2e5)] {
        let mut path = gap_engine(300.0);
        path.leaks[0].kind = LeakKind::Conductance(leak);
        path.charge = Charge::MeanPressure(begin);
        let r = solve(&path);
        near(r.pressure_mean_pa, 101_325.0, 2e-4, &format!("leak {leak}"));
        assert!(r.detail.leaks[0].breathed_kg > 0.0 && r.detail.closure.unwrap().turns < 60);
    }
}

#[test]
fn without_a_leak_mass_or_mean_pressure_are_kept() {
    let mut path = mesh_engine(1800.0);
    let by_pressure = solve(&path);
    near(by_pressure.pressure_mean_pa, 8e5, 1e-5, "mean pressure");
    path.charge = Charge::Mass(by_pressure.mass_kg);
    let by_mass = solve(&path);
    assert!((by_mass.mass_kg / by_pressure.mass_kg - 1.0).abs() < 1e-12);
    near(by_mass.work_j, by_pressure.work_j, 1e-3, "work");
    let Charge::Mass(fill) = path.cold_fill(8e5, 293.15) else { unreachable!() };
    assert!(fill > by_pressure.mass_kg, "hot gas of the same pressure weighs less than cold gas");
}

/// A closed space that is compressed and expanded a little: heat lags and takes work. Loss law of K. P. Lee
/// (1983, from memory), without turbulence: 0.12490 W at Pe 424, amplitude a tenth (COMPUTED). The model uses
/// the real part of the Nusselt number only, which for this space is derived to lose (1 + ε)² + ε² over 1 + ε²
/// times as much, ε = h A/(ω m c_p) = 0.081: 1.16 times.
#[test]
fn a_gas_spring_loses_what_the_boundary_layer_law_says() {
    let (volume, pressure, wall_k) = (200e-6, 101_325.0, 330.0);
    let mut path = gap_engine(600.0);
    // Adiabatic stiffness γ p/V: a tenth of pressure amplitude takes V/(10 γ).
    let throw_m3 = 0.1 * volume / 1.4;
    let tiny = Piston { motion: Motion::Harmonic { throw_mm: 1e-3 }, area_mm2: 1.0, clearance_m3: 1e-9 };
    let spring = Piston {
        motion: Motion::Harmonic { throw_mm: 10.0 },
        area_mm2: throw_m3 / 10.0 * 1e9,
        clearance_m3: volume - throw_m3,
    };
    path.arrangement = Arrangement::Alpha { hot: tiny, cold: spring };
    path.hot = EndSpace::plain("nothing", 0.001, wall_k);
    let bare = EndSpace::plain("spring", 0.06, wall_k);
    path.cold = EndSpace { extra_area_m2: 300e-4 - bare.area_m2(volume), ..bare };
    path.exchangers.clear();
    path.port.clear();
    path.power = None;
    path.leaks.clear();
    let pe = 424.2;
    path.factors.end_heat_transfer = ends::laminar_nusselt(pe) / ends::nusselt(pe);
    path.charge = Charge::MeanPressure(pressure);
    let r = solve(&path);
    let loss_w = -r.work_j * 10.0;
    near(loss_w, 0.12490 * 1.16, 0.05, "gas spring loss [W]");
    near(0.5 * (r.pressure_max_pa - r.pressure_min_pa) / pressure, 0.1, 0.05, "amplitude");
}

#[test]
fn more_flow_friction_and_heat_by_the_multipliers() {
    let path = gap_engine(300.0);
    let mut rough = path.clone();
    rough.factors.friction = 2.0;
    near(solve(&rough).detail.friction_j(), 2.0 * solve(&path).detail.friction_j(), 1e-12, "friction");
    let mut poor = path.clone();
    poor.factors.heat_transfer = 0.3;
    assert!(solve(&poor).work_j < solve(&path).work_j);
}

/// The same equations by an adaptive stiff method, `benches/full_cycle_scipy.py` at 300 rpm and a relative tolerance of
/// 1e-6: COMPUTED with scipy 1.17 (LSODA).
#[test]
fn an_independent_program_finds_the_same_turn() {
    let r = solve(&gap_engine(300.0));
    near(r.work_j, 2.759_365, 2e-4, "work");
    near(r.hot_work_j, 9.142_86, 3e-4, "hot work");
    near(r.heat_in_j, 16.773_98, 6e-4, "heat in");
    let fine = solve_with(Full { steps: 720, ..Full::default() }, &gap_engine(300.0)).unwrap();
    near(fine.work_j, 2.759_365, 3e-5, "work with finer steps");
}

/// Matrix cells find temperatures at which they take up nothing over the turn.
#[test]
fn a_matrix_comes_back_to_itself() {
    let r = solve(&mesh_engine(1800.0));
    let matrix: Vec<_> = r.detail.cells.iter().filter(|c| c.name.starts_with("regenerator")).collect();
    assert_eq!(matrix.len(), 12);
    let swing: f64 = matrix.iter().map(|c| c.heat_swing_j).sum();
    assert!(matrix.iter().all(|c| c.heat_j.abs() < 1e-4 * swing), "{matrix:?}");
    assert!(
        matrix.windows(2).all(|w| w[0].wall_k.unwrap() > w[1].wall_k.unwrap()),
        "falls towards the cold end"
    );
}

#[test]
fn what_is_no_path_or_does_not_settle_is_an_error() {
    let path = gap_engine(300.0);
    let law = path.law();
    let bare = CycleInput { path: None, ..path.input(&law, 10) };
    assert_eq!(Full::default().solve(&bare), Err(CycleError::NoPath));
    let hurried = solve_with(Full { most_turns: 2, ..Full::default() }, &path);
    assert!(matches!(hurried, Err(CycleError::NotSteady { turns: 2, .. })));
    let still = solve_with(Full::default(), &gap_engine(0.0));
    assert!(matches!(still, Err(CycleError::NotPositive { what: "speed", .. })));
    let mut beta = mesh_engine(600.0);
    beta.power = Some(EndSpace::plain("power", 0.05, 300.0));
    assert_eq!(solve_with(Full::default(), &beta), Err(CycleError::PowerSpace));
}

#[test]
fn correlations_out_of_range_are_said() {
    let mut path = mesh_engine(1800.0);
    assert!(solve(&path).detail.warnings.iter().all(|w| !w.contains("woven mesh")));
    path.exchangers[1].surface = swept::sizing::cycle::transfer::Surface::WovenMesh { porosity: 0.9 };
    assert!(solve(&path).detail.warnings.iter().any(|w| w.contains("porosity 0.90")));
}
