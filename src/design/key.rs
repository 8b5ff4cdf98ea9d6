//! What one key of the design file is: its kind, whether it may be left out, its range.

use super::units::Dimension;

/// One key of the design file.
#[derive(Debug)]
pub struct Key {
    /// Name in the file.
    pub name: &'static str,
    /// What may be written.
    pub kind: Kind,
    /// Whether it may be left out.
    pub presence: Presence,
    /// What it means, one or two sentences.
    pub doc: &'static str,
}

/// What may be written for a key.
#[derive(Debug)]
pub enum Kind {
    /// A number with a unit, within a range (both ends included), in the unit of the design's fields.
    Quantity {
        /// What it measures.
        dimension: Dimension,
        /// Smallest value.
        min: f64,
        /// Largest value.
        max: f64,
        /// Step at which a workshop would take it, in the same unit, where it can be left open to the search.
        step: Option<f64>,
    },
    /// A whole number within a range.
    Count {
        /// Smallest value.
        min: usize,
        /// Largest value.
        max: usize,
    },
    /// A name that is safe as a folder name.
    Name,
    /// Free text on one line.
    Text,
    /// One of some words.
    Choice(&'static [&'static str]),
    /// A ball bearing of the catalogue.
    Bearing,
    /// A material of the catalogue.
    Material,
    /// A list of tables with keys of their own.
    List(&'static [Key]),
}

/// Whether a key may be left out.
#[derive(Debug)]
pub enum Presence {
    /// It must be given; the starter shows this example.
    Required(&'static str),
    /// The search decides it when it is left out; the starter shows this example.
    Sought(&'static str),
    /// Sizing decides it when it is left out, or it simply does not apply; in words.
    Open(&'static str),
    /// This value is taken when it is left out, and why.
    Default(&'static str, &'static str),
}

/// A table of the design file.
#[derive(Debug)]
pub struct Table {
    /// Name in the file.
    pub name: &'static str,
    /// What it is about.
    pub doc: &'static str,
    /// Its keys.
    pub keys: &'static [Key],
}

/// A quantity that cannot be left open.
const fn quantity(dimension: Dimension, min: f64, max: f64) -> Kind {
    Kind::Quantity { dimension, min, max, step: None }
}

/// A length between two bounds \[mm\].
pub(super) const fn mm(min: f64, max: f64) -> Kind {
    quantity(Dimension::Length, min, max)
}

/// A temperature between two bounds \[°C\].
pub(super) const fn celsius(min: f64, max: f64) -> Kind {
    quantity(Dimension::Temperature, min + 273.15, max + 273.15)
}

/// An absolute pressure between two bounds \[bar\].
pub(super) const fn bar_abs(min: f64, max: f64) -> Kind {
    quantity(Dimension::Pressure, min * 1e5, max * 1e5)
}

/// An angle between two bounds \[deg\].
pub(super) const fn deg(min: f64, max: f64) -> Kind {
    quantity(Dimension::Angle, min, max)
}

/// A speed between two bounds \[rpm\].
pub(super) const fn rpm(min: f64, max: f64) -> Kind {
    quantity(Dimension::Speed, min, max)
}

/// A power between two bounds \[W\].
pub(super) const fn watt(min: f64, max: f64) -> Kind {
    quantity(Dimension::Power, min, max)
}

/// A quantity of some dimension between two bounds, in the unit of the fields.
pub(super) const fn unit_range(dimension: Dimension, min: f64, max: f64) -> Kind {
    quantity(dimension, min, max)
}

/// A plain ratio between two bounds.
pub(super) const fn ratio(min: f64, max: f64) -> Kind {
    quantity(Dimension::Ratio, min, max)
}

/// A whole number between two bounds.
pub(super) const fn count(min: usize, max: usize) -> Kind {
    Kind::Count { min, max }
}

impl Kind {
    /// A quantity that may be left open; the search takes it in these steps, in the unit of the design's fields.
    pub(super) const fn open(self, step: f64) -> Self {
        match self {
            Self::Quantity { dimension, min, max, .. } => {
                Self::Quantity { dimension, min, max, step: Some(step) }
            }
            other => other,
        }
    }

    /// What is allowed, in words.
    pub fn allowed(&self) -> String {
        match self {
            Self::Quantity { dimension, min, max, step } => {
                let open = if step.is_some() { ", or open, or a range to search" } else { "" };
                format!("{} to {}{open}", dimension.show(*min), dimension.show(*max))
            }
            Self::Count { min, max } => format!("a whole number, {min} to {max}"),
            Self::Name => "small letters, digits and single hyphens, at most 64, a letter first".into(),
            Self::Text => format!("text on one line, at most {LONGEST_TEXT} characters"),
            Self::Choice(names) => format!("one of {}", names.join(", ")),
            Self::Bearing => "a ball bearing of the catalogue, for example 608 or 688ZZ".into(),
            Self::Material => "a material of the catalogue, for example mild-steel".into(),
            Self::List(_) => "a list of tables".into(),
        }
    }

    /// A value as it is written in the file.
    pub fn toml(&self, text: &str) -> String {
        match self {
            Self::Count { .. } => text.into(),
            _ => format!("\"{text}\""),
        }
    }

    /// What kind of value it is, in a few words.
    pub fn name(&self) -> &'static str {
        match self {
            Self::Quantity { dimension, .. } => dimension.name(),
            Self::Count { .. } => "whole number",
            Self::Name => "name",
            Self::Text => "text",
            Self::Choice(_) => "choice",
            Self::Bearing => "ball bearing",
            Self::Material => "material",
            Self::List(_) => "list of tables",
        }
    }
}

/// Longest text of the design file \[characters\].
pub const LONGEST_TEXT: usize = 120;
/// Longest name of an engine \[characters\].
pub const LONGEST_NAME: usize = 64;
