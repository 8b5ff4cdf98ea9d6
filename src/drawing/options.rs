//! What a sheet is told beyond the part: projection, paper, names for the title block.

use super::units::Units;
use crate::export::revision::Revision;

/// Projection method (ISO 5456-2).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Projection {
    /// First angle (European).
    #[default]
    FirstAngle,
    /// Third angle (American).
    ThirdAngle,
}

/// Trimmed sheets of ISO 5457.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm, upright.
    A4,
    /// 420 × 297 mm.
    A3,
    /// 594 × 420 mm.
    A2,
}

impl Paper {
    /// All sheets, the smallest first.
    pub const ALL: [Paper; 3] = [Paper::A4, Paper::A3, Paper::A2];

    /// Width and height \[mm\] (ISO 5457).
    pub fn size_mm(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A3 => (420.0, 297.0),
            Paper::A2 => (594.0, 420.0),
        }
    }

    /// Name.
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "A4",
            Paper::A3 => "A3",
            Paper::A2 => "A2",
        }
    }
}

/// Everything that a sheet needs beyond the part.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetOptions {
    /// Projection method.
    pub projection: Projection,
    /// Forced sheet; `None` chooses the smallest that holds the part at a good scale.
    pub paper: Option<Paper>,
    /// Units of the sizes.
    pub units: Units,
    /// Legal owner.
    pub owner: String,
    /// Who made the drawing.
    pub creator: String,
    /// Who approved it.
    pub approver: String,
    /// Date of issue as written.
    pub date: String,
    /// Revision index.
    pub revision: String,
    /// Revisions of the part's drawing, the oldest first.
    pub revisions: Vec<Revision>,
    /// Prefix of the part number, for example the engine's name.
    pub project: String,
    /// Number of this sheet.
    pub sheet: usize,
    /// How many sheets there are.
    pub sheets: usize,
    /// Mass of the part \[g\], from its solid.
    pub mass_g: Option<f64>,
    /// Text of a title block template in place of the built-in one.
    pub template: Option<String>,
}

impl Default for SheetOptions {
    fn default() -> Self {
        Self {
            projection: Projection::FirstAngle,
            paper: None,
            units: Units::Mm,
            owner: String::new(),
            creator: String::new(),
            approver: String::new(),
            date: String::new(),
            revision: "A".to_owned(),
            revisions: Vec::new(),
            project: String::new(),
            sheet: 1,
            sheets: 1,
            mass_g: None,
            template: None,
        }
    }
}
