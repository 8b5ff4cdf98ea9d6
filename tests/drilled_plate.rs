//! Water channels drilled through the cooler plate: clear of every other hole, listed with their hoses, felt by the heat.

use swept::design::{Design, read};
use swept::parts::part::PartSet;
use swept::parts::part_set;
use swept::shape::measure::measure;
use swept::shape::recipe::{Feature, Kind, Recipe};
use swept::shape::solid::{Solid, build};
use swept::sizing::answer::{judged, size};
use swept::sizing::engine::Engine;
use swept::sizing::layouts::plate_channels;

fn design(sample: &str, sets: &[(&str, &str)]) -> Design {
    let path = format!("{}/sample-designs/{sample}.toml", env!("CARGO_MANIFEST_DIR"));
    let sets: Vec<(String, String)> = sets.iter().map(|(k, v)| ((*k).to_owned(), (*v).to_owned())).collect();
    read(sample, &std::fs::read(path).unwrap(), &sets).expect("a sound design").0
}

fn made(sample: &str, channels: &str) -> (Engine, PartSet) {
    let design = design(sample, &[("cooler.plate_channels", channels)]);
    let engine = size(&design).unwrap_or_else(|said| panic!("{sample}: {said:?}")).engine;
    let set = part_set(&engine, &design.workshop, 0.0);
    (engine, set)
}

fn plate(set: &PartSet) -> &Recipe {
    set.parts.iter().find(|p| p.name == "cooler-plate").unwrap().recipe.as_ref().unwrap()
}

fn volume(solid: &Solid) -> f64 {
    measure(solid).volume_mm3
}

/// Greatest radius of a hole \[mm\].
fn radius_mm(f: &Feature) -> f64 {
    match &f.kind {
        Kind::Bore { chain, .. } => chain.iter().map(|n| n.r).fold(0.0, f64::max),
        // of a slot the volume tells whether it is met
        _ => 0.0,
    }
}

/// Plain geometry: the axis of an upright hole keeps both radii and at least 1.5 mm of metal away from a channel's axis,
/// wherever it ends; the kernel makes the plate, and its volume lacks the channels' cylinders.
#[test]
fn channels_meet_nothing_in_any_layout() {
    for (sample, count) in
        [("cabin-fan", "1"), ("stove-fan", "2"), ("allotment-pump", "3"), ("classroom-engine", "4")]
    {
        let (e, set) = made(sample, count);
        let c = plate_channels(&e).expect("channels");
        let recipe = plate(&set);
        let (channels, others): (Vec<&Feature>, Vec<&Feature>) =
            recipe.features.iter().partition(|f| f.name == "water-channel");
        assert_eq!(channels.len().to_string(), count, "{sample}");
        for channel in &channels {
            let way = channel.axis.direction;
            for other in others.iter().filter(|o| o.axis.direction.z.abs() > 0.9) {
                let from = other.axis.origin - channel.axis.origin;
                let apart = (from.x * way.y - from.y * way.x).abs();
                let metal = apart - radius_mm(other) - c.hose.tap_drill_mm / 2.0;
                assert!(metal > 1.5, "{sample}: {} is {metal:.2} mm beside a channel", other.name);
            }
        }
        let solid = build(recipe).unwrap_or_else(|said| panic!("{sample}: {said:?}"));
        let bare = Recipe { body: recipe.body.clone(), features: others.into_iter().cloned().collect() };
        let lacking = volume(&build(&bare).unwrap()) - volume(&solid);
        let cylinders =
            c.at_mm.len() as f64 * std::f64::consts::PI / 4.0 * c.hose.tap_drill_mm.powi(2) * c.length_mm();
        assert!((lacking / cylinders - 1.0).abs() < 1e-6, "{sample}: {lacking} {cylinders}");
    }
}

/// Two connectors to a channel, a hose between each two, beside the two of the jacket.
#[test]
fn hoses_and_connectors_are_listed() {
    let quantity = |set: &PartSet, name: &str| set.parts.iter().find(|p| p.name == name).unwrap().quantity;
    let (_, set) = made("stove-fan", "2");
    assert_eq!((quantity(&set, "hose-barb"), quantity(&set, "hose"), quantity(&set, "hose-clip")), (6, 4, 6));
    let (_, set) = made("stove-fan", "0");
    assert_eq!((quantity(&set, "hose-barb"), quantity(&set, "hose")), (2, 2));
}

/// The first law: what comes in goes out; and the plate that the water cools is colder than one without.
#[test]
fn the_plate_gives_its_heat_to_the_water() {
    let cold_side = |channels: &str| {
        let sets =
            [("cooler.plate_channels", channels), ("cooler.water_flow", "0.5 L/min"), ("model.samples", "0")];
        let judged = judged(&design("cabin-fan", &sets)).expect("judged");
        judged.answer.heat.expect("heat").cold_side
    };
    let (with, without) = (cold_side("1"), cold_side("0"));
    for side in [&with, &without] {
        let into: f64 = side.iter().map(|b| b.heat_w).sum();
        let out: f64 = side.iter().map(|b| b.to_air_w + b.to_water_w).sum();
        assert!((into - out).abs() < 1e-3 * into, "{into} {out}");
    }
    assert_eq!(without[1].to_water_w, 0.0);
    assert!(with[1].to_water_w > 0.5 * with.iter().map(|b| b.to_water_w).sum::<f64>());
    assert!(with[1].temperature_k < without[1].temperature_k - 15.0);
}

/// More than there is room for is refused by name, and so are channels where there is no plate.
#[test]
fn too_many_are_refused() {
    for (sample, channels, code) in
        [("cabin-fan", "8", "swept::range"), ("cabin-charger", "1", "swept::contradiction")]
    {
        let said = size(&design(sample, &[("cooler.plate_channels", channels)])).map(|_| ()).unwrap_err();
        assert!(said.iter().any(|d| d.code == code), "{sample}: {said:?}");
    }
}
