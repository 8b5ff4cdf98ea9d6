//! Decimal numbers in files: a fixed number of decimals, the same bytes everywhere, never a minus before zero.
//!
//! A drawing holds tens of thousands of numbers; the general formatter works each out to full precision first and is
//! several times slower.

/// Largest scaled value that a double still holds to the unit.
const EXACT: f64 = 9e15;

/// `value` with `decimals` digits after the point, halves rounded away from zero.
pub fn fixed(value: f64, decimals: usize) -> String {
    let scaled = (value * 10_f64.powi(decimals as i32)).round();
    if scaled.is_nan() || scaled.abs() >= EXACT {
        return format!("{value:.decimals$}");
    }
    let mut digits = (scaled.abs() as u64).to_string();
    if decimals > 0 {
        if digits.len() <= decimals {
            digits.insert_str(0, &"0".repeat(decimals + 1 - digits.len()));
        }
        digits.insert(digits.len() - decimals, '.');
    }
    if scaled < 0.0 {
        digits.insert(0, '-');
    }
    digits
}

/// As [`fixed`], without zeros at the end and without a bare point.
pub fn short(value: f64, decimals: usize) -> String {
    let mut text = fixed(value, decimals);
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    text
}

/// `value` with so many significant digits, zeros at the end included.
pub fn significant(value: f64, digits: usize) -> String {
    if value == 0.0 || !value.is_finite() {
        return fixed(value, 0);
    }
    let left = value.abs().log10().floor() as i32;
    let after = digits as i32 - 1 - left;
    if after >= 0 {
        return fixed(value, after as usize);
    }
    let step = 10_f64.powi(-after);
    fixed((value / step).round() * step, 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn significant_digits() {
        let all =
            [(0.000_612_34, "0.000612"), (12.345, "12.3"), (27_055.0, "27100"), (2.0, "2.00"), (0.0, "0")];
        for (value, text) in all {
            assert_eq!(significant(value, 3), text);
        }
    }

    #[test]
    fn digits_are_those_of_the_general_formatter() {
        for i in -2000..2000 {
            let value = f64::from(i) * 0.731_7 + 1e-7;
            assert_eq!(fixed(value, 4), format!("{value:.4}"));
            assert_eq!(fixed(value, 12), format!("{:.12}", (value * 1e12).round() / 1e12));
        }
    }

    #[test]
    fn zero_has_no_sign_and_no_tail() {
        assert_eq!(fixed(-0.000_01, 4), "0.0000");
        assert_eq!(
            (short(-0.000_01, 4), short(12.5, 4), short(-3.0, 4), short(100.0, 4)),
            ("0".into(), "12.5".into(), "-3".into(), "100".into())
        );
        assert_eq!(fixed(0.05, 1), "0.1");
        assert_eq!(fixed(7.0, 0), "7");
        assert_eq!(fixed(1e20, 2), "100000000000000000000.00");
    }
}
