//! Asks the full model what the heat needs to know: heat by cell, and the hot wall at which the engine stops.

use super::of_engine::{AtWork, heat_answer};
use super::told::HeatAnswer;
use crate::design::Design;
use crate::sizing::cycle::CycleModel;
use crate::sizing::verdict::{Change, FullEngine, NetWork, WorkBreakdown};

/// Points of the turn for the heat of its cells.
const POINTS: usize = 180;
/// Halvings in the search for the wall at which it stops: to a hundredth of hot less cold.
const HALVINGS: usize = 6;

/// Heater, cooling and stored heat of an engine at the speed of `work`; `None` where the cycle or the cold side has no
/// answer. `base` is what the design knows better than the defaults, as `work` was worked out with it.
pub fn of_work(design: &Design, net: &FullEngine, work: &WorkBreakdown, base: &Change) -> Option<HeatAnswer> {
    let path = net.gas_path_with(work.speed_rpm, base).ok()?;
    let law = path.law();
    let cycle = net.model.solve(&path.input(&law, POINTS)).ok()?;
    let at = AtWork { work, detail: &cycle.detail, stall_k: stall_k(net, work, base) };
    heat_answer(design, &net.engine, &at)
}

/// Hot wall at which the engine stops at the speed of `work` \[K\], by halving; `None` where it does not run.
fn stall_k(net: &FullEngine, work: &WorkBreakdown, base: &Change) -> Option<f64> {
    let hot_k = net.engine.hot_cap.temperature_k;
    let runs = |k: f64| {
        let cooler = Change { hot_k: base.hot_k + k - hot_k, ..*base };
        net.at(work.speed_rpm, &cooler).is_ok_and(|w| w.net_j > 0.0)
    };
    if work.net_j <= 0.0 {
        return None;
    }
    let (mut stops, mut turns) = (net.engine.cold.temperature_k + 1.0, hot_k);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (stops + turns);
        if runs(middle) { turns = middle } else { stops = middle }
    }
    Some(turns)
}
