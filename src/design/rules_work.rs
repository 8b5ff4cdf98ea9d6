//! Keys of load and flywheel that only make sense together.

use super::choice::LoadKind;
use super::read::Reader;
use super::value::{Given, Value};
use crate::diagnostic::{Diagnostic, Place};

type Broken = (Place, Diagnostic);

/// Keys of a kind of load: those that it must have, those that it may have, and those of which it must have just one.
struct Keys {
    must: &'static [&'static str],
    may: &'static [&'static str],
    one_of: &'static [&'static str],
}

/// Keys of every kind of load.
const COMMON: [&str; 5] = ["kind", "speed_ratio", "drive_efficiency", "belt_section", "belt_width"];

fn keys(kind: LoadKind) -> Keys {
    let at_speed = |may| Keys { must: &["speed"], may, one_of: &["torque", "power"] };
    match kind {
        LoadKind::ConstantTorque => Keys { must: &["torque"], may: &[], one_of: &[] },
        LoadKind::LiftPump => {
            Keys { must: &["head", "flow", "speed", "pump_efficiency"], may: &[], one_of: &[] }
        }
        LoadKind::Pump | LoadKind::Fan => at_speed(&[]),
        LoadKind::Generator => at_speed(&["idle_torque"]),
        LoadKind::Vehicle => {
            Keys { must: &["mass", "rolling", "drag_area", "wheel_diameter"], may: &["slope"], one_of: &[] }
        }
    }
}

/// An example of each key, for hints.
fn example(key: &str) -> &'static str {
    match key {
        "torque" => "torque = \"0.3 N m\"",
        "power" => "power = \"5 W\"",
        "speed" => "speed = \"600 rpm\"",
        "head" => "head = \"6 m\"",
        "flow" => "flow = \"3 L/min\"",
        "pump_efficiency" => "pump_efficiency = \"50 %\"",
        "mass" => "mass = \"40 kg\"",
        "rolling" => "rolling = \"1.5 %\"",
        "drag_area" => "drag_area = \"0.3 m2\"",
        _ => "wheel_diameter = \"200 mm\"",
    }
}

/// Checks load and flywheel.
pub(super) fn check(reader: &Reader<'_>) -> Vec<Broken> {
    load(reader).into_iter().chain(flywheel(reader)).collect()
}

fn value<'a>(reader: &'a Reader<'_>, table: &str, key: &str) -> Option<&'a Given> {
    reader.values.get(table)?.get(key)
}

/// Keys of a table that were written, right or wrong.
fn written<'a>(reader: &'a Reader<'_>, table: &'a str) -> impl Iterator<Item = &'static str> + 'a {
    reader.written.iter().filter(move |(of, _)| *of == table).map(|(_, key)| *key)
}

/// Where a key was written; that of a value that was refused is told already.
fn place(reader: &Reader<'_>, table: &str, key: &str) -> Option<Place> {
    value(reader, table, key)?.place.clone()
}

fn together(message: String, label: &str, allowed: String, hint: String) -> Diagnostic {
    Diagnostic::error("swept::together", message).label(label).allowed(allowed).hint(hint)
}

fn load(reader: &Reader<'_>) -> Vec<Broken> {
    let Some(given) = value(reader, "load", "kind") else { return no_kind(reader) };
    let kind = match &given.value {
        Value::Text(name) => LoadKind::from_name(name),
        _ => None,
    };
    let (Some(kind), Some(at)) = (kind, given.place.clone()) else { return Vec::new() };
    let keys = keys(kind);
    let has = |key: &str| written(reader, "load").any(|known| known == key);
    let mut all: Vec<Broken> = written(reader, "load")
        .filter(|key| ![&COMMON[..], keys.must, keys.may, keys.one_of].concat().contains(key))
        .filter_map(|key| Some((place(reader, "load", key)?, foreign(kind, key, &keys))))
        .collect();
    let missing: Vec<&str> = keys.must.iter().copied().filter(|key| !has(key)).collect();
    if !missing.is_empty() {
        all.push((at.clone(), lacks(kind, &missing)));
    }
    let given: Vec<&str> = keys.one_of.iter().copied().filter(|key| has(key)).collect();
    match given[..] {
        [] if !keys.one_of.is_empty() => all.push((at, lacks(kind, &keys.one_of[..1]))),
        [first, second, ..] => {
            let said = together(
                format!("a load of kind {} has {first} and {second}", kind.name()),
                "one says the other",
                format!("one of {}", keys.one_of.join(", ")),
                format!("leave {second} out"),
            );
            all.extend(place(reader, "load", second).map(|at| (at, said)));
        }
        _ => {}
    }
    all.extend(idle(reader));
    all
}

