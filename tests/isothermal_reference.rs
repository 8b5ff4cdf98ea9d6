//! The isothermal cycle against reference engines and published optima; sources in `tests/data/`.

mod cycle_support;

use cycle_support::{Engine, greatest_at, input, prints_as};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::f64::consts::PI;
use swept::sizing::cycle::forced_work::ForcedWork;
use swept::sizing::cycle::isothermal::{ClosedForm, Swing};
use swept::sizing::cycle::numeric::Numeric;
use swept::sizing::cycle::{CycleInput, CycleModel, CycleResult, MeanTemperature};
use swept::sizing::volumes::{VolumeLaw, Zone};

#[derive(Deserialize)]
struct Cases {
    case: Vec<Case>,
    hirata: BTreeMap<String, String>,
    two_pistons: BTreeMap<String, String>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    arrangement: String,
    gas_constant: f64,
    hot_swept: f64,
    cold_swept: f64,
    hot_clearance: f64,
    cold_clearance: f64,
    cooler: f64,
    regenerator: f64,
    heater: f64,
    hot: f64,
    cold: f64,
    mean_pressure: f64,
    frequency_hz: f64,
    expected: BTreeMap<String, String>,
}

impl Case {
    fn law(&self) -> VolumeLaw {
        Engine {
            arrangement: &self.arrangement,
            hot_swept: self.hot_swept,
            cold_swept: self.cold_swept,
            hot_clearance: self.hot_clearance,
            cold_clearance: self.cold_clearance,
            dead: [(Zone::Cold, self.cooler), (Zone::Between, self.regenerator), (Zone::Hot, self.heater)],
            lead_deg: 90.0,
        }
        .law()
    }

    fn input<'a>(&self, law: &'a VolumeLaw) -> CycleInput<'a> {
        CycleInput {
            gas_constant_j_kg_k: self.gas_constant,
            ..input(law, self.hot, self.cold, self.mean_pressure)
        }
    }
}

fn cases() -> Cases {
    toml::from_str(include_str!("data/isothermal_cases.toml")).unwrap()
}

fn figures(r: &CycleResult, frequency_hz: f64) -> Vec<(&'static str, f64)> {
    vec![
        ("mass", r.mass_kg),
        ("pressure_max", r.pressure_max_pa),
        ("pressure_min", r.pressure_min_pa),
        ("hot_work", r.hot_work_j),
        ("cold_work", r.cold_work_j),
        ("work", r.work_j),
        ("efficiency", r.efficiency.unwrap()),
        ("power", r.work_j * frequency_hz),
    ]
}

#[test]
fn closed_form_and_numeric_cycle_print_every_digit_of_the_reference_cases() {
    for case in cases().case {
        let law = case.law();
        let swing = Swing::of(&case.input(&law)).unwrap();
        let (most, least) = law.extremes_m3();
        let mut all = vec![
            ("swing", swing.ratio),
            ("phase_deg", swing.phase_rad.to_degrees()),
            ("volume_max", most * 1e6),
            ("volume_min", least * 1e6),
        ];
        all.extend(figures(&ClosedForm.solve(&case.input(&law)).unwrap(), case.frequency_hz));
        all.extend(figures(&Numeric::default().solve(&case.input(&law)).unwrap(), case.frequency_hz));
        for (what, value) in all {
            prints_as(value, &case.expected[what], &format!("case {} {what}", case.name));
        }
    }
}

#[test]
fn the_numeric_cycle_is_within_1e_9_of_the_closed_form() {
    for case in cases().case {
        let law = case.law();
        let closed = ClosedForm.solve(&case.input(&law)).unwrap();
        let numeric = Numeric::default().solve(&case.input(&law)).unwrap();
        for ((what, c), (_, n)) in figures(&closed, 1.0).into_iter().zip(figures(&numeric, 1.0)) {
            assert!((n / c - 1.0).abs() < 1e-9, "case {} {what}: {n} against {c}", case.name);
        }
        for (c, n) in closed.points.iter().zip(&numeric.points) {
            assert!((n.pressure_pa / c.pressure_pa - 1.0).abs() < 1e-11 && n.total_m3 == c.total_m3);
        }
        assert!(numeric.step_error.unwrap() < 1e-11);
    }
}

