//! Load, flywheel and spreads of a design, from the file to the JSON.

use serde_json::Value;
use std::process::Command;

fn run(sample: &str, sets: &[&str], more: &[&str]) -> std::process::Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_swept"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args(["size", &format!("sample-designs/{sample}.toml")]);
    for set in sets {
        command.args(["--set", set]);
    }
    command.args(more).output().unwrap()
}

fn size(sample: &str, sets: &[&str]) -> Value {
    let done = run(sample, sets, &["--json"]);
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stdout));
    serde_json::from_slice(&done.stdout).unwrap()
}

fn number(value: &Value, path: &str) -> f64 {
    value.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path} in {value:#}"))
}

/// At the point where engine and load agree: torque of the load by hand (1000 × 9.80665 × 3 m × 6 L/min over 50 % at
/// 60 rpm is 0.9365 N m), power is torque by speed, the drive takes its tenth, water goes with the pump's speed.
#[test]
fn a_pump_through_a_given_ratio_keeps_its_books() {
    let answer = size("allotment-pump", &["model.samples=8"]);
    let at = |name: &str| number(&answer, &format!("/load/{name}"));
    assert_eq!(answer.pointer("/load/turns_it"), Some(&Value::Bool(true)));
    assert!((at("load_torque_N_m") - 0.9365).abs() < 1e-3);
    assert!((at("load_speed_rpm") / at("engine_speed_rpm") - 0.2).abs() < 1e-9);
    let power = at("load_torque_N_m") * std::f64::consts::TAU * at("load_speed_rpm") / 60.0;
    assert!((power / at("load_power_W") - 1.0).abs() < 1e-3, "{power}");
    assert!((at("load_power_W") / at("shaft_power_W") - 0.9).abs() < 1e-9);
    assert!((at("water_L_per_min") / at("load_speed_rpm") - 0.1).abs() < 1e-9);
    let band = |p: &str| at(&format!("load_power_band_W/{p}"));
    assert!(band("p10") <= band("p50") && band("p50") <= band("p90"));
    assert!((0.0..=1.0).contains(&at("probability")));
    let words = answer["load"]["words"].to_string();
    assert!(words.contains("turns its load (lift-pump)") && words.contains("L of water a minute"), "{words}");
}

#[test]
fn a_load_that_stalls_is_told_a_ratio_that_does_not() {
    let answer = size("allotment-pump", &["model.samples=0", "load.speed_ratio=5"]);
    assert_eq!(answer.pointer("/load/turns_it"), Some(&Value::Bool(false)));
    let words = answer["load"]["words"].to_string();
    assert!(words.contains("through a ratio of 5: it stalls; through a ratio of 0."), "{words}");
    assert!(answer.pointer("/load/load_power_W").is_none());
    let cold = size("allotment-pump", &["model.samples=0", "hot_end.temperature=101 °C", "load.head=30 m"]);
    assert!(cold["load"]["words"].to_string().contains("nor would it through any other"), "{cold:#}");
}

/// A fan takes the power that the affinity laws say, 0.25 W × (n / 900)³, and finds the best ratio by itself.
#[test]
fn a_fan_finds_its_ratio() {
    let answer = size("stove-fan", &["model.samples=0", "hot_end.temperature=450 °C"]);
    let at = |name: &str| number(&answer, &format!("/load/{name}"));
    let wanted = 0.25 * (at("load_speed_rpm") / 900.0).powi(3);
    assert!((at("load_power_W") / wanted - 1.0).abs() < 2e-3, "{wanted}");
    assert_eq!(answer.pointer("/load/speed_ratio_given"), Some(&Value::Bool(false)));
    let best = answer["map"].as_array().unwrap().iter();
    let best = best.map(|p| number(p, "/shaft_power_W")).fold(0.0, f64::max);
    assert!(at("shaft_power_W") > 0.95 * best, "the best ratio lets it run near its greatest power");
}

#[test]
fn a_design_without_a_load_says_nothing_of_one() {
    let text = include_str!("../sample-designs/stove-fan.toml").replace("kind = \"fan\"\n", "");
    let text = text.replace("power = \"0.25 W\"\nspeed = \"900 rpm\"\n", "");
    let (design, _) =
        swept::design::read("fan.toml", text.as_bytes(), &[("model.samples".into(), "0".into())]).unwrap();
    let answer = swept::sizing::answer::judged(&design).unwrap().answer;
    assert!(answer.load.is_none() && answer.flywheel.is_some() && answer.spread.is_empty());
    assert!(answer.flywheel.unwrap().words[0].contains("default"), "a wheel that nobody gave is told so");
}

