//! One turn of the ideal adiabatic cycle: Runge–Kutta steps that end where a flow turns round.
//!
//! Where the flow at an end of the exchangers changes its direction the temperature there jumps, and with
//! it the slope of everything. A step across such an angle is cut there (by halving, to the last digit), so that the method
//! keeps its fourth order.

use super::system::{Flow, State, System};
use std::f64::consts::TAU;

/// Cuts within one step after which something is wrong.
const MOST_CUTS: usize = 16;

/// A turn that was run through, with the pressure at its even steps.
#[derive(Clone, Debug)]
pub(super) struct Turn {
    first: State,
    last: State,
    pressures: Vec<[f64; 2]>,
    /// Extremes of pressure, for m R = 1.
    pub pressure_max: f64,
    /// Least pressure.
    pub pressure_min: f64,
    /// Temperature of the cold space: least, greatest, mean \[K\].
    pub cold_k: [f64; 3],
    /// Temperature of the hot space: least, greatest, mean \[K\].
    pub hot_k: [f64; 3],
    swings: [[f64; 2]; 3],
    /// Greatest less least of the heat taken in up to an instant: cooler.
    pub cooler_swing: f64,
    /// The same of the heater.
    pub heater_swing: f64,
}

impl Turn {
    fn new(first: State) -> Self {
        let none = [f64::INFINITY, f64::NEG_INFINITY];
        Self {
            first,
            last: first,
            pressures: Vec::new(),
            pressure_max: first[0],
            pressure_min: first[0],
            cold_k: [none[0], none[1], 0.0],
            hot_k: [none[0], none[1], 0.0],
            swings: [[0.0; 2]; 3],
            cooler_swing: 0.0,
            heater_swing: 0.0,
        }
    }

    /// Pressure and cold mass at the beginning.
    pub fn begin(&self) -> [f64; 2] {
        [self.first[0], self.first[1]]
    }

    /// Pressure and cold mass at the end.
    pub fn end(&self) -> [f64; 2] {
        [self.last[0], self.last[1]]
    }

    /// Works in cold and hot space.
    pub fn works(&self) -> [f64; 2] {
        [self.last[2], self.last[3]]
    }

    /// Heats into the gas in cooler, regenerator and heater.
    pub fn heats(&self) -> [f64; 3] {
        [self.last[4], self.last[5], self.last[6]]
    }

    /// Swing of the regenerator's heat.
    pub fn swing(&self) -> f64 {
        self.swings[1][1] - self.swings[1][0]
    }

    /// Mean pressure.
    pub fn mean_pressure(&self) -> f64 {
        self.last[7] / TAU
    }

    /// Greatest relative change of mean pressure and works against another turn.
    pub fn change(&self, other: &Self) -> f64 {
        let traffic = self.works()[0].abs().max(self.works()[1].abs());
        let works = self.works().iter().zip(other.works()).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        (self.mean_pressure() / other.mean_pressure() - 1.0).abs().max(works / traffic)
    }

    /// Pressure at any angle: the cubic with the values and slopes of the steps on both sides.
    pub fn pressure_at(&self, angle_rad: f64) -> f64 {
        let n = self.pressures.len();
        let place = angle_rad.rem_euclid(TAU) / TAU * n as f64;
        let (i, t) = ((place as usize).min(n - 1), place.fract());
        let ([p, s], [q, r]) = (self.pressures[i], self.pressures[(i + 1) % n]);
        let h = TAU / n as f64;
        let (u, v) = (1.0 - t, t);
        u * u * (1.0 + 2.0 * v) * p + v * v * (1.0 + 2.0 * u) * q + h * u * v * (u * s - v * r)
    }

    /// Takes note of a state on the way.
    fn note(&mut self, system: &System<'_>, angle_rad: f64, y: &State) {
        let [cold, hot] = system.temperatures_k(angle_rad, y);
        for (seen, now) in [(&mut self.cold_k, cold), (&mut self.hot_k, hot)] {
            seen[0] = seen[0].min(now);
            seen[1] = seen[1].max(now);
        }
        for (seen, now) in self.swings.iter_mut().zip(&y[4..7]) {
            *seen = [seen[0].min(*now), seen[1].max(*now)];
        }
        self.pressure_max = self.pressure_max.max(y[0]);
        self.pressure_min = self.pressure_min.min(y[0]);
    }

