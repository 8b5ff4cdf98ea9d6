//! Seats of bought parts when warm: does the hole still hold what was pushed into it?
//!
//! Limits by ISO 286; ring of a ball bearing by ISO 492 class normal (outside 0/−8 µm up to 18 mm, 0/−9 up to 30 mm,
//! 0/−11 up to 50 mm; from memory).

use super::growth::Stretch;
use crate::catalogue::fits::limits;

/// Lower limit of a bearing's outside \[mm\].
fn ring_lower_mm(outer_mm: f64) -> f64 {
    match outer_mm {
        d if d <= 18.0 => -0.008,
        d if d <= 30.0 => -0.009,
        _ => -0.011,
    }
}

/// Greatest play of a bearing in its seat at a temperature \[mm on the diameter\]: widest hole of its class, smallest
/// ring, and what the housing grows more than steel. `None` for a class that ISO 286 does not have here.
pub fn play_mm(outer_mm: f64, class: &str, housing: &str, temperature_c: f64) -> Option<f64> {
    let seat = limits(outer_mm, class).ok()?;
    let cold = seat.upper_mm - ring_lower_mm(outer_mm);
    let hole = Stretch::of(housing, outer_mm, temperature_c);
    let ring = Stretch::of("bearing-steel", outer_mm, temperature_c);
    Some(super::growth::gap_hot_mm(cold, hole, ring))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A 608 (22 mm) in H7: IT7 21 µm (ISO 286-1), ring −9 µm (ISO 492): 30 µm cold; in aluminium at 60 °C
    /// 22 (23.4 − 12)e-6 40 = 10 µm more.
    #[test]
    fn an_aluminium_seat_opens_when_warm() {
        assert!((play_mm(22.0, "H7", "aluminium-6082", 20.0).unwrap() - 0.030).abs() < 1e-9);
        assert!((play_mm(22.0, "H7", "aluminium-6082", 60.0).unwrap() - 0.040).abs() < 2e-4);
        assert!(play_mm(22.0, "Q7", "brass", 60.0).is_none());
    }
}
