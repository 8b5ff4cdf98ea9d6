//! Heat stored in the hot end: warm-up, run-on after the flame is out, time until it can be touched.
//!
//! One body at one temperature (a thin metal wall): C dT/dt = heat in − heat out.

/// Steps of the integral over temperature; even, for Simpson's rule.
const STEPS: usize = 200;

/// Seconds until a body of capacity \[J/K\] has risen by `rise_k` \[K\], heated with `heater_w` \[W\] while it loses
/// `loss_w_k` \[W/K\]: C/G ln(P/(P − G ΔT)). `None` where the heater never gets it there.
pub fn warm_up_s(capacity_j_k: f64, heater_w: f64, loss_w_k: f64, rise_k: f64) -> Option<f64> {
    let at_the_end = loss_w_k * rise_k;
    if heater_w <= at_the_end {
        return None;
    }
    if at_the_end < 1e-9 * heater_w {
        return Some(capacity_j_k * rise_k / heater_w);
    }
    Some(capacity_j_k / loss_w_k * (heater_w / (heater_w - at_the_end)).ln())
}

/// Run-on: how long the stored heat turns the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunOn {
    /// Heat taken from the wall \[J\].
    pub heat_j: f64,
    /// Time \[s\].
    pub time_s: f64,
    /// Turns.
    pub turns: f64,
}

/// Run-on from `hot_k` down to `stall_k`, where it stops, with a heat supply of `supply_w` at `hot_k` that falls in
/// proportion to the distance from `cold_k` \[K\]: time C/G ln((T_h − T_c)/(T_s − T_c)), G = Q/(T_h − T_c). The speed
/// \[rpm\] is taken to hold.
pub fn run_on(
    capacity_j_k: f64,
    supply_w: f64,
    hot_k: f64,
    stall_k: f64,
    cold_k: f64,
    speed_rpm: f64,
) -> RunOn {
    let per_k = supply_w / (hot_k - cold_k);
    let time_s = capacity_j_k / per_k * ((hot_k - cold_k) / (stall_k - cold_k)).ln();
    RunOn { heat_j: capacity_j_k * (hot_k - stall_k), time_s, turns: time_s * speed_rpm / 60.0 }
}

/// Seconds in which a body cools from one temperature to another \[K\] when it loses `loss_w(T)` \[W\]: the integral of
/// C/loss over temperature, by Simpson's rule. `None` where it loses nothing on the way.
pub fn cooling_s(capacity_j_k: f64, from_k: f64, to_k: f64, loss_w: impl Fn(f64) -> f64) -> Option<f64> {
    if from_k <= to_k {
        return Some(0.0);
    }
    let step = (from_k - to_k) / STEPS as f64;
    let mut sum = 0.0;
    for i in 0..=STEPS {
        let loss = loss_w(to_k + step * i as f64);
        if loss <= 0.0 {
            return None;
        }
        let weight = if i == 0 || i == STEPS {
            1.0
        } else if i % 2 == 1 {
            4.0
        } else {
            2.0
        };
        sum += weight / loss;
    }
    Some(capacity_j_k * sum * step / 3.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sizing::losses::close::close;

    /// By hand: C 500 J/K, 300 W, losses 0.2 W/K, rise 480 K: 2500 s × ln(300/204) = 964.2 s; without losses 800 s.
    #[test]
    fn warm_up_of_a_hand_calculation() {
        close(warm_up_s(500.0, 300.0, 0.2, 480.0).unwrap(), 964.15, 1e-4);
        close(warm_up_s(500.0, 300.0, 0.0, 480.0).unwrap(), 800.0, 1e-12);
        assert!(warm_up_s(500.0, 90.0, 0.2, 480.0).is_none());
    }

    /// By hand: G = 100/450 W/K, C/G = 2250 s, ln(450/150) = 1.0986: 2471.9 s, 12 360 turns at 300 rpm, 150 kJ.
    #[test]
    fn run_on_of_a_hand_calculation() {
        let on = run_on(500.0, 100.0, 773.15, 473.15, 323.15, 300.0);
        close(on.time_s, 2471.9, 1e-4);
        close(on.turns, 12_359.4, 1e-4);
        close(on.heat_j, 150_000.0, 1e-12);
    }

    /// Newton's law of cooling has the exponential as its answer: C/G ln(480/40).
    #[test]
    fn cooling_is_exponential_where_the_loss_is_even() {
        let own = cooling_s(500.0, 773.15, 333.15, |t| 0.3 * (t - 293.15)).unwrap();
        close(own, 500.0 / 0.3 * 12f64.ln(), 1e-6);
        assert_eq!(cooling_s(500.0, 300.0, 333.15, |_| 1.0), Some(0.0));
        assert!(cooling_s(500.0, 773.15, 293.15, |t| 0.3 * (t - 300.0)).is_none());
    }
}