/// Ratio forms of K. Hirata, "Schmidt theory for Stirling engines" (from memory), arithmetic mean:
/// a closed form that shares no expression with ours.
#[test]
fn the_ratio_forms_of_the_literature_give_the_same_works() {
    let (t, v, lead) = (330.0 / 700.0, 40.0 / 50.0, 80.0_f64.to_radians());
    let (x_e, x_c, x_r) = (3.0 / 50.0, 4.0 / 50.0, 12.0 / 50.0);
    for arrangement in ["alpha", "beta", "gamma"] {
        let dead_part = t + 2.0 * t * x_e + 4.0 * t * x_r / (1.0 + t) + v + 2.0 * x_c;
        let displaced = if arrangement == "alpha" { 0.0 } else { 1.0 };
        let touching = 0.5 * (1.0 + v) - (0.25 * (1.0 + v * v) - 0.5 * v * lead.cos()).sqrt();
        let overlap = if arrangement == "beta" { touching } else { 0.0 };
        let (s, x, y) =
            (dead_part + displaced - 2.0 * overlap, t + v * lead.cos() - displaced, v * lead.sin());
        let b = x.hypot(y) / s;
        let hot_work = 1e5 * 50e-6 * PI * b * y.atan2(x).sin() / (1.0 + (1.0 - b * b).sqrt());
        let law = Engine {
            arrangement,
            hot_swept: 50.0,
            cold_swept: 40.0,
            hot_clearance: 3.0,
            cold_clearance: 4.0,
            dead: [(Zone::Cold, 0.0), (Zone::Between, 12.0), (Zone::Hot, 0.0)],
            lead_deg: 80.0,
        }
        .law();
        let mut i = input(&law, 700.0, 330.0, 1e5);
        i.temperatures.mean = MeanTemperature::Arithmetic;
        let r = ClosedForm.solve(&i).unwrap();
        assert!((r.hot_work_j / hot_work - 1.0).abs() < 1e-12, "{arrangement}");
        assert!((r.cold_work_j / (-t * hot_work) - 1.0).abs() < 1e-12, "{arrangement}");
    }
}

#[derive(Deserialize)]
struct Published {
    temperature_ratio: f64,
    dead_ratio: f64,
    optimum: Vec<Optimum>,
}

#[derive(Deserialize)]
struct Optimum {
    objective: String,
    lead_over_pi: f64,
    swept_ratio: f64,
    value: String,
}

/// Value of an alpha engine for an objective; 1 cm³ of hot swept volume, 1000 K.
fn alpha_value(p: &Published, objective: &str, swept_ratio: f64, lead_over_pi: f64) -> f64 {
    let law = Engine {
        arrangement: "alpha",
        hot_swept: 1.0,
        cold_swept: swept_ratio,
        hot_clearance: 0.0,
        cold_clearance: 0.0,
        dead: [(Zone::Cold, 0.0), (Zone::Between, p.dead_ratio), (Zone::Hot, 0.0)],
        lead_deg: 180.0 * lead_over_pi,
    }
    .law();
    let cold_k = 1000.0 * p.temperature_ratio;
    let mut i = CycleInput { points: 0, ..input(&law, 1000.0, cold_k, 1e5) };
    i.temperatures.mean = MeanTemperature::Arithmetic;
    let r = ClosedForm.solve(&i).unwrap();
    match objective {
        "mass" => r.work_j / (r.mass_kg * i.gas_constant_j_kg_k * cold_k),
        _ => r.work_j / (r.pressure_max_pa * (1.0 + swept_ratio) * 1e-6),
    }
}

#[test]
fn published_optima_are_met_within_one_percent() {
    let published: Published = toml::from_str(include_str!("data/published_optima.toml")).unwrap();
    for o in &published.optimum {
        let value = |ratio, lead| alpha_value(&published, &o.objective, ratio, lead);
        let best_lead = |ratio| greatest_at(0.3, 0.7, |lead| value(ratio, lead));
        let ratio = greatest_at(0.2, 6.0, |ratio| value(ratio, best_lead(ratio)));
        let lead = best_lead(ratio);
        assert!((ratio / o.swept_ratio - 1.0).abs() < 0.01, "{}: swept ratio {ratio}", o.objective);
        assert!((lead / o.lead_over_pi - 1.0).abs() < 0.01, "{}: lead {lead} pi", o.objective);
        prints_as(value(ratio, lead), &o.value, &o.objective);
    }
}

#[test]
fn the_small_alpha_engine_is_as_remembered() {
    let expected = cases().hirata;
    let law = Engine {
        arrangement: "alpha",
        hot_swept: 0.628,
        cold_swept: 0.628,
        hot_clearance: 0.2,
        cold_clearance: 0.2,
        dead: [(Zone::Cold, 0.0), (Zone::Between, 0.2), (Zone::Hot, 0.0)],
        lead_deg: 90.0,
    }
    .law();
    let mut i = input(&law, 673.15, 303.15, 101.3e3);
    i.temperatures.mean = MeanTemperature::Arithmetic;
    let r = ClosedForm.solve(&i).unwrap();
    prints_as(Swing::of(&i).unwrap().ratio, &expected["swing"], "swing");
    for (what, value) in figures(&r, 2000.0 / 60.0).into_iter().filter(|(what, _)| *what != "mass") {
        prints_as(value, &expected[what], what);
    }
    let power = r.work_j * 2000.0 / 60.0;
    assert!((power / 0.69 - 1.0).abs() < 0.01 && (r.efficiency.unwrap() / 0.55 - 1.0).abs() < 0.01);
}

