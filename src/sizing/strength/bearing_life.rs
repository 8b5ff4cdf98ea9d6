//! Life of ball bearings.
//!
//! ISO 281: L₁₀ = (C/P)³ million turns. Under a load and a speed that change over a turn of the crank the damage
//! Σ P³ Δφ is summed over what the bearing itself turns, φ (linear damage; the mean load of ISO 281 and the makers'
//! equivalent speed of a bearing that swings). Radial load only, so P = F (deep groove bearings). ISO 76: static safety
//! C₀ / P₀.

/// Million turns in a turn.
const MILLION: f64 = 1e6;

/// Life in hours that nine of ten bearings reach, for loads \[N\] and turns of the bearing for each turn of the crank at
/// even steps over the turn. Infinite where nothing loads it.
pub fn hours(dynamic_n: f64, loads_n: &[f64], turns: &[f64], speed_rpm: f64) -> f64 {
    let count = loads_n.len().min(turns.len());
    let damage: f64 = loads_n.iter().zip(turns).map(|(p, t)| p.abs().powi(3) * t.abs()).sum();
    let each_turn = damage / count.max(1) as f64;
    MILLION * dynamic_n.powi(3) / each_turn / (60.0 * speed_rpm)
}

/// Static safety; infinite where nothing loads it.
pub fn static_safety(static_n: f64, loads_n: &[f64]) -> f64 {
    static_n / loads_n.iter().fold(0.0, |most: f64, load| most.max(load.abs()))
}

#[cfg(test)]
mod tests {
    use super::super::close;
    use super::*;

    /// Shigley, first worked example on bearing life (from memory): 5000 h at 1725 rpm under 400 lbf needs a rating of
    /// 3211 lbf.
    #[test]
    fn the_rating_of_the_textbook_gives_its_life() {
        let newton = 4.448_222;
        close(hours(3211.0 * newton, &[400.0 * newton; 8], &[1.0; 8], 1725.0), 5000.0, 2e-3);
    }

    /// Half the turn at twice the load: mean load (½ 1³ + ½ 2³)^⅓ = 1.651 (ISO 281, mean load; worked here).
    #[test]
    fn a_changing_load_counts_by_its_cube() {
        let even = hours(1000.0, &[1.650_964; 2], &[1.0; 2], 100.0);
        close(hours(1000.0, &[1.0, 2.0], &[1.0, 1.0], 100.0), even, 1e-5);
        assert!(hours(1000.0, &[0.0], &[1.0], 100.0).is_infinite());
        close(static_safety(1200.0, &[-300.0, 100.0]), 4.0, 1e-12);
    }
}
