//! The reference engines of `tests/data`, alpha, beta and gamma, before all three models through their one interface.

mod cycle_support;

use cycle_support::Engine;
use swept::catalogue::gases::{Gas, gas};
use swept::design::read;
use swept::sizing::answer::{full_engine, size};
use swept::sizing::cycle::path::{Buffer, EndSpace, Exchanger, Factors, GasPath, Walls};
use swept::sizing::cycle::{Adiabatic, Charge, CycleModel, CycleResult, Full, Isothermal};
use swept::sizing::volumes::Zone;
use toml::{Table, Value};

fn number(v: &Value, key: &str) -> f64 {
    v[key].as_float().or_else(|| v[key].as_integer().map(|i| i as f64)).unwrap()
}

/// A gas of constant heat capacity, as the references have it.
fn ideal_gas(r: f64, ratio: f64) -> Gas {
    let base = gas(if r > 1000.0 { "helium" } else { "air" }).unwrap();
    Gas { r_j_kg_k: r, cp_a0: r * ratio / (ratio - 1.0), cp_a1: 0.0, cp_a2: 0.0, cp_a3: 0.0, ..base }
}

/// Channels of this volume, 40 mm long.
fn channels(name: &str, zone: Zone, cm3: f64, hydraulic_m: f64, [hot_k, cold_k]: [f64; 2]) -> Exchanger {
    let volume_m3 = cm3 * 1e-6;
    Exchanger {
        volume_m3,
        flow_area_m2: volume_m3 / 0.040,
        hydraulic_m,
        wetted_m2: 4.0 * volume_m3 / hydraulic_m,
        ..Exchanger::tubes(name, zone, 1.0, 0.003, 0.040, Walls::Fixed { hot_k, cold_k })
    }
}

/// A reference engine with its heater, regenerator and cooler; cold space and power cylinder are one, as in the ideal
/// models. What the references do not say (bore, widths, speed) is of no account in the limits.
fn path(case: &Value, ratio: f64) -> GasPath {
    let of = |key| number(case, key);
    let (hot, cold, pressure) = (of("hot"), of("cold"), of("mean_pressure"));
    let dead = [(Zone::Cold, of("cooler")), (Zone::Between, of("regenerator")), (Zone::Hot, of("heater"))];
    let engine = Engine {
        arrangement: case["arrangement"].as_str().unwrap(),
        hot_swept: of("hot_swept"),
        cold_swept: of("cold_swept"),
        hot_clearance: of("hot_clearance"),
        cold_clearance: of("cold_clearance"),
        dead,
        lead_deg: 90.0,
    };
    let exchangers = [
        channels("heater", Zone::Hot, of("heater"), 0.002, [hot, hot]),
        channels("regenerator", Zone::Between, of("regenerator"), 0.0005, [hot, cold]),
        channels("cooler", Zone::Cold, of("cooler"), 0.001, [cold, cold]),
    ];
    GasPath {
        arrangement: *engine.law().arrangement(),
        lead_deg: 90.0,
        hot: EndSpace::plain("hot space", 0.05, hot),
        exchangers: exchangers.into_iter().filter(|e| e.volume_m3 > 0.0).collect(),
        cold: EndSpace::plain("cold space", 0.05, cold),
        port: vec![],
        power: None,
        leaks: vec![],
        buffer: Buffer { pressure_pa: pressure, temperature_k: cold },
        gas: ideal_gas(of("gas_constant"), ratio),
        speed_rpm: 60.0 * of("frequency_hz"),
        charge: Charge::MeanPressure(pressure),
        factors: Factors::default(),
    }
}

/// Name, path and the adiabatic figures of each reference engine.
fn engines() -> Vec<(String, GasPath, Value)> {
    let table = |text: &str| -> Table { toml::from_str(text).unwrap() };
    let (inputs, expected) =
        (table(include_str!("data/isothermal_cases.toml")), table(include_str!("data/adiabatic_cases.toml")));
    let cases = inputs["case"].as_array().unwrap().iter().zip(expected["case"].as_array().unwrap());
    cases
        .map(|(case, of)| {
            let (name, kind) = (case["name"].as_str().unwrap(), case["arrangement"].as_str().unwrap());
            assert_eq!(of["name"], case["name"]);
            let path = path(case, number(of, "heat_capacity_ratio"));
            (format!("{name} ({kind})"), path, of["expected"].clone())
        })
        .collect()
}

fn solve(model: &dyn CycleModel, path: &GasPath) -> CycleResult {
    let law = path.law();
    model.solve(&path.input(&law, 720)).unwrap_or_else(|e| panic!("{}: {e}", model.name()))
}

