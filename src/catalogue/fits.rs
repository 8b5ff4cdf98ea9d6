//! Limits of size by ISO 286-1:2010, 0 to 315 mm: holes D to P, J, JS; shafts d to s, j, js; grades IT5 to IT12.
//!
//! Limits are computed from the grades, the fundamental deviations of shafts and the rules of ISO 286-1 that turn
//! them into holes; j and J follow no rule and are tabled.

use super::table::rows;
use std::collections::HashMap;
use std::sync::OnceLock;

/// Deviations of the two limits from the nominal size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Upper limit deviation \[mm\].
    pub upper_mm: f64,
    /// Lower limit deviation \[mm\].
    pub lower_mm: f64,
}

/// Why a fit has no limits here.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum FitError {
    /// Not a letter and a grade.
    #[error("`{class}` is not a tolerance class: write a letter and a grade, for example H7 or g6")]
    Class {
        /// The class as asked.
        class: String,
    },
    /// A letter that is not tabled.
    #[error(
        "`{class}`: known are holes D to H, J, JS, K, M, N, P and shafts d to h, j, js, k, m, n, p, r, s"
    )]
    Letter {
        /// The class as asked.
        class: String,
    },
    /// A grade that is not tabled.
    #[error("`{class}`: known are grades 5 to 12")]
    Grade {
        /// The class as asked.
        class: String,
    },
    /// A size out of the table.
    #[error("{nominal_mm} mm is outside the table of limits (over 0 up to 315 mm)")]
    Size {
        /// The nominal size \[mm\].
        nominal_mm: f64,
    },
    /// ISO 286 defines no such class at this size.
    #[error("ISO 286 defines no `{class}` at {nominal_mm} mm")]
    Undefined {
        /// The class as asked.
        class: String,
        /// The nominal size \[mm\].
        nominal_mm: f64,
    },
}

/// Limit deviations of a tolerance class at a nominal size \[mm\], for example `limits(25.0, "H7")`.
///
/// Source: ISO 286-1:2010 (grades, fundamental deviations and the rules between shafts and holes).
///
/// # Errors
/// When the class or the size is not covered.
pub fn limits(nominal_mm: f64, class: &str) -> Result<Limits, FitError> {
    let (letter, grade) = split(class)?;
    if !(nominal_mm > 0.0 && nominal_mm <= 315.0) {
        return Err(FitError::Size { nominal_mm });
    }
    let band = Band::at(nominal_mm, grade);
    let um = if letter.starts_with(char::is_uppercase) { band.hole(letter) } else { band.shaft(letter) };
    match um {
        Found::Limits(upper, lower) => Ok(Limits { upper_mm: upper / 1000.0, lower_mm: lower / 1000.0 }),
        Found::NoLetter => Err(FitError::Letter { class: class.into() }),
        Found::NoClass => Err(FitError::Undefined { class: class.into(), nominal_mm }),
    }
}

fn split(class: &str) -> Result<(&str, usize), FitError> {
    let at = class.find(|c: char| c.is_ascii_digit());
    let (letter, digits) =
        at.map(|at| class.split_at(at)).ok_or_else(|| FitError::Class { class: class.into() })?;
    let grade: usize = digits.parse().map_err(|_| FitError::Class { class: class.into() })?;
    if letter.is_empty() || !letter.chars().all(|c| c.is_ascii_alphabetic()) {
        return Err(FitError::Class { class: class.into() });
    }
    if !(5..=12).contains(&grade) {
        return Err(FitError::Grade { class: class.into() });
    }
    Ok((letter, grade))
}

/// Limits in micrometres (upper, lower), or why there are none.
enum Found {
    Limits(f64, f64),
    NoLetter,
    NoClass,
}

/// What the tables say at one size and grade \[µm\].
struct Band {
    nominal_mm: f64,
    grade: usize,
    tolerance: f64,
    /// IT(n) - IT(n-1), the delta of ISO 286-1; zero up to 3 mm.
    delta: f64,
    shaft: &'static Row,
    tabled: &'static Row,
}

impl Band {
    fn at(nominal_mm: f64, grade: usize) -> Self {
        let tables = tables();
        let grades = row_at(&tables.grades, nominal_mm);
        let tolerance = grades.number(&format!("IT{grade}")).unwrap_or(f64::NAN);
        let shaft = row_at(&tables.shafts, nominal_mm);
        let delta = shaft.number(&format!("delta_IT{grade}")).unwrap_or(0.0);
        Self { nominal_mm, grade, tolerance, delta, shaft, tabled: row_at(&tables.j, nominal_mm) }
    }

