//! Time of one steady turn of the adiabatic and the full cycle.
//!
//! `benches/full_cycle_scipy.py` gives the same equations of the gap engine to scipy for comparison.

#[path = "../tests/path_support/mod.rs"]
mod path_support;

use path_support::{gap_engine, mesh_engine, solve};
use swept::sizing::cycle::{Adiabatic, CycleModel};

fn main() {
    divan::main();
}

#[divan::bench(args = [60.0, 300.0, 1500.0])]
fn full_displacer_gap(bencher: divan::Bencher, speed_rpm: f64) {
    let path = gap_engine(speed_rpm);
    bencher.bench(|| solve(&path));
}

#[divan::bench(args = [600.0, 1800.0])]
fn full_tubes_and_mesh(bencher: divan::Bencher, speed_rpm: f64) {
    let path = mesh_engine(speed_rpm);
    bencher.bench(|| solve(&path));
}

#[divan::bench]
fn adiabatic(bencher: divan::Bencher) {
    let path = mesh_engine(1800.0);
    let law = path.law();
    bencher.bench(|| Adiabatic::default().solve(&path.input(&law, 360)).unwrap());
}