fn near(a: f64, b: f64, share: f64, what: &str) {
    assert!((a / b - 1.0).abs() < share, "{what}: {a} against {b}");
}

fn with(path: &GasPath, heat_transfer: f64, end_heat_transfer: f64) -> GasPath {
    GasPath { factors: Factors { heat_transfer, end_heat_transfer, ..Factors::default() }, ..path.clone() }
}

/// Alpha, beta and gamma stand behind each model, and each gives what the references say: the adiabatic one within
/// 0.1 %, the full one with perfect exchangers and idle spaces within 0.5 %.
#[test]
fn adiabatic_and_full_model_reproduce_the_references() {
    let kinds: Vec<String> = engines().into_iter().map(|(name, ..)| name).collect();
    assert!(["alpha", "beta", "gamma"].iter().all(|k| kinds.iter().any(|n| n.contains(k))), "{kinds:?}");
    for (name, path, expected) in engines() {
        let models: [(&dyn CycleModel, f64); 2] = [(&Adiabatic::default(), 1e-3), (&Full::default(), 5e-3)];
        for (model, share) in models {
            let r = solve(model, &with(&path, 1e6, 0.0));
            let figures = [
                ("work", r.work_j),
                ("hot_work", r.hot_work_j),
                ("cold_work", r.cold_work_j),
                ("pressure_max", r.pressure_max_pa),
                ("pressure_min", r.pressure_min_pa),
                ("mass", r.mass_kg),
            ];
            for (what, value) in figures {
                near(value, number(&expected, what), share, &format!("{name} {} {what}", model.name()));
            }
            // without a heater the heat of the hot space is told by its work alone
            if path.exchangers.len() == 3 {
                let heat = number(&expected, "hot_work");
                near(r.heat_in_j, heat, share, &format!("{name} {} heat", model.name()));
                let efficiency = r.efficiency.unwrap();
                near(efficiency, number(&expected, "efficiency"), share, &format!("{name} {}", model.name()));
            }
        }
    }
}

/// With walls that heat and cool at once everywhere the full model is the isothermal cycle.
#[test]
fn the_full_model_with_perfect_walls_is_the_isothermal_cycle() {
    for (name, path, _) in engines() {
        let (full, ideal) = (solve(&Full::default(), &with(&path, 1e6, 1e6)), solve(&Isothermal, &path));
        near(full.work_j, ideal.work_j, 5e-3, &format!("{name} work"));
        near(full.heat_in_j, ideal.heat_in_j, 5e-3, &format!("{name} heat"));
        near(full.pressure_max_pa, ideal.pressure_max_pa, 5e-3, &format!("{name} pressure"));
    }
}

/// First law over a turn: heat in less heat out is the work, to 0.1 % of the heat in, in every model.
#[test]
fn energy_closes_in_every_model() {
    let models: [&dyn CycleModel; 3] = [&Isothermal, &Adiabatic::default(), &Full::default()];
    for (name, path, _) in engines() {
        for model in models {
            let r = solve(model, &path);
            let open = (r.heat_in_j - r.heat_out_j - r.work_j) / r.heat_in_j;
            assert!(open.abs() < 1e-3, "{name} {}: {open}", model.name());
            assert!(r.detail.closure.is_none_or(|c| c.energy.abs() < 1e-3), "{name} {}", model.name());
        }
    }
}

fn moves_little(path: &GasPath, what: &str) {
    let fine = Full { steps: 2 * Full::default().steps, ..Full::default() };
    let (a, b) = (solve(&Full::default(), path), solve(&fine, &path.refined(2)));
    println!("{what}: {:.5} J, twice as fine {:.5} J", a.work_j, b.work_j);
    near(a.work_j, b.work_j, 0.01, what);
}

#[test]
fn twice_the_cells_and_steps_move_the_reference_engines_by_less_than_one_percent() {
    for (name, path, _) in engines() {
        moves_little(&path, &name);
    }
}

/// The sample designs as sized, at half, whole and one and a half times their speed.
#[test]
fn twice_the_cells_and_steps_move_the_sample_designs_by_less_than_one_percent() {
    for name in ["allotment-pump", "stove-fan"] {
        let file = format!("{}/sample-designs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let (design, _) = read(name, &std::fs::read(file).unwrap(), &[]).unwrap();
        let net = full_engine(&design, &size(&design).unwrap().engine);
        for part in [0.5, 1.0, 1.5] {
            let rpm = part * design.targets.speed_rpm.value;
            moves_little(&net.gas_path(rpm).unwrap(), &format!("{name} at {rpm} rpm"));
        }
    }
}
