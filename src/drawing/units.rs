//! Lengths in millimetres alone, or followed by their value in inches in square brackets (dual dimensioning; the millimetres
//! stay the main unit, as ISO 129-1 asks for one).
//!
//! Every length is written once, by [`length`], in both units and with marks around it; [`Units::told`] keeps what a sheet asks
//! for before anything is laid out. A mark that is forgotten is no character of the alphabet, so that the sheet fails instead of
//! showing it.

use super::callout::Row;
use super::lanes::TEXT;
use super::lettering;
use super::texts::number;

/// Marks around a length and between its two units: private characters of Unicode, which no design can mean.
const OPEN: char = '\u{E000}';
const BETWEEN: char = '\u{E001}';
const CLOSE: char = '\u{E002}';

/// An inch \[mm\], exact.
pub const INCH_MM: f64 = 25.4;
/// Widest row of a call-out in which inches follow each length; a wider one has them in a row of their own \[mm\].
const WIDEST_ROW: f64 = 60.0;
/// Decimals of inches without a tolerance of their own.
const GENERAL: usize = 3;
/// Width of a tolerance \[mm\] and the decimals of inches below it (ISO 370:1975, from memory).
const DECIMALS: [(f64, usize); 3] = [(0.005, 6), (0.05, 5), (0.5, 4)];
/// Most decimals of an inch.
const MOST_DECIMALS: usize = 8;
/// What a limit may be off by floating point, in its last decimal.
const NOISE: f64 = 1e-6;

/// Units of the lengths on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Units {
    /// Millimetres.
    #[default]
    Mm,
    /// Millimetres, inches in square brackets.
    MmAndInch,
}

/// A length in both units, marked.
pub(super) fn length(mm: &str, inch: &str) -> String {
    format!("{OPEN}{mm}{BETWEEN}{inch}{CLOSE}")
}

/// A length \[mm\] without a tolerance of its own, in inches.
pub(super) fn inch(value: f64) -> String {
    let text = format!("{:.GENERAL$}", as_written(value) / INCH_MM);
    if text.trim_start_matches('-').bytes().all(|b| b == b'0' || b == b'.') { "0".to_owned() } else { text }
}

/// Upper and lower limit in inches of a length with limit deviations \[mm\]: rounded inwards, so that what is good in inches is
/// good in millimetres (ISO 370:1975, method B, from memory).
pub(super) fn inch_limits(value: f64, upper: f64, lower: f64) -> String {
    let [high, low] = [upper, lower].map(|d| (as_written(value) + as_written(d)) / INCH_MM);
    let width = (high - low) * INCH_MM;
    let least = DECIMALS.iter().find(|(below, _)| width < below - 1e-9).map_or(GENERAL, |(_, d)| *d);
    let rounded = |decimals: usize| {
        let scale = 10f64.powi(decimals as i32);
        [(high * scale + NOISE).floor() / scale, (low * scale - NOISE).ceil() / scale]
    };
    // a tolerance so narrow that nothing is left of it gets another decimal
    let decimals = (least..MOST_DECIMALS).find(|d| rounded(*d)[0] >= rounded(*d)[1]).unwrap_or(MOST_DECIMALS);
    let [high, low] = rounded(decimals);
    format!("{high:.decimals$} / {low:.decimals$}")
}

/// A number of millimetres as it stands on the sheet, to three decimals.
fn as_written(value: f64) -> f64 {
    (value * 1e3).round() / 1e3
}

impl Units {
    /// A text in these units.
    pub fn told(self, text: &str) -> String {
        let mut out = String::with_capacity(text.len());
        for piece in pieces(text) {
            match (piece, self) {
                (Piece::Words(words), _) => out += words,
                (Piece::Length { mm, .. }, Self::Mm) => out += mm,
                (Piece::Length { mm, inch, .. }, Self::MmAndInch) => out += &format!("{mm} [{inch}]"),
            }
        }
        out
    }

    /// Rows of a call-out in these units: what grows too wide has its inches in a row below.
    pub fn rows(self, rows: &[Row]) -> Vec<Row> {
        rows.iter().flat_map(|row| self.row(row)).collect()
    }

    fn row(self, row: &Row) -> Vec<Row> {
        let told = Row { text: self.told(&row.text), ..row.clone() };
        if self == Self::Mm || !row.text.contains(OPEN) || lettering::width(&told.text, TEXT) <= WIDEST_ROW {
            return vec![told];
        }
        let inches: Vec<String> = pieces(&row.text)
            .filter_map(|piece| match piece {
                Piece::Length { sign, inch, .. } => Some(format!("{sign}{inch}")),
                Piece::Words(_) => None,
            })
            .collect();
        // what hangs under the sizes hangs under all that is said of them
        let below = Row { under: row.under.clone(), ..Row::new(format!("[{}]", inches.join(", ")), &[]) };
        vec![Row { text: Self::Mm.told(&row.text), under: Vec::new(), ..row.clone() }, below]
    }

