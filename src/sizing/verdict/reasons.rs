//! Why the engine runs badly, in a builder's words, each with what halving that cause would change.
//!
//! Every figure is a second run of the model with one thing changed: no share of a budget is guessed.

use super::change::Change;
use super::net_work::{Facts, NetWork, VerdictError, WorkBreakdown};
use super::stroke::{StrokeAdvice, sweeping};
use crate::sizing::mechanism::FrictionFactors;
use serde::{Deserialize, Serialize};

/// What may be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// The piston squeezes more than the gas can give back.
    OverCompression,
    /// Gas escapes past rings and gland.
    Leak,
    /// The mechanism rubs.
    Friction,
    /// The walls do not heat and cool the gas fast enough at this speed.
    HeatTransfer,
    /// Gas that no stroke moves.
    DeadVolume,
    /// The gap beside the displacer.
    DisplacerGap,
    /// The hot end is cooler than its metal allows.
    HotEndTooCool,
    /// Heat that goes down the walls.
    Conduction,
    /// The flow rubs in gap and port.
    FlowFriction,
}

/// A reason with its counterfactual.
#[derive(Clone, Debug, PartialEq)]
pub struct Reason {
    /// What.
    pub cause: Cause,
    /// In words, with figures.
    pub words: String,
    /// What was changed in the second run.
    pub change: Change,
    /// Work each turn that the change brings \[J\].
    pub gain_j: f64,
}

/// Least gain for a reason to be listed, as part of the work of the gas.
const LISTED: f64 = 0.01;

/// All causes that matter at a speed, the greatest first.
///
/// # Errors
/// The model's, where it has no answer for the engine as it is.
pub fn reasons(
    net: &dyn NetWork,
    speed_rpm: f64,
    base: &Change,
    stroke: Option<&StrokeAdvice>,
) -> Result<Vec<Reason>, VerdictError> {
    let (work, facts) = (net.at(speed_rpm, base)?, net.facts(base));
    let mut all: Vec<Reason> = halvings(&facts, stroke)
        .into_iter()
        .filter_map(|(cause, change)| {
            // a change that the model cannot answer, or that cannot be, is no reason
            let changed = net.at(speed_rpm, &base.and(&change)).ok()?;
            let gain_j = changed.net_j - work.net_j;
            let words = words(cause, &work, &changed, &facts, &change);
            Some(Reason { cause, words, change, gain_j })
        })
        .filter(|r| r.gain_j > LISTED * work.indicated_j.abs())
        .collect();
    all.sort_by(|a, b| b.gain_j.total_cmp(&a.gain_j).then(a.cause.cmp(&b.cause)));
    // of a gap that is too wide and one that is too narrow only the greater gain is a reason
    let mut seen = Vec::new();
    all.retain(|r| {
        !seen.contains(&r.cause) && {
            seen.push(r.cause);
            true
        }
    });
    Ok(all)
}

/// Each cause with the change that halves it.
fn halvings(facts: &Facts, stroke: Option<&StrokeAdvice>) -> Vec<(Cause, Change)> {
    let none = Change::NONE;
    let mut all = vec![
        (Cause::Leak, Change { leak: 0.5, ..none }),
        (Cause::Friction, Change { friction: FrictionFactors::all(0.5), ..none }),
        (Cause::HeatTransfer, Change { heat_transfer: 2.0, ..none }),
        (Cause::DeadVolume, Change { dead_volume: 0.5, ..none }),
        (Cause::Conduction, Change { conduction: 0.5, ..none }),
        (Cause::FlowFriction, Change { flow_friction: 0.5, ..none }),
    ];
    if facts.gap_mm.is_some() {
        all.push((Cause::DisplacerGap, Change { gap: 0.5, ..none }));
        all.push((Cause::DisplacerGap, Change { gap: 1.5, ..none }));
    }
    if let Some(missing) = facts.hot_limit_k.map(|l| l - facts.hot_k).filter(|m| *m > 1.0) {
        all.push((Cause::HotEndTooCool, Change { hot_k: 0.5 * missing, ..none }));
    }
    if facts.heater_w.is_some() {
        all.push((Cause::HotEndTooCool, Change { heater: 1.5, ..none }));
    }
    // half way from the present stroke to the one that leaves the most work
    if let Some(factor) = stroke.map(StrokeAdvice::factor).filter(|f| *f < 0.98) {
        all.push((Cause::OverCompression, Change { piston_stroke: 0.5 * (1.0 + factor), ..none }));
    }
    all
}

