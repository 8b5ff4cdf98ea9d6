//! The uncertain inputs as the design gives them, and which of them moves the power most.

use super::band::{Input, Spread, Uncertain};
use super::verdict::{Change, NetWork};
use crate::design::{Setting, Spreads};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

/// Which input, its key of the design and the setting.
fn all(given: &Spreads) -> [(Input, &'static str, &Setting<Spread>); 10] {
    [
        (Input::RingFriction, "ring_friction", &given.ring_friction),
        (Input::GlandFriction, "gland_friction", &given.gland_friction),
        (Input::GuideFriction, "guide_friction", &given.guide_friction),
        (Input::BearingFriction, "bearing_friction", &given.bearing_friction),
        (Input::BeltDrag, "belt_drag", &given.belt_drag),
        (Input::Leak, "leak", &given.leak),
        (Input::HeatTransfer, "heat_transfer", &given.heat_transfer),
        (Input::FlowFriction, "flow_friction", &given.flow_friction),
        (Input::HotWall, "hot_wall", &given.hot_wall),
        (Input::ColdWall, "cold_wall", &given.cold_wall),
    ]
}

/// The inputs with the spreads of a design, in the order in which they are drawn.
pub fn spreads(given: &Spreads) -> Vec<Uncertain> {
    all(given).map(|(input, _, s)| Uncertain { input, spread: s.value }).to_vec()
}

/// What the builder knows better than the model: every input that the design sets, at its middle.
pub fn known(given: &Spreads) -> Change {
    let set = all(given).into_iter().filter(|(.., s)| s.is_given());
    set.fold(Change::NONE, |change, (input, _, s)| input.set(change, s.value.percentiles()[1]))
}

impl Input {
    /// The change with this input at a value.
    pub(super) fn set(self, mut change: Change, value: f64) -> Change {
        let place = match self {
            Self::RingFriction => &mut change.friction.rings,
            Self::GlandFriction => &mut change.friction.gland,
            Self::GuideFriction => &mut change.friction.guides,
            Self::BearingFriction => &mut change.friction.bearings,
            Self::BeltDrag => &mut change.friction.belt,
            Self::Leak => &mut change.leak,
            Self::HotWall => &mut change.hot_k,
            Self::ColdWall => &mut change.cold_k,
            Self::HeatTransfer => &mut change.heat_transfer,
            Self::FlowFriction => &mut change.flow_friction,
        };
        *place = value;
        change
    }
}

/// One uncertain input: how far it spreads, who says so, and how far it moves the power.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpreadAnswer {
    /// Key of the table `spread`.
    pub input: String,
    /// The spread: a factor on what the model takes, or kelvin for a wall.
    pub spread: Spread,
    /// Whether the design sets it; else the default stands in.
    pub given: bool,
    /// Shaft power with this input at its tenth percentile and all others at their middle \[W\]; absent where the model has
    /// no answer.
    #[serde(rename = "shaft_power_at_p10_W", default, skip_serializing_if = "Option::is_none")]
    pub at_p10_w: Option<f64>,
    /// The same at its ninetieth percentile \[W\].
    #[serde(rename = "shaft_power_at_p90_W", default, skip_serializing_if = "Option::is_none")]
    pub at_p90_w: Option<f64>,
    /// Part of the sum of all squared swings, 0..1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub share: Option<f64>,
}

impl SpreadAnswer {
    /// How far the power moves between both percentiles \[W\].
    fn swing_w(&self) -> Option<f64> {
        Some((self.at_p90_w? - self.at_p10_w?).abs())
    }

    /// Name in words.
    pub fn words(&self) -> String {
        self.input.replace('_', " ")
    }
}

/// Moves each input alone between its tenth and ninetieth percentile, all others at their middle; the one that moves the
/// power most comes first. First order: what two inputs do together is not seen.
pub fn ranked(net: &dyn NetWork, given: &Spreads, speed_rpm: f64) -> Vec<SpreadAnswer> {
    let all = all(given);
    let middle =
        all.iter().fold(Change::NONE, |change, (input, _, s)| input.set(change, s.value.percentiles()[1]));
    let power_w = |input: Input, value: f64| {
        net.at(speed_rpm, &input.set(middle, value)).ok().map(|work| work.power_w())
    };
    let mut answers: Vec<SpreadAnswer> = all
        .par_iter()
        .map(|(input, key, s)| {
            let [low, _, high] = s.value.percentiles();
            SpreadAnswer {
                input: (*key).into(),
                spread: s.value,
                given: s.is_given(),
                at_p10_w: power_w(*input, low),
                at_p90_w: power_w(*input, high),
                share: None,
            }
        })
        .collect();
    let sum: f64 = answers.iter().filter_map(SpreadAnswer::swing_w).map(|w| w * w).sum();
    for answer in &mut answers {
        answer.share = answer.swing_w().filter(|_| sum > 0.0).map(|w| w * w / sum);
    }
    answers.sort_by(|a, b| b.share.unwrap_or(0.0).total_cmp(&a.share.unwrap_or(0.0)));
    answers
}

/// The fewest inputs, at most three, from which four fifths of the band come; `None` where nothing moves.
pub fn most_of_the_band(ranked: &[SpreadAnswer]) -> Option<String> {
    let mut sum = 0.0;
    let mut names = Vec::new();
    for answer in ranked.iter().take(3) {
        let Some(share) = answer.share.filter(|share| *share > 0.02) else { break };
        sum += share;
        names.push(format!("{} ({:.0} %)", answer.words(), 100.0 * share));
        if sum >= 0.8 {
            break;
        }
    }
    (!names.is_empty()).then(|| format!("most of the band comes from: {}", names.join(", ")))
}
