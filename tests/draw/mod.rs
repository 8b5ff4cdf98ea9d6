//! Numbers drawn for one design, seeded.

#![allow(dead_code, reason = "not every test draws every kind of number")]

use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

/// Numbers drawn for one design.
pub struct Draw(Pcg64);

impl Draw {
    /// The draw of a seed.
    pub fn of(seed: u64) -> Self {
        Self(Pcg64::seed_from_u64(seed))
    }

    /// From 0 to 1.
    pub fn unit(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Even from `low` to `high`.
    pub fn even(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Even in the logarithm.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.unit())
    }

    /// One of these.
    pub fn one_of<'a>(&mut self, all: &[&'a str]) -> &'a str {
        all[(self.unit() * all.len() as f64) as usize]
    }
}
