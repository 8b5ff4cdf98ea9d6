//! Workshop drawings: a sheet for each part, derived from its recipe.
//!
//! [`sheet`] is pure: no clock, no files, no fonts. Lettering is single-stroke geometry
//! ([`lettering`]), lines follow ISO 128-2, and every size of the plan is on the sheet once.

mod along;
mod assembly_sheet;
pub mod audit;
pub(crate) mod board;
mod bore;
mod broken;
mod callout;
mod compose;
mod cut;
mod cut_choice;
mod cut_mark;
mod detail;
mod edge_view;
mod end_view;
pub mod exploded;
mod face;
mod frame_map;
mod frames;
mod group;
mod hole_table;
mod lanes;
pub mod lettering;
mod list_sheet;
mod looks;
mod occupancy;
mod options;
mod outline_sizes;
mod paper;
pub mod pdf;
pub(crate) mod pen;
mod plan;
mod plate;
mod plate_face;
mod plate_section;
mod pocket;
mod revisions;
mod section;
mod sheet;
mod surface;
pub(crate) mod svg;
mod tables;
pub mod template;
mod texts;
mod title;
mod turned;
mod turned_sizes;
mod units;
mod views;

pub use assembly_sheet::Assembly;
pub use list_sheet::{List, Lists};
pub use options::{Paper, Projection, SheetOptions};
pub use sheet::Sheet;
pub use units::Units;

use crate::parts::part::Part;
use crate::shape::recipe::{Body, Recipe};
use crate::shape::solid::{Solid, SolidError, build};
use compose::Composed;
use frames::Frames;
use looks::Looks;
use views::Views;

/// Why a sheet could not be drawn.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DrawingError {
    /// A text holds a character that the alphabet lacks.
    #[error("the lettering has no character {character:?}, which stands in {text:?}")]
    UnknownCharacter {
        /// The character.
        character: char,
        /// The text in which it stands.
        text: String,
    },
    /// The part has no shape: it is bought and only listed.
    #[error("{part} is only listed and has no shape to draw")]
    NoShape {
        /// Name of the part.
        part: String,
    },
    /// A feature's axis runs neither along nor across Z.
    #[error(
        "the axis of {feature} runs neither along nor across the part's Z axis; no view shows its true size"
    )]
    Skew {
        /// Name of the feature.
        feature: String,
    },
    /// The template of the title block cannot be used.
    #[error("the title block template cannot be used: {0}")]
    Template(String),
    /// A value is too long for its field of the title block.
    #[error("{value:?} is too long for the field {field:?} of the title block")]
    TooLong {
        /// Label of the field.
        field: String,
        /// The value.
        value: String,
    },
    /// The recipe makes no sound solid.
    #[error("{part} cannot be drawn: {reason}")]
    Shape {
        /// Name of the part.
        part: String,
        /// What is wrong with its shape.
        reason: String,
    },
    /// No sheet is large enough.
    #[error("{part} does not fit on the sheet at any scale")]
    DoesNotFit {
        /// Name of the part.
        part: String,
    },
}

/// The workshop drawing of a part.
///
/// # Errors
/// [`DrawingError`]: no shape, a feature that cannot be shown, a character without a glyph, a template that
/// cannot be read, or no sheet that is large enough.
pub fn sheet(part: &Part, options: &SheetOptions) -> Result<Sheet, DrawingError> {
    let recipe = recipe_of(part)?;
    let wrong = |e: SolidError| DrawingError::Shape { part: part.name.clone(), reason: e.to_string() };
    sheet_of(part, &build(recipe).map_err(wrong)?, options)
}

/// The workshop drawing of a part of which the solid is at hand.
///
/// # Errors
/// See [`sheet`].
pub fn sheet_of(part: &Part, solid: &Solid, options: &SheetOptions) -> Result<Sheet, DrawingError> {
    let done = composed(part, solid, options)?;
    Ok(Sheet {
        name: part.name.clone(),
        title: part.title.clone(),
        size_mm: done.paper.size_mm().into(),
        board: done.board,
    })
}

/// The sheet before it is written.
fn composed(part: &Part, solid: &Solid, options: &SheetOptions) -> Result<Composed, DrawingError> {
    let first_angle = options.projection == Projection::FirstAngle;
    let recipe = recipe_of(part)?;
    let Recipe { body, features } = recipe;
    let looks = Looks::of(solid).told_in(options.units);
    let told = || Frames::of(&part.geometry, recipe, options.units);
    match body {
        Body::Turned(nodes) => {
            let long = turned::longest(nodes, features);
            compose::compose(part, options, &looks, long, &|factor| {
                turned::views(nodes, features, &looks, factor, first_angle, told()).map(Views::finished)
            })
        }
        Body::Plate { outline, thickness, tag } => {
            let long = plate::longest(outline, *thickness, features);
            let body = (outline, *thickness, tag);
            compose::compose(part, options, &looks, long, &|factor| {
                plate::views(body, features, &looks, factor, first_angle, told()).map(Views::finished)
            })
        }
    }
}

fn recipe_of(part: &Part) -> Result<&Recipe, DrawingError> {
    part.recipe.as_ref().ok_or_else(|| DrawingError::NoShape { part: part.name.clone() })
}

#[cfg(test)]
mod tests;
