//! The uncertain inputs as the design gives them, and which of them moves the power most.

use super::band::{Input, Spread, Uncertain};
use super::verdict::{Change, NetWork};
use crate::design::{Setting, Spreads};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

/// Fall of temperature for which the default spreads of the walls stand \[K\]; they go in proportion to the engine's own.
const FALL_K: f64 = 450.0;

/// An input with its key of the design and its spread.
struct Known {
    input: Input,
    key: &'static str,
    spread: Spread,
    given: bool,
}

fn factor(input: Input, key: &'static str, setting: &Setting<Spread>) -> Known {
    Known { input, key, spread: setting.value, given: setting.is_given() }
}

/// A wall: in kelvin where the design says so, else as a share of the fall of temperature.
fn wall([share, kelvin]: [Input; 2], key: &'static str, setting: &Setting<Spread>) -> Known {
    let given = setting.is_given();
    let spread = if given { setting.value } else { setting.value.scaled(1.0 / FALL_K) };
    Known { input: if given { kelvin } else { share }, key, spread, given }
}

/// Every input, in the order in which they are drawn.
fn all(given: &Spreads) -> [Known; 11] {
    [
        factor(Input::RingFriction, "ring_friction", &given.ring_friction),
        factor(Input::GlandFriction, "gland_friction", &given.gland_friction),
        factor(Input::GuideFriction, "guide_friction", &given.guide_friction),
        factor(Input::BearingFriction, "bearing_friction", &given.bearing_friction),
        factor(Input::BeltDrag, "belt_drag", &given.belt_drag),
        factor(Input::Leak, "leak", &given.leak),
        factor(Input::HeatTransfer, "heat_transfer", &given.heat_transfer),
        factor(Input::FlowFriction, "flow_friction", &given.flow_friction),
        wall([Input::HotWall, Input::HotWallKelvin], "hot_wall", &given.hot_wall),
        wall([Input::ColdWall, Input::ColdWallKelvin], "cold_wall", &given.cold_wall),
        factor(Input::EndHeatTransfer, "end_heat_transfer", &given.end_heat_transfer),
    ]
}

/// The inputs with the spreads of a design, in the order in which they are drawn.
pub fn spreads(given: &Spreads) -> Vec<Uncertain> {
    all(given).map(|k| Uncertain { input: k.input, spread: k.spread }).to_vec()
}

/// What the builder knows better than the model: every input that the design sets, at its middle.
pub fn known(given: &Spreads) -> Change {
    let set = all(given).into_iter().filter(|k| k.given);
    set.fold(Change::NONE, |change, k| k.input.set(change, k.spread.percentiles()[1]))
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
            Self::HotWall => &mut change.hot_share,
            Self::ColdWall => &mut change.cold_share,
            Self::HotWallKelvin => &mut change.hot_k,
            Self::ColdWallKelvin => &mut change.cold_k,
            Self::HeatTransfer => &mut change.heat_transfer,
            Self::EndHeatTransfer => &mut change.end_heat_transfer,
            Self::FlowFriction => &mut change.flow_friction,
        };
        *place = value;
        change
    }
}

/// What the numbers of a spread are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SpreadUnit {
    /// A factor on what the model takes.
    Factor,
    /// Kelvin, added to a wall.
    Kelvin,
    /// A share of the fall of temperature from hot to cold, added to a wall.
    ShareOfFall,
}

impl SpreadUnit {
    fn of(input: Input) -> Self {
        match input {
            Input::HotWall | Input::ColdWall => Self::ShareOfFall,
            Input::HotWallKelvin | Input::ColdWallKelvin => Self::Kelvin,
            _ => Self::Factor,
        }
    }

    /// In words, after the numbers.
    pub fn words(self) -> &'static str {
        match self {
            Self::Factor => "",
            Self::Kelvin => " K",
            Self::ShareOfFall => " of the fall",
        }
    }
}

/// One uncertain input: how far it spreads, who says so, and how far it moves the power.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpreadAnswer {
    /// Key of the table `spread`.
    pub input: String,
    /// The spread, in [`Self::unit`].
    pub spread: Spread,
    /// What the numbers of the spread are.
    pub unit: SpreadUnit,
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
    let middle = all.iter().fold(Change::NONE, |change, k| k.input.set(change, k.spread.percentiles()[1]));
    let power_w = |input: Input, value: f64| {
        net.at(speed_rpm, &input.set(middle, value)).ok().map(|work| work.power_w())
    };
    let mut answers: Vec<SpreadAnswer> = all
        .par_iter()
        .map(|k| {
            let [low, _, high] = k.spread.percentiles();
            SpreadAnswer {
                input: k.key.into(),
                spread: k.spread,
                unit: SpreadUnit::of(k.input),
                given: k.given,
                at_p10_w: power_w(k.input, low),
                at_p90_w: power_w(k.input, high),
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