    fn finish(mut self, last: State) -> Self {
        self.last = last;
        self.cold_k[2] = last[8] / TAU;
        self.hot_k[2] = last[9] / TAU;
        let swing = |s: [f64; 2]| s[1] - s[0];
        (self.cooler_swing, self.heater_swing) = (swing(self.swings[0]), swing(self.swings[2]));
        self
    }
}

/// Runs one turn from a pressure and a cold mass; nothing when the gas runs out of a space.
pub(super) fn run(system: &System<'_>, start: [f64; 2], steps: usize) -> Option<Turn> {
    let mut y: State = [start[0], start[1], 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    let mut turn = Turn::new(y);
    let mut flow = flow_at(system, 0.0, &y)?;
    let step = TAU / steps as f64;
    for i in 0..steps {
        let angle = i as f64 * step;
        let slope = system.rates(angle, &y, flow).slope[0];
        turn.pressures.push([y[0], slope]);
        turn.note(system, angle, &y);
        let after = advance(system, angle, &y, step, &mut flow, &mut turn)?;
        crest(&mut turn, [y[0], after[0]], [slope, system.rates(angle + step, &after, flow).slope[0]], step);
        y = after;
    }
    let all_sound = y.iter().all(|v| v.is_finite());
    all_sound.then(|| turn.finish(y))
}

/// Extreme of the pressure between two steps, where its slope changes sign.
fn crest(turn: &mut Turn, p: [f64; 2], slope: [f64; 2], step: f64) {
    if slope[0] * slope[1] < 0.0 {
        let at = slope[0] / (slope[0] - slope[1]);
        let between = p[0] + 0.5 * slope[0] * at * step;
        turn.pressure_max = turn.pressure_max.max(between);
        turn.pressure_min = turn.pressure_min.min(between);
    }
}

/// The directions of flow that agree with themselves.
fn flow_at(system: &System<'_>, angle_rad: f64, y: &State) -> Option<Flow> {
    let agrees = |flow: &Flow| {
        let r = system.rates(angle_rad, y, *flow);
        (r.out_of_cold > 0.0) == flow.from_cold && (r.into_hot > 0.0) == flow.to_hot
    };
    Flow::ALL.into_iter().find(agrees)
}

/// One even step, cut where a flow turns round.
fn advance(
    system: &System<'_>,
    mut angle: f64,
    y: &State,
    step: f64,
    flow: &mut Flow,
    turn: &mut Turn,
) -> Option<State> {
    let (mut y, mut left) = (*y, step);
    for _ in 0..MOST_CUTS {
        let after = runge_kutta(system, angle, &y, left, *flow);
        if turned(system, angle + left, &after, *flow) == *flow {
            return Some(after);
        }
        let (mut low, mut high) = (0.0, left);
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            let trial = runge_kutta(system, angle, &y, middle, *flow);
            if turned(system, angle + middle, &trial, *flow) == *flow { low = middle } else { high = middle }
        }
        y = runge_kutta(system, angle, &y, high, *flow);
        angle += high;
        left -= high;
        *flow = turned(system, angle, &y, *flow);
        turn.note(system, angle, &y);
    }
    None
}

/// Directions of flow after a step that was taken with `flow`.
fn turned(system: &System<'_>, angle_rad: f64, y: &State, flow: Flow) -> Flow {
    let r = system.rates(angle_rad, y, flow);
    Flow { from_cold: r.out_of_cold > 0.0, to_hot: r.into_hot > 0.0 }
}

/// Classical fourth-order step.
fn runge_kutta(system: &System<'_>, angle: f64, y: &State, h: f64, flow: Flow) -> State {
    let plus = |slope: &State, h: f64| -> State { std::array::from_fn(|i| y[i] + h * slope[i]) };
    let rate = |angle: f64, y: &State| system.rates(angle, y, flow).slope;
    let a = rate(angle, y);
    let b = rate(angle + 0.5 * h, &plus(&a, 0.5 * h));
    let c = rate(angle + 0.5 * h, &plus(&b, 0.5 * h));
    let d = rate(angle + h, &plus(&c, h));
    std::array::from_fn(|i| y[i] + h / 6.0 * (a[i] + 2.0 * (b[i] + c[i]) + d[i]))
}
