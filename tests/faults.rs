//! Engines that are built with one fault: the verdict names it first or second, with figures, in words and in JSON.

use swept::design::read;
use swept::sizing::answer::{Sized, judged};
use swept::sizing::verdict::Cause;

/// The pump engine of the samples with some keys set.
fn sized(sets: &[(&str, &str)]) -> Sized {
    let path = format!("{}/sample-designs/allotment-pump.toml", env!("CARGO_MANIFEST_DIR"));
    let mut sets: Vec<(String, String)> = sets.iter().map(|(k, v)| ((*k).into(), (*v).into())).collect();
    sets.push(("model.samples".into(), "0".into()));
    let (design, _) = read("pump", &std::fs::read(path).unwrap(), &sets).unwrap_or_else(|e| panic!("{e:#?}"));
    judged(&design).unwrap_or_else(|e| panic!("{e:#?}"))
}

/// The fault is the first or second cause, its words begin as they should and hold figures.
fn names(cause: Cause, begins: &str, sets: &[(&str, &str)]) {
    let verdict = sized(sets).answer.verdict;
    let found = verdict.causes.iter().take(2).find(|c| c.cause == cause);
    let found = found.unwrap_or_else(|| panic!("{cause:?} of {sets:?} is not among {:#?}", verdict.causes));
    assert!(found.words.starts_with(begins) && found.gain_j > 0.0, "{found:?}");
    assert!(found.words.chars().any(|c| c.is_ascii_digit()), "{found:?}");
    assert!(verdict.reasons.contains(&found.words), "said in words too");
    assert!(verdict.changes.len() <= 3 && verdict.changes.iter().all(|c| c.gain_j > 0.0 && c.gain_w > 0.0));
}

#[test]
fn over_compression() {
    names(
        Cause::OverCompression,
        "over-compression: the crank must put",
        &[("displacer.stroke", "16 mm"), ("piston.stroke", "60 mm"), ("spread.leak", "0.5")],
    );
}

/// A leak eight times that of the model, measured.
#[test]
fn leak() {
    names(Cause::Leak, "leak: gas that escapes", &[("spread.leak", "8")]);
}

#[test]
fn friction() {
    names(Cause::Friction, "friction: the mechanism takes", &[("spread.ring_friction", "10")]);
}

#[test]
fn too_little_heat_transfer() {
    names(Cause::HeatTransfer, "heat transfer: at 300 rpm the gas is at", &[("spread.heat_transfer", "0.4")]);
}

#[test]
fn dead_volume() {
    names(
        Cause::DeadVolume,
        "dead volume:",
        &[
            ("displacer.hot_clearance", "30 mm"),
            ("displacer.cold_clearance", "20 mm"),
            ("piston.top_clearance", "12 mm"),
        ],
    );
}

#[test]
fn displacer_gap_too_wide_or_too_narrow() {
    names(Cause::DisplacerGap, "displacer gap too wide: 4.00 mm", &[("displacer.gap", "4 mm")]);
    names(Cause::DisplacerGap, "displacer gap too narrow: 0.30 mm", &[("displacer.gap", "0.3 mm")]);
}

#[test]
fn flow_friction() {
    names(Cause::FlowFriction, "flow friction: gap and port take", &[("displacer.gap", "0.3 mm")]);
}

/// Too cool because it is meant so, and because the heater is too weak.
#[test]
fn hot_end_too_cool() {
    names(Cause::HotEndTooCool, "hot end too cool: 200 °C", &[("hot_end.temperature", "200 °C")]);
    names(Cause::HotEndTooCool, "hot end too cool: the heater's 160 W", &[("hot_end.heater_power", "160 W")]);
}

/// A thick cap of plain steel on a heater that cannot make up for it; with a heater that can, it costs fuel alone, and is
/// said so.
#[test]
fn conduction_eats_the_heat() {
    let thick = [("hot_end.wall", "6 mm"), ("hot_end.material", "mild-steel")];
    let weak = [&thick[..], &[("hot_end.heater_power", "260 W")]].concat();
    names(Cause::Conduction, "conduction eats the heat:", &weak);
    let said = sized(&thick).answer.verdict.reasons;
    assert!(said.iter().any(|r| r.contains("costs fuel, not power")), "{said:#?}");
}
