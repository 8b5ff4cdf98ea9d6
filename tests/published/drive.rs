//! The drive of an engine whose drive is hardly described: J. R. Senft's constant effectiveness, drawn for all engines
//! alike from the range that the literature has for running engines (`[common]` in the file of engines). Forced work
//! is paid for twice by it. The crate's own line-by-line drive needs dimensions that no source gives; that it lies in
//! that range is checked in `tests/verdict.rs`.

use swept::sizing::cycle::CycleResult;
use swept::sizing::cycle::forced_work::ForcedWork;

/// Work at the shaft \[J\]: friction of the flow is taken off what the gas gives.
pub fn shaft_j(cycle: &CycleResult, buffer_pa: f64, effectiveness: f64) -> f64 {
    let split = ForcedWork::of_total(cycle, buffer_pa);
    split.shaft_j(effectiveness) - effectiveness * cycle.detail.friction_j()
}
