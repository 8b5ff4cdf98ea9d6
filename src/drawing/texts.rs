//! How numbers, tolerances and threads are written on a drawing (ISO 129-1).

use super::units::{inch_limits, length};
use crate::shape::recipe::{Tag, Tolerance};

pub use super::units::plain;

/// A number with at most three decimals and a decimal point; a length is written by [`plain`].
pub fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

/// A size with its allowed deviation, for example `64 H7 (+0.030 / 0)`.
pub fn toleranced(value: f64, tolerance: &Tolerance) -> String {
    let (mm, upper, lower) = match tolerance {
        Tolerance::General => return plain(value),
        Tolerance::Fit { code, upper, lower } => {
            (format!("{} {code} ({})", number(value), deviations(*upper, *lower, 3)), upper, lower)
        }
        Tolerance::Limits { upper, lower } if (upper + lower).abs() < 1e-9 => {
            (format!("{} ±{}", number(value), number(*upper)), upper, lower)
        }
        Tolerance::Limits { upper, lower } => {
            let decimals = decimals(*upper).max(decimals(*lower));
            (format!("{} ({})", number(value), deviations(*upper, *lower, decimals)), upper, lower)
        }
    };
    length(&mm, &inch_limits(value, *upper, *lower))
}

/// Upper above lower deviation, the same count of decimals, zero without a sign (ISO 129-1).
fn deviations(upper: f64, lower: f64, decimals: usize) -> String {
    let one = |v: f64| {
        if v.abs() < 5e-7 { "0".to_owned() } else { format!("{v:+.decimals$}") }
    };
    format!("{} / {}", one(upper), one(lower))
}

/// Count of decimals that a deviation needs, up to three.
fn decimals(value: f64) -> usize {
    number(value.abs()).split_once('.').map_or(0, |(_, tail)| tail.len())
}

/// A diameter, or the thread that is cut on it.
pub fn diameter(radius: f64, tag: Option<&Tag>) -> String {
    match tag {
        Some(Tag { thread: Some(thread), .. }) => thread.clone(),
        Some(tag) => format!("⌀{}", toleranced(2.0 * radius, &tag.tolerance)),
        None => format!("⌀{}", plain(2.0 * radius)),
    }
}

/// Nominal diameter of a thread \[mm\], read from its designation: metric (`M5`, `M10x1`) or pipe
/// (`G1/8`; ISO 228-1 major diameters, from memory).
pub fn thread_diameter(designation: &str) -> Option<f64> {
    const PIPE: &[(&str, f64)] =
        &[("G1/16", 7.723), ("G1/8", 9.728), ("G1/4", 13.157), ("G3/8", 16.662), ("G1/2", 20.955)];
    if let Some(found) = PIPE.iter().find(|(name, _)| *name == designation) {
        return Some(found.1);
    }
    let digits = designation.strip_prefix('M')?;
    let end = digits.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(digits.len());
    digits[..end].parse().ok()
}

/// Radius at which the root of an outside thread is drawn \[mm\]: a convention, not a size (ISO 6410-1).
pub fn thread_root(radius: f64) -> f64 {
    radius * 0.84
}

/// The symbol for surface texture with its value, for example `√ Ra 0.8`.
pub fn texture(ra: f64) -> String {
    format!("√Ra {}", number(ra))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::units::Units;

    fn shown(text: String) -> String {
        Units::Mm.told(&text)
    }

    /// ISO 286-2: 64 H7 is +0.030 / 0, 22 g6 is −0.007 / −0.020.
    #[test]
    fn fits_carry_code_and_limits() {
        let h7 = Tag::new("bore").fit("H7", 0.030, 0.0);
        assert_eq!(shown(diameter(32.0, Some(&h7))), "⌀64 H7 (+0.030 / 0)");
        let g6 = Tag::new("rod").fit("g6", -0.007, -0.020);
        assert_eq!(shown(diameter(11.0, Some(&g6))), "⌀22 g6 (-0.007 / -0.020)");
    }

    #[test]
    fn limits_are_written_with_equal_decimals() {
        assert_eq!(shown(toleranced(3.0, &Tolerance::Limits { upper: 0.05, lower: 0.0 })), "3 (+0.05 / 0)");
        assert_eq!(shown(toleranced(3.0, &Tolerance::Limits { upper: 0.1, lower: -0.1 })), "3 ±0.1");
        assert_eq!(
            shown(toleranced(3.0, &Tolerance::Limits { upper: 0.1, lower: -0.05 })),
            "3 (+0.10 / -0.05)"
        );
    }

    #[test]
    fn thread_diameters_are_read_from_the_designation() {
        assert_eq!(thread_diameter("M10x1"), Some(10.0));
        assert_eq!(thread_diameter("M2.5"), Some(2.5));
        assert_eq!(thread_diameter("G1/8"), Some(9.728));
        assert_eq!(thread_diameter("tight"), None);
    }
}