/// What a loss takes, beside the work of the gas.
fn share(part_j: f64, work: &WorkBreakdown) -> String {
    let gas_j = work.indicated_j;
    if gas_j >= part_j {
        format!("{part_j:.3} J of each turn's {gas_j:.3} J")
    } else if gas_j > 0.0 {
        format!("{part_j:.3} J a turn, more than the {gas_j:.3} J that the gas gives")
    } else {
        format!("{part_j:.3} J a turn, and the gas gives none")
    }
}

fn words(
    cause: Cause,
    work: &WorkBreakdown,
    changed: &WorkBreakdown,
    facts: &Facts,
    change: &Change,
) -> String {
    let gain = format!("{:+.3} J a turn", changed.net_j - work.net_j);
    match cause {
        Cause::OverCompression => over_compression(work, facts, change, &gain),
        Cause::Leak => {
            // a model whose loop holds the leak from the start does not know what it would be without
            let costs = (work.leak_j > 0.0)
                .then(|| format!(" costs {:.3} J a turn at {:.0} rpm", work.leak_j, work.speed_rpm));
            format!(
                "leak: gas that escapes past rings and gland{}; half the leak brings {gain}",
                costs.unwrap_or_default()
            )
        }
        Cause::Friction => friction(work, &gain),
        Cause::HeatTransfer => format!(
            "heat transfer: at {:.0} rpm the gas is at {:.0} °C in the hot space and {:.0} °C in the cold one, the walls stand at {:.0} and {:.0} °C; twice the heat transfer brings {gain}",
            work.speed_rpm,
            work.heat.hot_gas_k - 273.15,
            work.heat.cold_gas_k - 273.15,
            work.heat.hot_wall_k - 273.15,
            facts.cold_k - 273.15
        ),
        Cause::DeadVolume => format!(
            "dead volume: {:.0} cm3 beside the {:.0} cm3 that the displacer moves; half of it brings {gain}",
            facts.dead_cm3, facts.displacer_cm3
        ),
        Cause::DisplacerGap => gap(facts, change, &gain),
        Cause::HotEndTooCool if change.heater > 1.0 => format!(
            "hot end too cool: the heater's {:.0} W keep it at {:.0} °C only; half as much heat again makes {:.0} °C and brings {gain}",
            facts.heater_w.unwrap_or(0.0),
            work.heat.hot_wall_k - 273.15,
            changed.heat.hot_wall_k - 273.15
        ),
        Cause::HotEndTooCool => format!(
            "hot end too cool: {:.0} °C where limits.peak_temperature allows {:.0} °C; half way up brings {gain}",
            facts.hot_k - 273.15,
            facts.hot_limit_k.unwrap_or(facts.hot_k) - 273.15
        ),
        Cause::Conduction => conduction(work, &gain),
        Cause::FlowFriction => {
            format!("flow friction: gap and port take {}; half of it brings {gain}", share(work.flow_j, work))
        }
    }
}

fn over_compression(work: &WorkBreakdown, facts: &Facts, change: &Change, gain: &str) -> String {
    let travel =
        facts.free_travel_mm.map_or_else(String::new, |t| format!(", a free piston would move {t:.1} mm"));
    format!(
        "over-compression: the crank must put {:.3} J into the gas in parts of the turn; the stroke is {:.1} mm{travel}; a {} brings {gain}",
        work.forced_j,
        facts.piston_stroke_mm,
        sweeping(facts.tied_bore_mm, facts.piston_stroke_mm, change.piston_stroke)
    )
}

fn friction(work: &WorkBreakdown, gain: &str) -> String {
    let most = work.friction.iter().max_by(|a, b| a.work_j.total_cmp(&b.work_j));
    let most = most.map_or_else(String::new, |f| format!(", most of it {} ({:.3} J)", f.name, f.work_j));
    format!(
        "friction: the mechanism takes {}{most}; half the friction brings {gain}",
        share(work.friction_j(), work)
    )
}

fn gap(facts: &Facts, change: &Change, gain: &str) -> String {
    let now = facts.gap_mm.unwrap_or(0.0);
    let what = if change.gap < 1.0 { "too wide" } else { "too narrow" };
    format!("displacer gap {what}: {now:.2} mm on the radius; {:.2} mm brings {gain}", now * change.gap)
}

fn conduction(work: &WorkBreakdown, gain: &str) -> String {
    let lost: f64 = work.heat.losses.iter().map(|l| l.power_w).sum();
    format!(
        "conduction eats the heat: {lost:.0} W of {:.0} W go past the cycle and the hot end stands at {:.0} °C only; half the conduction brings {gain}",
        work.heat.supply_w,
        work.heat.hot_wall_k - 273.15
    )
}
