//! `swept size` as a reader of its JSON sees it: the full model's answer hangs together.

use serde_json::Value;
use std::process::Command;

fn size(more: &[&str]) -> Value {
    let mut command = Command::new(env!("CARGO_BIN_EXE_swept"));
    command.current_dir(env!("CARGO_MANIFEST_DIR")).args([
        "size",
        "sample-designs/allotment-pump.toml",
        "--json",
    ]);
    let done = command.args(more).output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    serde_json::from_slice(&done.stdout).unwrap()
}

fn number(value: &Value, path: &str) -> f64 {
    value.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path} in {value:#}"))
}

#[test]
fn the_full_model_answers_with_power_band_losses_and_verdict() {
    let answer = size(&["--set", "model.samples=12"]);
    let at = |path: &str| number(&answer, &format!("/operating_point/{path}"));
    assert_eq!(answer.pointer("/operating_point/model").unwrap(), "full");
    assert!(at("shaft_power_W") < at("indicated_power_W"));
    assert!((at("heat_in_W") - at("heat_out_W") - at("shaft_power_W")).abs() < 1e-6, "first law");
    let band = |p: &str| at(&format!("shaft_power_band_W/{p}"));
    assert!(band("p10") <= band("p50") && band("p50") <= band("p90"));
    assert!(answer["verdict"]["turns_itself_over"].is_boolean());
    assert!((0.0..=1.0).contains(&number(&answer, "/verdict/probability")));
    assert!(answer["losses"].as_array().unwrap().len() >= 8);
    assert!(answer["map"].as_array().unwrap().len() >= 8);
}

#[test]
fn the_same_seed_gives_the_same_answer() {
    assert_eq!(size(&["--set", "model.samples=6"]), size(&["--set", "model.samples=6"]));
}

#[test]
fn ideal_models_leave_out_what_they_cannot_know() {
    for model in ["isothermal", "adiabatic"] {
        let answer = size(&["--set", &format!("model.cycle={model}")]);
        assert_eq!(answer.pointer("/operating_point/model").unwrap(), model);
        assert!(answer.pointer("/operating_point/shaft_power_W").is_none());
        assert!(answer["verdict"]["turns_itself_over"].is_null());
    }
}

/// Trade rules (common practice, no source): ten times the leak of a fitted ring costs power, more charge in a closed
/// crankcase is not asked of this sample, a hotter hot end gives more.
#[test]
fn a_hotter_hot_end_gives_more_and_a_cold_one_does_not_run() {
    let power = |celsius: &str| {
        let answer = size(&["--set", "model.samples=0", "--set", &format!("hot_end.temperature={celsius}")]);
        number(&answer, "/operating_point/shaft_power_W")
    };
    assert!(power("550 °C") > power("450 °C"));
    assert!(power("110 °C") < 0.0, "no engine of this kind lives on 60 K");
}
