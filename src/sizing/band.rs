//! A band, not a number: the answer over the spread of what is not known.
//!
//! Each uncertain input has a name and a spread. Samples are drawn from a stream of random numbers of their own,
//! chosen by the number of the sample, so that the same seed gives the same answer however many cores share the work and
//! in whatever order they finish.

use super::uncertain::spreads;
use super::verdict::{Change, NetWork, VerdictError, start};
pub use crate::design::Spread;
use crate::design::Spreads;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// Inputs that are not known well.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Input {
    /// Factor on the friction of the rings.
    RingFriction,
    /// Factor on the friction of the rod gland.
    GlandFriction,
    /// Factor on the friction of the guides.
    GuideFriction,
    /// Factor on the friction of the ball bearings.
    BearingFriction,
    /// Factor on the drag of the belt.
    BeltDrag,
    /// Factor on the leak.
    Leak,
    /// Added to the temperature of the hot wall, as a share of hot less cold.
    HotWall,
    /// Added to the temperature of the cold wall, as a share of hot less cold.
    ColdWall,
    /// Added to the temperature of the hot wall \[K\].
    HotWallKelvin,
    /// Added to the temperature of the cold wall \[K\].
    ColdWallKelvin,
    /// Factor on heat transfer.
    HeatTransfer,
    /// Another one on that in the cylinder spaces.
    EndHeatTransfer,
    /// Factor on the friction of the flow.
    FlowFriction,
}

/// An input and its spread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Uncertain {
    /// Which.
    pub input: Input,
    /// How it spreads.
    pub spread: Spread,
}

/// Ninetieth percentile of the standard normal distribution (any table).
pub(super) const NORMAL_P90: f64 = 1.281_551_565_544_600_4;

/// Default spreads, those of the design file's keys, four fifths of the draws within:
///
/// * rings 1.8: PTFE on metal 0.04 to 0.18 about 0.10; gland 2: greased rubber 0.12 to 0.25 about 0.20, dry to 1.0;
///   guides 1.6: PTFE bushes 0.03 to 0.25 (as given with the losses); bearings 1.5, belt 2, leak 3: common practice
///   without a source;
/// * heat transfer of exchangers 1.5: correlations of woven mesh agree within 30 to 40 %, those of channels within
///   some 20 %, and neither was measured in an engine (from memory);
/// * heat transfer in the cylinder spaces 2: Annand's constant alone runs from 0.35 to 0.8 (see the correlation);
/// * flow friction 1.4: correlations agree within 30 to 40 %;
/// * walls: the gas side is cooler than what a builder measures at the hot end, and warmer at the cold end: of a fall of
///   450 K −60 to +10 K and −5 to +20 K (common practice, no source), and in proportion to the fall, as heat is.
pub fn default_spreads() -> Vec<Uncertain> {
    spreads(&Spreads::usual())
}

/// Random numbers of one sample.
struct Draws(Pcg64);

impl Draws {
    /// The stream of sample `index` under a seed. `seed_from_u64` scatters neighbouring numbers; the odd factor
    /// (2⁶⁴ over the golden ratio) keeps the samples of different seeds apart.
    fn of(seed: u64, index: u64) -> Self {
        Self(Pcg64::seed_from_u64(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15).wrapping_add(index)))
    }

    /// Even between 0 and 1, neither included.
    fn even(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / 9_007_199_254_740_992.0
    }

    /// Standard normal (G. E. P. Box and M. E. Muller, Annals of Mathematical Statistics 29 (1958) 610).
    fn normal(&mut self) -> f64 {
        (-2.0 * self.even().ln()).sqrt() * (TAU * self.even()).cos()
    }
}

/// A draw; takes two random numbers whatever the kind, so that one input's kind does not move the others.
fn draw(spread: &Spread, draws: &mut Draws) -> f64 {
    let (normal, even) = (draws.normal(), draws.even());
    match *spread {
        Spread::Lognormal { within } => (within.ln() / NORMAL_P90 * normal).exp(),
        Spread::Uniform { low, high } => low + (high - low) * even,
        Spread::Fixed { value } => value,
    }
}

