//! Geometrical tolerances (ISO 1101) and datums (ISO 5459) of a part: what is controlled, how far it may deviate, and from
//! which other feature that is measured. Features go by their names; letters of datums follow from the order in which
//! controls first refer to them.

mod spot;

pub use spot::{Spot, spots};

use super::recipe::Recipe;

/// Name of the face of a plate at z = 0.
pub const LOWER_FACE: &str = "lower-face";
/// Name of the face of a plate at z = thickness.
pub const UPPER_FACE: &str = "upper-face";
/// Name of the straight edge of a plate at its greatest Y.
pub const TOP_EDGE: &str = "top-edge";
/// Name of the straight edge of a plate at its greatest X.
pub const RIGHT_EDGE: &str = "right-edge";

/// Letters of datums: from S on, so that none is a letter of a section or of the hole table; X, which may be taken for a
/// place along the axis, is left out (ISO 5459 advises against it, from memory).
const LETTERS: [char; 7] = ['S', 'T', 'U', 'V', 'W', 'Y', 'Z'];

/// What of a feature is controlled (ISO 1101).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Characteristic {
    /// A face is flat.
    Flatness,
    /// A cylinder is round and straight.
    Cylindricity,
    /// An axis or a face is parallel to the datum.
    Parallelism,
    /// An axis or a face is square to the datum.
    Perpendicularity,
    /// Axes lie where the exact sizes put them.
    Position,
    /// An axis lies on the datum's axis.
    Coaxiality,
    /// Each circle runs true about the datum's axis.
    CircularRunout,
}

/// How far something may deviate, and why just so far.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// Width or diameter of the zone \[mm\].
    pub mm: f64,
    /// The rule that decides it, with its origin.
    pub why: &'static str,
}

/// One geometrical tolerance.
#[derive(Clone, Debug, PartialEq)]
pub struct Control {
    /// What of it.
    pub characteristic: Characteristic,
    /// How far.
    pub limit: Limit,
    /// The zone is a cylinder: its width is a diameter.
    pub diametral: bool,
    /// Name of the controlled surface or feature.
    pub of: String,
    /// Names of the datums, the first one first.
    pub to: Vec<String>,
}

/// All geometrical tolerances of a part.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Geometry {
    /// In the order in which they were given.
    pub controls: Vec<Control>,
}

impl Characteristic {
    /// Its name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Flatness => "flatness",
            Self::Cylindricity => "cylindricity",
            Self::Parallelism => "parallelism",
            Self::Perpendicularity => "perpendicularity",
            Self::Position => "position",
            Self::Coaxiality => "coaxiality",
            Self::CircularRunout => "circular-runout",
        }
    }

    /// Its symbol (ISO 1101).
    pub fn symbol(self) -> char {
        match self {
            Self::Flatness => '⏥',
            Self::Cylindricity => '⌭',
            Self::Parallelism => '∥',
            Self::Perpendicularity => '⟂',
            Self::Position => '⌖',
            Self::Coaxiality => '◎',
            Self::CircularRunout => '↗',
        }
    }

    /// Whether it speaks of a surface even where that has an axis.
    pub fn is_of_surfaces(self) -> bool {
        matches!(self, Self::Cylindricity | Self::CircularRunout | Self::Flatness)
    }

    /// Whether its zone is always a cylinder.
    fn is_of_axes(self) -> bool {
        matches!(self, Self::Position | Self::Coaxiality)
    }
}

impl Control {
    /// A tolerance of a feature without a datum yet.
    pub fn new(characteristic: Characteristic, of: &str, limit: Limit) -> Self {
        let diametral = characteristic.is_of_axes();
        Self { characteristic, limit, diametral, of: of.to_owned(), to: Vec::new() }
    }

    /// Measured from these features.
    pub fn to(mut self, datums: &[&str]) -> Self {
        self.to = datums.iter().map(|d| (*d).to_owned()).collect();
        self
    }

    /// Its zone is a cylinder about the exact axis.
    pub fn round(mut self) -> Self {
        self.diametral = true;
        self
    }

    /// By what it is known in audits and files, unique inside the part.
    pub fn name(&self) -> String {
        format!("{} of {}", self.characteristic.name(), self.of)
    }
}

impl Geometry {
    /// Letters and names of the datums in the order in which they are first referred to.
    pub fn datums(&self) -> Vec<(char, &str)> {
        let mut names: Vec<&str> = Vec::new();
        for name in self.controls.iter().flat_map(|c| &c.to) {
            if !names.contains(&name.as_str()) {
                names.push(name);
            }
        }
        LETTERS.into_iter().zip(names).collect()
    }

    /// Letter of a datum.
    pub fn letter(&self, name: &str) -> Option<char> {
        self.datums().into_iter().find(|(_, n)| *n == name).map(|(letter, _)| letter)
    }

    /// Letters that a control refers to, the first one first.
    pub fn letters(&self, control: &Control) -> Vec<char> {
        control.to.iter().filter_map(|name| self.letter(name)).collect()
    }

    /// Names that nothing of the recipe bears.
    pub fn unknown(&self, recipe: &Recipe) -> Vec<String> {
        let named = self.controls.iter().flat_map(|c| std::iter::once(&c.of).chain(&c.to));
        let mut lost: Vec<String> = named.filter(|name| spots(recipe, name).is_empty()).cloned().collect();
        lost.sort();
        lost.dedup();
        lost
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn control(what: Characteristic, of: &str, to: &[&str]) -> Control {
        Control::new(what, of, Limit { mm: 0.02, why: "test" }).to(to)
    }

    #[test]
    fn letters_follow_the_order_in_which_datums_are_referred_to() {
        let controls = vec![
            control(Characteristic::Perpendicularity, "face", &["bore"]),
            control(Characteristic::Position, "hole", &["face", "bore"]),
        ];
        let all = Geometry { controls };
        assert_eq!(all.datums(), [('S', "bore"), ('T', "face")]);
        assert_eq!(all.letters(&all.controls[1]), ['T', 'S']);
        assert!(all.controls[1].diametral && !all.controls[0].diametral);
    }
}
