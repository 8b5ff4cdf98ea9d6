//! What a cut file needs of a single-stroke alphabet.

use super::cutfile::Stroke;

/// Single-stroke lettering as polylines; the text starts at x = 0 and stands on y = 0.
pub trait Lettering {
    /// Strokes of a text with capitals of `height_mm` \[mm\].
    ///
    /// # Errors
    /// A sentence that names the character that has no strokes: never a silent gap.
    fn strokes(&self, text: &str, height_mm: f64) -> Result<Vec<Stroke>, String>;
}

impl<F: Fn(&str, f64) -> Result<Vec<Stroke>, String>> Lettering for F {
    fn strokes(&self, text: &str, height_mm: f64) -> Result<Vec<Stroke>, String> {
        self(text, height_mm)
    }
}

/// Strokes moved by (`dx`, `dy`) \[mm\].
pub(crate) fn moved(strokes: Vec<Stroke>, dx: f64, dy: f64) -> Vec<Stroke> {
    let d = crate::shape::Vector2::new(dx, dy);
    strokes.into_iter().map(|s| s.into_iter().map(|p| p + d).collect()).collect()
}

/// Width of strokes from x = 0 to their right end \[mm\].
pub(crate) fn width(strokes: &[Stroke]) -> f64 {
    strokes.iter().flatten().map(|p| p.x).fold(0.0, f64::max)
}
