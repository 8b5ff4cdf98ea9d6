//! The verdict on the sample designs, from file to words.

use swept::design::{Design, read};
use swept::pipeline::build;
use swept::sizing::answer::full_engine;
use swept::sizing::band::{Sampling, of_engine};
use swept::sizing::cycle::forced_work::ForcedWork;
use swept::sizing::cycle::{
    Charge, CycleInput, CycleModel, CycleResult, Isothermal, MeanTemperature, Temperatures,
};
use swept::sizing::engine::Engine;
use swept::sizing::layouts;
use swept::sizing::layouts::{mechanism, volume_law};
use swept::sizing::mechanism::{Choices, FrictionFactors, GasLoop, drive_forces, effectiveness, masses};
use swept::sizing::verdict::{
    Change, FullEngine, Gearing, LoadCurve, NetWork, Question, against, judge, load_of,
};

const AIR_PA: f64 = 101_325.0;

fn design(name: &str) -> Design {
    let path = format!("{}/sample-designs/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    read(name, &std::fs::read(path).unwrap(), &[]).unwrap().0
}

fn engine(name: &str) -> Engine {
    layouts::size(&design(name)).unwrap()
}

fn model(name: &str) -> FullEngine {
    full_engine(&design(name), &engine(name))
}

fn cycle(e: &Engine) -> CycleResult {
    let law = volume_law(e).unwrap();
    let input = CycleInput {
        volumes: &law,
        temperatures: Temperatures { hot_k: 650.0, cold_k: 330.0, mean: MeanTemperature::Logarithmic },
        gas_constant_j_kg_k: 287.05,
        heat_capacity_ratio: 1.4,
        path: None,
        charge: Charge::MeanPressure(AIR_PA),
        points: 720,
    };
    Isothermal.solve(&input).unwrap()
}

/// Masses from plain volumes against those of the exact solids of the same engine.
#[test]
fn masses_are_near_those_of_the_parts_as_drawn() {
    let design = design("allotment-pump");
    let built = build(&design, None).unwrap();
    let grams = |name: &str| {
        let part =
            built.manifest.parts.iter().find(|p| p.name == name).unwrap_or_else(|| panic!("no {name}"));
        part.mass_g.unwrap_or_else(|| panic!("{name} has no mass"))
    };
    let m = masses(&built.sized.engine);
    let rods = grams("piston-rod") + grams("clevis");
    let piston = grams("piston") + rods;
    // rings and bearings are not solids of known mass in the list
    assert!((m.piston_kg * 1e3 / piston - 1.0).abs() < 0.15, "{} {piston}", m.piston_kg * 1e3);
    let displacer =
        grams("displacer-shell") + grams("displacer-base") + grams("displacer-rod") + grams("clevis");
    assert!((m.displacer_kg * 1e3 / displacer - 1.0).abs() < 0.10, "{} {displacer}", m.displacer_kg * 1e3);
    assert!(
        (m.con_rod_kg * 1e3 / grams("con-rod") - 1.0).abs() < 0.25,
        "{} {}",
        m.con_rod_kg * 1e3,
        grams("con-rod")
    );
}

/// The drive of the engine as built: all work accounted for, effectiveness in the range that the literature gives for
/// small crank engines, 0.6 to 0.95 (J. R. Senft, from memory).
#[test]
fn the_drive_of_a_sample_engine_keeps_its_books() {
    for name in ["allotment-pump", "stove-fan"] {
        let e = engine(name);
        let (cycle, drive) = (cycle(&e), mechanism(&e, &Choices::default()).unwrap());
        let gas = GasLoop {
            pressure_pa: cycle.points.iter().map(|p| p.pressure_pa).collect(),
            drop_pa: vec![],
            buffer_pa: AIR_PA,
        };
        let free = drive_forces(&drive, &gas, 300.0, &FrictionFactors::all(0.0)).unwrap();
        assert!((free.gas_work_j / cycle.work_j - 1.0).abs() < 1e-6, "{name}");
        assert!((free.shaft_work_j / free.gas_work_j - 1.0).abs() < 1e-9, "{name}");
        let turn = drive_forces(&drive, &gas, 300.0, &FrictionFactors::default()).unwrap();
        assert!((turn.gas_work_j - turn.friction_j() - turn.shaft_work_j).abs() < 1e-9, "{name}");
        let split = ForcedWork::of_total(&cycle, AIR_PA);
        let found = effectiveness(&split, turn.shaft_work_j).unwrap();
        assert!((0.6..0.95).contains(&found), "{name}: {found} {:?}", turn.friction);
    }
}

/// A verdict has all its figures, and they agree with each other.
#[test]
fn sample_engines_get_a_verdict() {
    for name in ["allotment-pump", "stove-fan"] {
        let model = model(name);
        let pump = LoadCurve::Pump { torque_nm: 0.05, at_rpm: 300.0 };
        let gearing = Gearing { ratio: None, efficiency: 0.9 };
        let j = judge(&model, &Change::NONE, &Question::at(300.0)).unwrap();
        let tried = against(&model, &Change::NONE, &j.curve, (&pump, &gearing), 200.0).unwrap();
        let verdict = j.verdict(None);
        println!("{name}\n{}", verdict.reasons.join("\n"));
        println!("{:?}\n{:?}", j.start, tried);
        for loss in j.losses() {
            println!("  {:.2} W {}", loss.power_w, loss.name);
        }
        assert_eq!(verdict.turns_itself_over, Some(j.start.spin_rpm.is_some()));
        assert!(j.losses().iter().all(|l| l.power_w >= 0.0 && l.power_w.is_finite()));
        assert!(j.work.forced_j >= 0.0);
        if let Some(running) = tried.running {
            let at = model.at(running.engine_rpm, &Change::NONE).unwrap().power_w();
            assert!((at / running.shaft_w - 1.0).abs() < 0.05, "{at} {running:?}");
            let most = j.curve.best_power().unwrap().power_w;
            assert!(running.shaft_w > 0.97 * most, "a pump through the best ratio takes the greatest power");
        }
    }
}

/// A tenth of the samples lie below the tenth percentile, and the answer hangs on the seed alone.
#[test]
fn a_sample_engine_gets_a_band() {
    let model = model("allotment-pump");
    let sampling = Sampling { count: 60, ..Sampling::at(300.0) };
    let (one, two) = (of_engine(&model, &sampling), of_engine(&model, &sampling));
    assert_eq!(one, two);
    println!("{one:?}");
    let p = one.power_w.unwrap();
    assert!(p.p10 < p.p50 && p.p50 < p.p90 && one.answered + one.failed == 60);
}

/// The loads of the sample designs against hand calculations.
///
/// Pump: ρ g H Q / η, hydraulic power over efficiency (any text book of hydraulics): 1000 × 9.80665 × 3 m × 6 L/min is
/// 2.942 W of water, 5.884 W at 50 %, 0.9365 N m at 60 rpm, whatever the speed. Fan: power goes with the cube of the
/// speed (affinity laws): 0.25 W at 900 rpm is 2 W at 1800 rpm.
#[test]
fn loads_of_the_samples_are_those_of_a_hand_calculation() {
    let power_w = |load: &LoadCurve, rpm: f64| load.torque_nm(rpm) * std::f64::consts::TAU * rpm / 60.0;
    let (pump, gearing) = load_of(&design("allotment-pump").load).unwrap();
    assert!((pump.torque_nm(60.0) - 0.9365).abs() < 1e-4 && pump.torque_nm(200.0) == pump.torque_nm(60.0));
    assert!((power_w(&pump, 60.0) - 5.884).abs() < 1e-3);
    assert_eq!((gearing.ratio, gearing.efficiency), (Some(0.2), 0.9));
    let (fan, _) = load_of(&design("stove-fan").load).unwrap();
    assert!((power_w(&fan, 900.0) - 0.25).abs() < 1e-12 && (power_w(&fan, 1800.0) - 2.0).abs() < 1e-12);
}

/// One crankpin ties lead and strokes (geometry: both rods on one pin), so no advice may part them.
#[test]
fn advice_for_one_crankpin_names_bores_and_no_stroke() {
    let design = design("cabin-fan");
    let sized = swept::sizing::answer::judged(&design).unwrap();
    let words = sized.answer.verdict.reasons.join("\n");
    assert_eq!(sized.answer.verdict.turns_itself_over, Some(true), "{words}");
    for told in ["with a stroke", "piston stroke", "displacer stroke", "lead 10", "belt"] {
        assert!(!words.contains(told), "{told}: {words}");
    }
}

/// Engines with a wide displacer turn on a mug of hot water (common knowledge of the classroom, no source), and hardly
/// with an O-ring on the rod, whose friction is most of what so little heat gives.
#[test]
fn the_classroom_engine_turns_on_a_mug_of_hot_water() {
    let mut design = design("classroom-engine");
    assert!(design.hot_end.temperature_k.value < 373.15, "no hotter than boiling water");
    design.model.samples.value = 0;
    let free = swept::sizing::answer::judged(&design).unwrap().answer.verdict;
    design.seals.gland.value = swept::design::GlandKind::ReciprocatingPneumatic;
    let sealed = swept::sizing::answer::judged(&design).unwrap().answer.verdict;
    assert_eq!(free.turns_itself_over, Some(true));
    assert!(sealed.margin_j_per_turn.unwrap() < 0.5 * free.margin_j_per_turn.unwrap());
}
