//! Strength of the metals at a temperature, as the checks use it.

use crate::catalogue::Catalogue;
use crate::sizing::strength::MPA;

/// Share of the allowable stress of a lasting load that a load to and fro may use (fatigue with the notches of shoulders
/// and threads; common practice, no source).
const ALTERNATING: f64 = 0.5;

/// Allowable stress of a lasting load \[Pa\]; 0 where the metal must not be loaded so hot.
pub fn lasting_pa(book: &Catalogue, stuff: &str, temperature_c: f64) -> f64 {
    book.material(stuff).ok().and_then(|m| m.allowable_mpa(temperature_c)).unwrap_or(0.0) * MPA
}

/// Allowable stress of a load that changes its sign each turn \[Pa\].
pub fn alternating_pa(book: &Catalogue, stuff: &str, temperature_c: f64) -> f64 {
    ALTERNATING * lasting_pa(book, stuff, temperature_c)
}

/// Stress of a load that changes its sign each turn at which a notched shoulder may crack in the end \[Pa\]: endurance half of
/// the tensile strength, halved again by the notch, which is some 0.4 of the yield of mild steel (Shigley ch. 6, from
/// memory); not less than what is allowed.
pub fn cracking_pa(book: &Catalogue, stuff: &str, temperature_c: f64) -> f64 {
    (0.4 * yield_pa(book, stuff, temperature_c)).max(alternating_pa(book, stuff, temperature_c))
}

/// Young's modulus \[Pa\].
pub fn youngs_pa(book: &Catalogue, stuff: &str, temperature_c: f64) -> f64 {
    book.material(stuff).map_or(0.0, |m| m.modulus_gpa(temperature_c)) * 1e9
}

/// Yield strength \[Pa\]; where it is not tabled, one and a half times the allowable stress.
pub fn yield_pa(book: &Catalogue, stuff: &str, temperature_c: f64) -> f64 {
    let told = book.material(stuff).ok().and_then(|m| m.yield_mpa(temperature_c));
    told.map_or(1.5 * lasting_pa(book, stuff, temperature_c), |mpa| mpa * MPA)
}

/// Where the allowable stresses come from.
pub const LASTING: &str = "allowable stress of the catalogue's materials at temperature";
/// The same for loads to and fro.
pub const TO_AND_FRO: &str = "half the allowable stress of the catalogue, for fatigue, common practice, no source; at the most 0.4 of yield, Shigley ch. 6, from memory";
