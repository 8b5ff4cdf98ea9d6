//! The rhombic drive as two harmonic motions.
//!
//! Both yokes hang on the same pair of cranks: heights r cos θ ± √(L² − (r sin θ − e)²) with throw r, con rod L and
//! eccentricity e (plain geometry). Work hangs on the first harmonic of the volumes, so that is what is kept: means and
//! first harmonics of the true volumes.

use super::data::Drawn;
use std::f64::consts::TAU;

/// Means and first harmonics.
pub struct Rhombic {
    /// Throw of the displacer's first harmonic \[mm\].
    pub displacer_throw_mm: f64,
    /// Throw of the piston's \[mm\].
    pub piston_throw_mm: f64,
    /// Lead of the displacer \[degree\].
    pub lead_deg: f64,
    /// Mean way of the displacer from its hot end \[mm\].
    pub displacer_mean_mm: f64,
    /// Mean distance of displacer and piston over the least one \[mm\].
    pub apart_mean_mm: f64,
}

const STEPS: usize = 720;

/// Mean and first harmonic (amplitude, phase \[rad\]) of a function over the turn.
fn harmonic(f: impl Fn(f64) -> f64) -> (f64, f64, f64) {
    let angles = (0..STEPS).map(|i| TAU * i as f64 / STEPS as f64);
    let (mut mean, mut cos, mut sin) = (0.0, 0.0, 0.0);
    for a in angles {
        mean += f(a) / STEPS as f64;
        cos += 2.0 * f(a) * a.cos() / STEPS as f64;
        sin += 2.0 * f(a) * a.sin() / STEPS as f64;
    }
    (mean, cos.hypot(sin), sin.atan2(cos))
}

/// Greatest value over the turn.
fn most(f: impl Fn(f64) -> f64) -> f64 {
    (0..STEPS).map(|i| f(TAU * i as f64 / STEPS as f64)).fold(f64::NEG_INFINITY, f64::max)
}

impl Rhombic {
    /// From throw, con rod and eccentricity.
    pub fn of(size: &Drawn) -> Self {
        let (r, l, e) = (size.get("crank_mm"), size.get("con_rod_mm"), size.get("eccentricity_mm"));
        let side = move |a: f64| (l * l - (r * a.sin() - e).powi(2)).sqrt();
        let displacer = move |a: f64| -(r * a.cos() - side(a));
        let piston = move |a: f64| -(r * a.cos() + side(a));
        let (mean, displacer_throw_mm, from) = harmonic(displacer);
        let (_, piston_throw_mm, to) = harmonic(piston);
        let (apart, ..) = harmonic(|a| -2.0 * side(a));
        Self {
            displacer_throw_mm,
            piston_throw_mm,
            lead_deg: (to - from).to_degrees().rem_euclid(360.0),
            displacer_mean_mm: mean + most(|a| -displacer(a)),
            apart_mean_mm: apart + most(|a| 2.0 * side(a)),
        }
    }
}