    /// What a sheet says of them in its notes.
    pub fn note(self) -> Option<&'static str> {
        match self {
            Self::Mm => None,
            Self::MmAndInch => Some(
                "Dimensions in mm [inch]; the millimetres hold. With tolerances the inches are upper / lower limit, rounded inwards.",
            ),
        }
    }

    /// What stands in the title block.
    pub fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::MmAndInch => "mm [in]",
        }
    }
}

/// A piece of a marked text.
enum Piece<'a> {
    /// No length.
    Words(&'a str),
    /// A length, and the sign of a diameter, radius or depth before it.
    Length { sign: &'a str, mm: &'a str, inch: &'a str },
}

/// The pieces of a marked text in order.
fn pieces(text: &str) -> impl Iterator<Item = Piece<'_>> {
    let mut before = "";
    text.split_inclusive([OPEN, CLOSE]).map(move |part| match part.strip_suffix(CLOSE) {
        Some(both) => {
            let (mm, inch) = both.split_once(BETWEEN).unwrap_or((both, ""));
            let sign = ["⌀", "R", "↧"].into_iter().find(|s| before.ends_with(s)).unwrap_or("");
            Piece::Length { sign, mm, inch }
        }
        None => {
            before = part.strip_suffix(OPEN).unwrap_or(part);
            Piece::Words(before)
        }
    })
}

/// A length \[mm\] without a tolerance of its own, marked.
pub fn plain(value: f64) -> String {
    length(&number(value), &inch(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 25.4 mm are 1 in; 64 mm are 2.519685… in.
    #[test]
    fn lengths_without_tolerance_have_three_decimals() {
        assert_eq!(
            [25.4, 64.0, 0.5, -46.0, 0.0, -0.001].map(inch),
            ["1.000", "2.520", "0.020", "-1.811", "0", "0"]
        );
    }

    /// By hand. 64 H7: 64.030 / 25.4 = 2.5208661…, 64 / 25.4 = 2.5196850…, 0.030 wide: five decimals, down and up.
    /// 3 ± 0.1: 3.1 / 25.4 = 0.1220472…, 2.9 / 25.4 = 0.1141732…, 0.2 wide: four. 100 ± 0.5: 100.5 / 25.4 = 3.9566929…,
    /// 99.5 / 25.4 = 3.9173228…, 1 wide: three. 25.4 +0.254 / 0: exactly 1.01 and 1.
    #[test]
    fn limits_are_rounded_inwards_with_decimals_after_the_tolerance() {
        assert_eq!(inch_limits(64.0, 0.030, 0.0), "2.52086 / 2.51969");
        assert_eq!(inch_limits(3.0, 0.1, -0.1), "0.1220 / 0.1142");
        assert_eq!(inch_limits(100.0, 0.5, -0.5), "3.956 / 3.918");
        assert_eq!(inch_limits(25.4, 0.254, 0.0), "1.0100 / 1.0000");
        assert_eq!(inch_limits(22.0, -0.007, -0.020), "0.86586 / 0.86536");
    }

    /// Nothing that is good in inches is bad in millimetres, and something always is good.
    #[test]
    fn inch_limits_never_leave_those_in_millimetres() {
        for i in 1..4000 {
            let value = f64::from(i) * 0.097;
            let (upper, lower) = (f64::from(i % 17) * 0.004, -f64::from(i % 5) * 0.013);
            let text = inch_limits(value, upper, lower);
            let [high, low] =
                [0, 1].map(|k| text.split(" / ").nth(k).unwrap().parse::<f64>().unwrap() * INCH_MM);
            let (most, least) =
                (as_written(value) + as_written(upper), as_written(value) + as_written(lower));
            assert!(high <= most + 1e-7 && low >= least - 1e-7, "{value} {upper} {lower}: {text}");
            assert!(high >= low || upper == lower, "{value} {upper} {lower}: {text}");
        }
    }

    #[test]
    fn a_text_is_told_in_the_units_asked_for() {
        let text = format!("4× ⌀{} ↧{}, 30°", plain(25.4), plain(50.8));
        assert_eq!(Units::Mm.told(&text), "4× ⌀25.4 ↧50.8, 30°");
        assert_eq!(Units::MmAndInch.told(&text), "4× ⌀25.4 [1.000] ↧50.8 [2.000], 30°");
        assert_eq!(Units::MmAndInch.told("M5 through"), "M5 through");
    }

    #[test]
    fn a_wide_row_has_its_inches_below_and_its_sizes_once() {
        let text = format!("10× ⌀{} ↧{}, then R{} (from far side)", plain(25.4), plain(50.8), plain(5.08));
        let rows = Units::MmAndInch.rows(&[Row::new(text, &["a".to_owned()])]);
        let texts: Vec<&str> = rows.iter().map(|r| r.text.as_str()).collect();
        assert_eq!(texts, ["10× ⌀25.4 ↧50.8, then R5.08 (from far side)", "[⌀1.000, ↧2.000, R0.200]"]);
        assert_eq!(rows.iter().map(|r| r.sizes.len()).collect::<Vec<_>>(), [1, 0]);
    }
}