/// The change that a sample makes: every input drawn once, in the order of the list.
pub fn sample(inputs: &[Uncertain], seed: u64, index: u64) -> Change {
    let mut draws = Draws::of(seed, index);
    applied(inputs.iter().map(|u| (u.input, draw(&u.spread, &mut draws))))
}

/// The change of some inputs with their values.
pub(super) fn applied(values: impl Iterator<Item = (Input, f64)>) -> Change {
    values.fold(Change::NONE, |change, (input, value)| input.set(change, value))
}

/// What one sample came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    /// Shaft power at the speed asked for \[W\]; negative where the engine must be driven.
    pub power_w: f64,
    /// Whether it turns itself over.
    pub turns_over: bool,
}

/// Tenth, fiftieth and ninetieth percentile.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Percentiles {
    /// One in ten is lower.
    pub p10: f64,
    /// Half are lower.
    pub p50: f64,
    /// Nine in ten are lower.
    pub p90: f64,
}

impl Percentiles {
    /// Percentiles of some values by straight lines between the ordered ones; `None` of none.
    pub fn of(mut values: Vec<f64>) -> Option<Self> {
        values.sort_by(f64::total_cmp);
        let last = values.len().checked_sub(1)?;
        let at = |part: f64| {
            let place = part * last as f64;
            let low = place.floor() as usize;
            values[low] + (place - place.floor()) * (values[(low + 1).min(last)] - values[low])
        };
        Some(Self { p10: at(0.1), p50: at(0.5), p90: at(0.9) })
    }
}

/// The band.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Shaft power \[W\]; `None` where no sample had an answer.
    pub power_w: Option<Percentiles>,
    /// Part of the answered samples that turn themselves over, 0..1.
    pub turns_over: Option<f64>,
    /// Samples with an answer.
    pub answered: usize,
    /// Samples without, and the reason of the first of them.
    pub failed: usize,
    /// Why the first sample without an answer has none.
    pub failure: Option<String>,
}

/// Collects outcomes in the order of the samples.
pub fn band<E: ToString + Send>(count: u64, outcome: impl Fn(u64) -> Result<Outcome, E> + Sync) -> Band {
    let all: Vec<Result<Outcome, E>> = (0..count).into_par_iter().map(&outcome).collect();
    let answered: Vec<&Outcome> = all.iter().flatten().collect();
    let over = answered.iter().filter(|o| o.turns_over).count();
    let share = |n: usize| n as f64 / answered.len() as f64;
    Band {
        power_w: Percentiles::of(answered.iter().map(|o| o.power_w).collect()),
        turns_over: (!answered.is_empty()).then(|| share(over)),
        answered: answered.len(),
        failed: all.len() - answered.len(),
        failure: all.iter().find_map(|r| r.as_ref().err().map(ToString::to_string)),
    }
}

/// What to sample.
#[derive(Clone, Debug, PartialEq)]
pub struct Sampling {
    /// Uncertain inputs.
    pub inputs: Vec<Uncertain>,
    /// Number of samples.
    pub count: u64,
    /// Seed.
    pub seed: u64,
    /// Speed at which the power is taken \[rpm\].
    pub speed_rpm: f64,
    /// Fastest spin that a hand gives \[rpm\].
    pub hand_rpm: f64,
}

impl Sampling {
    /// 200 samples of the default spreads.
    pub fn at(speed_rpm: f64) -> Self {
        Self { inputs: default_spreads(), count: 200, seed: 1, speed_rpm, hand_rpm: 200.0 }
    }
}

/// Samples a model of the engine.
pub fn of_engine(net: &dyn NetWork, sampling: &Sampling) -> Band {
    band(sampling.count, |index| {
        let change = sample(&sampling.inputs, sampling.seed, index);
        let work = net.at(sampling.speed_rpm, &change)?;
        let turns_over = start(net, &change, sampling.hand_rpm)?.spin_rpm.is_some();
        Ok::<_, VerdictError>(Outcome { power_w: work.power_w(), turns_over })
    })
}

#[cfg(test)]
#[path = "band_tests.rs"]
mod tests;