    fn below(&self, upper: f64) -> Found {
        Found::Limits(upper, upper - self.tolerance)
    }

    fn above(&self, lower: f64) -> Found {
        Found::Limits(lower + self.tolerance, lower)
    }

    fn symmetric(&self) -> Found {
        Found::Limits(self.tolerance / 2.0, -self.tolerance / 2.0)
    }

    fn tabled(&self, letter: &str) -> Found {
        let get = |end: &str| self.tabled.number(&format!("{letter}{}_{end}", self.grade));
        get("up").zip(get("lo")).map_or(Found::NoClass, |(upper, lower)| Found::Limits(upper, lower))
    }

    fn ei(&self, letter: &str) -> f64 {
        self.shaft.number(&format!("{letter}_ei")).unwrap_or(f64::NAN)
    }

    fn shaft(&self, letter: &str) -> Found {
        match letter {
            "d" | "e" | "f" | "g" | "h" => {
                self.below(self.shaft.number(&format!("{letter}_es")).unwrap_or(f64::NAN))
            }
            "js" => self.symmetric(),
            "j" => self.tabled("j"),
            // ISO 286-1: k is zero outside grades 4 to 7.
            "k" if self.grade > 7 => self.above(0.0),
            "k" => self.above(self.k()),
            "m" | "n" | "p" | "r" | "s" => self.above(self.ei(letter)),
            _ => Found::NoLetter,
        }
    }

    fn k(&self) -> f64 {
        self.shaft.number("k_ei_IT4to7").unwrap_or(f64::NAN)
    }

    fn hole(&self, letter: &str) -> Found {
        match letter {
            "D" | "E" | "F" | "G" | "H" => self.mirrored(letter),
            "JS" => self.symmetric(),
            "J" => self.tabled("J"),
            "K" if self.grade > 8 && self.nominal_mm > 3.0 => Found::NoClass,
            "K" => self.below(self.delta - self.k()),
            "M" if self.grade == 6 && self.nominal_mm > 250.0 => self.below(M6_OVER_250),
            "N" if self.grade > 8 && self.nominal_mm > 3.0 => self.below(0.0),
            "M" | "N" => self.below(self.fitting(&letter.to_lowercase(), 8)),
            "P" => self.below(self.fitting("p", 7)),
            _ => Found::NoLetter,
        }
    }

    /// Holes D to H lie as far above the nominal size as shafts d to h lie below it.
    fn mirrored(&self, letter: &str) -> Found {
        let es = self.shaft.number(&format!("{}_es", letter.to_lowercase())).unwrap_or(f64::NAN);
        self.above(-es)
    }

    /// ES = -ei, with delta added up to the grade `last`.
    fn fitting(&self, letter: &str, last: usize) -> f64 {
        let delta = if self.grade <= last { self.delta } else { 0.0 };
        delta - self.ei(letter)
    }
}

/// ISO 286-1 gives M6 from 250 to 315 mm a value of its own \[µm\]; the rule would give -11.
const M6_OVER_250: f64 = -9.0;

/// One band of a table: its numbers by column name.
struct Row(HashMap<String, f64>);

impl Row {
    fn number(&self, column: &str) -> Option<f64> {
        self.0.get(column).copied()
    }

    fn holds(&self, nominal_mm: f64) -> bool {
        let bound = |column| self.number(column).unwrap_or(f64::NAN);
        nominal_mm > bound("over_mm") && nominal_mm <= bound("incl_mm")
    }
}

fn numbers(text: &str) -> Vec<Row> {
    let number = |(column, cell): (String, String)| Some((column, cell.parse().ok()?));
    rows::<HashMap<String, String>>(text)
        .into_iter()
        .map(|row| Row(row.into_iter().filter_map(number).collect()))
        .collect()
}

struct Tables {
    grades: Vec<Row>,
    shafts: Vec<Row>,
    j: Vec<Row>,
}

fn tables() -> &'static Tables {
    static TABLES: OnceLock<Tables> = OnceLock::new();
    TABLES.get_or_init(|| Tables {
        grades: numbers(include_str!("data/iso286_grades.csv")),
        shafts: numbers(include_str!("data/iso286_shafts.csv")),
        j: numbers(include_str!("data/iso286_j.csv")),
    })
}

/// Bands go over the lower bound, up to and including the upper one.
fn row_at(rows: &[Row], nominal_mm: f64) -> &Row {
    rows.iter().find(|row| row.holds(nominal_mm)).unwrap_or(&rows[0])
}
