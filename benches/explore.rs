//! How long a sweep takes: one point, reading a design anew for it, a chart.

use swept::design::read;
use swept::explore::{Input, Shard, Sweep, chart};

const PUMP: &str = include_str!("../sample-designs/allotment-pump.toml");

fn main() {
    divan::main();
}

fn sweep(steps: usize) -> Sweep {
    let inputs = [("piston.stroke", "16 mm..44 mm"), ("displacer.stroke", "20 mm..60 mm")];
    let read = |(path, values)| Input::read(path, values, Some(steps)).expect("a sound range");
    Sweep::new("allotment-pump.toml", PUMP.into(), Vec::new(), inputs.map(read).to_vec())
        .expect("a sound sweep")
}

/// 400 points on all cores.
#[divan::bench(sample_count = 10)]
fn sweep_400_points() -> usize {
    sweep(20).run(Shard::WHOLE, &|| ()).rows.len()
}

/// What the override costs at each point: the design is read anew.
#[divan::bench]
fn read_the_pump_with_two_overrides() -> usize {
    let sets = [("piston.stroke".into(), "27 mm".into()), ("displacer.stroke".into(), "40 mm".into())];
    read("allotment-pump.toml", PUMP.as_bytes(), &sets).expect("the sample is sound").1.len()
}

/// Lines of equal value on 1,681 points.
#[divan::bench(sample_count = 10)]
fn chart_of_1681_points(bencher: divan::Bencher) {
    let table = sweep(41).run(Shard::WHOLE, &|| ());
    bencher.bench_local(|| chart(&table, &[]).expect("a chart").len());
}