#[test]
fn forced_and_shaft_work_print_every_digit_of_the_table() {
    for case in cases().case {
        let law = case.law();
        let r = ClosedForm.solve(&CycleInput { points: 40_000, ..case.input(&law) }).unwrap();
        let split = ForcedWork::of_total(&r, case.mean_pressure);
        let shaft = [("shaft_work_70", 0.7), ("shaft_work_80", 0.8), ("shaft_work_90", 0.9)];
        prints_as(split.forced_j, &case.expected["forced_work"], &format!("case {} forced", case.name));
        for (what, effectiveness) in shaft {
            prints_as(
                split.shaft_j(effectiveness),
                &case.expected[what],
                &format!("case {} {what}", case.name),
            );
        }
        assert!((split.indicated_j() / r.work_j - 1.0).abs() < 1e-7);
    }
}

#[test]
fn the_pistons_of_an_alpha_engine_are_counted_one_by_one() {
    let Cases { case, two_pistons, .. } = cases();
    let law = case[0].law();
    let r = ClosedForm.solve(&CycleInput { points: 40_000, ..case[0].input(&law) }).unwrap();
    let of = |volume: fn(&swept::sizing::cycle::CyclePoint) -> f64| {
        let points: Vec<_> = r.points.iter().map(|p| [volume(p), p.pressure_pa]).collect();
        ForcedWork::of_loop(&points, 2e5).forced_j
    };
    prints_as(of(|p| p.hot_m3), &two_pistons["hot"], "hot piston");
    prints_as(of(|p| p.cold_m3), &two_pistons["cold"], "cold piston");
    prints_as(ForcedWork::of_two_pistons(&r, 2e5).forced_j, &two_pistons["sum"], "both pistons");
}

/// Shaft work (indicated work without effectiveness) of a gamma engine of 1 cm³ of total swept volume.
fn gamma_work(swept_ratio: f64, temperature_ratio: f64, dead: f64, effectiveness: Option<f64>) -> f64 {
    let law = Engine {
        arrangement: "gamma",
        hot_swept: 1.0 / (1.0 + swept_ratio),
        cold_swept: swept_ratio / (1.0 + swept_ratio),
        hot_clearance: 0.0,
        cold_clearance: 0.0,
        dead: [(Zone::Cold, 0.0), (Zone::Between, dead), (Zone::Hot, 0.0)],
        lead_deg: 90.0,
    }
    .law();
    let r = ClosedForm.solve(&input(&law, 1000.0, 1000.0 * temperature_ratio, 1e5)).unwrap();
    effectiveness.map_or(r.work_j, |e| ForcedWork::of_total(&r, 1e5).shaft_j(e))
}

#[test]
fn best_swept_ratios_of_a_gamma_engine_are_those_of_the_table() {
    let text = include_bytes!("data/gamma_optimum.csv").as_slice();
    let mut table = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text);
    let kinds = [Some(0.7), Some(0.8), Some(0.9), None];
    let mut rows = 0;
    for row in table.records() {
        let row = row.unwrap();
        let temperature_ratio: f64 = row[0].parse().unwrap();
        for (column, (effectiveness, dead)) in kinds.iter().flat_map(|e| [(*e, 0.25), (*e, 1.0)]).enumerate()
        {
            let work = |ratio| gamma_work(ratio, temperature_ratio, dead, effectiveness);
            let best = greatest_at(0.005, 3.0, work);
            let expected: f64 = row[column + 1].parse().unwrap();
            assert!(
                (best - expected).abs() < 3e-5,
                "{temperature_ratio} {effectiveness:?} {dead}: {best} {expected}"
            );
            rows += 1;
        }
    }
    assert_eq!(rows, 56);
}

#[test]
fn forced_work_settles_with_the_square_of_the_points() {
    for case in cases().case {
        let law = case.law();
        let forced = |points| {
            let r = ClosedForm.solve(&CycleInput { points, ..case.input(&law) }).unwrap();
            ForcedWork::of_total(&r, case.mean_pressure)
        };
        let fine = forced(40_000);
        for (points, error) in [(360, 2.1e-5), (720, 5.2e-6), (1440, 1.3e-6)] {
            let off = (forced(points).forced_j - fine.forced_j) / fine.indicated_j();
            assert!(off.abs() < error, "case {} at {points} points: {off:e}", case.name);
        }
    }
}
