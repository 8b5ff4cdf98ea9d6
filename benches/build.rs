//! How long a whole build of the pump engine takes, files as bytes, nothing written.

use swept::design::read;
use swept::pipeline::build;

const PUMP: &str = include_str!("../sample-designs/allotment-pump.toml");

fn main() {
    divan::main();
}

/// Design file to sized engine.
#[divan::bench]
fn size_the_pump() -> f64 {
    let (design, _) = read("allotment-pump.toml", PUMP.as_bytes(), &[]).expect("the sample is sound");
    swept::sizing::answer::size(&design).expect("the sample is an engine").cycle.work_j
}

/// Design file to all output files.
#[divan::bench]
fn build_the_pump() -> usize {
    let (design, _) = read("allotment-pump.toml", PUMP.as_bytes(), &[]).expect("the sample is sound");
    build(&design, None).expect("the sample is an engine").files.len()
}