fn no_kind(reader: &Reader<'_>) -> Vec<Broken> {
    // a kind that was refused is told already
    let mut keys = written(reader, "load");
    if keys.any(|key| key == "kind") {
        return Vec::new();
    }
    let own = written(reader, "load").filter(|key| !COMMON.contains(key));
    let first = own.filter_map(|key| place(reader, "load", key)).min_by_key(|p| p.span.start);
    let said = together(
        "the load has no kind".into(),
        "a load of which kind?",
        format!("kind = one of {}", LoadKind::NAMES.join(", ")),
        "add kind = \"fan\", for example, under [load]".into(),
    );
    first.map(|at| (at, said)).into_iter().collect()
}

fn foreign(kind: LoadKind, key: &str, of: &Keys) -> Diagnostic {
    let all = [of.one_of, of.must, of.may, &COMMON[1..]].concat();
    let kinds = LoadKind::NAMES.iter().filter_map(|name| LoadKind::from_name(name));
    let theirs = |kind: &LoadKind| {
        let k = keys(*kind);
        [k.must, k.may, k.one_of].concat().contains(&key)
    };
    let homes: Vec<&str> = kinds.filter(theirs).map(LoadKind::name).collect();
    together(
        format!("a load of kind {} has no {key}", kind.name()),
        "key of another kind",
        format!("for kind {}: {}", kind.name(), all.join(", ")),
        format!("leave {key} out; it is for kind {}", homes.join(", ")),
    )
}

fn lacks(kind: LoadKind, missing: &[&str]) -> Diagnostic {
    let examples: Vec<&str> = missing.iter().map(|key| example(key)).collect();
    together(
        format!("a load of kind {} lacks {}", kind.name(), missing.join(" and ")),
        "something is missing for this kind",
        format!("all of {}", missing.join(", ")),
        format!("add {} under [load]", examples.join(" and ")),
    )
}

/// The idle torque of a generator is a part of its torque.
fn idle(reader: &Reader<'_>) -> Option<Broken> {
    let number = |key: &str| match value(reader, "load", key)?.value {
        Value::Number(number) => Some(number),
        _ => None,
    };
    let (idle, speed) = (number("idle_torque")?, number("speed")?);
    let whole = number("torque").or(number("power").map(|w| w / (std::f64::consts::TAU * speed / 60.0)))?;
    let said = together(
        format!("the idle torque is more than the whole torque of {whole:.3} N m at {speed:.0} rpm"),
        "a part cannot be more than the whole",
        format!("0 N m to {whole:.4} N m"),
        "give the torque or power that the generator takes in all, idle torque with it".into(),
    );
    Some((place(reader, "load", "idle_torque")?, said)).filter(|_| idle > whole)
}

/// A wheel is given by its inertia or by its sizes; its mass only with its inertia.
fn flywheel(reader: &Reader<'_>) -> Option<Broken> {
    let has = |key: &str| written(reader, "flywheel").any(|known| known == key);
    if has("mass") && !has("inertia") {
        let said = together(
            "the flywheel has a mass without an inertia".into(),
            "mass alone does not say how far out it sits",
            "mass together with inertia, or sizes".into(),
            "add inertia, or give diameter and width and leave mass out".into(),
        );
        return Some((place(reader, "flywheel", "mass")?, said));
    }
    let sizes = ["width", "rim_thickness", "material"];
    let size = sizes.into_iter().find(|key| has("inertia") && has(key))?;
    let said = together(
        format!("the flywheel has an inertia and a {size}"),
        "one says the other",
        "inertia (with mass and diameter), or diameter, width, rim_thickness and material".into(),
        format!("leave {size} or inertia out"),
    );
    Some((place(reader, "flywheel", size)?, said))
}
