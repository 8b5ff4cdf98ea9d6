//! The file of published engines.

use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Where a number is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum From {
    Seen,
    Computed,
    Memory,
    Assumed,
}

/// A number, or the two bounds between which it lies.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Quantity {
    pub value: Option<f64>,
    pub low: Option<f64>,
    pub high: Option<f64>,
    pub from: From,
    #[allow(dead_code)]
    pub why: Option<String>,
}

/// Numbers by name, in the order of the alphabet, so that the draws do not depend on the order in the file.
pub type Quantities = BTreeMap<String, Quantity>;

/// An element of the gas path.
#[derive(Clone, Debug, Deserialize)]
pub struct Element {
    pub name: String,
    pub kind: String,
    pub zone: String,
    #[serde(flatten)]
    pub sizes: Quantities,
}

/// What a measured power is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Output {
    /// Measured at the shaft.
    Shaft,
    /// Measured behind a generator.
    Electric,
    /// What the maker promises; never judged.
    Rating,
}

/// What the source's hot temperature is the temperature of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum HotIs {
    /// The wall's outside, where a thermocouple can be put.
    Wall,
    /// A furnace or another source of heat around the wall.
    Source,
    /// Gas in the heater, by a thermocouple that sees the hotter wall too.
    Gas,
}

/// A point of operation.
#[derive(Clone, Debug, Deserialize)]
pub struct Point {
    pub gas: String,
    pub hot_is: HotIs,
    pub gas_from: From,
    pub output: Output,
    pub measured_w: Option<f64>,
    pub measured_from: Option<From>,
    #[serde(flatten)]
    pub at: Quantities,
}

/// An engine.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Engine {
    pub id: String,
    pub name: String,
    pub layout: String,
    pub source: String,
    pub reason: String,
    pub pistons: f64,
    pub drive: String,
    pub size: Quantities,
    pub exchanger: Vec<Element>,
    pub point: Vec<Point>,
}

/// An engine that is not built.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftOut {
    pub id: String,
    pub why: String,
}

/// Opening of the piston's seal on a bore of 64 mm.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seal {
    pub low_mm2: f64,
    pub high_mm2: f64,
}

impl Seal {
    /// A draw, even in the logarithm; the middle with `None`.
    pub fn mm2(&self, random: &mut Option<Pcg64>) -> f64 {
        let [low, high] = [self.low_mm2, self.high_mm2].map(f64::ln);
        let even = Quantity { value: None, low: Some(low), high: Some(high), from: From::Assumed, why: None };
        even.draw(random.as_mut()).exp()
    }
}

/// The file.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    pub seal: Seal,
    /// Drawn for every engine alike: drive and heat side.
    pub common: Quantities,
    pub engine: Vec<Engine>,
    pub left_out: Vec<LeftOut>,
}

/// Reads it.
pub fn file() -> &'static File {
    static FILE: LazyLock<File> =
        LazyLock::new(|| toml::from_str(include_str!("../data/published-engines.toml")).unwrap());
    &FILE
}

impl Engine {
    /// Whether the source leaves the gap open through which the gas goes.
    pub fn gap_is_open(&self) -> bool {
        self.exchanger.iter().any(|e| e.kind == "gap" && !e.sizes.contains_key("gap_mm"))
    }

    /// The one with this id.
    pub fn named(id: &str) -> Self {
        file().engine.iter().find(|e| e.id == id).unwrap().clone()
    }
}

impl Point {
    /// Whether pass or fail may hang on it: measured, and read in the source.
    pub fn counts(&self) -> bool {
        self.output != Output::Rating && self.measured_w.is_some() && self.measured_from == Some(From::Seen)
    }
}

impl Quantity {
    /// A draw between the bounds; the middle with `None`. Takes one random number in any case.
    fn draw(&self, random: Option<&mut Pcg64>) -> f64 {
        let share = random.map_or(0.5, |r| (r.next_u64() >> 11) as f64 / 9_007_199_254_740_992.0);
        match (self.value, self.low, self.high) {
            (Some(value), None, None) => value,
            (None, Some(low), Some(high)) => low + (high - low) * share,
            _ => panic!("a number is a value, or low and high: {self:?}"),
        }
    }
}

/// Drawn numbers.
#[derive(Clone, Debug)]
pub struct Drawn(BTreeMap<String, f64>);

impl Drawn {
    /// Draws all of them; the middles with `None`.
    pub fn of(all: &Quantities, random: &mut Option<Pcg64>) -> Self {
        Self(all.iter().map(|(name, q)| (name.clone(), q.draw(random.as_mut()))).collect())
    }

    /// A number that must be there.
    pub fn get(&self, name: &str) -> f64 {
        self.may(name).unwrap_or_else(|| panic!("{name} is missing"))
    }

    /// A number that may be there.
    pub fn may(&self, name: &str) -> Option<f64> {
        self.0.get(name).copied()
    }

    /// A number, 0 where it is not there.
    pub fn or_nothing(&self, name: &str) -> f64 {
        self.may(name).unwrap_or(0.0)
    }
}
