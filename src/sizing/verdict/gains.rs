//! The best single changes that a builder can make, each tried in the model.

use super::change::Change;
use super::net_work::{Facts, NetWork, VerdictError};
use super::stroke::StrokeAdvice;
use crate::sizing::mechanism::FrictionFactors;

/// A change and what it brings.
#[derive(Clone, Debug, PartialEq)]
pub struct Gain {
    /// What to do, in words.
    pub words: String,
    /// The change.
    pub change: Change,
    /// Work each turn that it brings \[J\].
    pub gain_j: f64,
    /// Shaft power that it brings at the same speed \[W\].
    pub gain_w: f64,
}

/// The best single changes at a speed, at most `most`, the greatest gain first.
///
/// # Errors
/// The model's, where it has no answer for the engine as it is.
pub fn gains(
    net: &dyn NetWork,
    speed_rpm: f64,
    base: &Change,
    stroke: Option<&StrokeAdvice>,
    most: usize,
) -> Result<Vec<Gain>, VerdictError> {
    let (work, facts) = (net.at(speed_rpm, base)?, net.facts(base));
    let mut all: Vec<Gain> = candidates(&facts, stroke)
        .into_iter()
        .filter_map(|(words, change)| {
            let changed = net.at(speed_rpm, &base.and(&change)).ok()?;
            let allowed = facts.pressure_limit_pa.is_none_or(|limit| changed.pressure_max_pa <= limit);
            let gain_j = changed.net_j - work.net_j;
            (allowed && gain_j > 0.0).then(|| Gain {
                words,
                change,
                gain_j,
                gain_w: changed.power_w() - work.power_w(),
            })
        })
        .collect();
    all.sort_by(|a, b| b.gain_j.total_cmp(&a.gain_j).then_with(|| a.words.cmp(&b.words)));
    all.truncate(most);
    Ok(all)
}

/// Changes within a builder's reach. How far each goes is common practice, no source.
fn candidates(facts: &Facts, stroke: Option<&StrokeAdvice>) -> Vec<(String, Change)> {
    let (none, f) = (Change::NONE, FrictionFactors::default());
    let mut all = vec![
        ("rings that leak half as much".into(), Change { leak: 0.5, ..none }),
        (
            "rings pressed on half as hard, or of a slicker compound".into(),
            Change { friction: FrictionFactors { rings: 0.5, ..f }, ..none },
        ),
        (
            "a rod gland with half the friction".into(),
            Change { friction: FrictionFactors { gland: 0.5, ..f }, ..none },
        ),
        (
            "guides with half the friction: ball bushings, or rods in line".into(),
            Change { friction: FrictionFactors { guides: 0.5, ..f }, ..none },
        ),
        (
            "ball bearings with half the drag: oil instead of grease, no rubbing seals".into(),
            Change { friction: FrictionFactors { bearings: 0.5, ..f }, ..none },
        ),
        (
            format!("hot end at {:.0} °C instead of {:.0} °C", hotter(facts) - 273.15, facts.hot_k - 273.15),
            Change { hot_k: hotter(facts) - facts.hot_k, ..none },
        ),
        (
            format!(
                "cold end at {:.0} °C instead of {:.0} °C",
                facts.cold_k - 20.0 - 273.15,
                facts.cold_k - 273.15
            ),
            Change { cold_k: -20.0, ..none },
        ),
        (
            format!("{:.0} cm3 of dead volume instead of {:.0} cm3", 0.75 * facts.dead_cm3, facts.dead_cm3),
            Change { dead_volume: 0.75, ..none },
        ),
        (
            "half as much heat transfer again: fins, or a sleeve in the gap".into(),
            Change { heat_transfer: 1.5, ..none },
        ),
        (
            "half as much pressure again, in the gas and, closed in, behind the piston".into(),
            Change { charge: 1.5, ..none },
        ),
    ];
    if let Some(heater) = facts.heater_w {
        all.push((
            format!("a heater of {:.0} W instead of {heater:.0} W", 1.5 * heater),
            Change { heater: 1.5, ..none },
        ));
        let words = "half the heat led down the walls: thinner walls, stainless steel, a longer hot cap";
        all.push((words.into(), Change { conduction: 0.5, ..none }));
    }
    if facts.tied_bore_mm.is_none() {
        let stroke = facts.displacer_stroke_mm;
        all.extend([
            (
                format!("displacer stroke {:.1} mm instead of {stroke:.1} mm", 1.25 * stroke),
                Change { displacer_stroke: 1.25, ..none },
            ),
            ("lead 10 degrees more".into(), Change { lead_deg: 10.0, ..none }),
            ("lead 10 degrees less".into(), Change { lead_deg: -10.0, ..none }),
        ]);
    }
    if facts.has_belt {
        all.push(("belt half as tight".into(), Change { belt_tension: 0.5, ..none }));
    }
    if let Some(gap) = facts.gap_mm {
        for factor in [0.7, 1.4] {
            all.push((
                format!("displacer gap {:.2} mm instead of {gap:.2} mm", factor * gap),
                Change { gap: factor, ..none },
            ));
        }
    }
    if let Some(s) = stroke.filter(|s| (s.factor() - 1.0).abs() > 0.02) {
        let change = Change { piston_stroke: s.factor(), ..none };
        let words = match s.tied_bore_mm {
            Some(bore) => format!("piston bore {:.1} mm instead of {bore:.1} mm", bore * s.factor().sqrt()),
            None => format!("piston stroke {:.1} mm instead of {:.1} mm", s.best_mm, s.stroke_mm),
        };
        all.push((words, change));
    }
    all
}

/// 50 K hotter, as far as the metal allows \[K\].
fn hotter(facts: &Facts) -> f64 {
    facts.hot_limit_k.map_or(facts.hot_k + 50.0, |limit| (facts.hot_k + 50.0).min(limit.max(facts.hot_k)))
}