/// Disc of 240 × 15 mm with a bore of 14 mm and, inside a rim of 30 mm, five holes of 52 mm on 111.5 mm, density 7850: by
/// hand m = 7850 × 0.015 × π (0.12² − 0.007² − 5 × 0.026²) = 4.0584 kg, J = 7850 × 0.015 × π/2 (0.12⁴ − 0.007⁴ −
/// 5 (0.026⁴ + 2 × 0.026² × 0.05575²)) = 0.034044 kg m². The unsteadiness of a great wheel goes with 1/J (R. S. Khurmi and J. K. Gupta, Theory
/// of Machines: ΔE = J ω² C_s).
#[test]
fn a_flywheel_is_worked_out_from_its_sizes() {
    let at = |answer: &Value, name: &str| number(answer, &format!("/flywheel/{name}"));
    let load = ["model.samples=0"];
    let plain = size("allotment-pump", &load);
    assert!(
        (at(&plain, "mass_kg") - 4.0584).abs() < 1e-3
            && (at(&plain, "inertia_kg_m2") - 0.034_044).abs() < 1e-5
    );
    let heavy = size("allotment-pump", &[&load[..], &["flywheel.width=60 mm"]].concat());
    let ratio = at(&plain, "unsteadiness") / at(&heavy, "unsteadiness");
    assert!((ratio / 4.0 - 1.0).abs() < 0.15, "four times the wheel, a quarter of the swing: {ratio}");
    // the wheel that is asked for does it
    let steady = size("allotment-pump", &[&load[..], &["flywheel.steadiness=1 %"]].concat());
    let wider = 15.0 * at(&steady, "needed_inertia_kg_m2") / at(&steady, "inertia_kg_m2");
    let width = format!("flywheel.width={wider:.4} mm");
    let done = size("allotment-pump", &[&load[..], &[&width]].concat());
    assert!((at(&done, "unsteadiness") / 0.01 - 1.0).abs() < 0.03, "{done:#}");
    assert!(steady["flywheel"]["words"].to_string().contains("it takes a wheel of"));
    // a heavier wheel needs less spin to come over
    let spin = |answer: &Value| number(answer, "/verdict/start_spin_rpm");
    assert!(spin(&heavy) < spin(&plain));
}

#[test]
fn a_wheel_that_the_builder_has_counts_as_it_is() {
    let answer = size(
        "stove-fan",
        &[
            "model.samples=0",
            "flywheel.inertia=20 kg cm2",
            "flywheel.diameter=120 mm",
            "flywheel.mass=1.1 kg",
        ],
    );
    assert!((number(&answer, "/flywheel/inertia_kg_m2") - 2e-3).abs() < 1e-12);
    assert_eq!(number(&answer, "/engine/flywheel.mass/value"), 1.1);
    assert!(answer.pointer("/engine/flywheel.width").is_none());
}

/// What the builder sets is taken at its middle, and is no longer uncertain; the ranking tells which is given.
#[test]
fn spreads_of_the_design_move_power_and_band() {
    let width = |sets: &[&str]| {
        let answer = size("allotment-pump", &[&["model.samples=40"], sets].concat());
        let band = |p: &str| number(&answer, &format!("/operating_point/shaft_power_band_W/{p}"));
        (band("p90") - band("p10"), answer)
    };
    let (usual, answer) = width(&[]);
    let shares: Vec<f64> = answer["spread"].as_array().unwrap().iter().map(|s| number(s, "/share")).collect();
    assert_eq!(shares.len(), 11);
    assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9 && shares.is_sorted_by(|a, b| a >= b));
    let of = |answer: &Value, input: &str| {
        answer["spread"].as_array().unwrap().iter().find(|s| s["input"] == input).unwrap().clone()
    };
    assert_eq!(
        (of(&answer, "leak")["given"].clone(), of(&answer, "belt_drag")["given"].clone()),
        (true.into(), false.into())
    );
    let first = answer["spread"][0]["input"].as_str().unwrap().to_owned();
    let set = format!("spread.{first}=known");
    let (narrow, known) = width(&[&set]);
    assert!(narrow < usual, "what moves it most is known: {narrow} is less than {usual}");
    assert_eq!(number(&of(&known, &first), "/share"), 0.0);
    let shaft = |sets: &[&str]| number(&size("allotment-pump", sets), "/operating_point/shaft_power_W");
    let (plain, leaky) = (shaft(&["model.samples=0"]), shaft(&["model.samples=0", "spread.leak=3"]));
    assert!(leaky < plain, "a leak that was measured counts in the power itself");
    // a wall spreads with the fall of temperature unless the design gives kelvin
    assert_eq!(of(&answer, "hot_wall")["unit"], "share-of-fall");
    let kelvin = size("allotment-pump", &["model.samples=2", "spread.hot_wall=-80 K..-40 K"]);
    assert_eq!(of(&kelvin, "hot_wall")["unit"], "kelvin");
    let range = shaft(&["model.samples=0", "spread.hot_wall=-80 K..-40 K"]);
    let fixed = shaft(&["model.samples=0", "spread.hot_wall=-60 K"]);
    assert!((range - fixed).abs() < 1e-9 && range < plain, "{range} {fixed} {plain}");
}

#[test]
fn what_the_band_comes_from_is_said() {
    let text = |more: &[&str]| {
        let done = run("stove-fan", &["model.samples=6", "spread.gland_friction=known"], more);
        String::from_utf8(done.stdout).unwrap()
    };
    assert!(text(&[]).contains("most of the band comes from: "));
    let all = text(&["-v"]);
    let line = |name: &str| all.lines().find(|l| l.trim().starts_with(name)).unwrap().to_owned();
    assert!(line("gland friction").contains("given") && line("ring friction").contains("default"), "{all}");
}
