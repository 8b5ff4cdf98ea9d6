//! Seats of bought parts when warm: does the hole still hold what was pushed into it?
//!
//! Limits by ISO 286; ring of a ball bearing by ISO 492 class normal (outside 0/−8 µm up to 18 mm, 0/−9 up to 30 mm,
//! 0/−11 up to 50 mm; from memory).

use super::growth::Stretch;
use crate::catalogue::Catalogue;
use crate::catalogue::bushes::Bush;
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
pub fn play_mm(
    book: &Catalogue,
    outer_mm: f64,
    class: &str,
    housing: &str,
    temperature_c: f64,
) -> Option<f64> {
    let seat = limits(outer_mm, class).ok()?;
    let cold = seat.upper_mm - ring_lower_mm(outer_mm);
    let hole = Stretch::of(book, housing, outer_mm, temperature_c);
    let ring = Stretch::of(book, "bearing-steel", outer_mm, temperature_c);
    Some(super::growth::gap_hot_mm(cold, hole, ring))
}

/// Least outside of a wrapped bush over its nominal \[mm\] (ISO 3547-1, from memory).
fn bush_over_mm(housing_mm: f64) -> f64 {
    match housing_mm {
        d if d <= 10.0 => 0.025,
        d if d <= 18.0 => 0.030,
        _ => 0.035,
    }
}

/// What still holds a pressed bush of steel in its seat at a temperature \[mm on the diameter\]: smallest bush, widest hole,
/// less what the housing grows more. 0 or less: it may turn or wander.
pub fn bush_hold_mm(book: &Catalogue, bush: &Bush, housing: &str, temperature_c: f64) -> f64 {
    let hole = limits(bush.housing_mm, &bush.housing_fit).map_or(0.0, |l| l.upper_mm);
    let seat = Stretch::of(book, housing, bush.housing_mm, temperature_c);
    let shell = Stretch::of(book, "mild-steel", bush.housing_mm, temperature_c);
    bush_over_mm(bush.housing_mm) - hole - (seat.growth_mm() - shell.growth_mm())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A 608 (22 mm) in H7: IT7 21 µm (ISO 286-1), ring −9 µm (ISO 492): 30 µm cold; in aluminium at 60 °C
    /// 22 (23.4 − 12)e-6 40 = 10 µm more.
    #[test]
    fn an_aluminium_seat_opens_when_warm() {
        let book = Catalogue::standard();
        assert!((play_mm(book, 22.0, "H7", "aluminium-6082", 20.0).unwrap() - 0.030).abs() < 1e-9);
        assert!((play_mm(book, 22.0, "H7", "aluminium-6082", 60.0).unwrap() - 0.040).abs() < 2e-4);
        // a bush of 10 mm in H7 (15 µm): 25 - 15 = 10 µm cold
        let bush = book.bush(8.0).unwrap();
        assert!((bush_hold_mm(book, bush, "aluminium-6082", 20.0) - 0.010).abs() < 1e-9);
        assert!(bush_hold_mm(book, bush, "aluminium-6082", 150.0) < 0.0);
        assert!(play_mm(book, 22.0, "Q7", "brass", 60.0).is_none());
    }
}
