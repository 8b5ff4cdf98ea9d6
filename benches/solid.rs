//! How long one solid, its measures and its STEP file take.

#[path = "../tests/common/mod.rs"]
mod common;

use swept::export::step::{StepOptions, part_step};
use swept::shape::measure::measure;
use swept::shape::solid::build;

fn main() {
    divan::main();
}

/// A plate with pockets, counterbores, tapped and side holes, from recipe to solid.
#[divan::bench]
fn plate(bencher: divan::Bencher) {
    let recipe = common::plate();
    bencher.bench(|| build(&recipe).is_ok());
}

/// A tube with radial holes: the curves in which cylinders meet.
#[divan::bench]
fn tube(bencher: divan::Bencher) {
    let recipe = common::tube();
    bencher.bench(|| build(&recipe).is_ok());
}

/// Volume, centre, inertia, area and box of the plate.
#[divan::bench]
fn measures(bencher: divan::Bencher) {
    if let Ok(solid) = build(&common::plate()) {
        bencher.bench(|| measure(&solid));
    }
}

/// STEP text of the tube.
#[divan::bench]
fn step(bencher: divan::Bencher) {
    let part = common::part("tube", common::tube());
    if let Ok(solid) = build(&common::tube()) {
        bencher.bench(|| part_step(&part, &solid, &StepOptions::default()));
    }
}
