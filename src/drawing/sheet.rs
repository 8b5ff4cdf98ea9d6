//! A finished sheet, before it is written in any format.

use super::board::Board;
use super::{DrawingError, svg};

/// What is drawn on a paper.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Name in kebab case, as in the name of its file.
    pub name: String,
    /// Title for people.
    pub title: String,
    /// Width and height of the paper \[mm\].
    pub size_mm: [f64; 2],
    pub(crate) board: Board,
}

impl Sheet {
    /// The sheet as SVG, one user unit to the millimetre.
    ///
    /// # Errors
    /// [`DrawingError::UnknownCharacter`] for a character that the alphabet lacks.
    pub fn svg(&self) -> Result<String, DrawingError> {
        let [width, height] = self.size_mm;
        svg::write(&self.board, width, height, &self.title)
    }
}
